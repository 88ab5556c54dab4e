"""The door to the chat platform: updates in, one transaction each; claimed outbox rows out."""

import asyncio
import logging
from collections.abc import Awaitable, Callable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from bot.telegram.delivery import MOST_HELD, Delivered, Delivery, Outcome, Parcel
from bot.telegram.failures import OtherPollerError, RefusedTokenError, TryLaterError
from bot.telegram.incoming import parse
from bot.telegram.introducing import introduce
from bot.telegram.parsed import Me, Parsed
from bot.telegram.turns import in_turn
from bot.telegram.wire import ALLOWED, Wire

if TYPE_CHECKING:  # its web server is loaded only where a webhook is wanted
    from bot.telegram.webhook import Webhook

FIRST_BACKOFF_S = 1.0
LONGEST_BACKOFF_S = 30.0
FLUSH_AFTER_S = 0.02
FAREWELL_S = 2.0
"""At the end so long is waited for what is being written, and so long new calls are still begun. [s]"""
SPARRING_S = 300.0
"""Another poller makes itself felt at every poll of its own, half a minute at most. Judgement. [s]"""
BACKLOG_S = 5.0
SET_OFF_S = 0.01
"""So long answers may take to set off before updates are asked for: making both at once delays them. [s]"""
TAKEN_AT_ONCE = 16
"""Updates that waited together share one transaction; few, for the first waits for the last. Judgement."""

T = TypeVar("T")
logger = logging.getLogger(__name__)


class Taker(Protocol):
    """What stands behind the door; every call is made in a worker thread and is one transaction."""

    def introduce(self, me: Me) -> None:
        """Learn who the bot is."""

    def take(self, updates: Sequence[Parsed], outcomes: Sequence[Outcome]) -> Sequence[Parcel]:
        """Take updates in order, write what became of earlier rows, give the rows to send now."""

    def write(self, outcomes: Sequence[Outcome]) -> None:
        """Write what became of rows."""

    def note(self, sent: Delivered) -> None:
        """Note at once, in the event loop, that a row was sent, until `take` or `write` has written it."""

    def forget_notes(self) -> None:
        """Forget the notes: everything noted is written."""

    def claim(self, limit: int, *, is_start: bool) -> Sequence[Parcel]:
        """Claim rows that wait or whose lease ran out; at the start also those of the process before."""


class Door:
    """Poll loop or webhook on one side, senders on the other, the taker in worker threads between."""

    def __init__(
        self,
        wire: Wire,
        taker: Taker,
        *,
        workers: int = 1,
        pacing: bool = True,
        webhook: "Webhook | None" = None,
    ) -> None:
        self._wire = wire
        self._taker = taker
        self._workers = ThreadPoolExecutor(workers, thread_name_prefix="taking")
        self._one_by_one = workers == 1
        self._pacing = pacing
        self._webhook = webhook
        self._outcomes: list[Outcome] = []
        self._flush_timer: asyncio.TimerHandle | None = None
        self._writing = asyncio.Lock()
        self._writes = 0
        self._chats: dict[int | None, asyncio.Lock] = {}
        self._at_hand = 0
        self.me = Me(0, "")
        self._failing_since_s: float | None = None
        self._conflict_s: float | None = None
        self._is_open = False
        self._is_ending = False
        self._is_more_waiting = False
        self._tasks: list[asyncio.Task[None]] = []
        self._flushes: set[asyncio.Task[None]] = set()
        self._main: asyncio.Task[None] | None = None

    async def start(self) -> None:
        """Reach the platform, then begin to take updates and to send."""
        if self._webhook is not None:
            await self._webhook.open(self.accept)
        self.me = await self._reached(self._wire.open)
        self._taker.introduce(self.me)
        self._delivery = Delivery(self._wire, self._tell, pacing=self._pacing)
        self._is_open = True
        await self._send_backlog()
        await self._reached(self._arrange)
        loop = asyncio.get_running_loop()
        self._main = loop.create_task(self._wait_for_posts() if self._webhook else self._poll())
        self._tasks = [loop.create_task(self._introduce())]

    async def ended(self) -> None:
        """Wait until taking updates ends, which only a refused token does; raises it."""
        assert self._main is not None
        await asyncio.shield(self._main)

    @property
    def not_taken_s(self) -> float:
        """Tell for how long every try to take updates has failed [s]."""
        since_s = self._failing_since_s
        return 0.0 if since_s is None else asyncio.get_running_loop().time() - since_s

    @property
    def is_polled_elsewhere(self) -> bool:
        """Whether somebody else took this bot's updates lately."""
        since_s = self._conflict_s
        return since_s is not None and asyncio.get_running_loop().time() - since_s < SPARRING_S

    async def stop(self) -> None:
        """Take no more updates, end the calls in flight, write what became of them, let go."""
        self._is_ending = True
        if self._webhook is not None:
            self._webhook.close()
        await self._hand_empty(FAREWELL_S)
        running = [task for task in (self._main, *self._tasks) if task is not None]
        for task in running:
            task.cancel()
        await asyncio.gather(*running, return_exceptions=True)
        if self._is_open:
            self._is_open = False
            await self._delivery.stop(FAREWELL_S)
            await self._flush()
        self._workers.shutdown()
        await self._wire.close()

    async def _hand_empty(self, within_s: float) -> None:
        """Let what is being written be written and handed to the senders."""
        loop = asyncio.get_running_loop()
        until_s = loop.time() + within_s
        while self._at_hand and loop.time() < until_s:  # noqa: ASYNC110 - once, at the end
            await asyncio.sleep(0.01)

    async def settled(self) -> None:
        """Wait until every update fetched is committed, every row due is sent, and its outcome written."""
        while True:
            await self._delivery.drained()
            await self._flush()
            if self._at_hand:
                await asyncio.sleep(0.002)
                continue
            await self.claim()
            if self._delivery.is_idle and not self._outcomes and not self._at_hand:
                return

    async def claim(self) -> None:
        """Claim rows that wait and hand them to the senders."""
        await self._claim(is_start=False)

    async def in_worker(self, work: Callable[[], T]) -> T:
        """Run something that uses the database where it belongs."""
        return await self._in_worker(work)

    async def fetch(self, file_id: str) -> bytes:
        """Fetch a file somebody sent."""
        return await self._wire.file(file_id)

    async def accept(self, raw: Any) -> None:
        """Take one update that came by webhook; returns when it is committed."""
        self._at_hand += 1
        try:
            await self._take(parse(raw, self.me))
        finally:
            self._at_hand -= 1

    async def _claim(self, *, is_start: bool) -> None:
        if limit := self._delivery.free:
            parcels = await self._in_worker(lambda: self._taker.claim(limit, is_start=is_start))
            self._is_more_waiting = bool(parcels)
            self._delivery.add(parcels)

    async def _send_backlog(self) -> None:
        """Send what the process before left, so that no new answer overtakes it; but not for ever."""
        loop = asyncio.get_running_loop()
        until_s = loop.time() + BACKLOG_S
        await self._claim(is_start=True)
        while not self._delivery.is_idle and loop.time() < until_s:
            await self._delivery.drained(within_s=until_s - loop.time())
            await self._flush()
            await self._claim(is_start=True)

    async def _reached(self, call: Callable[[], Awaitable[T]]) -> T:
        backoff_s = FIRST_BACKOFF_S
        while True:
            try:
                reached = await call()
            except TryLaterError as error:
                self._failing_since_s = self._failing_since_s or asyncio.get_running_loop().time()
                wait_s = error.after_s or backoff_s
                logger.warning("the platform cannot be reached (%s), next try in %.0f s", error, wait_s)
                await asyncio.sleep(wait_s)
                backoff_s = min(2 * backoff_s, LONGEST_BACKOFF_S)
            else:
                self._failing_since_s = None
                return reached

    async def _arrange(self) -> None:
        if self._webhook is None:
            await self._wire.call("deleteWebhook", {})
            return
        body = {
            "url": self._webhook.url,
            "secret_token": self._webhook.secret,
            "allowed_updates": list(ALLOWED),
        }
        await self._wire.call("setWebhook", body)

    async def _wait_for_posts(self) -> None:
        await asyncio.Event().wait()

    async def _poll(self) -> None:
        offset, backoff_s, now_s = 0, FIRST_BACKOFF_S, asyncio.get_running_loop().time
        while not self._is_ending:
            try:
                offset = await self._take_batch(await self._wire.updates(offset), offset)
                await self._delivery.drained(within_s=SET_OFF_S)
                backoff_s, self._failing_since_s = FIRST_BACKOFF_S, None
            except RefusedTokenError:
                logger.exception("the platform refuses the bot's token")
                raise
            except Exception as error:  # noqa: BLE001 - nothing but a refused token may end the loop
                self._failing_since_s = self._failing_since_s or now_s()
                if isinstance(error, OtherPollerError):
                    self._conflict_s = now_s()
                wait_s = (error.after_s if isinstance(error, TryLaterError) else None) or backoff_s
                logger.warning("no updates taken (%s), next try in %.0f s", _worded(error), wait_s)
                await asyncio.sleep(wait_s)
                backoff_s = min(2 * backoff_s, LONGEST_BACKOFF_S)

    async def _take_batch(self, raws: Sequence[Any], offset: int) -> int:
        """Take every update of a batch; only then may the next offset be asked for."""
        batch = [parse(raw, self.me) for raw in raws]
        self._at_hand += len(batch)
        try:
            if self._one_by_one:
                turns = in_turn(batch)
                for first in range(0, len(turns), TAKEN_AT_ONCE):
                    await self._take_now(turns[first : first + TAKEN_AT_ONCE])
            else:
                await _all(self._take(update) for update in batch)
        finally:
            self._at_hand -= len(batch)
        return max((one.update_id + 1 for one in batch if one.update_id is not None), default=offset)

    async def _take(self, update: Parsed) -> None:
        if self._one_by_one:
            await self._take_now([update])
            return
        lock = self._chats.setdefault(update.chat, asyncio.Lock())
        async with lock:
            await self._take_now([update])
        if not lock.locked():
            self._chats.pop(update.chat, None)

    async def _take_now(self, updates: Sequence[Parsed]) -> None:
        outcomes = self._pick_up()
        # straight from the worker: the answers set off before anybody here goes on to the next updates
        hand_on = asyncio.get_running_loop().call_soon_threadsafe
        self._writes += 1
        try:
            await self._in_worker(lambda: hand_on(self._delivery.add, self._taker.take(updates, outcomes)))
        except BaseException:
            self._outcomes[:0] = outcomes
            raise
        finally:
            self._writes -= 1
        self._forget_notes()

    def _tell(self, outcome: Outcome) -> None:
        if isinstance(outcome, Delivered):
            self._taker.note(outcome)
        self._outcomes.append(outcome)
        if self._flush_timer is None:
            loop = asyncio.get_running_loop()
            self._flush_timer = loop.call_later(FLUSH_AFTER_S, self._begin_flush)

    def _pick_up(self) -> list[Outcome]:
        outcomes, self._outcomes = self._outcomes, []
        if self._flush_timer is not None:
            self._flush_timer.cancel()
            self._flush_timer = None
        return outcomes

    def _forget_notes(self) -> None:
        if not self._outcomes and not self._writes:
            self._taker.forget_notes()

    def _begin_flush(self) -> None:
        self._flush_timer = None
        task = asyncio.get_running_loop().create_task(self._flush())
        self._flushes.add(task)
        task.add_done_callback(self._flushes.discard)

    async def _flush(self) -> None:
        async with self._writing:
            outcomes = self._pick_up()
            if not outcomes:
                return
            self._writes += 1
            try:
                await self._in_worker(lambda: self._taker.write(outcomes))
            except Exception:
                logger.exception("%d outcomes are not written yet", len(outcomes))
                for outcome in outcomes:
                    self._tell(outcome)
                return
            finally:
                self._writes -= 1
            self._forget_notes()
        if self._is_open and self._is_more_waiting and self._delivery.free > MOST_HELD // 2:
            await self._claim_unless_it_fails()

    async def _claim_unless_it_fails(self) -> None:
        try:
            await self.claim()
        except Exception:
            logger.exception("no waiting rows claimed this time")

    async def _introduce(self) -> None:
        try:
            await introduce(self._wire.bot)
        except Exception as error:  # noqa: BLE001 - menus and descriptions are a convenience
            logger.warning("menus and descriptions were not set: %s", type(error).__name__)

    async def _in_worker(self, work: Callable[[], T]) -> T:
        return await asyncio.get_running_loop().run_in_executor(self._workers, work)


async def _all(works: Iterable[Awaitable[None]]) -> None:
    """Wait for every one, then raise the first failure: the batch is asked for again as a whole."""
    for result in await asyncio.gather(*works, return_exceptions=True):
        if isinstance(result, BaseException):
            raise result


def _worded(error: Exception) -> str:
    """Name a failure of ours by its text, any other by its kind: its text may be a person's."""
    return str(error) if isinstance(error, TryLaterError | OtherPollerError) else type(error).__name__
