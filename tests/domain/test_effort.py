"""What goes first, by hand; and that nothing is ever lost by putting it in order."""

from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st

from bot.domain.effort import MINUTES, Sort, chores, given_up, triage, within
from bot.domain.identity import PlantId
from bot.domain.journal import CheckedClean, IsolatedNow, PlantSet, RoutineSet
from bot.domain.trade import Grade, Level
from tests.domain.telling import DAY, FERN, HOYA, IVY, KNOWLEDGE, LANDING, STUDY, Telling, home

CITRUS, MITES = "citrus_mealybug", "spider_mite"


def test_bad_and_near_the_healthy_comes_first_and_looks_last() -> None:
    telling = home()
    telling.tell(PlantSet(name="palm", place=STUDY), plant=PlantId(9))
    telling.tell(RoutineSet(name="check", rule="FREQ=DAILY"), -9)
    telling.find(IVY, CITRUS, 0, Grade.SOME)  # beside the palm
    telling.find(HOYA, CITRUS, 0, Grade.MANY)  # beside the fern, and bad
    household = telling.household
    found = chores(household, KNOWLEDGE, telling.plan(0).on(DAY))
    assert [one.plant for one in found][:2] == [HOYA, IVY]
    assert {one.plant for one in found[2:]} <= {FERN, PlantId(9)}
    telling.tell(IsolatedNow(), 0, plant=HOYA)
    telling.find(IVY, CITRUS, 0, Grade.MANY)
    found = chores(telling.household, KNOWLEDGE, telling.plan(0).on(DAY))
    assert found[0].plant == IVY, "the hoya is apart: it spreads no more"


@given(
    st.lists(st.tuples(st.sampled_from([HOYA, FERN, IVY]), st.sampled_from(Grade)), max_size=5),
    st.integers(1, 120),
)
def test_nothing_is_lost_and_the_time_is_kept(finds: list[tuple[PlantId, Grade]], minutes: int) -> None:
    telling = home()
    for plant, grade in finds:
        telling.find(plant, CITRUS, 0, grade)
    tasks = telling.plan(0).on(DAY)
    found = chores(telling.household, KNOWLEDGE, tasks)
    now, later = within(found, minutes)
    assert sorted(one.plant for one in (*now, *later)) == sorted({task.plant for task in tasks})
    assert sum(len(one.tasks) for one in found) == len(tasks)
    assert sum(one.minutes for one in now) <= minutes or len(now) <= 1


def test_a_triage_gives_up_what_is_bad_and_hard_and_counts_the_hours() -> None:
    # Ivy, many mites, 25 degC: hard to win from 23, and bad: discard. Hoya, many: cut. Fern beside it: watch.
    telling = home(celsius=25, label_days=5)
    telling.find(IVY, MITES, 0, Grade.MANY)
    telling.find(HOYA, CITRUS, 0, Grade.MANY)
    found = triage(telling.household, KNOWLEDGE, telling.plan(0), DAY)
    assert found.sorts == {Sort.DISCARD: (IVY,), Sort.CUT: (HOYA,), Sort.TREAT: (), Sort.WATCH: (FERN,)}
    assert set(given_up(telling.household, KNOWLEDGE, DAY)) == {IVY, HOYA}
    assert 0 < found.hours_saved < found.hours_a_week
    assert found.hours_a_week > 3 * MINUTES[None] / 60


def test_more_than_twenty_healthy_plants_are_looked_at_a_third_a_week() -> None:
    # 24 plants, weekly on Sundays (day 1, 8, 15 ...): eight each Sunday, each plant once in three weeks.
    telling = Telling()
    for number in range(24):
        telling.tell(PlantSet(name=f"palm {number}", place=LANDING), -9, plant=PlantId(number + 1))
    telling.tell(RoutineSet(name="check", rule="FREQ=WEEKLY;BYDAY=SU"), -9)
    seen: dict[int, list[int]] = {}
    for day in (1, 8, 15, 22, 29, 36):
        tasks = telling.plan(day).on(DAY + timedelta(days=day))
        assert len(tasks) == 8
        for task in tasks:
            seen.setdefault(task.plant, []).append(day)
            telling.tell(CheckedClean(Level.PLAIN), day, plant=task.plant)
    assert {second - first for first, second in seen.values()} == {21}
    assert len(seen) == 24
