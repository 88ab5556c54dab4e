"""The timetable: each job at its times, one at a time, and everything planned anew when the clock was set."""

import asyncio
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import UTC, datetime, timedelta

import pytest

from bot import evening
from bot.clock import Clock
from bot.evening import Every, Timetable, Work
from demo.running import SimulatedClock

HOUR = timedelta(hours=1)


class SetClock(Clock):
    """A machine's clock that somebody sets; what waits by it waits by the set time."""

    def __init__(self) -> None:
        self.off = timedelta()

    def now(self) -> datetime:
        return super().now() + self.off


class Log:
    """What was begun, in order."""

    def __init__(self, *, takes_s: float = 0, fails: str = "") -> None:
        self.begun: list[str] = []
        self.most = self.running = 0
        self.takes_s, self.fails = takes_s, fails

    def job(self, name: str) -> Callable[[], "asyncio.Future[None]"]:
        async def begin() -> None:
            self.begun.append(name)
            self.running += 1
            self.most = max(self.most, self.running)
            await asyncio.sleep(self.takes_s)
            self.running -= 1
            if name == self.fails:
                raise RuntimeError(name)

        return begin  # type: ignore[return-value]

    def work(self) -> Work:
        return Work(*map(self.job, ("evening", "claim", "upkeep", "look over", "stepped")))


@asynccontextmanager
async def timetable(
    log: Log, clock: Clock | None = None, look_over_s: float = 60
) -> AsyncIterator[Timetable]:
    made = Timetable(clock or Clock(), log.work(), look_over_s)
    made.start()
    yield made
    await made.stop()


@pytest.mark.asyncio
async def test_jobs_come_one_at_a_time_and_missed_ones_once() -> None:
    log = Log(takes_s=0.12)
    async with timetable(log, look_over_s=0.05):
        await asyncio.sleep(0.6)
    # worked by hand: each takes 0.12 s, so in 0.6 s at most five begin, where twelve were due
    assert 2 <= log.begun.count("look over") <= 5
    assert log.most == 1


@pytest.mark.asyncio
async def test_the_evening_begins_when_it_was_planned_and_only_then() -> None:
    log, clock = Log(), Clock()
    async with timetable(log, clock) as made:
        made.plan(clock.now() + HOUR)
        await asyncio.sleep(0.1)
        assert "evening" not in log.begun
        assert made.is_later_than(clock.now())
        made.plan_by(clock.now() + 2 * HOUR)  # later than planned: changes nothing
        made.plan_by(clock.now() + timedelta(seconds=0.1))
        await asyncio.sleep(0.4)
        assert log.begun.count("evening") == 1


@pytest.mark.asyncio
async def test_an_evening_no_longer_in_sight_does_not_begin() -> None:
    log, clock = Log(), Clock()
    async with timetable(log, clock) as made:
        made.plan(clock.now() + timedelta(seconds=0.2))
        made.plan(None)
        await asyncio.sleep(0.4)
        assert "evening" not in log.begun


@pytest.mark.asyncio
async def test_an_evening_long_past_begins_at_once() -> None:
    log, clock = Log(), Clock()
    async with timetable(log, clock) as made:
        made.plan(clock.now() - timedelta(days=7))
        await asyncio.sleep(0.2)
        assert log.begun.count("evening") == 1


@pytest.mark.asyncio
async def test_a_clock_of_another_time_waits_by_its_own() -> None:
    log, clock = Log(), SimulatedClock(Clock().now() + timedelta(days=400))
    async with timetable(log, clock) as made:
        made.plan(clock.now() + timedelta(seconds=0.1))
        await asyncio.sleep(0.4)
        assert log.begun.count("evening") == 1


@pytest.mark.asyncio
@pytest.mark.parametrize("by", [-2 * HOUR, 2 * HOUR, timedelta(days=-400), timedelta(days=400)])
async def test_a_clock_that_was_set_is_noticed_told_and_trusted_again(
    by: timedelta, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(evening, "WATCH_EVERY_S", 0.05)
    log, clock = Log(), SetClock()
    async with timetable(log, clock) as made:
        assert made.stepped_s == 0
        clock.off += by
        await asyncio.sleep(0.2)
        assert log.begun.count("stepped") == 1
        assert made.stepped_s == pytest.approx(by.total_seconds(), abs=1)
        await asyncio.sleep(0.2)
        assert log.begun.count("stepped") == 1
        made.trust()
        assert made.stepped_s == 0
        clock.off -= by
        await asyncio.sleep(0.2)
        assert log.begun.count("stepped") == 2


@pytest.mark.asyncio
async def test_a_clock_set_and_set_right_again_is_well_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(evening, "WATCH_EVERY_S", 0.05)
    log, clock = Log(), SetClock()
    async with timetable(log, clock) as made:
        clock.off += HOUR
        await asyncio.sleep(0.15)
        assert made.stepped_s
        clock.off -= HOUR
        await asyncio.sleep(0.15)
        assert made.stepped_s == 0


@pytest.mark.asyncio
async def test_jobs_go_on_after_the_clock_was_set_back(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(evening, "WATCH_EVERY_S", 0.05)
    log, clock = Log(fails="look over"), SetClock()
    async with timetable(log, clock, look_over_s=0.1) as made:
        await asyncio.sleep(0.25)
        assert log.begun.count("look over") >= 1  # one that fails comes again
        assert made.idle_s < 1
    made_again = Timetable(clock, log.work(), 60)
    await made_again.stop()
    await made_again.stop()


def test_what_was_missed_in_a_year_is_one_run() -> None:
    every, now = Every(seconds=2, timezone=UTC), Clock().now()
    first = every.get_next_fire_time(None, now)
    assert first is not None
    later = now + timedelta(days=365)
    following = every.get_next_fire_time(first, later)
    assert following is not None
    assert timedelta() < following - later <= timedelta(seconds=2)
