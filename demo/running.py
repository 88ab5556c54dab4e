"""Run the real bot against the stand-in, in one process, on a clock that can be moved."""

import tempfile
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from bot.app import App, assemble
from bot.clock import Clock
from bot.domain.fold import fold
from bot.settings import Secret, Settings
from bot.storage.store import SqlStore
from demo.standin import StandIn

TOKEN = "100:demo"  # noqa: S105 - the stand-in's, worth nothing anywhere else
OWNER = 1
PATIENCE_S = 20.0
"""How long the bot may take over one update. [s]"""
SEARCH = timedelta(days=60)
"""How far "next nudge" looks ahead."""


class SimulatedClock(Clock):
    """Runs at normal speed from where it was put."""

    def __init__(self, start: datetime) -> None:
        self._ahead = start - super().now()

    def now(self) -> datetime:
        """Tell the simulated time. Aware UTC."""
        return super().now() + self._ahead

    def ahead(self) -> timedelta:
        """Tell how far it is ahead of the machine's clock."""
        return self._ahead

    def jump(self, span: timedelta) -> None:
        """Jump by any span, also back, as a clock does that is set."""
        self._ahead += span

    def move_to(self, at: datetime) -> None:
        """Put the clock forward."""
        self._ahead += max(at - self.now(), timedelta())


@dataclass(slots=True)
class Running:
    """The bot, the stand-in and their clock."""

    app: App
    standin: StandIn
    clock: SimulatedClock

    async def settled(self) -> None:
        """Wait until the bot has fetched and committed every update and sent every answer."""
        pending = self.standin.updates.pending
        if pending:
            await self.standin.updates.confirmed(pending[-1]["update_id"], PATIENCE_S)
        await self.app.settled()

    async def zone_of(self, chat: int) -> str | None:
        """Tell the zone a chat's home lives by, None as long as it told none."""

        def told(store: SqlStore) -> str | None:
            member = store.member(chat, chat)
            household = None if member is None else fold(store.entries(member.household))
            return household.zone_name if household is not None and household.is_zone_told else None

        return await self.app.look(told)

    async def move_clock(self, step: dict[str, Any]) -> None:
        """Move forward, letting everything due on the way happen in order."""
        await self.settled()
        if step.get("to_next_nudge"):
            await self._to_next_nudge()
            return
        now = self.clock.now()
        to = (
            datetime.fromisoformat(step["to"])
            if "to" in step
            else now + timedelta(seconds=float(step["by_seconds"]))
        )
        while await self._run_next(to):
            pass
        self.clock.move_to(to.astimezone(UTC))
        await self.app.look_over()

    async def _to_next_nudge(self) -> None:
        end = self.clock.now() + SEARCH
        sent = self.standin.calls.get("sendMessage", 0)
        while self.standin.calls.get("sendMessage", 0) == sent and await self._run_next(end):
            pass

    async def _run_next(self, end: datetime) -> bool:
        """Run what is due next, if it is due by then."""
        due = await self.app.next_evening_at()
        if due is None or due > end:
            return False
        self.clock.move_to(due)
        await self.app.tick()
        await self.app.settled()
        after = await self.app.next_evening_at()
        return after is None or after > due


@asynccontextmanager
async def running(
    start: datetime | None = None, data: Path | None = None, port: int = 0
) -> AsyncIterator[Running]:
    """Start stand-in and bot; stop both at the end. Without a data folder everything is forgotten then."""
    clock = SimulatedClock(start or Clock().now())
    # a folder that is kept remembers the numbers of its updates: they must go on rising after a restart
    first_update = 1 if data is None else int(1000 * Clock().now().timestamp())
    standin = StandIn(token=TOKEN, clock=clock.now, first_update=first_update)
    await standin.start(port)
    try:
        with tempfile.TemporaryDirectory(prefix="duskround-demo-") as temporary:
            settings = Settings(
                token=Secret(TOKEN), owner=OWNER, data=data or Path(temporary), api_url=standin.url
            )
            app = assemble(settings, clock, pacing=False)
            await app.start()
            try:
                whole = Running(app, standin, clock)
                standin.settled = whole.settled
                standin.move_clock = whole.move_clock
                standin.zone_of = whole.zone_of
                yield whole
            finally:
                await app.stop()
    finally:
        await standin.stop()
