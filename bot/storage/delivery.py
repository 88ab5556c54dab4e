"""What delivery keeps: updates already taken, updates put aside, messages on their way out."""

import json
from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

import sqlalchemy as sa
from sqlalchemy import bindparam

from bot.domain.identity import HouseholdId
from bot.domain.value import Value
from bot.storage.prepared import Prepared
from bot.storage.sent_notes import Note
from bot.storage.tables import UNSETTLED, UtcDateTime, member, outbox, parked, question


class OutboxRow(Value, kw_only=True):
    """A call to the chat platform that its claimer is to make; tries counts this one."""

    id: int
    key: str
    household: HouseholdId | None
    chat: int
    method: str
    body: dict[str, Any]
    tries: int


STATUS_KEY = "status:"
"""Begins the key of a pinned message: its chat follows, then what it was first sent at."""


QUESTION_KEY = "question:"
"""Begins the key of a message that asks: the question's number follows, and its answer is shown there."""


class StatusMessage(Value):
    """The pinned message of a chat: its row, its number where it has one yet, what it says."""

    row: int
    message: int | None
    text: str


_NOW = bindparam("now", type_=UtcDateTime)
_MARK_SEEN = Prepared(
    sa.text("INSERT INTO seen (update_id, at) VALUES (:update_id, :now) ON CONFLICT DO NOTHING").bindparams(
        _NOW
    )
)
_PARK = sa.text(
    "INSERT INTO parked (update_id, raw, reason, at) VALUES (:update_id, :raw, :reason, :now)"
    " ON CONFLICT DO NOTHING"
).bindparams(_NOW)
_earlier = outbox.alias("earlier")
# literal text: with bound values neither database would use the partial indexes
_UNSETTLED = sa.text(f"outbox.{UNSETTLED}")
_EARLIER_UNSETTLED = sa.text(f"earlier.{UNSETTLED}")
_CLAIMABLE = (
    sa.select(outbox.c.id)
    .where(
        _UNSETTLED,
        outbox.c.not_before <= _NOW,
        sa.or_(outbox.c.state == "waiting", outbox.c.lease_until <= _NOW),
        ~sa.exists(sa.literal_column("1"))
        .select_from(_earlier)
        .where(_earlier.c.chat == outbox.c.chat, _earlier.c.id < outbox.c.id, _EARLIER_UNSETTLED),
    )
    .order_by(outbox.c.not_before, outbox.c.id)
    .limit(bindparam("at_most", type_=sa.Integer))
    .with_for_update(skip_locked=True)
)
_CLAIM = (
    sa.update(outbox)
    .where(outbox.c.id.in_(bindparam("ids", expanding=True)))
    .values(
        state="claimed",
        claimed_by=bindparam("owner"),
        lease_until=bindparam("lease", type_=UtcDateTime),
        tries=outbox.c.tries + 1,
    )
    .returning(*(outbox.c[name] for name in ("id", "key", "household", "chat", "method", "body", "tries")))
)
_SENT = (
    sa.update(outbox)
    .where(outbox.c.id == bindparam("row"))
    .values(
        state="sent",
        sent_at=_NOW,
        platform_message_id=bindparam("message"),
        claimed_by=None,
        lease_until=None,
        error=None,
    )
)
_SETTLE = Prepared(_SENT)
_SETTLE_NOTED = _SENT.where(outbox.c.key == bindparam("noted_key"), _UNSETTLED)
_RETRY = (
    sa.update(outbox)
    .where(outbox.c.id == bindparam("row"), _UNSETTLED)
    .values(
        state="waiting",
        not_before=bindparam("later", type_=UtcDateTime),
        error=bindparam("reason"),
        claimed_by=None,
        lease_until=None,
    )
)
_GIVE_UP = (
    sa.update(outbox)
    .where(outbox.c.id == bindparam("row"), _UNSETTLED)
    .values(state="given-up", error=bindparam("reason"), claimed_by=None, lease_until=None)
)
_COUNT_UNSETTLED = sa.select(sa.func.count()).select_from(outbox).where(_UNSETTLED)
_COUNT_GIVEN_UP = sa.select(sa.func.count()).select_from(outbox).where(outbox.c.state == "given-up")
_OLDEST_DUE = (
    sa.select(sa.func.min(outbox.c.not_before))
    .select_from(outbox)
    .where(_UNSETTLED, outbox.c.state == "waiting", outbox.c.not_before <= _NOW)
)
_COUNT_PARKED = sa.select(sa.func.count()).select_from(parked)


def _outgoing(  # noqa: PLR0913, PLR0917 - a row is many facts
    key: str, household: HouseholdId | None, chat: int, method: str, body: dict[str, Any], now: datetime
) -> dict[str, Any]:
    return {
        "key": key,
        "household": household,
        "chat": chat,
        "method": method,
        "body": json.dumps(body, separators=(",", ":")),
        "state": "waiting",
        "claimed_by": None,
        "lease_until": None,
        "tries": 0,
        "not_before": now,
        "created_at": now,
        "to_forget": False,
    }


def _storable(text: str) -> str:
    """Give text both databases take: half a surrogate pair and a zero byte are spelled out."""
    return text.encode("utf-8", "backslashreplace").decode().replace("\x00", "\\x00")


# as text: the library has its ON CONFLICT in each database's own dialect, and both cost a start 40 ms
_QUEUE_ONCE = """
INSERT INTO outbox
    (key, household, chat, method, body, state, claimed_by, lease_until, tries, not_before, created_at,
    to_forget)
VALUES (:key, :household, :chat, :method, :body, :state, :claimed_by, :lease_until, :tries, :not_before,
    :created_at, :to_forget)
ON CONFLICT (key) DO NOTHING"""
_INSTANTS = tuple(bindparam(name, type_=UtcDateTime) for name in ("lease_until", "not_before", "created_at"))
_QUEUE = Prepared(sa.text(_QUEUE_ONCE).bindparams(*_INSTANTS))
_QUEUE_NUMBERED = Prepared(sa.text(f"{_QUEUE_ONCE} RETURNING id").bindparams(*_INSTANTS))


class Waiting(Value):
    """A call to the chat platform to be written for whoever sends next."""

    key: str
    household: HouseholdId
    chat: int
    method: str
    body: dict[str, Any]


class Delivery:
    """The delivery side of one transaction."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def mark_seen(self, update_id: int, now: datetime) -> bool:
        """Remember that an update was taken; False when it already was, and must change nothing now."""
        return _MARK_SEEN.write(self._connection, {"update_id": update_id, "now": now}) == 1

    def park(self, update_id: int, raw: str, reason: str, now: datetime) -> None:
        """Put aside an update nobody could read; parking never fails because of what it holds."""
        row = {"update_id": update_id, "raw": _storable(raw), "reason": _storable(reason), "now": now}
        self._connection.execute(_PARK, row)

    def parked(self) -> int:
        return self._connection.execute(_COUNT_PARKED).scalar_one()

    def queue(  # noqa: PLR0913, PLR0917 - a row is many facts
        self,
        key: str,
        chat: int,
        method: str,
        body: dict[str, Any],
        now: datetime,
        household: HouseholdId | None = None,
    ) -> int | None:
        """Write a message to be sent and give its number; None when its key was written before."""
        return self._queued(_outgoing(key, household, chat, method, body, now))

    def _queued(self, row: dict[str, Any]) -> int | None:
        written = _QUEUE_NUMBERED.rows(self._connection, row)
        return written[0][0] if written else None

    def queue_claimed(
        self,
        calls: Sequence[tuple[str, int, str, dict[str, Any]]],
        now: datetime,
        owner: str,
        until: datetime,
    ) -> Mapping[str, int]:
        """
        Write messages, each its key, chat, method and body, and give the numbers of those that are new.

        They are born claimed: the writer sends them, after what it already holds for their chats, and nobody
        else before the lease ends.
        """
        claim = {"state": "claimed", "claimed_by": owner, "lease_until": until, "tries": 1}
        numbers = {}
        for key, chat, method, body in calls:
            number = self._queued(_outgoing(key, None, chat, method, body, now) | claim)
            if number is not None:
                numbers[key] = number
        return numbers

    def queue_all(self, calls: Sequence[Waiting], now: datetime) -> None:
        """Write messages to be sent by whoever claims them, in order; a key written before is left out."""
        rows = [_outgoing(one.key, one.household, one.chat, one.method, one.body, now) for one in calls]
        if rows:
            _QUEUE.write_many(self._connection, rows)

    def claim_outbox(
        self, now: datetime, owner: str, lease_until: datetime, limit: int
    ) -> tuple[OutboxRow, ...]:
        """
        Claim what may be sent now: waiting and due, or claimed by somebody whose lease has ended.

        Of one chat only the oldest unsettled row can be claimed, so that nothing overtakes in a chat.
        """
        due = self._connection.execute(_CLAIMABLE, {"now": now, "at_most": limit}).scalars().all()
        if not due:
            return ()
        claimed = self._connection.execute(_CLAIM, {"ids": due, "owner": owner, "lease": lease_until})
        rows = (OutboxRow(**{**row, "body": json.loads(row["body"])}) for row in claimed.mappings())
        return tuple(sorted(rows, key=lambda row: row.id))

    def release_claims(self) -> None:
        """Free every claim: where one process alone sends, those of the one before are over at its start."""
        free = {"state": "waiting", "claimed_by": None, "lease_until": None}
        freed = sa.update(outbox).where(outbox.c.state == "claimed").values(free)
        self._connection.execute(freed)

    def settle(self, now: datetime, sent: Mapping[int, int | None]) -> None:
        """Note which rows were sent, and the number the platform gave each message."""
        rows = [{"row": row, "now": now, "message": message} for row, message in sent.items()]
        if rows:
            _SETTLE.write_many(self._connection, rows)

    def settle_noted(self, now: datetime, notes: Iterable[Note]) -> None:
        """Note which rows a process that was killed had sent; rows of another database are left alone."""
        rows = [
            {"row": note.row, "noted_key": note.key, "now": now, "message": note.message} for note in notes
        ]
        if rows:
            self._connection.execute(_SETTLE_NOTED, rows)

    def retry_later(self, number: int, not_before: datetime, error: str) -> None:
        """Let a message wait until an instant; later ones of its chat wait behind it."""
        self._connection.execute(_RETRY, {"row": number, "later": not_before, "reason": _storable(error)})

    def give_up(self, number: int, error: str) -> None:
        """Never send a message: its chat is gone or the platform refuses it."""
        self._connection.execute(_GIVE_UP, {"row": number, "reason": _storable(error)})

    def undelivered(self) -> int:
        """Count the messages still to be sent; those given up are not among them."""
        return self._connection.execute(_COUNT_UNSETTLED).scalar_one()

    def given_up(self) -> int:
        """Count the messages that will never be sent, as long as their rows are kept."""
        return self._connection.execute(_COUNT_GIVEN_UP).scalar_one()

    def wait_at_most(self, now: datetime, not_before: datetime, lease_until: datetime) -> None:
        """Free what would wait longer than anything is made to: the clock it waits by was ahead."""
        waits, leased = (outbox.c.not_before > not_before), (outbox.c.lease_until > lease_until)
        self._connection.execute(sa.update(outbox).where(_UNSETTLED, waits).values(not_before=now))
        self._connection.execute(sa.update(outbox).where(_UNSETTLED, leased).values(lease_until=lease_until))

    def oldest_due(self, now: datetime) -> datetime | None:
        """Tell since when the oldest message has waited that could be sent now."""
        return self._connection.execute(_OLDEST_DUE, {"now": now}).scalar()

    def status_message(self, chat: int) -> StatusMessage | None:
        """Find the chat's pinned message, sent or on its way."""
        found = self._connection.execute(
            sa.select(outbox.c.id, outbox.c.platform_message_id, outbox.c.body)
            .where(*_is_status(chat), outbox.c.state != "given-up")
            .order_by(outbox.c.id.desc())
            .limit(1)
        ).first()
        return None if found is None else StatusMessage(found[0], found[1], json.loads(found[2])["text"])

    def retell_status(self, row: int, text: str, now: datetime) -> None:
        """Note what the pinned message says from now on; its row stays as long as it is told anew."""
        body = self._connection.execute(sa.select(outbox.c.body).where(outbox.c.id == row)).scalar_one()
        told = json.dumps(json.loads(body) | {"text": text}, separators=(",", ":"))
        self._connection.execute(
            sa.update(outbox).where(outbox.c.id == row).values(body=told, created_at=now)
        )

    def drop_status(self, chat: int) -> None:
        """Let the chat's pinned message be one like any other."""
        self._connection.execute(
            sa.update(outbox).where(*_is_status(chat)).values(key=sa.literal("was-") + outbox.c.key)
        )

    def migrate_chat(self, old: int, new: int) -> None:
        """Follow a chat that got a new number: its members, its open messages and its questions."""
        self._connection.execute(sa.update(member).where(member.c.chat == old).values(chat=new))
        # closed, for the new chat may hold an open one; the buttons of old ones still work
        moved = {"chat": new, "closed_at": sa.func.coalesce(question.c.closed_at, question.c.asked_at)}
        self._connection.execute(sa.update(question).where(question.c.chat == old).values(moved))
        self._connection.execute(sa.update(outbox).where(outbox.c.chat == old, _UNSETTLED).values(chat=new))


def _is_status(chat: int) -> tuple[sa.ColumnElement[bool], ...]:
    # keys sort by byte, and ";" is the one after ":": a range, so that the key's index serves
    return outbox.c.key > f"{STATUS_KEY}{chat}:", outbox.c.key < f"{STATUS_KEY}{chat};"
