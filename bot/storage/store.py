"""The store behind the actions: one transaction on either database."""

import json
import secrets
from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Any

import sqlalchemy as sa
from msgspec import structs
from sqlalchemy import bindparam

from bot.actions.action import Choice, Expecting
from bot.actions.naming import shown_name
from bot.actions.ports import Member, Question
from bot.domain.identity import EntryId, HouseholdId, MemberId, PlaceId, PlantId, ProductId
from bot.domain.journal import Draft, Entry
from bot.domain.value import replace
from bot.storage.codec import decode_choices, decode_payload, encode_choices, encode_payload
from bot.storage.delivery import QUESTION_KEY, Delivery
from bot.storage.erasing import chats_of, erase_household, erase_member, forget_when_settled
from bot.storage.failure import StoreError
from bot.storage.journal_cache import Held, JournalCache
from bot.storage.photos import PhotoFolder, PhotoRows
from bot.storage.prepared import Prepared, inserted
from bot.storage.tables import (
    UtcDateTime,
    household,
    invite,
    journal,
    member,
    outbox,
    parked,
    place,
    plant,
    product,
    question,
    seen,
    stranger,
)

INVITE_HOLDS = timedelta(days=2)
"""An invitation lapses after this time. Judgement."""
SEEN_KEPT = timedelta(days=9)
"""The platform brings an update for a day; after a week of silence it may begin again at any number."""
ROWS_KEPT = timedelta(days=30)
"""Messages sent, updates put aside and questions answered are dropped after this. Judgement."""
STRANGER_REST = timedelta(hours=1)
"""A stranger gets no second answer within this time. Judgement."""

_HOUSEHOLD = bindparam("of_household", type_=sa.BigInteger)
_CHAT = bindparam("in_chat", type_=sa.BigInteger)
_PERSON = bindparam("by_person", type_=sa.BigInteger)
_NOW = bindparam("now", type_=UtcDateTime)

_MEMBER = sa.select(
    *(member.c[name] for name in ("id", "household", "person", "chat", "name", "is_owner", "chosen_at"))
)
_neighbour = member.alias("neighbour")
_MEMBERS = Prepared(
    _MEMBER.where(member.c.household == _HOUSEHOLD, member.c.left_at.is_(None)).order_by(member.c.id)
)
_IS_HERE = sa.case((member.c.chat == _CHAT, 0), else_=1)
# in a private chat the homes spoken with there come before one that lives in a group
_HOMES_ALONE = (
    _MEMBER.add_columns(sa.func.count().over(partition_by=_IS_HERE).label("homes"))
    .where(member.c.person == _PERSON, member.c.left_at.is_(None))
    .order_by(_IS_HERE, member.c.id)
)
_SPEAKER_ALONE = Prepared(_HOMES_ALONE.limit(1))
_SPEAKER_IN_GROUP = Prepared(
    _MEMBER.where(
        member.c.person == _PERSON,
        member.c.left_at.is_(None),
        member.c.household.in_(
            sa.select(_neighbour.c.household).where(
                _neighbour.c.chat == _CHAT, _neighbour.c.left_at.is_(None)
            )
        ),
    )
    .order_by(_IS_HERE, member.c.id)
    .limit(1)
)
_SEVERAL = (
    sa.select(member.c.chat)
    .where(member.c.chat == member.c.person, member.c.left_at.is_(None))
    .where(member.c.person.in_(bindparam("people", expanding=True, type_=sa.BigInteger)))
    .group_by(member.c.chat)
    .having(sa.func.count() > 1)
)
_HOME_OF_MESSAGE = (
    sa.select(outbox.c.household)
    .where(outbox.c.chat == _CHAT, outbox.c.platform_message_id == bindparam("message", type_=sa.BigInteger))
    .where(outbox.c.household.is_not(None))
    .limit(1)
)
_THESE = bindparam("households", expanding=True, type_=sa.BigInteger)
_MEMBERS_OF_THESE = _MEMBER.where(member.c.household.in_(_THESE), member.c.left_at.is_(None)).order_by(
    member.c.id
)
_STATES_OF_THESE = (
    sa.select(journal.c.household, sa.func.max(journal.c.id))
    .where(journal.c.household.in_(_THESE))
    .group_by(journal.c.household)
)
_ENTRIES_OF_THESE = sa.select(journal).where(journal.c.household.in_(_THESE)).order_by(journal.c.id)
_LOCK_HOUSEHOLD = sa.select(household.c.id).where(household.c.id == _HOUSEHOLD).with_for_update()
# of one home only one unit writes at a time, and none takes an entry away: the last number tells all
_JOURNAL_STATE = Prepared(sa.select(sa.func.max(journal.c.id)).where(journal.c.household == _HOUSEHOLD))
_ENTRIES_AFTER = Prepared(
    sa.select(journal)
    .where(journal.c.household == _HOUSEHOLD, journal.c.id > bindparam("after", type_=sa.BigInteger))
    .order_by(journal.c.id)
)
_APPEND = Prepared(sa.insert(journal), [one.name for one in journal.c if one.name != "id"])
_NEW_PLACE, _NEW_PLANT, _NEW_PRODUCT = (
    Prepared(sa.insert(table), ("household",)) for table in (place, plant, product)
)
_ASK = Prepared(sa.insert(question), ("household", "chat", "expecting", "choices", "asked_at", "closed_at"))
_QUESTION = sa.select(question)
_QUESTIONS_OF_THESE = _QUESTION.where(question.c.household.in_(_THESE), question.c.closed_at.is_(None))
_QUESTION_BY_ID = Prepared(_QUESTION.where(question.c.id == bindparam("number", type_=sa.BigInteger)))
_OF_CHAT = (question.c.household == _HOUSEHOLD, question.c.chat == _CHAT, question.c.closed_at.is_(None))
_OPEN_QUESTION = Prepared(_QUESTION.where(*_OF_CHAT))
_CLOSE_QUESTION = Prepared(sa.update(question).where(*_OF_CHAT).values(closed_at=_NOW))
# closing without asking anew is not told the time; the column must only stop being empty
_CLOSE_UNTIMED = Prepared(sa.update(question).where(*_OF_CHAT).values(closed_at=question.c.asked_at))
_AT = bindparam("at", type_=UtcDateTime)
# most messages leave it as it is: writing that anew would cost two pages of every commit
_SET_EVENING = Prepared(
    sa.update(household)
    .where(household.c.id == _HOUSEHOLD, household.c.next_evening_at.is_distinct_from(_AT))
    .values(next_evening_at=_AT)
)
_DUE = (
    sa.select(household.c.id)
    .where(household.c.next_evening_at <= _NOW)
    .order_by(household.c.next_evening_at, household.c.id)
    .limit(bindparam("at_most", type_=sa.Integer))
    .with_for_update(skip_locked=True)
)
_HOUSEHOLDS = sa.select(household.c.id).order_by(household.c.id)
_EARLIEST = sa.select(sa.func.min(household.c.next_evening_at))
_REFUSE = sa.text(
    "INSERT INTO stranger (person, answered_at) VALUES (:by_person, :now)"
    " ON CONFLICT (person) DO UPDATE SET answered_at = :now WHERE stranger.answered_at <= :rested"
).bindparams(_NOW, bindparam("rested", type_=UtcDateTime))
_ASKED_IN = sa.select(outbox.c.platform_message_id, outbox.c.body).where(
    outbox.c.key == bindparam("key", type_=sa.Text), outbox.c.platform_message_id.is_not(None)
)
_NUDGES = (
    sa.select(outbox.c.chat, outbox.c.platform_message_id, outbox.c.body)
    .where(
        outbox.c.household == _HOUSEHOLD,
        outbox.c.key > bindparam("after", type_=sa.Text),
        outbox.c.key < bindparam("before", type_=sa.Text),
        outbox.c.platform_message_id.is_not(None),
    )
    .order_by(outbox.c.id)
)


class SqlStore(PhotoRows, Delivery):
    """One unit of work: everything an action and the delivery of its answer need, committed together."""

    def __init__(self, connection: sa.Connection, cache: JournalCache | None = None) -> None:
        super().__init__(connection)
        self._cache = JournalCache(households=1) if cache is None else cache
        self._read: dict[HouseholdId, Held] = {}
        self._members: dict[HouseholdId, tuple[Member, ...]] = {}
        """Read in this unit of work, until a membership changes."""
        self._questions: dict[tuple[HouseholdId, int], Question | None] = {}
        """Open questions read in this unit of work, by household and chat, until one is asked or closed."""
        self._next_evenings: dict[HouseholdId, datetime | None] = {}
        """Set in this unit of work, and written together."""
        self._foreseen: set[HouseholdId] = set()
        """Locked and read by `due_households`, with nothing written by anybody since."""
        self._locks = connection.dialect.name != "sqlite"
        self.erased: list[str] = []
        """Tags of what was erased in this unit of work, to be noted before its commit."""
        self.erased_homes: list[HouseholdId] = []
        """Those of them that are homes, whose pictures go after the commit."""
        self._last_words_to: set[int] = set()
        self._in_several: set[int] = set()

    def soonest_evening(self) -> datetime | None:
        """Give the earliest evening set in this unit of work, None where none was."""
        return min((at for at in self._next_evenings.values() if at is not None), default=None)

    def flush(self) -> None:
        """Write what was kept back to be written together; before the commit."""
        if self._next_evenings:
            told = [{"of_household": number, "at": at} for number, at in self._next_evenings.items()]
            _SET_EVENING.write_many(self._connection, told)
            self._next_evenings.clear()
        if self._last_words_to:
            forget_when_settled(self._connection, self._last_words_to)

    def publish(self) -> None:
        """Hand what this unit read and wrote to the cache; only after its commit."""
        for number, held in self._read.items():
            self._cache.put(number, held)

    def member(self, person: int, chat: int) -> Member | None:
        """Find the member who speaks; in a group the chat decides the household, not the person's own."""
        speaker = _SPEAKER_ALONE if person == chat else _SPEAKER_IN_GROUP
        rows = speaker.rows(self._connection, {"by_person": person, "in_chat": chat})
        return _member(rows[0]) if rows else None

    def homes_of(self, person: int, chat: int) -> tuple[Member, ...]:
        """Find the member who speaks in each of the homes that may be meant in this chat."""
        rows = self._connection.execute(_HOMES_ALONE, {"by_person": person, "in_chat": chat}).all()
        return tuple(_member(row) for row in rows[: rows[0].homes])

    def home_of_message(self, chat: int, message: int) -> HouseholdId | None:
        """Tell which home an evening's message of a chat was about."""
        return self._connection.execute(_HOME_OF_MESSAGE, {"in_chat": chat, "message": message}).scalar()

    def choose_home(self, member_: Member, now: datetime) -> None:
        self._connection.execute(sa.update(member).where(member.c.id == member_.id).values(chosen_at=now))

    def is_in_several(self, chat: int) -> bool:
        """Whether a chat is spoken to by several homes; known of those that `due_households` gave."""
        return chat in self._in_several

    def members(self, household: HouseholdId) -> tuple[Member, ...]:
        """Everyone who shares the plants, in order of joining."""
        if household not in self._members:
            rows = _MEMBERS.rows(self._connection, {"of_household": household})
            self._members[household] = _told_apart([_member(row) for row in rows])
        return self._members[household]

    def found_household(self, person: int, chat: int, name: str, now: datetime) -> Member:
        number = inserted(self._connection, household, {"founded_at": now})
        return self._add_member(HouseholdId(number), person, chat, name, is_owner=True)

    def join_household(self, household: HouseholdId, person: int, chat: int, name: str) -> Member:
        """Add somebody who shares the plants."""
        return self._add_member(household, person, chat, name, is_owner=False)

    def new_invite(self, by: Member, now: datetime) -> tuple[str, datetime]:
        """Make a code that lets one person join, once, and say until when it holds; it is its maker's."""
        code, until = secrets.token_urlsafe(9), now + INVITE_HOLDS
        row = {"code": code, "household": by.household, "expires_at": until, "member": by.id}
        self._connection.execute(sa.insert(invite), row)
        return code, until

    def take_invite(self, code: str, now: datetime) -> HouseholdId | None:
        """Spend a code; None when it is unknown, spent or too old."""
        usable = (invite.c.code == code, invite.c.used_at.is_(None), invite.c.expires_at > now)
        spent = sa.update(invite).where(*usable).values(used_at=now).returning(invite.c.household)
        found = self._connection.execute(spent).scalar()
        return None if found is None else HouseholdId(found)

    def invited_to(self, code: str) -> HouseholdId | None:
        """Tell which home a code is or was for, spent or not; None for one that was never made."""
        found = self._connection.execute(sa.select(invite.c.household).where(invite.c.code == code)).scalar()
        return None if found is None else HouseholdId(found)

    def is_home_of_another(self, chat: int, household: HouseholdId) -> bool:
        theirs = sa.select(member.c.id).where(
            member.c.chat == chat, member.c.household != household, member.c.left_at.is_(None)
        )
        return self._connection.execute(theirs.limit(1)).first() is not None

    def end_invites(self, household: HouseholdId, now: datetime) -> None:
        """Let no code of a home that was made before be good any more."""
        made = sa.update(invite).where(invite.c.household == household, invite.c.used_at.is_(None))
        self._connection.execute(made.values(used_at=now))

    def leave_household(self, person: int, household: HouseholdId, now: datetime) -> None:
        """End a membership; what the member told stays."""
        self._members.clear()
        who = (member.c.household == household, member.c.person == person, member.c.left_at.is_(None))
        left = sa.update(member).where(*who).values(left_at=now).returning(member.c.id)
        number = self._connection.execute(left).scalar()
        made = sa.update(invite).where(invite.c.member == number, invite.c.used_at.is_(None))
        self._connection.execute(made.values(used_at=now))

    def make_owner(self, household: HouseholdId, number: MemberId) -> None:
        """Hand a household over: one member owns it, nobody else."""
        self._members.clear()
        owns = sa.case((member.c.id == number, True), else_=False)
        self._connection.execute(
            sa.update(member).where(member.c.household == household).values(is_owner=owns)
        )

    def forget_member(self, number: MemberId, now: datetime) -> None:
        """Erase a member's account and messages; what was told of plants stays without a name."""
        home = sa.select(member.c.household).where(member.c.id == number)
        self._last_words_to |= chats_of(self._connection, self._connection.execute(home).scalar_one())
        self.erased.append(erase_member(self._connection, number, now))
        self._members.clear()
        self._questions.clear()

    def forget_household(self, household: HouseholdId) -> None:
        self._last_words_to |= chats_of(self._connection, household)
        self.erased.append(erase_household(self._connection, household))
        self.erased_homes.append(household)
        self._read.pop(household, None)
        self._members.clear()
        self._questions.clear()

    def exported(self, household: HouseholdId, photos: PhotoFolder | None = None) -> dict[str, Any]:
        """Give the household as one document; for an operator with its photos and accounts."""
        from bot.storage.moving import export_household  # noqa: PLC0415 - seldom asked for

        return export_household(self._connection, household, photos)

    def imported(
        self, told: object, owner: tuple[int, str] | None, photos: PhotoFolder, now: datetime
    ) -> HouseholdId:
        """Write a household from a document, under new numbers."""
        from bot.storage.moving import import_household  # noqa: PLC0415 - as above

        return import_household(self._connection, told, owner, photos, now)

    def households(self) -> tuple[HouseholdId, ...]:
        return tuple(self._connection.execute(_HOUSEHOLDS).scalars())

    def tidy(self, now: datetime) -> None:
        """Drop what nobody needs any more: marks of updates, messages sent, questions closed, strangers."""
        lives_there = sa.exists().where(member.c.chat == outbox.c.chat, member.c.left_at.is_(None))
        is_over = outbox.c.state.in_(("sent", "given-up"))
        is_old = outbox.c.created_at < now - ROWS_KEPT
        for table, condition in (
            (seen, seen.c.at < now - SEEN_KEPT),
            (stranger, stranger.c.answered_at < now - STRANGER_REST),
            (parked, parked.c.at < now - ROWS_KEPT),
            (question, question.c.closed_at.is_not(None) & (question.c.asked_at < now - ROWS_KEPT)),
            (outbox, is_over & (is_old | ~lives_there)),
        ):
            self._connection.execute(sa.delete(table).where(condition))

    def entries(self, household: HouseholdId) -> tuple[Entry, ...]:
        """Give the whole journal, by number; on PostgreSQL no other unit works on it until this one ends."""
        if household in self._foreseen:
            self._foreseen.remove(household)
            return self._read[household].entries
        which = {"of_household": household}
        if self._locks:
            self._connection.execute(_LOCK_HOUSEHOLD, which)
        held = self._read.get(household) or self._cache.take(household)
        if not held.entries:  # nothing to compare with: read it, and look no further
            self._read[household] = held = Held(self._entries_after(household, 0))
            return held.entries
        last = _JOURNAL_STATE.rows(self._connection, which)[0][0] or 0
        if held.last != last:
            held = Held(held.entries + self._entries_after(household, held.last))
        if held.last != last:
            held = Held(self._entries_after(household, 0))
        self._read[household] = held
        return held.entries

    def append(
        self, household: HouseholdId, drafts: Sequence[Draft], source: str, now: datetime
    ) -> tuple[Entry, ...]:
        """Add entries in order and give them their numbers."""
        if not drafts:
            return ()
        shared = {"household": household, "source": source, "recorded_at": now}
        added = []
        for draft in drafts:
            told = shared | structs.asdict(draft)  # type: ignore[arg-type]  # a Value is a Struct
            kind, version, payload = encode_payload(draft.payload)
            row = told | {"kind": kind, "version": version, "payload": payload}
            instants = {name: told[name].astimezone(UTC) for name in ("happened_at", "recorded_at")}
            added.append(Entry(id=EntryId(_APPEND.insert(self._connection, row)), **told | instants))
        if household in self._read:
            self._read[household] = Held((*self._read[household].entries, *added))
        return tuple(added)

    def new_place(self, household: HouseholdId) -> PlaceId:
        return PlaceId(_NEW_PLACE.insert(self._connection, {"household": household}))

    def new_plant(self, household: HouseholdId) -> PlantId:
        return PlantId(_NEW_PLANT.insert(self._connection, {"household": household}))

    def new_product(self, household: HouseholdId) -> ProductId:
        return ProductId(_NEW_PRODUCT.insert(self._connection, {"household": household}))

    def question(self, household: HouseholdId, chat: int) -> Question | None:
        if (household, chat) not in self._questions:
            which = {"of_household": household, "in_chat": chat}
            found = _OPEN_QUESTION.rows(self._connection, which)
            self._questions[household, chat] = _question(found[0]) if found else None
        return self._questions[household, chat]

    def question_by_id(self, number: int) -> Question | None:
        """Give a question, open or closed: old buttons stay safe to press."""
        found = _QUESTION_BY_ID.rows(self._connection, {"number": number})
        return _question(found[0]) if found else None

    def times_asked(self, household: HouseholdId, choices: Sequence[Choice]) -> tuple[int, bool]:
        """Tell how often just this was asked of late, and whether it was answered."""
        which = question.c.household == household, question.c.choices == encode_choices(tuple(choices))
        asked = self._connection.execute(sa.select(question.c.answered).where(*which)).all()
        return len(asked), any(one.answered is not None for one in asked)

    def ask(
        self,
        household: HouseholdId,
        chat: int,
        expecting: Expecting,
        choices: Sequence[Choice],
        now: datetime,
    ) -> Question:
        """Open a question in a chat; an earlier one there is closed."""
        if self._questions.pop((household, chat), ...) is not None:  # none is known to be open
            which = {"of_household": household, "in_chat": chat, "now": now}
            _CLOSE_QUESTION.write(self._connection, which)
        asked = self._keep_question(household, chat, expecting, choices, now)
        self._questions[household, chat] = asked
        return asked

    def offer(self, household: HouseholdId, chat: int, choices: Sequence[Choice], now: datetime) -> Question:
        """Keep buttons that nothing waits for; they become the open question only where none is open."""
        if self.question(household, chat) is None:
            return self.ask(household, chat, Expecting.CHOICE, choices, now)
        return self._keep_question(household, chat, Expecting.NOTHING, choices, now, closed_at=now)

    def _keep_question(  # noqa: PLR0913, PLR0917 - one row
        self,
        household: HouseholdId,
        chat: int,
        expecting: Expecting,
        choices: Sequence[Choice],
        now: datetime,
        closed_at: datetime | None = None,
    ) -> Question:
        offered = tuple(choices)
        row = {
            "household": household,
            "chat": chat,
            "expecting": expecting.value,
            "choices": encode_choices(offered),
            "asked_at": now,
            "closed_at": closed_at,
        }
        number = _ASK.insert(self._connection, row)
        return Question(
            id=number, household=household, chat=chat, expecting=expecting, choices=offered, asked_at=now
        )

    def answer_question(self, asked: Question, choice: int, now: datetime) -> None:
        """Close a question with the choice that was its answer."""
        self._questions.pop((asked.household, asked.chat), None)
        row = sa.update(question).where(question.c.id == asked.id)
        self._connection.execute(row.values(answered=choice, closed_at=now))

    def close_question(self, household: HouseholdId, chat: int) -> None:
        if self._questions.get((household, chat), ...) is None:
            return
        self._questions[household, chat] = None
        _CLOSE_UNTIMED.write(self._connection, {"of_household": household, "in_chat": chat})

    def set_next_evening(self, household: HouseholdId, at: datetime | None) -> None:
        """Say when the household is to be looked at again. Aware UTC; None is never."""
        self._next_evenings[household] = at

    def due_households(self, now: datetime, limit: int) -> tuple[HouseholdId, ...]:
        """
        Households whose next evening has come, oldest first; on PostgreSQL claimed with SKIP LOCKED.

        Their members, journals and open questions are read along, all with one statement each.
        """
        self.flush()
        due = tuple(self._connection.execute(_DUE, {"now": now, "at_most": limit}).scalars())
        if due:
            self._foresee(due)
        return due

    def earliest_evening(self) -> datetime | None:
        self.flush()
        return self._connection.execute(_EARLIEST).scalar()

    def refuse_stranger(self, person: int, now: datetime) -> bool:
        """Whether a stranger gets an answer now: True at most once an hour; remembers it."""
        row = {"by_person": person, "now": now, "rested": now - STRANGER_REST}
        return self._connection.execute(_REFUSE, row).rowcount == 1

    def question_message(self, number: int) -> tuple[int, str] | None:
        """(platform message id, text) of the message that asks a question, where it was sent."""
        row = self._connection.execute(_ASKED_IN, {"key": f"{QUESTION_KEY}{number}"}).first()
        return None if row is None else (row[0], json.loads(row[1]).get("text", ""))

    def nudged_messages(self, household: HouseholdId, on: date) -> tuple[tuple[int, int, str], ...]:
        """(chat, platform message id, text) of the nudges sent for that evening."""
        evening = f"nudge:{household}:{on.isoformat()}"
        # keys sort by byte, and ";" is the one after ":": a range, so that the key's index serves
        which = {"of_household": household, "after": f"{evening}:", "before": f"{evening};"}
        rows = self._connection.execute(_NUDGES, which)
        return tuple((chat, message, json.loads(body).get("text", "")) for chat, message, body in rows)

    def _foresee(self, households: Sequence[HouseholdId]) -> None:
        which = {"households": households}
        sharing: dict[HouseholdId, list[Member]] = {number: [] for number in households}
        for row in self._connection.execute(_MEMBERS_OF_THESE, which):
            sharing[row.household].append(_member(row))
        self._members.update((number, _told_apart(members)) for number, members in sharing.items())
        for members in sharing.values():
            self._questions.update(((one.household, one.chat), None) for one in members)
        for asked in self._connection.execute(_QUESTIONS_OF_THESE, which):
            self._questions[asked.household, asked.chat] = _question(asked)
        people = {one.person for members in sharing.values() for one in members}
        self._in_several.update(self._connection.execute(_SEVERAL, {"people": people}).scalars())
        states = {row[0]: row[1] for row in self._connection.execute(_STATES_OF_THESE, which)}
        told: dict[HouseholdId, list[Entry]] = {}
        for number in households:
            held = self._read.get(number) or self._cache.take(number)
            if held.last == states.get(number, 0):
                self._read[number] = held
            else:
                told[number] = []
        if told:
            for row in self._connection.execute(_ENTRIES_OF_THESE, {"households": list(told)}).all():
                entry = _entry(row)
                told[entry.household].append(entry)
            self._read.update((number, Held(tuple(entries))) for number, entries in told.items())
        self._foreseen.update(households)

    def _entries_after(self, household: HouseholdId, after: int) -> tuple[Entry, ...]:
        rows = _ENTRIES_AFTER.rows(self._connection, {"of_household": household, "after": after})
        return tuple([_entry(row) for row in rows])

    def _add_member(
        self, household: HouseholdId, person: int, chat: int, name: str, *, is_owner: bool
    ) -> Member:
        self._members.clear()
        told = {"household": household, "person": person, "chat": chat, "name": name, "is_owner": is_owner}
        number = inserted(self._connection, member, told)
        return _member(self._connection.execute(_MEMBER.where(member.c.id == number)).one())


def _member(row: Sequence[Any]) -> Member:
    number, of, person, chat, name, is_owner, chosen_at, *homes = row
    return Member(
        id=number,
        household=of,
        person=person,
        chat=chat,
        name=shown_name(name),
        is_owner=is_owner,
        homes=homes[0] if homes else 1,
        chosen_at=chosen_at,
    )


def _told_apart(members: Sequence[Member]) -> tuple[Member, ...]:
    """Give a number to whoever is called like somebody who came earlier."""
    taken: set[str] = set()
    apart = []
    for one in members:
        name, number = one.name, 1
        while name.casefold() in taken:
            number += 1
            name = f"{one.name} {number}"
        taken.add(name.casefold())
        apart.append(one if name == one.name else replace(one, name=name))
    return tuple(apart)


def _question(row: Sequence[Any]) -> Question:
    number, of, chat, expected, told, asked_at, closed_at, answered = row
    try:
        expecting, choices = Expecting(expected), decode_choices(told, number)
    except (StoreError, ValueError):
        # of a newer version: its buttons mean nothing here, and must not silence the chat
        expecting, choices = Expecting.NOTHING, ()
    return Question(
        id=number,
        household=of,
        chat=chat,
        expecting=expecting,
        choices=choices,
        asked_at=asked_at,
        answered=answered,
        answered_at=None if answered is None else closed_at,
    )


def _entry(row: Sequence[Any]) -> Entry:
    # unpacked by place: by name costs twice the time of a cold journal
    number, of, member, plant, kind, version, at, on, recorded_at, source, payload, void_of = row
    return Entry(
        id=number,
        household=of,
        member=member,
        plant=plant,
        happened_at=at,
        happened_on=on,
        recorded_at=recorded_at,
        source=source,
        payload=decode_payload(kind, version, payload, number),
        void_of=void_of,
    )
