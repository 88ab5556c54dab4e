"""The health page and its counters, in the metrics text format; on loopback unless told otherwise."""

import asyncio
from collections.abc import Awaitable, Callable
from dataclasses import dataclass

from tornado.httpserver import HTTPServer
from tornado.web import Application, RequestHandler

LATE_S = 300.0
"""A message due for longer, or a tick older, is unhealthy. Judgement. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Vitals:
    """What can be counted about a running bot."""

    households: int
    undelivered: int
    oldest_due_s: float
    parked: int
    photos_wanted: int
    last_tick_s: float
    updates: int
    errors: int
    up_s: float

    @property
    def is_well(self) -> bool:
        """Whether messages go out and the clock ticks."""
        return self.oldest_due_s < LATE_S and self.last_tick_s < LATE_S


METRICS = (
    ("duskround_households", "gauge", "Households kept.", "households"),
    ("duskround_undelivered", "gauge", "Messages still to be sent.", "undelivered"),
    (
        "duskround_oldest_due_seconds",
        "gauge",
        "Age of the oldest message that could be sent now.",
        "oldest_due_s",
    ),
    ("duskround_parked", "gauge", "Updates nobody could read.", "parked"),
    ("duskround_photos_wanted", "gauge", "Photos still to be fetched.", "photos_wanted"),
    ("duskround_last_tick_seconds", "gauge", "Time since the evening clock last ticked.", "last_tick_s"),
    ("duskround_updates_total", "counter", "Updates taken since the start.", "updates"),
    ("duskround_errors_total", "counter", "Errors logged since the start.", "errors"),
    ("duskround_up_seconds", "gauge", "Time since the start.", "up_s"),
)


def as_metrics(vitals: Vitals) -> str:
    """Write the counters in the Prometheus text exposition format 0.0.4."""
    lines = []
    for name, kind, about, field in METRICS:
        lines += [f"# HELP {name} {about}", f"# TYPE {name} {kind}", f"{name} {getattr(vitals, field):g}"]
    return "\n".join(lines) + "\n"


class Health:
    """Serves /health (200 or 503) and /metrics."""

    def __init__(self, host: str, port: int, look: Callable[[], Awaitable[Vitals]]) -> None:
        self._host, self._port = host, port
        self._look = look
        self._server: HTTPServer | None = None

    def open(self) -> None:
        """Listen."""
        routes = [
            ("/health", _Health, {"look": self._look}),
            ("/metrics", _Metrics, {"look": self._look}),
        ]
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
        is_well = vitals is not None and vitals.is_well
        self.set_status(200 if is_well else 503)
        self.finish("well\n" if is_well else "not well\n")


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
