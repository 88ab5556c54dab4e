from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.domain.identity import PlantId, ProductId
from bot.domain.journal import (
    CheckedClean,
    HeldUntil,
    PlaceSet,
    PlantSet,
    Postponed,
    ProductSet,
    ReleasedNow,
    RoutineSet,
    SignSeen,
    TemperatureRead,
    Treated,
)
from bot.domain.slot import is_shadeless
from bot.domain.trade import Level, Method, Sign
from bot.domain.window import Outdoors
from tests.domain.telling import DAY, FERN, HOYA, IVY, LANDING, SOAP, Telling, home

CITRUS, LONGTAILED = "citrus_mealybug", "longtailed_mealybug"
SUNDAY = 1  # 2 May 2026, day 0, is a Saturday


def treated_on(telling: Telling, day: float) -> dict[int, set[int]]:
    """Give days from DAY on with the plants treated."""
    return {
        (evening.on - DAY).days: {task.plant for task in evening.tasks if task.method is not None}
        for evening in telling.plan(day).evenings
        if any(task.method is not None for task in evening.tasks)
    }


def test_two_windows_that_meet_take_one_evening() -> None:
    # both at 21 degC with label 7: citrus mealybug W = 130/12.5 = 10.4, .8 W = 8.3: 7 to 8 days; longtailed
    # W = 161/13 = 12.4, .8 W = 9.9: 7 to 9. Hoya sprayed on day 0: 7 to 8; ivy on day 1: 8 to 10; day 8 serves both
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.find(IVY, LONGTAILED, 0)
    telling.treat(HOYA, 0)
    telling.treat(IVY, 1)
    assert treated_on(telling, 2) == {8: {HOYA, IVY}}


def test_overdue_work_is_due_tonight() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.treat(HOYA, 0)
    assert treated_on(telling, 30) == {30: {HOYA}}


def test_what_is_put_off_comes_on_its_day() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(Postponed(on=DAY + timedelta(days=3)), 0, plant=HOYA)
    assert treated_on(telling, 0) == {3: {HOYA}}


def test_a_pause_moves_everything_behind_it() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(HeldUntil(DAY + timedelta(days=10)), 0)
    assert min(treated_on(telling, 1)) == 10


def test_the_weekly_look_covers_cases_and_their_neighbours_only() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    evenings = telling.plan(0).evenings
    looks = {task.plant for evening in evenings for task in evening.tasks if task.method is None}
    assert looks == {HOYA, FERN}  # the fern shares the landing, the ivy does not


def test_a_look_just_before_sunday_stands_for_it() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)  # Saturday: the find itself was a look
    looks = [
        evening.on
        for evening in telling.plan(0).evenings
        if any(task.method is None and task.plant == HOYA for task in evening.tasks)
    ]
    assert [(on - DAY).days for on in looks] == [SUNDAY + 7]


def test_a_routine_in_words_looks_at_every_plant() -> None:
    telling = home()
    telling.tell(RoutineSet(name="check", rule="FREQ=WEEKLY;BYDAY=WE"), 0)
    looks = [(evening.on.weekday(), len(evening.tasks)) for evening in telling.plan(0).evenings]
    assert looks == [(2, 3)]  # Wednesday, three plants


def test_a_sign_asks_for_a_look_the_day_after() -> None:
    telling = home()
    telling.tell(SignSeen(Sign.WEBBING), 0, plant=IVY)
    (evening,) = telling.plan(0).evenings
    assert (evening.on - DAY).days in {1, 2}
    assert [(task.plant, task.method) for task in evening.tasks] == [(IVY, None)]
    telling.tell(CheckedClean(Level.PLAIN), 1, plant=IVY)
    assert telling.plan(2).evenings == ()


def test_neighbours_stay_on_watch_until_after_the_release() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    assert set(telling.plan(1).watched) == {FERN}
    telling.tell(ReleasedNow(by_rule=False), 10, plant=HOYA)
    watched = telling.plan(11).watched
    # h3 at 21 degC: eggs 133/12.5 = 10.64 d and nymphs 401/13.3 = 30.15 d, together 40.8, so 41 days from day 10
    assert {plant: (watch.until - DAY).days for plant, watch in watched.items() if watch.until} == {
        FERN: 51,
        HOYA: 51,
    }
    assert telling.plan(52).watched == {}


def test_nothing_told_means_nothing_due() -> None:
    assert home().plan(0).evenings == ()


def test_when_the_rounds_are_finished_only_looks_remain() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    for day in (0, 7, 14, 21, 28, 35, 42):
        telling.treat(HOYA, day, Method.SPRAY)
        telling.tell(CheckedClean(Level.LENS), day + 1, plant=HOYA)
    assert treated_on(telling, 44) == {}
    assert telling.progress(HOYA, 44).is_finished


def test_a_plant_joins_an_earlier_evening_where_its_label_allows() -> None:
    # Mealybug at 21 degC: U 8, window [5, 8] from the last round, at the label's day if that is later. Sprayed on
    # days 0 and -4, hoya and fern are due in [5, 8] and [1, 4]: they meet on day 4 only where the label is 4 or less.
    for label_days, evenings in ((4, {4: {HOYA, FERN}}), (5, {1: {FERN}, 5: {HOYA}})):
        telling = home(label_days=label_days)
        telling.tell(RoutineSet(name="check", rule="FREQ=YEARLY"), -3)  # no weekly look to meet instead
        telling.find(HOYA, CITRUS, -4)
        telling.find(FERN, CITRUS, -4)
        telling.treat(FERN, -4)
        telling.treat(HOYA, 0)
        assert treated_on(telling, 1) == evenings


def test_gnats_are_fought_in_every_pot_of_the_room() -> None:
    telling = home(label_days=None)
    telling.tell(ProductSet(product=ProductId(7), ingredient="bti"))
    telling.find(HOYA, "fungus_gnat", 0)
    assert treated_on(telling, 0) == {0: {HOYA, FERN}}, "the fern shares the landing, the ivy does not"
    methods = [task.method for task in telling.plan(0).on(DAY) if task.plant == FERN]
    assert methods == [Method.DRENCH], "a fern must not dry"
    for plant in (HOYA, FERN):
        telling.tell(Treated(method=Method.DRENCH, product=ProductId(7)), 0, plant=plant)
    # 21 degC: five days on
    assert treated_on(telling, 1) == {5: {HOYA, FERN}}


def test_other_pots_dry_once_where_the_plant_with_gnats_must_not_and_nothing_is_there_to_drench_with() -> (
    None
):
    # drying the top of every pot that bears it: wisc_gnats, utah_gnats; a fern must stay moist
    telling = home()
    telling.find(FERN, "fungus_gnat", 0)
    assert [(task.plant, task.method) for task in telling.plan(0).on(DAY)] == [(HOYA, Method.DRY)]
    telling.treat(HOYA, 0, Method.DRY)
    assert treated_on(telling, 1) == {}, "a habit from then on"


def test_two_pots_with_gnats_ask_a_third_once_and_dry_it_before_the_drench() -> None:
    telling = home(label_days=None)
    telling.tell(ProductSet(product=ProductId(7), ingredient="bti"))
    telling.find(FERN, "fungus_gnat", 0)
    telling.tell(PlantSet(name="hoya 2", place=LANDING), plant=PlantId(9))
    telling.find(PlantId(9), "fungus_gnat", 0)
    methods = [task.method for task in telling.plan(0).on(DAY) if task.plant == HOYA]
    assert methods == [Method.DRY, Method.DRENCH]


def test_a_neighbour_of_a_pest_of_the_roots_is_lifted_every_three_weeks() -> None:
    telling = home()
    telling.find(HOYA, "root_mealybug", 0)
    telling.tell(CheckedClean(Level.ROOTS), 1, plant=FERN)
    looks = [
        (evening.on - DAY).days
        for evening in telling.plan(2).evenings
        if any(task.plant == FERN and task.method is None for task in evening.tasks)
    ]
    assert looks[0] == 22


def test_a_look_at_the_roots_that_was_not_done_is_asked_for_again_a_week_later() -> None:
    # every three weeks, and a day's grace: 21 or 22, then 28 or 29
    telling = home()
    telling.find(HOYA, "root_mealybug", 0)
    telling.tell(RoutineSet(name="check", rule="FREQ=YEARLY"), 0)  # no weekly look to meet instead
    for day, asked in ((20, 21), (22, 22), (23, 28), (29, 29), (30, 35)):
        looks = [
            (evening.on - DAY).days
            for evening in telling.plan(day).evenings
            if any(task.plant == HOYA and task.method is None for task in evening.tasks)
        ]
        assert looks[0] == asked


# Citrus mealybug at 21 degC with soap every 7 days: after a round on day 0 the window is days 7 and 8.
# Day 8 is the Sunday of the weekly look, which it joins where it can.
@pytest.mark.parametrize(("away", "evening"), [((7, 9), 9), ((8, 12), 7), ((5, 7), 8), ((9, 12), 8)])
def test_a_trip_told_ahead_is_planned_around(away: tuple[int, int], evening: int) -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.treat(HOYA, 0)
    telling.tell(HeldUntil(DAY + timedelta(days=away[1])), away[0])
    assert list(treated_on(telling, 1)) == [evening]


def test_what_is_put_off_comes_on_the_day_named_and_the_other_plants_do_not_wait() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.find(IVY, CITRUS, 0)
    telling.tell(Postponed(on=DAY + timedelta(days=2)), 0, plant=HOYA)
    assert treated_on(telling, 0) == {0: {IVY}, 2: {HOYA}}


def test_one_hot_day_moves_the_spray_by_an_evening_and_two_make_it_handwork() -> None:
    # Soap up to 32 degC: labels, from memory. Usually 21 here.
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(TemperatureRead(place=LANDING, celsius=34), 0)
    assert treated_on(telling, 0) == {1: {HOYA}}
    assert [one.product for one in telling.plan(1).on(DAY + timedelta(days=1))] == [None, SOAP]
    telling.tell(TemperatureRead(place=LANDING, celsius=34), 1)
    assert treated_on(telling, 1) == {1: {HOYA}}
    assert [one.product for one in telling.plan(1).on(DAY + timedelta(days=1))] == [None]


def test_an_evening_without_shade_is_left_out_where_the_next_has_some() -> None:
    # Out of doors in Ghent the sun goes too late in July for leaves to dry before quiet hours end the day, and
    # earlier every day: on the last such day the round waits for the next.
    telling = home()
    telling.tell(PlaceSet(place=LANDING, outdoors=Outdoors.ALL_DAY))
    household = telling.household
    exposure, site, habits = household.places[LANDING].exposure, household.site, household.habits
    dark = next(
        n
        for n in range(70, 130)
        if not is_shadeless(DAY + timedelta(days=n), exposure, site, habits)
        and is_shadeless(DAY + timedelta(days=n - 1), exposure, site, habits)
    )
    telling.find(HOYA, CITRUS, dark - 8)
    telling.treat(HOYA, dark - 8)  # due on the seventh or eighth day after
    assert list(treated_on(telling, dark - 7)) == [dark]


@given(
    st.lists(st.tuples(st.integers(0, 20), st.sampled_from([HOYA, FERN, IVY])), max_size=6),
    st.integers(0, 20),
    st.integers(1, 9),
)
def test_nothing_is_planned_while_away_and_all_of_it_after(
    rounds: list[tuple[int, PlantId]], leaves: int, days: int
) -> None:
    telling = home()
    for plant in (HOYA, FERN, IVY):
        telling.find(plant, CITRUS, 0)
    for day, plant in rounds:
        telling.treat(plant, day)
    telling.tell(HeldUntil(DAY + timedelta(days=leaves + days)), leaves)
    for today in (0, 10, 20):
        found = treated_on(telling, today)
        assert not set(found) & set(range(max(leaves, today), leaves + days))
        assert set().union(*found.values()) == {HOYA, FERN, IVY}
