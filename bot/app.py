"""The composition root: the one place that knows every layer."""

import asyncio
import gc
import logging
import secrets
import signal
from collections.abc import Awaitable, Callable, Coroutine, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from datetime import datetime, timedelta
from functools import partial
from shutil import disk_usage
from typing import TYPE_CHECKING, Any, TypeVar

from bot.actions.incoming import Incoming, Photo, Text
from bot.catalogue.load import load
from bot.clock import Clock
from bot.conversation import Conversation, Evenings
from bot.domain.identity import HouseholdId
from bot.domain.value import Value
from bot.evening import Timetable, Work
from bot.fetching import Fetching
from bot.logs import Troubles, without_values
from bot.settings import Settings
from bot.storage.backup import hand_on_meanwhile
from bot.storage.database import Database
from bot.storage.delivery import Waiting
from bot.storage.engine import sqlite_file
from bot.storage.locking import running as in_use
from bot.storage.photos import PhotoFolder
from bot.storage.sent_notes import SentNotes
from bot.storage.store import SqlStore
from bot.taking import LEASE, Hear, Taking, status_calls
from bot.telegram.delivery import LONGEST_RETRY_S
from bot.telegram.door import Door
from bot.telegram.outgoing import Context, send
from bot.telegram.wire import Wire
from bot.wording.answer import Answer
from bot.wording.apology import alert

if TYPE_CHECKING:  # 4 MB of a web server that only who wants it pays for
    from bot.health import Health, Vitals
    from bot.telegram.webhook import Webhook

WORKERS_POSTGRESQL = 4
COPY_EVERY_S = 86_400.0
ALERT_EVERY_S = 3600.0
PLANNED_AT_ONCE = 20
"""Homes whose evening is derived anew in one transaction, so that messages never wait long. Judgement."""
YOUNG_OBJECTS = 10_000
"""So many live ones more than before let the collector look for rings. Measured."""
CLOCKS_AGREE = timedelta(seconds=60)
"""A message written so lately by the platform's clock shows that ours is right. Judgement."""

T = TypeVar("T")

logger = logging.getLogger(__name__)


class Middle(Value):
    """What the doors lead to, each within one unit of work."""

    hear: Hear
    send_evenings: Callable[[SqlStore, datetime], Evenings]
    plan_anew: Callable[[HouseholdId, SqlStore, datetime], None]


class App:
    """The running bot: door, evening, database, and the desk between them."""

    def __init__(self, settings: Settings, clock: Clock, middle: Middle, *, pacing: bool = True) -> None:
        if settings.token is None:
            raise ValueError("the bot needs a token")
        settings.data.mkdir(mode=0o700, parents=True, exist_ok=True)
        self._settings, self._clock, self._middle = settings, clock, middle
        self._is_sqlite = settings.database.startswith("sqlite")
        self._holds = ExitStack()
        self._holds.enter_context(in_use(settings.data, sqlite_file(settings.database)))
        self._troubles = Troubles()
        self._alerted_s = -ALERT_EVERY_S
        self._health = _health(settings, self.vitals)
        try:
            self._database = Database(settings.database, settings.data)
        except BaseException:
            self._holds.close()
            raise
        self._notes = SentNotes(settings.data)
        self.taking = Taking(self._database, self._notes, clock, middle.hear, self._told)
        token, api_url = settings.token.reveal(), settings.api_url
        self._door = Door(
            Wire(token, api_url, is_loopback=settings.is_api_loopback),
            self.taking,
            workers=1 if self._is_sqlite else WORKERS_POSTGRESQL,
            pacing=pacing,
            webhook=_webhook(settings),
        )
        self._fetching = Fetching(self._door, self.look, clock, PhotoFolder(settings.data / "photos"))
        work = Work(self.tick, self._door.claim, self.keep_up, self.look_over, self.plan_anew)
        self._times = Timetable(clock, work, settings.tick_seconds)
        self._ticking = asyncio.Lock()
        self._loop: asyncio.AbstractEventLoop | None = None
        self._is_stopped = False
        self.founding_code: str | None = None

    async def start(self) -> None:
        """Reach the platform and begin; raises RefusedTokenError when it does not know the token."""
        self._loop = asyncio.get_running_loop()
        self._started_s = self._loop.time()
        logging.getLogger("bot").addHandler(self._troubles)
        with _listening(self._settings.health_listen, "DUSKROUND_HEALTH_LISTEN"):
            if self._health is not None:
                self._health.open()
        with _listening(self._settings.webhook_listen, "DUSKROUND_WEBHOOK_LISTEN"):
            await self._door.start()
        self._fetching.start()
        self._times.start()
        self._times.plan(await self.next_evening_at())
        copy_age_s = self._copy_age_s()
        if copy_age_s is None or copy_age_s > COPY_EVERY_S:
            self._times.start_now("upkeep")

    def whereabouts(self) -> str:
        """Say in one line that the bot runs, where, and by what code a first household is founded."""
        takes = self._settings.webhook_url or f"polls {self._settings.api_url}"
        keeps = self._settings.data.absolute() if self._is_sqlite else "PostgreSQL"
        health = f", health page on {self._settings.health_listen}" if self._health is not None else ""
        where = f"{takes}, keeps its data in {keeps}{health}"
        code = f"; to found a household, send it: /start {self.founding_code}" if self.founding_code else ""
        return f"Duskround runs as @{self._door.me.username}: {where}{code}"

    async def run(self, begun: Callable[[], None] = lambda: None) -> None:
        """Start, tell that it is begun, and run until stopped, which may be before that."""

        async def all_of_it() -> None:
            await self.start()
            begun()
            await self._door.ended()

        await self._until_stopped(all_of_it())

    async def run_until_stopped(self) -> None:
        """Run what is started until it is stopped."""
        await self._until_stopped(self._door.ended())

    async def _until_stopped(self, work: Coroutine[None, None, None]) -> None:
        """Do the work until SIGTERM or SIGINT, then stop; what ends the work by itself is raised."""
        loop, stopped = asyncio.get_running_loop(), asyncio.Event()
        for number in (signal.SIGTERM, signal.SIGINT):
            loop.add_signal_handler(number, stopped.set)
        stopping, working = loop.create_task(stopped.wait()), loop.create_task(work)
        try:
            await asyncio.wait((stopping, working), return_when=asyncio.FIRST_COMPLETED)
        finally:
            is_done = working.done()
            working.cancel()
            stopping.cancel()
            await asyncio.gather(working, stopping, return_exceptions=True)
            await self.stop()
        if is_done:
            working.result()

    async def stop(self) -> None:
        """Take no more, send what is at hand, close the database; a second time there is nothing to do."""
        if self._is_stopped:
            return
        self._is_stopped = True
        await self._times.stop()
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
        await self._door.settled()  # a picture that could not be kept is told

    async def tick(self) -> None:
        """Look at the households whose evening has come; send what that gives, and plan the next."""
        async with self._ticking:
            has_nudges, more = False, True
            while more:
                count, more = await self._door.in_worker(self._compose)
                has_nudges = has_nudges or count > 0
            self._times.plan(await self.next_evening_at())
        if has_nudges:
            await self._door.claim()

    async def keep_up(self) -> None:
        """Drop what nobody needs any more and copy the database, as every night."""
        await self._door.in_worker(self._keep_up)

    async def look_over(self) -> None:
        """Tell the operator of errors, try pictures again; plan the evening by what others wrote too."""
        self._fetching.wake()
        if await self._door.in_worker(self._alert):
            await self._door.claim()
        if not self._ticking.locked():
            self._times.plan(await self.next_evening_at())

    async def plan_anew(self) -> None:
        """Derive anew what waits for an instant, after the clock was set: evenings and messages."""
        async with self._ticking:
            homes = await self.look(SqlStore.households)
            for first in range(0, len(homes), PLANNED_AT_ONCE):
                some = homes[first : first + PLANNED_AT_ONCE]
                await self.look(partial(self._plan_some, some))
            await self.look(self._free_waiting)
            self._times.plan(await self.next_evening_at())

    def _told(self, heard: Sequence[Incoming], soonest: datetime | None) -> None:
        """After a commit, in a worker thread: see to what follows from it outside the database."""
        if any(isinstance(one.kind, Photo) for one in heard):
            self._fetching.soon()
        if self._loop is not None and self._times.is_later_than(soonest):
            self._loop.call_soon_threadsafe(self._times.plan_by, soonest)
        last = heard[-1]
        if isinstance(last.kind, Text) and abs(self._clock.now() - last.at) < CLOCKS_AGREE:
            self._times.trust()

    def _plan_some(self, homes: Sequence[HouseholdId], store: SqlStore) -> None:
        for home in homes:
            self._middle.plan_anew(home, store, self._clock.now())

    def _free_waiting(self, store: SqlStore) -> None:
        now = self._clock.now()
        store.wait_at_most(now, now + timedelta(seconds=LONGEST_RETRY_S), now + LEASE)
        store.free_photos(now)

    async def vitals(self) -> "Vitals":
        """Count what a health page shows."""
        from bot.health import Vitals  # noqa: PLC0415 - see above

        loop = asyncio.get_running_loop()
        now = self._clock.now()
        return Vitals(
            **await self.look(lambda store: _counted(store, now)),
            updates=self.taking.count,
            errors=self._troubles.count,
            up_s=loop.time() - self._started_s,
            last_tick_s=self._times.idle_s,
            clock_stepped_s=self._times.stepped_s,
            not_taken_s=self._door.not_taken_s,
            is_polled_elsewhere=self._door.is_polled_elsewhere,
            disk_free_bytes=disk_usage(self._settings.data).free,
            copy_age_s=self._copy_age_s(),
        )

    def _alert(self) -> bool:
        """Tell the operator's chat of errors, once an hour at most and without anybody's words."""
        owner, now_s = self._settings.owner, self._clock.boot_s()
        if owner is None or now_s - self._alerted_s < ALERT_EVERY_S:
            return False
        count, last = self._troubles.take()
        if not count:
            return False
        self._alerted_s, now = now_s, self._clock.now()
        call = send(owner, Answer(text=alert(count, last)))
        with self._database.unit() as store:
            store.queue(f"alert:{now.isoformat()}", call.chat, call.method, call.body, now)
        return True

    def _in_unit(self, work: Callable[[SqlStore], T]) -> T:
        with self._database.unit() as store:
            return work(store)

    async def look(self, work: Callable[[SqlStore], T]) -> T:
        """Do something within one unit of work, where it belongs."""
        return await self._door.in_worker(partial(self._in_unit, work))

    async def next_evening_at(self) -> datetime | None:
        """Tell when the next household is to be looked at. Aware UTC."""
        return await self.look(SqlStore.earliest_evening)

    def _compose(self) -> tuple[int, bool]:
        now = self._clock.now()
        with self._database.unit() as store:
            due = self._middle.send_evenings(store, now)
            context = Context(self._door.me.username)
            calls = [(nudge, send(nudge.chat, nudge.answer, context)) for nudge in due.nudges]
            # not claimed yet: thousands at once would outlive their lease at the pace the platform allows
            store.queue_all(
                [
                    Waiting(nudge.key, nudge.household, call.chat, call.method, call.body)
                    for nudge, call in calls
                ],
                now,
            )
            for nudge in due.nudges:
                if nudge.status is not None:
                    told = {nudge.chat: nudge.status}
                    for key, call in status_calls(store, nudge.key, told, now):
                        store.queue(key, call.chat, call.method, call.body, now, nudge.household)
        return len(due.nudges), due.more

    def _keep_up(self) -> None:
        now = self._clock.now()
        if not self._times.stepped_s:  # by a clock that may be a year ahead everything would be old
            self._database.tidy(now)
        if self._is_sqlite:
            self._back_up(now)

    def _copy_age_s(self) -> float | None:
        """Tell the age of the last copy [s]: None where there is none, 0 where the server's tools copy."""
        now = self._clock.now()
        copied_at = self._database.last_backup_at(now) if self._is_sqlite else now
        return None if copied_at is None else (now - copied_at).total_seconds()

    def _back_up(self, now: datetime) -> None:
        """Copy the database for the night; a copy that fails must not stop the evenings."""
        try:
            copy = self._database.back_up(now)
        except Exception as error:  # noqa: BLE001 - a full disk, a damaged copy: the operator is told, nothing stops
            logger.error("no backup this night: %s", without_values(error))  # noqa: TRY400
        else:
            logger.info("backup written: %s", copy.name)
            if self._settings.copy_command:
                hand_on_meanwhile(copy, self._settings.copy_command)


def settle_in() -> None:
    """
    Take what is loaded by now out of the garbage collector's sight; for a process that only runs the bot.

    A whole collection would look at every object of every library, and hold the event loop 0.1 s. Nearly all
    that a message makes is freed by its count: rings need not be looked for every 700 objects.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(YOUNG_OBJECTS)


def assemble(settings: Settings, clock: Clock, *, pacing: bool = True) -> App:
    """Put the bot together with its real conversation."""
    founding = Founding(settings.owner, is_open=settings.open)
    photos = PhotoFolder(settings.data / "photos")
    conversation = Conversation(load().knowledge, founding.allows, photos=photos)
    middle = Middle(conversation.hear, conversation.send_evenings, conversation.plan_anew)
    app = App(settings, clock, middle, pacing=pacing)
    app.founding_code = founding.code
    return app


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


@contextmanager
def _listening(where: str, setting: str) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        raise OSError(error.errno, f"{where} ({setting}) cannot be listened on: {error.strerror}") from error


def _counted(store: SqlStore, now: datetime) -> dict[str, Any]:
    since = store.oldest_due(now)
    return {
        "households": len(store.households()),
        "undelivered": store.undelivered(),
        "oldest_due_s": 0.0 if since is None else (now - since).total_seconds(),
        "given_up": store.given_up(),
        "parked": store.parked(),
        "photos_wanted": store.count_wanted(),
    }


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
