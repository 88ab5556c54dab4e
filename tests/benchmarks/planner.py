"""
The planner's two rows: the plan of one plant, and the slots of one evening, in loops of a calibration.

`python -m tests.benchmarks.planner`. A loop is a fixed piece of plain Python, timed in between, so that a slow or
busy machine slows both. On the machine the limits were set on a loop took 0.05 ms: 0.5 ms are ten, 2.5 ms fifty.
"""

import sys
import time
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from datetime import time as time_of_day
from statistics import median

from bot.catalogue.load import load
from bot.domain.course import due_step
from bot.domain.fold import fold
from bot.domain.identity import EntryId, HouseholdId, MemberId, PlaceId, PlantId, ProductId
from bot.domain.journal import (
    CheckedClean,
    Entry,
    Found,
    HouseholdSet,
    Payload,
    PlaceSet,
    PlantSet,
    ProductSet,
    Treated,
)
from bot.domain.label import Label
from bot.domain.outbreak import Outbreak
from bot.domain.progress import progress
from bot.domain.slot import Habits, slots
from bot.domain.sun import Site
from bot.domain.trade import Grade, Level, Method
from bot.domain.window import Exposure, Facing

LOOP = 875
TURNS = 60
LIMITS = {"gap, window, release of one plant": 10.0, "slots of one evening, 4 exposures": 50.0}
START = date(2026, 3, 1)
SITE = Site(51.1, 3.7, "Europe/Brussels")
FACINGS = (Facing.S, Facing.SW, Facing.W, Facing.NW)


def calibration() -> float:
    """Do one loop."""
    total = 0.0
    for number in range(LOOP):
        total += number * 1.000001
    return total


def journal() -> list[Entry]:
    """Sixty entries of one plant: a find, a spray a week, looks in between."""
    told: list[tuple[int, PlantId | None, Payload]] = [
        (0, None, HouseholdSet(town="Ghent", latitude=51.1, longitude=3.7, zone="Europe/Brussels")),
        (0, None, PlaceSet(place=PlaceId(1), name="landing", facing=Facing.W, usual_c=21)),
        (0, None, ProductSet(product=ProductId(1), ingredient="soap", label=Label(gap_days=7))),
        (0, PlantId(1), PlantSet(name="hoya", place=PlaceId(1), pot_cm=15)),
        (1, PlantId(1), Found(pest="longtailed_mealybug", grade=Grade.SOME, count=12)),
    ]
    for number in range(55):
        spray = Treated(method=Method.SPRAY, product=ProductId(1))
        told.append((2 + number, PlantId(1), spray if number % 7 == 0 else CheckedClean(Level.PLAIN)))
    return [
        Entry(
            id=EntryId(number + 1),
            household=HouseholdId(1),
            member=MemberId(1),
            plant=plant,
            happened_at=datetime.combine(START, datetime.min.time(), UTC) + timedelta(days=day, hours=12),
            happened_on=START + timedelta(days=day),
            recorded_at=datetime.combine(START, datetime.min.time(), UTC) + timedelta(days=day, hours=12),
            source=f"update:{number}",
            payload=payload,
            void_of=None,
        )
        for number, (day, plant, payload) in enumerate(told)
    ]


def plan_once() -> Callable[[int], object]:
    """Plan one plant: gap and window, release and its forecast; another day each time."""
    household, knowledge = fold(journal()), load().knowledge
    plant = household.plants[PlantId(1)]
    (case,) = plant.open_cases

    def once(turn: int) -> object:
        day = START + timedelta(days=58 + turn % 7)
        outbreak = Outbreak(household=household, knowledge=knowledge, plant=plant, case=case, today=day)
        return due_step(outbreak), progress(outbreak).release

    return once


def slots_once() -> Callable[[int], object]:
    """Find the slots of one evening for four exposures, another day each time."""
    habits = Habits(preferred=time_of_day(20), quiet_from=time_of_day(22), quiet_until=time_of_day(8))
    exposures = tuple(Exposure(facing=facing) for facing in FACINGS)

    def once(turn: int) -> object:
        day = START + timedelta(days=turn)
        return slots(day, exposures, SITE, habits, datetime.combine(day, datetime.min.time(), UTC))

    return once


def loops(work: Callable[[int], object]) -> float:
    """Time the work in calibration loops, both in turns."""
    ratios = []
    for turn in range(TURNS):
        start = time.perf_counter()
        calibration()
        middle = time.perf_counter()
        work(turn)
        ratios.append((time.perf_counter() - middle) / (middle - start))
    return median(ratios[TURNS // 10 :])


def compare() -> int:
    """Print the rows; the exit code says whether they are within the limits."""
    works = dict(zip(LIMITS, (plan_once(), slots_once()), strict=True))
    print("planner, in loops of the calibration")
    print(f"{'':<36}{'loops':>8}{'limit':>8}")
    is_slow = False
    for name, work in works.items():
        taken = loops(work)
        is_slow = is_slow or taken > LIMITS[name]
        print(f"{name:<36}{taken:>8.1f}{LIMITS[name]:>8.0f}")
    return int(is_slow)


if __name__ == "__main__":
    sys.exit(compare())
