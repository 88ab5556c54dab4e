"""Fetches the pictures people sent: at once, after a restart, and again later where it failed."""

import asyncio
import logging
from collections.abc import Awaitable, Callable
from typing import Any

from bot.clock import Clock
from bot.storage.photos import BadPictureError, PhotoFolder, WantedPhoto
from bot.storage.store import SqlStore
from bot.telegram.door import Door
from bot.telegram.failures import UndeliverableError
from bot.telegram.outgoing import send
from bot.wording.photos import photo_lost

AT_ONCE = 10

Look = Callable[[Callable[[SqlStore], Any]], Awaitable[Any]]
"""Does something within one unit of work, in a worker thread."""
logger = logging.getLogger(__name__)


class Fetching:
    """One task beside the door; the rows say what is wanted, so that a stop loses nothing."""

    def __init__(self, door: Door, look: Look, clock: Clock, folder: PhotoFolder) -> None:
        self._door = door
        self._look = look
        self._clock = clock
        self._folder = folder
        self._sent = asyncio.Event()
        self._idle = asyncio.Event()
        self._loop: asyncio.AbstractEventLoop | None = None
        self._task: asyncio.Task[None] | None = None
        self._has_told = False

    def start(self) -> None:
        """Begin; first with what the process before left."""
        self._loop = asyncio.get_running_loop()
        self._task = self._loop.create_task(self._run())

    async def stop(self) -> None:
        """Fetch no more."""
        if self._task is not None:
            self._task.cancel()
            await asyncio.gather(self._task, return_exceptions=True)

    def soon(self) -> None:
        """Look for new pictures soon; from any thread. The row is committed before the look begins."""
        if self._loop is not None:
            self._loop.call_soon_threadsafe(self.wake)

    def wake(self) -> None:
        """Look for pictures whose turn has come; in the event loop."""
        self._idle.clear()
        self._sent.set()

    async def settled(self) -> None:
        """Wait until nothing wanted is left to try now."""
        if self._task is not None and not self._task.done():
            await self._idle.wait()

    async def _run(self) -> None:
        while True:
            self._sent.clear()
            try:
                while await self._fetch_some():
                    pass
            except Exception as error:  # noqa: BLE001 - the disk or the database: told, and tried again
                logger.error("photos wait: %s", type(error).__name__)  # noqa: TRY400
            if not self._sent.is_set():
                self._idle.set()
            await self._sent.wait()

    async def _fetch_some(self) -> bool:
        wanted = await self._look(lambda store: store.wanted_photos(self._clock.now(), AT_ONCE))
        for one in wanted:
            await self._look(await self._fetch(one))
        if self._has_told:
            self._has_told = False
            await self._door.claim()
        return bool(wanted)

    async def _fetch(self, one: WantedPhoto) -> Callable[[SqlStore], None]:
        """Fetch one picture and give what is to be written of it."""
        try:
            content = await self._door.fetch(one.file_id)
            await asyncio.to_thread(self._folder.keep, one.household, one.id, content)
        except (BadPictureError, UndeliverableError) as error:
            logger.warning("photo %d cannot be kept: %s", one.id, error)
            is_picture = isinstance(error, UndeliverableError)
            return lambda store: self._give_up(one, store, is_picture=is_picture)
        except Exception as error:  # noqa: BLE001 - the network, the disk: later
            logger.warning("photo %d waits: %s", one.id, type(error).__name__)
            if one.is_last_try:
                return lambda store: self._give_up(one, store, is_picture=True)
            return lambda store: store.photo_later(one, self._clock.now())
        return lambda store: store.photo_kept(one.id)

    def _give_up(self, one: WantedPhoto, store: SqlStore, *, is_picture: bool) -> None:
        """Let go of a picture, and tell whoever sent it."""
        store.photo_refused(one.id)
        if one.chat is not None:
            call = send(one.chat, photo_lost(is_picture=is_picture))
            self._has_told = True
            store.queue(
                f"photo:{one.id}", call.chat, call.method, call.body, self._clock.now(), one.household
            )
