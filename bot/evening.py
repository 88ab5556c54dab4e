"""The door opened by the clock: four jobs of APScheduler, and a watch beside it for a clock that was set."""

import asyncio
import logging
from collections.abc import Awaitable, Callable, Mapping
from datetime import UTC, datetime, timedelta
from functools import partial

from apscheduler.schedulers.asyncio import AsyncIOScheduler
from apscheduler.triggers.base import BaseTrigger
from apscheduler.triggers.cron import CronTrigger
from apscheduler.triggers.date import DateTrigger
from apscheduler.triggers.interval import IntervalTrigger

from bot.clock import Clock
from bot.domain.value import Value
from bot.logs import without_values

CLAIM_EVERY_S = 2.0
UPKEEP_AT = {"hour": 3, "minute": 17}
"""UTC: early in most of our homes, and not at a full hour, when everybody's jobs run. Judgement."""
WATCH_EVERY_S = 1.0
PATIENCE_S = 3.0
"""So long a stop waits for jobs under way. [s]"""
STEP_S = 2.0
"""A clock that moves against the monotonic one by more was set, or the machine slept. Judgement. [s]"""

Job = Callable[[], Awaitable[None]]
logger = logging.getLogger(__name__)


class Work(Value):
    """What the clock starts; each may run for long, none twice at once."""

    evening: Job
    claim: Job
    upkeep: Job
    look_over: Job
    stepped: Job
    """After the clock was set: every instant in the database that waits is to be derived anew."""


class Every(IntervalTrigger):  # type: ignore[misc]  # the library is untyped
    """
    Fires at even intervals, and once for all that were missed.

    The library's own counts every missed run one by one, and would hold the event loop for a minute after a
    clock was set ahead by a year.
    """

    def get_next_fire_time(self, previous_fire_time: datetime | None, now: datetime) -> datetime | None:
        """Give the next of its instants after now, whenever it fired last."""
        del previous_fire_time
        after: datetime | None = super().get_next_fire_time(None, now + timedelta(microseconds=1))
        return after


class Timetable:
    """
    Runs the work at its times.

    The scheduler sleeps by the monotonic clock until an instant of the system's: one that is set back
    meanwhile would make it wait by as much longer. So the watch compares the two and plans everything anew.
    """

    def __init__(self, clock: Clock, work: Work, look_over_s: float) -> None:
        self._clock = clock
        self._work = work
        self._scheduler = AsyncIOScheduler(
            timezone=UTC, job_defaults={"coalesce": True, "misfire_grace_time": None, "max_instances": 1}
        )
        self._triggers: Mapping[str, tuple[Job, Callable[[], BaseTrigger]]] = {
            "claim": (work.claim, partial(Every, seconds=CLAIM_EVERY_S, timezone=UTC)),
            "look over": (work.look_over, partial(Every, seconds=look_over_s, timezone=UTC)),
            "upkeep": (work.upkeep, partial(CronTrigger, **UPKEEP_AT, timezone=UTC)),
        }
        self._watch: asyncio.Task[None] | None = None
        self._running: set[asyncio.Task[object]] = set()
        self._planned_at: datetime | None = None
        self._trusted_s = self._ahead_of_boot_s()
        self._ran_s: float | None = None

    @property
    def stepped_s(self) -> float:
        """How far the system clock was set, as long as nothing has shown that it is right [s]; 0 for not."""
        moved_s = self._ahead_of_boot_s() - self._trusted_s
        return moved_s if abs(moved_s) > STEP_S else 0.0

    @property
    def idle_s(self) -> float:
        """Time since a job last ended [s]; 0 before the first could."""
        return 0.0 if self._ran_s is None else asyncio.get_running_loop().time() - self._ran_s

    def trust(self) -> None:
        """Take the clock for right as it stands: somebody else's agrees with it."""
        self._trusted_s = self._ahead_of_boot_s()

    def start(self) -> None:
        """Begin on the running event loop."""
        loop = asyncio.get_running_loop()
        self._ran_s = loop.time()
        for name, (job, trigger) in self._triggers.items():
            self._scheduler.add_job(partial(self._run, name, job), trigger(), id=name)
        self._scheduler.start()
        self._watch = loop.create_task(self._compare(self._machine_s() - loop.time()))

    async def stop(self) -> None:
        """Start nothing more; what is under way is left to end."""
        if self._running:
            self._scheduler.pause()
            await asyncio.wait(set(self._running), timeout=PATIENCE_S)
        if self._scheduler.running:
            self._scheduler.shutdown(wait=False)
        if self._watch is not None:
            self._watch.cancel()
            await asyncio.gather(self._watch, return_exceptions=True)

    def plan(self, at: datetime | None) -> None:
        """Have the evening begin at an instant of the bot's clock; None for none in sight."""
        self._planned_at = at
        if at is None:
            if self._scheduler.get_job("evening") is not None:
                self._scheduler.remove_job("evening")
            return
        job, trigger = partial(self._run, "evening", self._work.evening), DateTrigger(self._on_machine(at))
        self._scheduler.add_job(job, trigger, id="evening", replace_existing=True)

    def plan_by(self, at: datetime | None) -> None:
        """Have the evening begin by then at the latest; from any thread's word, in the event loop."""
        if at is not None and (self._planned_at is None or at < self._planned_at):
            self.plan(at)

    def is_later_than(self, at: datetime | None) -> bool:
        """Whether the evening planned comes too late for an instant."""
        return at is not None and (self._planned_at is None or at < self._planned_at)

    def start_now(self, name: str) -> None:
        """Run a job at once, and then at its times."""
        self._scheduler.modify_job(name, next_run_time=self._on_machine(self._clock.now()))

    async def _run(self, name: str, job: Job) -> None:
        task = asyncio.current_task()
        assert task is not None
        self._running.add(task)
        try:
            await job()
        except asyncio.CancelledError:
            logger.info("%s was cut off by a stop", name)
        except Exception as error:  # noqa: BLE001 - one that fails is tried at its next time
            logger.error("%s failed: %s", name, without_values(error))  # noqa: TRY400
        finally:
            self._running.discard(task)
        self._ran_s = asyncio.get_running_loop().time()

    async def _compare(self, before_s: float) -> None:
        """Notice that the system clock was set, or the machine slept, and plan everything anew."""
        loop = asyncio.get_running_loop()
        while True:
            await asyncio.sleep(WATCH_EVERY_S)
            now_s = self._machine_s() - loop.time()
            if abs(now_s - before_s) > STEP_S:
                logger.warning("the clock moved by %+.0f s: everything is planned anew", now_s - before_s)
                for name, (_, trigger) in self._triggers.items():
                    self._scheduler.reschedule_job(name, trigger=trigger())
                await self._run("planning anew", self._work.stepped)
            before_s = now_s

    def _on_machine(self, at: datetime) -> datetime:
        return at - self._clock.ahead()

    def _machine_s(self) -> float:
        return self._on_machine(self._clock.now()).timestamp()

    def _ahead_of_boot_s(self) -> float:
        return self._machine_s() - self._clock.boot_s()
