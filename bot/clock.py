"""The one place that asks the time."""

from datetime import UTC, datetime


class Clock:
    """The machine's clock; the demo injects one that can be moved."""

    def now(self) -> datetime:
        """Tell the time. Aware UTC."""
        return datetime.now(UTC)  # noqa: TID251 - this is bot.clock
