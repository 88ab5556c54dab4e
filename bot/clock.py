"""The one place that asks the time."""

import time
from datetime import UTC, datetime, timedelta


class Clock:
    """The machine's clock; the demo injects one that can be moved."""

    def now(self) -> datetime:
        """Tell the time. Aware UTC."""
        return datetime.now(UTC)  # noqa: TID251 - this is bot.clock

    def ahead(self) -> timedelta:
        """Tell how far this clock is ahead of the machine's, by which alone anything can wait."""
        return timedelta()

    def boot_s(self) -> float:
        """Tell the time since the machine was started [s], asleep or not; nobody can set it."""
        return time.clock_gettime(time.CLOCK_BOOTTIME)
