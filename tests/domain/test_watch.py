from datetime import date, timedelta

from bot.domain.journal import IsolatedNow, LostNow, PlantSet, ReleasedNow
from bot.domain.watch import LONGEST_WATCH_DAYS, hatch_to_adult_days, watched
from tests.domain.telling import DAY, FERN, HOYA, IVY, KNOWLEDGE, LANDING, STUDY, Telling, home

CITRUS, MITE = "citrus_mealybug", "spider_mite"
# Citrus mealybug at 21 degC by hand, figures of the catalogue: egg 133/(21-8.5) = 10.64 d, instars
# (133.7 + 133.7 + 133.6)/(21-7.7) = 30.15 d; together 40.8, that is 41 whole days.
H3_DAYS = 41


def day(number: int) -> date:
    return DAY + timedelta(days=number)


def until(telling: Telling, number: int) -> dict[int, date | None]:
    found = watched(telling.household, KNOWLEDGE, day(number))
    return {int(plant): watch.until for plant, watch in found.items()}


def test_egg_to_adult_in_whole_days() -> None:
    telling = home()
    household = telling.household
    assert hatch_to_adult_days(household, KNOWLEDGE, household.plants[HOYA], CITRUS, DAY) == H3_DAYS


def test_where_it_is_too_cold_to_tell_a_watch_ends_after_a_year() -> None:
    household = home(celsius=9).household  # within 3 degC of the egg's threshold of 8.5
    days = hatch_to_adult_days(household, KNOWLEDGE, household.plants[HOYA], CITRUS, DAY)
    assert days == LONGEST_WATCH_DAYS


def test_who_shares_the_place_is_watched_while_the_case_is_open() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    assert until(telling, 100) == {FERN: None}


def test_the_watch_ends_after_release_by_the_time_from_egg_to_adult() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(ReleasedNow(by_rule=True), 60, plant=HOYA)
    last = 60 + H3_DAYS
    assert until(telling, last) == {HOYA: day(last), FERN: day(last)}
    assert until(telling, last + 1) == {}


def test_a_neighbour_that_was_moved_stays_on_watch() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(PlantSet(place=STUDY), 5, plant=FERN)
    assert until(telling, 30) == {FERN: None}
    telling.tell(ReleasedNow(by_rule=True), 60, plant=HOYA)
    assert set(until(telling, 60 + H3_DAYS)) == {HOYA, FERN}
    assert until(telling, 61 + H3_DAYS) == {}


def test_old_and_new_neighbours_are_watched_when_the_case_is_moved_out() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(PlantSet(place=STUDY), 0, plant=HOYA)
    assert until(telling, 30) == {FERN: None, IVY: None}


def test_who_left_before_the_find_or_came_after_the_release_is_not_watched() -> None:
    telling = home()
    telling.tell(PlantSet(place=STUDY), 1, plant=FERN)
    telling.find(HOYA, CITRUS, 3)
    telling.tell(ReleasedNow(by_rule=True), 60, plant=HOYA)
    telling.tell(PlantSet(place=LANDING), 61, plant=IVY)
    assert set(until(telling, 62)) == {HOYA}


def test_a_case_of_its_own_ends_the_watch() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.find(FERN, CITRUS, 3)
    assert until(telling, 5) == {}


def test_neighbours_of_a_lost_plant_are_watched_but_not_the_lost_one() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(LostNow(), 4, plant=HOYA)
    assert until(telling, 5) == {FERN: day(4 + H3_DAYS)}


def test_setting_the_case_apart_does_not_end_the_watch() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(IsolatedNow(apart=True), 0, plant=HOYA)
    assert until(telling, 10) == {FERN: None}


def test_the_longest_reason_is_kept() -> None:
    telling = home()
    telling.tell(PlantSet(place=LANDING), 0, plant=IVY)
    telling.find(HOYA, CITRUS, 1)
    telling.find(IVY, MITE, 1)
    telling.tell(ReleasedNow(by_rule=True), 60, plant=HOYA)
    assert until(telling, 61)[FERN] is None  # an open case outlasts any date
    telling.tell(ReleasedNow(by_rule=True), 61, plant=IVY)
    # Mite at 21 degC: 68.9/(21-10.65) + 97/(21-10.3) = 15.7 d ends long before the mealybug's 41.
    assert until(telling, 62)[FERN] == day(60 + H3_DAYS)


def test_a_plant_without_a_place_has_no_neighbours() -> None:
    telling = Telling()
    telling.tell(PlantSet(name="hoya"), plant=HOYA)
    telling.tell(PlantSet(name="fern"), plant=FERN)
    telling.find(HOYA, CITRUS, 0)
    assert until(telling, 1) == {}
