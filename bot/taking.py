"""Takes updates in and claims what goes out: each unit of work is one transaction, in a worker thread."""

import json
import logging
import os
import secrets
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from datetime import datetime, timedelta
from itertools import chain
from typing import Any

from bot.actions.incoming import Incoming, Press
from bot.actions.press_button import numbers_of
from bot.clock import Clock
from bot.conversation import Said
from bot.domain.value import replace
from bot.logs import without_values
from bot.storage.database import Database
from bot.storage.delivery import QUESTION_KEY, STATUS_KEY
from bot.storage.failure import is_for_now
from bot.storage.sent_notes import Note, SentNotes
from bot.storage.store import SqlStore
from bot.telegram.delivery import ChatMoved, Delayed, Delivered, GivenUp, Outcome, Parcel
from bot.telegram.outgoing import Call, Context, answer_press, edit, edit_buttons, pin, send, unpin
from bot.telegram.parsed import Ignored, Me, Moved, Parsed, Unparsable
from bot.wording.answer import Answer
from bot.wording.apology import apology

LEASE = timedelta(seconds=60)
ATTEMPTS = 2

Hear = Callable[[Incoming, SqlStore, datetime], Said]
logger = logging.getLogger(__name__)


class Taking:
    """What stands behind the door to the platform: the database, and whoever hears."""

    def __init__(
        self,
        database: Database,
        notes: SentNotes,
        clock: Clock,
        hear: Hear,
        told: Callable[[Sequence[Incoming], datetime | None], None],
    ) -> None:
        self._database, self._notes, self._clock, self._hear, self._told = database, notes, clock, hear, told
        self._me = Me(0, "")
        self._owner = f"{os.getpid()}-{secrets.token_hex(4)}"
        self._has_released = False
        self.count = 0
        """Updates taken since the start."""

    def introduce(self, me: Me) -> None:
        """Learn who the bot is."""
        self._me = me

    def take(self, updates: Sequence[Parsed], outcomes: Sequence[Outcome]) -> Sequence[Parcel]:
        """
        Take updates, each with seen mark, journal entries and answers; write outcomes of earlier rows.

        Several share one unit of work as long as nothing goes wrong; else each gets its own.
        """
        self.count += len(updates)
        heard = [update for update in updates if isinstance(update, Incoming)]
        if len(heard) == len(updates) > 1:
            with suppress(Exception):  # whatever it was shows again one by one, where it is handled
                return self._hear_in_unit(heard, outcomes)
        parcels: list[Parcel] = []
        for update in updates:
            parcels += self._take_one(update, outcomes)
            outcomes = ()
        return parcels

    def _take_one(self, update: Parsed, outcomes: Sequence[Outcome]) -> Sequence[Parcel]:
        match update:
            case Unparsable():
                self._park(update, outcomes)
            case Moved(_, chat, to):
                self.write((*outcomes, ChatMoved(chat, to)))
            case Ignored():
                self.write(outcomes)
            case incoming:
                return self._take_in(incoming, outcomes)
        return ()

    def write(self, outcomes: Sequence[Outcome]) -> None:
        """Write what became of outbox rows, which is done when no message waits."""
        if outcomes:
            with self._database.unit() as store:
                _note(store, outcomes, self._clock.now())
            self._database.copy_log()

    def note(self, sent: Delivered) -> None:
        """Note at once that a row was sent; the next unit of work writes it."""
        self._notes.add(Note(sent.row, sent.key, sent.message_id))

    def forget_notes(self) -> None:
        """Forget the notes: everything noted is written."""
        self._notes.clear()

    def claim(self, limit: int, *, is_start: bool) -> Sequence[Parcel]:
        """
        Claim rows that wait, or whose lease ran out.

        On SQLite nobody but the process before can hold a claim when this one starts: all are over then.
        """
        now = self._clock.now()
        notes = {} if self._has_released else self._notes.left_behind()
        with self._database.unit() as store:
            store.settle_noted(now, chain(*notes.values()))
            if is_start and self._database.is_file and not self._has_released:
                store.release_claims()
            rows = store.claim_outbox(now, self._owner, now + LEASE, limit)
        for file in notes:
            file.unlink(missing_ok=True)
        self._has_released = self._has_released or is_start
        return [
            Parcel(id=row.id, key=row.key, chat=row.chat, method=row.method, body=row.body, tries=row.tries)
            for row in rows
        ]

    def _take_in(self, incoming: Incoming, outcomes: Sequence[Outcome]) -> Sequence[Parcel]:
        for _ in range(ATTEMPTS):
            try:
                return self._hear_in_unit([incoming], outcomes)
            except Exception as error:
                if is_for_now(error):
                    raise  # the platform brings the message again: it is answered once there is room
                failure = error
        logger.error("update %d failed: %s", incoming.update_id, without_values(failure))
        return self._apologise(incoming, outcomes)

    def _hear_in_unit(self, heard: Sequence[Incoming], outcomes: Sequence[Outcome]) -> Sequence[Parcel]:
        now = self._clock.now()
        parcels: list[Parcel] = []
        replies: list[tuple[str, Call]] = []
        with self._database.unit() as store:
            _note(store, outcomes, now)
            for incoming in heard:
                if store.mark_seen(incoming.update_id, now):
                    said = self._hear(incoming, store, now)
                    replies += _replies(incoming, said, self._context(incoming))
                    if said.statuses:  # they look for what stands in the outbox, and come behind the reply
                        parcels += self._queue(store, replies, now)
                        occasion, replies = f"update:{incoming.update_id}", []
                        parcels += self._queue(store, status_calls(store, occasion, said.statuses, now), now)
            parcels += self._queue(store, replies, now)
            soonest = store.soonest_evening()
        self._told(heard, soonest)
        return parcels

    def _context(self, incoming: Incoming | None = None) -> Context:
        return Context(self._me.username, incoming.message_id if incoming is not None else None)

    def _apologise(self, incoming: Incoming, outcomes: Sequence[Outcome]) -> Sequence[Parcel]:
        now = self._clock.now()
        with self._database.unit() as store:
            _note(store, outcomes, now)
            if not (store.mark_seen(incoming.update_id, now) and incoming.addressed):
                return ()
            call = send(incoming.chat, apology())
            return self._queue(store, [(f"reply:{incoming.update_id}:0", call)], now)

    def _park(self, update: Unparsable, outcomes: Sequence[Outcome]) -> None:
        logger.error("update %s put aside: %s", update.update_id, update.reason)
        now = self._clock.now()
        with self._database.unit() as store:
            _note(store, outcomes, now)
            if update.update_id is not None and store.mark_seen(update.update_id, now):
                store.park(update.update_id, _dumped(update.raw), update.reason, now)

    def _queue(self, store: SqlStore, calls: Iterable[tuple[str, Call]], now: datetime) -> list[Parcel]:
        keyed = dict(calls)
        rows = [(key, call.chat, call.method, call.body) for key, call in keyed.items()]
        new = store.queue_claimed(rows, now, self._owner, now + LEASE)
        return [
            Parcel(id=new[key], key=key, chat=call.chat, method=call.method, body=call.body)
            for key, call in keyed.items()
            if key in new
        ]


def _dumped(raw: Any) -> str:
    """Write an update down as JSON; one nested deeper than can be written is known by its number only."""
    try:
        return json.dumps(raw)
    except RecursionError:
        return "{}"


def _replies(incoming: Incoming, said: Said, context: Context) -> Iterable[tuple[str, Call]]:
    prefix = f"reply:{incoming.update_id}"
    if isinstance(incoming.kind, Press):
        yield f"{prefix}:press", answer_press(incoming.chat, incoming.kind.callback_id, said.notice)
    for index, (chat, answer) in enumerate(said.answers):
        yield (
            key_of(answer) or f"{prefix}:{index}",
            send(chat, answer, context if chat == incoming.chat else replace(context, replies_to=None)),
        )
    # behind the answer, which somebody waits for
    for index, (chat, message_id, shown) in enumerate(said.edits):
        call = edit(chat, message_id, shown) if shown else edit_buttons(chat, message_id)
        yield f"{prefix}:edit{index}", call


def key_of(answer: Answer) -> str | None:
    """Name a message by the question under it: one question, one message."""
    return f"{QUESTION_KEY}{numbers_of(answer.buttons[0][0].data)[0]}" if answer.buttons else None


def status_calls(
    store: SqlStore, occasion: str, statuses: Mapping[int, Answer | None], now: datetime
) -> list[tuple[str, Call]]:
    """Give the calls that bring the pinned messages of chats up to date: none where they say so already."""
    calls = []
    for chat, answer in statuses.items():
        known = store.status_message(chat)
        if answer is None:
            if known is not None and known.message is not None:
                calls.append((f"unpin:{known.row}", unpin(chat, known.message)))
            store.drop_status(chat)
        elif known is None:
            calls.append((f"{STATUS_KEY}{chat}:{occasion}", send(chat, answer)))
        elif known.message is not None and known.text != answer.text:
            call = edit(chat, known.message, answer)
            store.retell_status(known.row, answer.text, now)
            calls.append((f"status-edit:{chat}:{occasion}", call))
    return calls


def _note(store: SqlStore, outcomes: Sequence[Outcome], now: datetime) -> None:
    store.settle(now, {one.row: one.message_id for one in outcomes if isinstance(one, Delivered)})
    for outcome in outcomes:
        match outcome:
            case Delivered(row, key, int(message)) if key.startswith(STATUS_KEY):
                call = pin(int(key.split(":")[1]), message)
                store.queue(f"pin:{row}", call.chat, call.method, call.body, now)
            case Delivered():
                pass  # written above, all in one
            case Delayed(row, after_s, error):
                store.retry_later(row, now + timedelta(seconds=after_s), error)
            case GivenUp(row, error):
                store.give_up(row, error)
            case ChatMoved(chat, to):
                store.migrate_chat(chat, to)
