"""The health page and its counters, in the metrics text format; on loopback unless told otherwise."""

import asyncio
import re
from collections.abc import Awaitable, Callable, Iterator

from tornado.httpserver import HTTPServer
from tornado.web import Application, RequestHandler

from bot.domain.value import Value

LATE_S = 300.0
"""A message due for longer, or a clock's tick or taken update older, is unhealthy. Judgement. [s]"""
LEAST_DISK_BYTES = 100_000_000
"""A copy of the night and a week of photos need no more. Judgement."""
OLDEST_COPY_S = 2 * 86_400.0
"""One night's copy may be missed. Judgement. [s]"""


class Vitals(Value, kw_only=True):
    """What can be counted about a running bot."""

    households: int
    undelivered: int
    oldest_due_s: float
    given_up: int
    parked: int
    photos_wanted: int
    last_tick_s: float
    updates: int
    not_taken_s: float
    is_polled_elsewhere: bool
    clock_stepped_s: float
    disk_free_bytes: int
    copy_age_s: float | None
    """None as long as there is no copy; 0 where another program copies."""
    errors: int
    up_s: float

    def troubles(self) -> Iterator[str]:
        """Say what is wrong, worst first; nothing for a bot that is well."""
        if self.is_polled_elsewhere:
            yield "another program takes this bot's updates"
        if self.not_taken_s > LATE_S:
            yield f"no updates taken for {self.not_taken_s:.0f} s"
        if self.oldest_due_s > LATE_S:
            yield f"a message waits since {self.oldest_due_s:.0f} s"
        if self.last_tick_s > LATE_S:
            yield f"the timetable stands still since {self.last_tick_s:.0f} s"
        if self.clock_stepped_s:
            yield f"clock stepped by {self.clock_stepped_s:+.0f} s"
        if self.disk_free_bytes < LEAST_DISK_BYTES:
            yield f"{self.disk_free_bytes // 1_000_000} MB left on the disk"
        if (self.up_s if self.copy_age_s is None else self.copy_age_s) > OLDEST_COPY_S:
            yield "no copy of the database for two days"

    def remarks(self) -> Iterator[str]:
        """Say what an operator may want to know of a bot that is well."""
        if self.given_up:
            yield f"given-up messages: {self.given_up}"
        if self.copy_age_s is None:
            yield "last copy: none yet"
        elif self.copy_age_s:
            yield f"last copy: {self.copy_age_s / 3600:.0f} h ago"


METRICS = {
    "households": "Households kept.",
    "undelivered": "Messages still to be sent.",
    "oldest_due_s": "Age of the oldest message that could be sent now.",
    "given_up": "Messages that will never be sent, of the last month.",
    "parked": "Updates nobody could read.",
    "photos_wanted": "Photos still to be fetched.",
    "last_tick_s": "Time since a job of the timetable last ended.",
    "updates": "Updates taken since the start.",
    "not_taken_s": "Time in which no updates could be taken.",
    "is_polled_elsewhere": "Whether another program took updates of this bot lately.",
    "clock_stepped_s": "How far the system clock was set, until it is seen to be right.",
    "disk_free_bytes": "Room left where the data are.",
    "copy_age_s": "Age of the last copy of the database.",
    "errors": "Errors logged since the start.",
    "up_s": "Time since the start.",
}
"""What is counted; the unit is spelt out in a metric's name, and a counter ends in "total"."""
COUNTERS = frozenset({"updates", "errors"})


def as_metrics(vitals: Vitals) -> str:
    """Write the counters in the Prometheus text exposition format 0.0.4; what is not known is left out."""
    lines = []
    for field, about in METRICS.items():
        value, kind = getattr(vitals, field), "counter" if field in COUNTERS else "gauge"
        unit = re.sub("_s$", "_seconds", field.removeprefix("is_"))
        name = f"duskround_{unit}{'_total' if kind == 'counter' else ''}"
        if value is not None:
            lines += [f"# HELP {name} {about}", f"# TYPE {name} {kind}", f"{name} {float(value):.12g}"]
    return "\n".join(lines) + "\n"


class Health:
    """Serves /health (200 or 503) and /metrics."""

    def __init__(self, host: str, port: int, look: Callable[[], Awaitable[Vitals]]) -> None:
        self._host, self._port = host, port
        self._look = look
        self._server: HTTPServer | None = None

    def open(self) -> None:
        """Listen; OSError where the port is taken."""
        routes = [("/health", _Health, {"look": self._look}), ("/metrics", _Metrics, {"look": self._look})]
        self._server = HTTPServer(Application(routes, log_function=_silent))
        self._server.listen(self._port, self._host)

    def close(self) -> None:
        """Listen no more."""
        if self._server is not None:
            self._server.stop()
            self._server = None


class _Looking(RequestHandler):
    def initialize(self, look: Callable[[], Awaitable[Vitals]]) -> None:
        self._look = look

    async def vitals(self) -> Vitals | None:
        """Look, but never longer than a probe waits."""
        try:
            return await asyncio.wait_for(self._look(), 5)
        except Exception:  # noqa: BLE001 - whatever it is, the answer is that the bot is not well
            return None


class _Health(_Looking):
    async def get(self) -> None:
        vitals = await self.vitals()
        self.set_header("Content-Type", "text/plain; charset=utf-8")
        troubles = ["the bot does not answer"] if vitals is None else list(vitals.troubles())
        self.set_status(503 if troubles else 200)
        remarks = () if vitals is None else vitals.remarks()
        self.finish("\n".join(("not well" if troubles else "well", *troubles, *remarks)) + "\n")


class _Metrics(_Looking):
    async def get(self) -> None:
        vitals = await self.vitals()
        self.set_header("Content-Type", "text/plain; version=0.0.4; charset=utf-8")
        if vitals is None:
            self.set_status(503)
            return
        self.finish(as_metrics(vitals))


def _silent(_handler: RequestHandler) -> None:
    """Log no request."""
