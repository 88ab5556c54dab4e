"""One line an event, for machines and people: when, how bad, where, what; never a person's words."""

import logging
import threading
import traceback
from datetime import UTC, datetime

LIBRARIES = ("httpx", "httpcore", "telegram", "apscheduler", "tornado", "PIL", "matplotlib", "alembic")
"""Their own lines carry the token and people's words."""


def without_values(error: BaseException) -> str:
    """Tell the kind and the places of a failure; its text could hold a person's words."""
    frames = traceback.extract_tb(error.__traceback__)
    places = " < ".join(f"{frame.filename}:{frame.lineno} {frame.name}" for frame in reversed(frames))
    return f"{type(error).__name__} at {places}"


class LineFormatter(logging.Formatter):
    """`ts=... level=... at=... event="..."`: an exception adds its kind and places, never its text."""

    def format(self, record: logging.LogRecord) -> str:
        """Give one line."""
        at = datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds")
        event = _quoted(record.getMessage())
        line = f"ts={at} level={record.levelname.lower()} at={record.name} event={event}"
        error = record.exc_info[1] if record.exc_info else None
        return line if error is None else f"{line} error={_quoted(without_values(error))}"


def _quoted(text: str) -> str:
    flat = " ".join(text.split()).replace("\\", "\\\\").replace('"', '\\"')
    return f'"{flat}"'


def set_up_logging(level: str = "warning") -> None:
    """Log to standard error, quiet by default; the libraries speak only of failures, by our words."""
    handler = logging.StreamHandler()
    handler.setFormatter(LineFormatter())
    logging.basicConfig(level=level.upper(), handlers=[handler])
    for name in LIBRARIES:
        logging.getLogger(name).setLevel(logging.CRITICAL)


class Troubles(logging.Handler):
    """Counts errors and keeps where the last one was, for the operator's chat and the health page."""

    def __init__(self) -> None:
        super().__init__(logging.ERROR)
        self._guard = threading.Lock()
        self.count = 0
        self._fresh = 0
        self._last = ""

    def emit(self, record: logging.LogRecord) -> None:
        """Note one error."""
        error = record.exc_info[1] if record.exc_info else None
        with self._guard:
            self.count += 1
            self._fresh += 1
            # the record's own words are ours, its values may be numbers: neither is anybody's text
            kind = "" if error is None else f" ({type(error).__name__})"
            self._last = f"{record.name}: {record.msg}{kind}"

    def take(self) -> tuple[int, str]:
        """Give how many errors are new and the last one's place, and forget them."""
        with self._guard:
            fresh, self._fresh = self._fresh, 0
            return fresh, self._last
