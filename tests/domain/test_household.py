from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.fold import fold, valid
from bot.domain.journal import (
    CheckedClean,
    HeldUntil,
    IsolatedNow,
    LostNow,
    PestCorrected,
    PlaceSet,
    PlantSet,
    ReleasedNow,
    TemperatureRead,
    evening_of,
)
from bot.domain.trade import Level, Method
from tests.domain.telling import DAY, FERN, HOYA, LANDING, STUDY, Telling, home


def test_entries_count_in_the_order_of_happening() -> None:
    telling = home()
    telling.find(HOYA, "citrus_mealybug", 10)
    telling.tell(ReleasedNow(by_rule=False), 20, plant=HOYA)
    telling.find(HOYA, "citrus_mealybug", 5)  # told last, happened first
    cases = telling.household.plants[HOYA].cases
    assert len(cases) == 1
    assert (cases[0].opened_on - DAY).days == 5
    assert [(find.on - DAY).days for find in cases[0].finds] == [5, 10]


def test_what_was_taken_back_counts_nothing() -> None:
    telling = home()
    number = telling.find(HOYA, "citrus_mealybug", 1)
    telling.void(number, 2)
    assert telling.household.plants[HOYA].cases == []
    assert all(entry.id != number for entry in valid(telling.entries))


def test_a_find_after_release_reopens() -> None:
    telling = home()
    telling.find(HOYA, "citrus_mealybug", 1)
    telling.tell(ReleasedNow(by_rule=True), 60, plant=HOYA)
    telling.find(HOYA, "citrus_mealybug", 70)
    first, second = telling.household.plants[HOYA].cases
    assert (first.by_rule, first.is_reopened, second.is_reopened) == (True, False, True)
    assert second.closed_on is None


def test_release_ends_isolation_and_loss_ends_everything() -> None:
    telling = home()
    telling.find(HOYA, "citrus_mealybug", 1)
    telling.tell(IsolatedNow(), 1, plant=HOYA)
    assert telling.household.plants[HOYA].is_isolated
    telling.tell(LostNow(), 2, plant=HOYA)
    plant = telling.household.plants[HOYA]
    assert not plant.is_isolated
    assert plant not in telling.household.living


def test_another_pest_is_corrected_in_the_open_case() -> None:
    telling = home()
    telling.find(HOYA, "citrus_mealybug", 1)
    telling.tell(PestCorrected("brown_soft_scale"), 2, plant=HOYA)
    assert telling.household.plants[HOYA].open_cases[0].pest == "brown_soft_scale"


def test_one_reading_is_not_what_is_usual() -> None:
    telling = home(celsius=None)
    telling.tell(TemperatureRead(place=LANDING, celsius=19), 1)
    assert telling.household.places[LANDING].usual_c is None


def test_a_pause_rests_until_its_day() -> None:
    telling = home()
    telling.tell(HeldUntil(date(2026, 5, 20)), 1)
    assert telling.household.is_held(date(2026, 5, 19))
    assert not telling.household.is_held(date(2026, 5, 20))


def test_a_move_is_dated() -> None:
    telling = home()
    telling.tell(PlaceSet(place=LANDING, name="hall"), 1)
    telling.tell(PlantSet(place=LANDING), 3, plant=FERN)
    assert telling.household.places[LANDING].name == "hall"
    assert [on for on, _ in telling.household.plants[FERN].stays] == [DAY]  # it stood there already: no move


def test_before_four_in_the_morning_counts_for_the_evening_before() -> None:
    zone = ZoneInfo("Europe/Brussels")
    # 03:59 and 04:00 summer time are 01:59 and 02:00 UTC
    assert evening_of(datetime(2026, 5, 3, 1, 59, tzinfo=UTC), zone) == date(2026, 5, 2)
    assert evening_of(datetime(2026, 5, 3, 2, 0, tzinfo=UTC), zone) == date(2026, 5, 3)


@settings(max_examples=60, deadline=None)
@given(
    told=st.lists(
        st.tuples(st.sampled_from(["spray", "find", "clean", "release"]), st.integers(0, 40)), max_size=10
    ),
    order=st.randoms(),
)
def test_the_order_of_telling_does_not_matter_for_what_happened_on_other_days(
    told: list[tuple[str, int]], order: object
) -> None:
    events = {day: what for what, day in told}  # one a day, so that nothing ties

    def telling_of(days: list[int]) -> Telling:
        telling = home()
        for day in days:
            match events[day]:
                case "spray":
                    telling.treat(HOYA, day)
                case "find":
                    telling.find(HOYA, "citrus_mealybug", day)
                case "clean":
                    telling.tell(CheckedClean(Level.PLAIN), day, plant=HOYA, at=time(18))
                case _:
                    telling.tell(ReleasedNow(by_rule=False), day, plant=HOYA)
        return telling

    shuffled = sorted(events)
    order.shuffle(shuffled)  # type: ignore[attr-defined]
    assert fold(telling_of(sorted(events)).entries).plants == fold(telling_of(shuffled).entries).plants


def test_folding_twice_gives_the_same() -> None:
    telling = home()
    telling.find(HOYA, "citrus_mealybug", 1)
    telling.treat(HOYA, 2, Method.SPRAY)
    assert fold(telling.entries) == fold(telling.entries)


def test_a_corrected_pest_takes_in_what_was_found_under_the_right_name() -> None:
    telling = home()
    telling.find(HOYA, "citrus_mealybug", 0)
    telling.tell(PestCorrected("brown_soft_scale"), 5, plant=HOYA)
    telling.find(HOYA, "brown_soft_scale", 4)  # told after the correction, for the day before it
    (case,) = telling.household.plants[HOYA].cases
    assert (case.pest, case.opened_on, case.last_find_on) == (
        "brown_soft_scale",
        DAY,
        DAY + timedelta(days=4),
    )
    before = telling.household.plants
    telling.tell(PestCorrected("brown_soft_scale"), 6, plant=HOYA)
    assert telling.household.plants == before


def test_a_move_counts_for_both_places() -> None:
    telling = home()
    telling.tell(PlantSet(place=STUDY), 4, plant=HOYA)
    telling.tell(PlantSet(place=LANDING), 9, plant=HOYA)
    day = [DAY + timedelta(days=number) for number in range(21)]
    plant = telling.household.plants[HOYA]
    assert plant.stood_in(day[0], day[3]) == {LANDING: (day[0], day[3])}
    assert plant.stood_in(day[4], day[4]) == {LANDING: (day[4], day[4]), STUDY: (day[4], day[4])}
    assert plant.stood_in(day[5], day[20]) == {STUDY: (day[5], day[9]), LANDING: (day[9], day[20])}
