"""The composition root: the one place that knows every layer."""

import asyncio
import gc
import json
import logging
import os
import secrets
import signal
from collections.abc import Awaitable, Callable, Iterable, Sequence
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import chain
from typing import TYPE_CHECKING, Any, Protocol

from bot.actions.incoming import Incoming, Photo, Press
from bot.catalogue.load import load
from bot.clock import Clock
from bot.conversation import Conversation
from bot.domain.identity import HouseholdId
from bot.evening import Evening
from bot.fetching import Fetching
from bot.logs import Troubles, without_values
from bot.settings import Settings
from bot.storage.backup import hand_on_meanwhile
from bot.storage.database import Database
from bot.storage.delivery import Waiting
from bot.storage.engine import sqlite_file
from bot.storage.failure import is_for_now
from bot.storage.locking import running as in_use
from bot.storage.photos import PhotoFolder
from bot.storage.sent_notes import Note, SentNotes
from bot.storage.store import SqlStore
from bot.telegram.delivery import ChatMoved, Delayed, Delivered, GivenUp, Outcome, Parcel
from bot.telegram.door import Door
from bot.telegram.incoming import Ignored, Moved, Parsed, Unparsable
from bot.telegram.outgoing import Call, answer_press, edit, edit_buttons, send
from bot.telegram.wire import Wire
from bot.wording.answer import Answer
from bot.wording.apology import alert, apology

if TYPE_CHECKING:  # 4 MB of a web server that only who wants it pays for
    from bot.health import Health, Vitals
    from bot.telegram.webhook import Webhook

LEASE = timedelta(seconds=60)
WORKERS_POSTGRESQL = 4
ATTEMPTS = 2
UPKEEP_EVERY = timedelta(hours=24)
ALERT_EVERY = timedelta(hours=1)

logger = logging.getLogger(__name__)


class Heard(Protocol):
    """What to say after an incoming message: new messages, and (chat, message, answer) for changed ones."""

    @property
    def answers(self) -> Sequence[tuple[int, Answer]]:
        """New messages by chat, in order."""
        ...

    @property
    def edits(self) -> Sequence[tuple[int, int, Answer | None]]:
        """Earlier messages that say something else now; None takes their buttons off."""
        ...


class Hear(Protocol):
    """Understands one incoming message within one unit of work."""

    def __call__(self, incoming: Incoming, store: SqlStore, now: datetime, /) -> Heard:
        """Write what was told; say what to answer."""
        ...


class Nudge(Protocol):
    """One message of an evening; the key is natural, so that no evening is sent twice."""

    @property
    def key(self) -> str:
        """`nudge:<household>:<date>:<n>:<chat>`."""
        ...

    @property
    def household(self) -> HouseholdId:
        """Whose plants."""
        ...

    @property
    def chat(self) -> int:
        """Where to."""
        ...

    @property
    def answer(self) -> Answer:
        """What it says."""
        ...


class Due(Protocol):
    """What one unit of work of an evening came to."""

    @property
    def nudges(self) -> Sequence[Nudge]:
        """What to send."""
        ...

    @property
    def more(self) -> bool:
        """Whether other households wait for the next unit of work."""
        ...


class SendEvening(Protocol):
    """Looks at some of the households whose evening has come, within one unit of work."""

    def __call__(self, store: SqlStore, now: datetime, /) -> Due:
        """Compose their nudges and set their next evening."""
        ...


class App:
    """The running bot: door, evening, database, and the desk between them."""

    def __init__(
        self,
        settings: Settings,
        clock: Clock,
        hear: Hear | None = None,
        send_evening: SendEvening | None = None,
        *,
        pacing: bool = True,
    ) -> None:
        if settings.token is None:
            raise ValueError("the bot needs a token")
        settings.data.mkdir(mode=0o700, parents=True, exist_ok=True)
        self._clock = clock
        self._holds = ExitStack()
        self._holds.enter_context(in_use(settings.data, sqlite_file(settings.database)))
        self._operator = settings.owner
        self._copy_command = settings.copy_command
        self._troubles = Troubles()
        self._alerted_at: datetime | None = None
        self._started_at = self._ticked_at = clock.now()
        self._updates = 0
        self._health = _health(settings, self.vitals)
        self._hear: Hear = hear or _nothing_heard
        self._send_evening: SendEvening = send_evening or _nothing_due
        self._owner = f"{os.getpid()}-{secrets.token_hex(4)}"
        self._is_sqlite = settings.database.startswith("sqlite")
        try:
            self._database = Database(settings.database, settings.data)
            self._database.erase_again(clock.now())
        except BaseException:
            self._holds.close()
            raise
        self._notes = SentNotes(settings.data)
        self._upkeep_at = self._database.last_backup_at(clock.now()) or clock.now() - UPKEEP_EVERY
        token, api_url = settings.token.reveal(), settings.api_url
        self._door = Door(
            Wire(token, api_url, is_loopback=settings.is_api_loopback),
            self,
            workers=1 if self._is_sqlite else WORKERS_POSTGRESQL,
            pacing=pacing,
            webhook=_webhook(settings),
        )
        self._photos = PhotoFolder(settings.data / "photos")
        self._fetching = Fetching(self._door, self._database, clock, self._photos)
        self._evening = Evening(self.tick, settings.tick_seconds)
        self._ticking = asyncio.Lock()
        self._has_released = False
        self._is_stopped = False

    async def start(self) -> None:
        """Reach the platform and begin; raises RefusedTokenError when it does not know the token."""
        logging.getLogger("bot").addHandler(self._troubles)
        await self._door.start()
        self._fetching.start()
        if self._health is not None:
            self._health.open()
        self._evening.start()

    async def run_until_stopped(self) -> None:
        """Run until SIGTERM or SIGINT, then stop; a refused token is raised."""
        loop, stopped = asyncio.get_running_loop(), asyncio.Event()
        for number in (signal.SIGTERM, signal.SIGINT):
            loop.add_signal_handler(number, stopped.set)
        waits = [loop.create_task(stopped.wait()), loop.create_task(self._door.ended())]
        try:
            done, _ = await asyncio.wait(waits, return_when=asyncio.FIRST_COMPLETED)
        finally:
            await self.stop()
            waits[0].cancel()
            await asyncio.gather(*waits, return_exceptions=True)
        if waits[1] in done:
            waits[1].result()

    async def stop(self) -> None:
        """Take no more, send what is at hand, close the database; a second time there is nothing to do."""
        if self._is_stopped:
            return
        self._is_stopped = True
        self._evening.stop()
        if self._health is not None:
            self._health.close()
        await self._fetching.stop()
        await self._door.stop()
        self._notes.close()
        self._database.close()
        self._holds.close()
        logging.getLogger("bot").removeHandler(self._troubles)

    async def settled(self) -> None:
        """Wait until every update fetched is committed, every picture fetched and every answer due sent."""
        await self._door.settled()
        await self._fetching.settled()

    async def tick(self) -> None:
        """Look at the households whose evening has come; send what that gives."""
        async with self._ticking:
            self._ticked_at = self._clock.now()
            has_nudges, more = False, True
            while more:
                count, more = await self._door.in_worker(self._compose)
                has_nudges = has_nudges or count > 0
            await self._door.in_worker(self._keep_up)
            has_nudges = await self._door.in_worker(self._alert) or has_nudges
        if has_nudges:
            await self._door.claim()

    async def vitals(self) -> "Vitals":
        """Count what a health page shows."""
        return await self._door.in_worker(self._counted)

    def _counted(self) -> "Vitals":
        from bot.health import Vitals  # noqa: PLC0415 - see above

        now = self._clock.now()
        with self._database.unit() as store:
            since = store.oldest_due(now)
            return Vitals(
                households=len(store.households()),
                undelivered=store.undelivered(),
                oldest_due_s=0.0 if since is None else (now - since).total_seconds(),
                parked=store.parked(),
                photos_wanted=store.count_wanted(),
                last_tick_s=(now - self._ticked_at).total_seconds(),
                updates=self._updates,
                errors=self._troubles.count,
                up_s=(now - self._started_at).total_seconds(),
            )

    def _alert(self) -> bool:
        """Tell the operator's chat of errors, once an hour at most and without anybody's words."""
        now = self._clock.now()
        rests = self._alerted_at is not None and now - self._alerted_at < ALERT_EVERY
        if self._operator is None or rests:
            return False
        count, last = self._troubles.take()
        if not count:
            return False
        self._alerted_at = now
        call = send(self._operator, Answer(text=alert(count, last)))
        with self._database.unit() as store:
            store.queue(f"alert:{now.isoformat()}", call.chat, call.method, call.body, now)
        return True

    async def next_evening_at(self) -> datetime | None:
        """Tell when the next household is to be looked at. Aware UTC."""
        return await self._door.in_worker(self._earliest_evening)

    def take(self, updates: Sequence[Parsed], outcomes: Sequence[Outcome]) -> Sequence[Parcel]:
        """
        Take updates, each with seen mark, journal entries and answers; write outcomes of earlier rows.

        Several share one unit of work as long as nothing goes wrong; else each gets its own.
        """
        self._updates += len(updates)
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
        """Write what became of outbox rows."""
        if outcomes:
            with self._database.unit() as store:
                _note(store, outcomes, self._clock.now())

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
            if is_start and self._is_sqlite and not self._has_released:
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
        with self._database.unit() as store:
            _note(store, outcomes, now)
            new = set(store.mark_all_seen([one.update_id for one in heard], now))
            for incoming in heard:
                if incoming.update_id in new:
                    new.remove(incoming.update_id)  # the same twice in one batch is heard once
                    if isinstance(incoming.kind, Photo):
                        self._fetching.soon()
                    said = self._hear(incoming, store, now)
                    parcels += self._queue(store, _replies(incoming, said), now)
        return parcels

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
        parcels = []
        for key, call in calls:
            row = store.queue(
                key,
                call.chat,
                call.method,
                call.body,
                now,
                claimed_by=self._owner,
                lease_until=now + LEASE,
            )
            if row is not None:
                parcels.append(Parcel(id=row, key=key, chat=call.chat, method=call.method, body=call.body))
        return parcels

    def _compose(self) -> tuple[int, bool]:
        now = self._clock.now()
        with self._database.unit() as store:
            due = self._send_evening(store, now)
            calls = [(nudge, send(nudge.chat, nudge.answer)) for nudge in due.nudges]
            # not claimed yet: thousands at once would outlive their lease at the pace the platform allows
            store.queue_all(
                [
                    Waiting(nudge.key, nudge.household, call.chat, call.method, call.body)
                    for nudge, call in calls
                ],
                now,
            )
        return len(due.nudges), due.more

    def _keep_up(self) -> None:
        now = self._clock.now()
        if now - self._upkeep_at < UPKEEP_EVERY:
            return
        self._upkeep_at = now
        self._database.tidy(now)
        if self._is_sqlite:
            self._back_up(now)

    def _back_up(self, now: datetime) -> None:
        """Copy the database for the night; a copy that fails must not stop the evenings."""
        try:
            copy = self._database.back_up(now)
        except Exception as error:  # noqa: BLE001 - a full disk, a damaged copy: the operator is told, nothing stops
            logger.error("no backup this night: %s", without_values(error))  # noqa: TRY400
        else:
            logger.info("backup written: %s", copy.name)
            if self._copy_command:
                hand_on_meanwhile(copy, self._copy_command)

    def _earliest_evening(self) -> datetime | None:
        with self._database.unit() as store:
            return store.earliest_evening()


def settle_in() -> None:
    """
    Take what is loaded by now out of the garbage collector's sight; for a process that only runs the bot.

    A whole collection would look at every object of every library, and hold the event loop 0.1 s.
    """
    gc.collect()
    gc.freeze()


def assemble(settings: Settings, clock: Clock, *, pacing: bool = True) -> App:
    """Put the bot together with its real conversation."""
    founding = Founding(settings.owner, is_open=settings.open)
    photos = PhotoFolder(settings.data / "photos")
    conversation = Conversation(load().knowledge, founding.allows, photos=photos)
    if founding.code is not None:
        logger.warning("to found a household, send the bot: /start %s", founding.code)
    return App(settings, clock, conversation.hear, conversation.send_evenings, pacing=pacing)


class Founding:
    """Who may found a household: the owner, anyone, or whoever has the one-time code of this start."""

    def __init__(self, owner: int | None, *, is_open: bool) -> None:
        self._owner = owner
        self._is_open = is_open
        self._spent_by: int | None = None
        self.code = None if is_open or owner is not None else secrets.token_urlsafe(9)

    def allows(self, person: int, text: str) -> bool:
        """Whether this person may found one now; the code is spent by use."""
        if self._is_open or person in {self._owner, self._spent_by}:
            return True
        if self.code is None or not secrets.compare_digest(text.encode(), self.code.encode()):
            return False
        # remembered, not only spent: the unit of work may roll back and be tried again
        self.code, self._spent_by = None, person
        return True


@dataclass(frozen=True, slots=True)
class _Nothing:
    answers: Sequence[tuple[int, Answer]] = ()
    edits: Sequence[tuple[int, int, Answer | None]] = ()
    nudges: Sequence[Nudge] = ()
    more: bool = False


def _nothing_heard(_incoming: Incoming, _store: SqlStore, _now: datetime) -> Heard:
    return _Nothing()


def _nothing_due(_store: SqlStore, _now: datetime) -> Due:
    return _Nothing()


def _dumped(raw: Any) -> str:
    """Write an update down as JSON; one nested deeper than can be written is known by its number only."""
    try:
        return json.dumps(raw)
    except RecursionError:
        return "{}"


def _replies(incoming: Incoming, heard: Heard) -> Iterable[tuple[str, Call]]:
    prefix = f"reply:{incoming.update_id}"
    if isinstance(incoming.kind, Press):
        yield f"{prefix}:press", answer_press(incoming.chat, incoming.kind.callback_id)
    for index, (chat, message_id, answer) in enumerate(heard.edits):
        call = edit(chat, message_id, answer) if answer else edit_buttons(chat, message_id)
        yield f"{prefix}:edit{index}", call
    for index, (chat, answer) in enumerate(heard.answers):
        yield f"{prefix}:{index}", send(chat, answer)


def _note(store: SqlStore, outcomes: Sequence[Outcome], now: datetime) -> None:
    store.settle(now, {one.row: one.message_id for one in outcomes if isinstance(one, Delivered)})
    for outcome in outcomes:
        match outcome:
            case Delivered():
                pass  # written above, all in one
            case Delayed(row, after_s, error):
                store.retry_later(row, now + timedelta(seconds=after_s), error)
            case GivenUp(row, error):
                store.give_up(row, error)
            case ChatMoved(chat, to):
                store.migrate_chat(chat, to)


def _health(settings: Settings, look: "Callable[[], Awaitable[Vitals]]") -> "Health | None":
    if settings.health is None:
        return None
    from bot.health import Health  # noqa: PLC0415 - see above

    return Health(*settings.health, look)


def _webhook(settings: Settings) -> "Webhook | None":
    if not settings.webhook_url or settings.webhook_secret is None:
        return None
    from bot.telegram.webhook import Webhook  # noqa: PLC0415 - see above

    host, port = settings.listen
    return Webhook(settings.webhook_url, settings.webhook_secret.reveal(), host, port)
