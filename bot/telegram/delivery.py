"""Senders: claimed outbox rows go out, in order inside a chat, and what became of each is told."""

import asyncio
import logging
from collections import deque
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Any, Protocol

from bot.domain.value import Value, replace
from bot.telegram.failures import (
    AlreadySettledError,
    ChatMovedError,
    NothingThereError,
    TryLaterError,
    UndeliverableError,
)
from bot.telegram.pacing import Pace

SENDERS = 4
CHAT_BURST = 5
CHAT_PER_S = 1.0
NUDGES_PER_S = 25.0
NUDGE_KEY = "nudge:"
HOLD_S = 20.0
LONGEST_HOLD_S = 40.0
LONGEST_CALL_S = 15.5
"""A call gives up by itself after 15 s; with the rest of a stop that is less than the unit's 20 s."""
MOST_HELD = 200
PACES_SWEPT_ABOVE = 10_000
FIRST_RETRY_S = 1.0
LONGEST_RETRY_S = 300.0
MOST_TRIES = 50

logger = logging.getLogger(__name__)


class Parcel(Value, kw_only=True):
    """An outbox row claimed by this process."""

    id: int
    key: str
    chat: int
    method: str
    body: dict[str, Any]
    tries: int = 0


class Delivered(Value):
    """The platform took it; message_id is its number for the message, if it made one."""

    row: int
    key: str
    message_id: int | None


class Delayed(Value):
    """To be sent again, not before so many seconds from now."""

    row: int
    after_s: float
    error: str


class GivenUp(Value):
    """Will never be taken."""

    row: int
    error: str


class ChatMoved(Value):
    """A chat has another id."""

    chat: int
    to: int


Outcome = Delivered | Delayed | GivenUp | ChatMoved


class Caller(Protocol):
    """What the senders need of the platform."""

    async def call(self, method: str, body: dict[str, Any]) -> Any:
        """Call one method; what it gives holds `message_id` where it made a message."""


@dataclass(slots=True)
class _Lane:
    """One chat's parcels in order, and since when they are held here."""

    parcels: deque[tuple[Parcel, float]] = field(default_factory=deque)
    is_running: bool = False
    retry_s: float = FIRST_RETRY_S


class Delivery:
    """
    One lane a chat, `SENDERS` calls at a time over all chats.

    A lane waits by itself: for its pace, for a 429 of its chat, for the network. What cannot be sent within
    HOLD_S [s] goes back to the database with the time before which it must not be tried, and nothing is sent
    after LONGEST_HOLD_S [s], long before the lease ends and another process may send it.
    """

    def __init__(self, caller: Caller, told: Callable[[Outcome], None], *, pacing: bool = True) -> None:
        self._caller = caller
        self._told = told
        self._pacing = pacing
        self._lanes: dict[int, _Lane] = {}
        self._paces: dict[int, Pace] = {}
        self._held: set[int] = set()
        self._tasks: set[asyncio.Task[None]] = set()
        self._is_ending = False
        self._calling: set[asyncio.Task[None] | None] = set()
        self._senders = asyncio.Semaphore(SENDERS)
        self._now_s = asyncio.get_running_loop().time
        self._nudges = Pace(1, NUDGES_PER_S, self._now_s)

    @property
    def is_idle(self) -> bool:
        """Whether nothing is held here."""
        return not self._held

    @property
    def free(self) -> int:
        """How many more parcels to take from the database at once."""
        return max(0, MOST_HELD - len(self._held))

    def add(self, parcels: Iterable[Parcel]) -> None:
        """Take parcels in their order; those held already are not taken twice."""
        now_s = self._now_s()
        for parcel in parcels:
            if parcel.id in self._held:
                continue
            self._held.add(parcel.id)
            lane = self._lanes.setdefault(parcel.chat, _Lane())
            lane.parcels.append((parcel, now_s))
            if not lane.is_running:
                lane.is_running = True
                self._begin(parcel.chat, lane)

    async def drained(self, within_s: float | None = None) -> None:
        """Wait until nothing is held here, or for so long [s]."""
        while self._tasks:
            _, still_held = await asyncio.wait(set(self._tasks), timeout=within_s)
            if still_held:
                return

    async def stop(self, within_s: float) -> None:
        """
        Begin new calls for a moment, then let those in flight end; the rest is left to the next start.

        A call that is cut off may have been heard: it would be made again, and somebody read it twice.
        """
        if self._tasks:
            await asyncio.wait(set(self._tasks), timeout=within_s)
        for task in self._tasks - self._calling:
            task.cancel()
        self._is_ending = True
        if self._calling:
            await asyncio.wait(set(self._tasks), timeout=LONGEST_CALL_S)
        for task in self._tasks:
            task.cancel()
        await asyncio.gather(*self._tasks, return_exceptions=True)

    def _begin(self, chat: int, lane: _Lane) -> None:
        task = asyncio.get_running_loop().create_task(self._run(chat, lane))
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)

    async def _run(self, chat: int, lane: _Lane) -> None:
        try:
            while lane.parcels and not self._is_ending:
                await self._send_first(lane)
        finally:
            lane.is_running = False
            self._lanes.pop(chat, None)

    async def _send_first(self, lane: _Lane) -> None:
        parcel, since_s = lane.parcels[0]
        await self._take_turn(parcel)
        if self._now_s() - since_s > LONGEST_HOLD_S:
            self._hand_back(lane, 0.0, "held too long")
            return
        try:
            async with self._senders:
                result = await self._called(parcel)
        except AlreadySettledError:
            self._leave(lane, Delivered(parcel.id, parcel.key, None))
        except (UndeliverableError, NothingThereError) as error:
            logger.warning("outbox row %d given up: %s", parcel.id, error)
            self._leave(lane, GivenUp(parcel.id, str(error)))
        except ChatMovedError as error:
            lane.parcels[0] = (_readdressed(parcel, error.to), since_s)
            self._told(ChatMoved(parcel.chat, error.to))
        except TryLaterError as error:
            await self._wait_or_hand_back(lane, error)
        except Exception as error:
            logger.exception("outbox row %d failed for now", parcel.id)
            await self._wait_or_hand_back(lane, TryLaterError(type(error).__name__))
        else:
            self._leave(lane, Delivered(parcel.id, parcel.key, _message_id(result)))
            lane.retry_s = FIRST_RETRY_S

    async def _called(self, parcel: Parcel) -> Any:
        task = asyncio.current_task()
        self._calling.add(task)
        try:
            return await self._caller.call(parcel.method, parcel.body)
        finally:
            self._calling.discard(task)

    def _leave(self, lane: _Lane, outcome: Delivered | GivenUp) -> None:
        lane.parcels.popleft()
        self._held.discard(outcome.row)
        self._told(outcome)

    async def _wait_or_hand_back(self, lane: _Lane, error: TryLaterError) -> None:
        wait_s = error.after_s if error.after_s is not None else lane.retry_s
        lane.retry_s = min(2 * lane.retry_s, LONGEST_RETRY_S)
        since_s = lane.parcels[0][1]
        if self._now_s() + wait_s - since_s <= HOLD_S and not self._is_ending:
            await asyncio.sleep(wait_s)
            return
        self._hand_back(lane, wait_s, str(error))

    def _hand_back(self, lane: _Lane, wait_s: float, error: str) -> None:
        while lane.parcels:
            parcel, _ = lane.parcels.popleft()
            self._held.discard(parcel.id)
            self._told(_handed_back(parcel, wait_s, error))

    async def _take_turn(self, parcel: Parcel) -> None:
        if not self._pacing or not parcel.method.startswith("send"):
            return
        if parcel.key.startswith(NUDGE_KEY):
            await self._nudges.turn()
        await self._pace_of(parcel.chat).turn()

    def _pace_of(self, chat: int) -> Pace:
        if len(self._paces) > PACES_SWEPT_ABOVE and chat not in self._paces:
            self._paces = {key: pace for key, pace in self._paces.items() if not pace.is_rested}
        return self._paces.setdefault(chat, Pace(CHAT_BURST, CHAT_PER_S, self._now_s))


def _handed_back(parcel: Parcel, wait_s: float, error: str) -> Outcome:
    if parcel.tries >= MOST_TRIES:
        return GivenUp(parcel.id, error)
    waits_s = min(wait_s * 2 ** min(parcel.tries, 8), LONGEST_RETRY_S)
    return Delayed(parcel.id, max(wait_s, waits_s), error)


def _readdressed(parcel: Parcel, chat: int) -> Parcel:
    return replace(parcel, chat=chat, body=parcel.body | {"chat_id": chat})


def _message_id(result: Any) -> int | None:
    number = result.get("message_id") if isinstance(result, dict) else None
    return number if isinstance(number, int) else None
