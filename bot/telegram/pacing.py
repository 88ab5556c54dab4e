"""How fast one may speak: a burst, then a steady rate."""

import asyncio
from collections.abc import Callable


class Pace:
    """
    A bucket of `burst` messages refilled with `per_s` a second.

    The platform asks for about one message a second in a chat, short bursts allowed, and about 30 a second
    over all chats for bulk messages; exact limits are not published.
    """

    def __init__(self, burst: int, per_s: float, now_s: Callable[[], float]) -> None:
        self._interval_s = 1 / per_s
        self._slack_s = (burst - 1) * self._interval_s
        self._now_s = now_s
        self._next_s = 0.0

    def wait_s(self) -> float:
        """Take the next turn and tell how long it is away. [s]."""
        now_s = self._now_s()
        turn_s = max(self._next_s, now_s - self._slack_s)
        self._next_s = turn_s + self._interval_s
        return max(0.0, turn_s - now_s)

    @property
    def is_rested(self) -> bool:
        """Whether a whole burst is free again, so that nothing is lost by forgetting it."""
        return self._next_s <= self._now_s() - self._slack_s

    async def turn(self) -> None:
        """Wait for the next turn."""
        wait_s = self.wait_s()
        if wait_s:
            await asyncio.sleep(wait_s)
