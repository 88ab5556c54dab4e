from datetime import date, timedelta

import pytest

from bot.domain.climate import cool_days, cool_side, is_usual_doubted, span_on, temperature_on, warm_side
from bot.domain.journal import PlaceSet, PlantSet, TemperatureRead, UsualByMonth
from tests.domain.telling import DAY, HOYA, LANDING, STUDY, Telling, home


def day(number: int) -> date:
    return DAY + timedelta(days=number)


def temperatures(telling: Telling, *numbers: int) -> list[float | None]:
    household = telling.household
    return [temperature_on(household, household.plants[HOYA], day(number)) for number in numbers]


def sides(telling: Telling, *numbers: int) -> list[tuple[float | None, float | None]]:
    """Give the warm and the cool side of days."""
    household = telling.household
    hoya = household.plants[HOYA]
    return [(warm_side(household, hoya, day(one)), cool_side(household, hoya, day(one))) for one in numbers]


def daily(telling: Telling, first: int, last: int) -> dict[date, float]:
    household = telling.household
    return dict(cool_days(household, household.plants[HOYA], day(first), day(last)))


def read(telling: Telling, celsius: float, number: int) -> None:
    telling.tell(TemperatureRead(place=LANDING, celsius=celsius), number)


def test_the_usual_temperature_speaks_without_a_reading() -> None:
    assert temperatures(home(celsius=21), 0) == [21]
    assert sides(home(celsius=21), 0) == [(21, 21)]
    assert daily(home(celsius=21), 0, 9) == {}


def test_nobody_told_is_unknown() -> None:
    assert temperatures(home(celsius=None), 0) == [None]
    homeless = Telling()
    homeless.tell(PlantSet(name="hoya"), plant=HOYA)
    assert temperatures(homeless, 0) == [None]
    assert daily(homeless, 0, 9) == {}


def test_a_reading_stands_for_its_day_and_fades_over_three() -> None:
    # by hand, usual 21, read 27: all 6 degrees on its day, 4 the next, 2 the day after, then none
    telling = home(celsius=21)
    read(telling, 27, 2)
    assert temperatures(telling, 1, 2, 3, 4, 5) == [21, 27, 25, 23, 21]


def test_the_gap_takes_the_warmer_and_release_the_cooler() -> None:
    telling = home(celsius=21)
    read(telling, 27, 2)
    read(telling, 15, 6)
    assert sides(telling, 2, 3, 5) == [(27, 21), (25, 21), (21, 21)]
    assert sides(telling, 6, 7, 8) == [(21, 15), (21, 17), (21, 19)]
    assert daily(telling, 5, 7) == {day(5): 21, day(6): 15, day(7): 17}


def test_one_reading_is_not_the_usual_temperature() -> None:
    # unknown counts as 24 for the gap and as 18 for release, whatever one afternoon was
    telling = home(celsius=None)
    read(telling, 35, 0)
    assert sides(telling, 0, 5) == [(35, 18), (None, None)]
    read(telling, 12, 10)
    assert sides(telling, 10) == [(24, 12)]


def test_the_newest_reading_wins() -> None:
    telling = home(celsius=21)
    read(telling, 26, 2)
    read(telling, 17, 4)
    assert temperatures(telling, 4) == [17]


def test_too_hot_tonight_is_said_of_that_evening_only() -> None:
    telling = home(celsius=21)
    read(telling, 35, 2)
    household = telling.household
    found = [span_on(household, household.plants[HOYA], day(number)) for number in (1, 2, 3)]
    assert found == [(21, 21), (35, 35), (21, 21)]


def test_a_days_lowest_and_highest_are_reckoned_with_and_their_mean_fades() -> None:
    telling = home(celsius=21)
    telling.tell(TemperatureRead(place=LANDING, celsius=25, low=16, high=34), 2)
    household = telling.household
    assert span_on(household, household.plants[HOYA], day(2)) == (16, 34)
    assert temperatures(telling, 2) == [25]
    telling.tell(TemperatureRead(place=LANDING, celsius=22), 2)
    assert span_on(telling.household, telling.household.plants[HOYA], day(2)) == (22, 22), "told anew"


@pytest.mark.parametrize(
    ("readings", "is_doubted"),
    [
        ((24, 24, 24), True),  # 3 degrees over, three times: more than 2
        ((23, 23, 23), False),  # exactly 2 is not more
        ((24, 24), False),
        ((24, 21, 24), False),
        ((24, 18, 24), False),  # off both ways is weather
        ((18, 24, 24, 24), True),
    ],
)
def test_three_readings_in_a_row_put_the_usual_in_doubt(
    readings: tuple[float, ...],
    is_doubted: bool,  # noqa: FBT001
) -> None:
    telling = home(celsius=21)
    for number, celsius in enumerate(readings):
        read(telling, celsius, number)
    assert is_usual_doubted(telling.household.places[LANDING]) is is_doubted


def test_a_moved_plant_has_the_temperature_of_where_it_stands() -> None:
    telling = home(celsius=21)
    telling.tell(PlaceSet(place=STUDY, usual_c=16), 0)
    telling.tell(PlantSet(place=STUDY), 1, plant=HOYA)
    assert temperatures(telling, 1) == [16]


def test_the_days_before_a_move_have_the_temperature_of_the_place_before() -> None:
    telling = home(celsius=21)
    telling.tell(PlaceSet(place=STUDY, usual_c=16), 0)
    telling.tell(PlantSet(place=STUDY), 3, plant=HOYA)
    assert temperatures(telling, -5, 2, 3) == [21, 21, 16]
    assert daily(telling, 1, 4) == {day(1): 21, day(2): 21, day(3): 16, day(4): 16}


def test_months_have_temperatures_of_their_own_below_readings() -> None:
    telling = home(celsius=21)
    telling.tell(UsualByMonth(place=LANDING, months=(5,), celsius=17))
    assert temperatures(telling, 0, 29, 30) == [17, 17, 21]  # 2 May, 31 May, 1 June
    read(telling, 26, 2)
    assert temperatures(telling, 1, 2) == [17, 26]
    assert daily(telling, 29, 31) == {day(29): 17, day(30): 21, day(31): 21}
