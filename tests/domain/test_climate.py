from datetime import date, timedelta

from bot.domain.climate import daily_temperatures, temperature_on
from bot.domain.journal import PlaceSet, PlantSet, TemperatureRead, UsualByMonth
from tests.domain.telling import DAY, HOYA, LANDING, STUDY, Telling, home


def day(number: int) -> date:
    return DAY + timedelta(days=number)


def temperatures(telling: Telling, *numbers: int) -> list[float | None]:
    household = telling.household
    return [temperature_on(household, household.plants[HOYA], day(number)) for number in numbers]


def daily(telling: Telling, first: int, last: int) -> dict[date, float]:
    household = telling.household
    return dict(daily_temperatures(household, household.plants[HOYA], day(first), day(last)))


def test_the_usual_temperature_speaks_without_a_reading() -> None:
    assert temperatures(home(celsius=21), 0) == [21]
    assert daily(home(celsius=21), 0, 9) == {}


def test_nobody_told_is_unknown() -> None:
    assert temperatures(home(celsius=None), 0) == [None]
    homeless = Telling()
    homeless.tell(PlantSet(name="hoya"), plant=HOYA)
    assert temperatures(homeless, 0) == [None]
    assert daily(homeless, 0, 9) == {}


def test_a_reading_replaces_the_usual_for_a_week() -> None:
    # A judgement of the module: the day of the reading and the six after it.
    telling = home(celsius=21)
    telling.tell(TemperatureRead(place=LANDING, celsius=26), 2)
    assert temperatures(telling, 1, 2, 8, 9) == [21, 26, 26, 21]
    assert daily(telling, 1, 3) == {day(1): 21, day(2): 26, day(3): 26}


def test_the_newest_reading_wins() -> None:
    telling = home(celsius=21)
    telling.tell(TemperatureRead(place=LANDING, celsius=26), 2)
    telling.tell(TemperatureRead(place=LANDING, celsius=17), 4)
    assert temperatures(telling, 5) == [17]


def test_days_no_reading_speaks_for_are_left_out_where_the_usual_is_unknown() -> None:
    household = home(celsius=None).household
    household.places[LANDING].readings[day(5)] = 23  # as if no usual temperature had been taken from it
    found = daily_temperatures(household, household.plants[HOYA], day(4), day(6))
    assert found == {day(5): 23, day(6): 23}


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
    telling.tell(TemperatureRead(place=LANDING, celsius=26), 2)
    assert temperatures(telling, 1, 2) == [17, 26]
    assert daily(telling, 29, 31) == {day(29): 17, day(30): 21, day(31): 21}
