"""The door opened by the clock: ticks, and nothing else; what is due stands in the database."""

from collections.abc import Awaitable, Callable
from datetime import UTC

from apscheduler.schedulers.asyncio import AsyncIOScheduler


class Evening:
    """Calls `tick` every so many seconds, one at a time, and once for all ticks missed meanwhile."""

    def __init__(self, tick: Callable[[], Awaitable[None]], tick_seconds: float) -> None:
        self._scheduler = AsyncIOScheduler(
            timezone=UTC, job_defaults={"coalesce": True, "misfire_grace_time": None, "max_instances": 1}
        )
        self._tick = tick
        self._scheduler.add_job(self._once, "interval", seconds=tick_seconds, id="tick")

    def start(self) -> None:
        """Begin to tick on the running event loop."""
        self._scheduler.start()

    def stop(self) -> None:
        """Tick no more; a tick under way is left to end."""
        if self._scheduler.running:
            self._scheduler.shutdown(wait=False)

    async def _once(self) -> None:
        await self._tick()
