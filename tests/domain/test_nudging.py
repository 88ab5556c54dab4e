from datetime import UTC, datetime, time, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.journal import Heard, HeldUntil, HouseholdSet, Nudged, NudgedTask, Postponed
from bot.domain.nudging import next_nudge_at, placements
from bot.domain.slot import SlotKind
from bot.domain.trade import Method
from tests.domain.telling import DAY, HOYA, IVY, KNOWLEDGE, SOAP, ZONE, Telling, home

CITRUS = "citrus_mealybug"


def at(day: int, hour: int, minute: int = 0) -> datetime:
    """Give an instant by the household's clocks."""
    return datetime.combine(DAY + timedelta(days=day), time(hour, minute), ZONE)


def due(telling: Telling, now: datetime) -> datetime | None:
    """Give the next nudge by the household's clocks."""
    found = next_nudge_at(telling.household, KNOWLEDGE, now.astimezone(UTC))
    return None if found is None else found.astimezone(ZONE)


def test_the_nudge_comes_at_the_preferred_time() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    assert due(telling, at(0, 14)) == at(0, 20)


def test_nothing_is_sent_before_the_town_is_known() -> None:
    telling = Telling()
    assert due(telling, at(0, 14)) is None


def test_it_is_repeated_once_an_hour_later_unless_somebody_answered() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    task = NudgedTask(plant=HOYA, method=Method.SPRAY, product=SOAP)
    telling.tell(Nudged(count=1, tasks=(task,)), 0, at=time(20))
    assert due(telling, at(0, 20, 1)) == at(0, 21)
    answered = Telling([*telling.entries])
    answered.tell(Heard(), 0, at=time(20, 5))
    tomorrow = due(answered, at(0, 20, 6))
    assert tomorrow is not None
    assert tomorrow.date() == (DAY + timedelta(days=1))
    telling.tell(Nudged(count=2, tasks=(task,)), 0, at=time(21))
    again = due(telling, at(0, 21, 1))
    assert again is not None
    assert again.date() == DAY + timedelta(days=1)


def test_no_repeat_would_reach_into_quiet_hours() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(Nudged(count=1, tasks=(NudgedTask(plant=HOYA),)), 0, at=time(21, 30))
    again = due(telling, at(0, 21, 31))
    assert again is not None
    assert again.date() == DAY + timedelta(days=1)


def test_a_week_asleep_owes_one() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    first = due(telling, at(7, 9))
    assert first == at(7, 20)


def test_after_quiet_begins_it_waits_for_the_next_evening() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    assert due(telling, at(0, 23)) == at(1, 20)


def test_an_hour_asked_for_is_kept() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(Nudged(count=1, tasks=(NudgedTask(plant=HOYA),)), 0, at=time(20))
    telling.tell(Postponed(on=DAY, at=at(0, 21, 10).astimezone(UTC)), 0, plant=HOYA, at=time(20, 5))
    assert due(telling, at(0, 20, 6)) == at(0, 21, 10)


def test_a_room_without_a_window_has_its_slot_in_the_evening() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    tasks = telling.plan(0).on(DAY)
    (placed,) = placements(telling.household, KNOWLEDGE, tasks, DAY, at(0, 20).astimezone(UTC))
    assert (placed.slot.kind, placed.plants) == (SlotKind.EVENING, (HOYA,))


def test_handwork_needs_no_slot() -> None:
    telling = home(label_days=None)
    telling.find(IVY, CITRUS, 0)
    tasks = telling.plan(0).on(DAY)
    assert placements(telling.household, KNOWLEDGE, tasks, DAY, at(0, 20).astimezone(UTC)) == ()


@settings(max_examples=120, deadline=None)
@given(
    evening=st.times(),
    quiet_from=st.times(),
    quiet_until=st.times(),
    now=st.datetimes(datetime(2026, 3, 25), datetime(2026, 11, 5), timezones=st.just(UTC)),  # noqa: DTZ001
)
def test_a_nudge_is_never_owed_in_quiet_hours_nor_in_the_past(
    evening: time, quiet_from: time, quiet_until: time, now: datetime
) -> None:
    telling = home()
    telling.tell(HouseholdSet(evening=evening, quiet_from=quiet_from, quiet_until=quiet_until))
    telling.find(HOYA, CITRUS, 0)
    telling.find(IVY, CITRUS, 0)
    found = next_nudge_at(telling.household, KNOWLEDGE, now)
    if found is not None:
        assert found >= now
        assert not telling.household.is_quiet(found)


def test_hours_late_is_not_sent() -> None:
    # More than three hours after its time it is the next evening's: a judgement of the module.
    telling = home()
    telling.tell(HouseholdSet(evening=time(16)))
    telling.find(HOYA, CITRUS, 0)
    assert due(telling, at(0, 19)) == at(0, 19)
    assert due(telling, at(0, 19, 1)) == at(1, 16)


def test_a_repeat_hours_late_is_not_sent() -> None:
    telling = home()
    telling.tell(HouseholdSet(evening=time(16)))
    telling.find(HOYA, CITRUS, 0)
    telling.tell(Nudged(count=1, tasks=(NudgedTask(plant=HOYA, method=Method.WIPE),)), 0, at=time(16))
    assert due(telling, at(0, 20)) == at(0, 20)
    assert due(telling, at(0, 20, 1)) == at(1, 16)


def test_a_pause_outlasts_the_hour_asked_for() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(Postponed(on=DAY, at=at(0, 21)), 0, plant=HOYA, at=time(14))
    telling.tell(HeldUntil(DAY + timedelta(days=3)), 0, at=time(15))
    assert due(telling, at(0, 15, 1)) == at(3, 20)


def test_a_date_that_a_zone_change_brings_back_is_not_nudged_twice() -> None:
    telling = home()
    telling.find(HOYA, CITRUS, 0)
    telling.tell(Nudged(count=2, tasks=(NudgedTask(plant=HOYA),)), 1, at=time(4, 30))
    telling.tell(HouseholdSet(zone="America/New_York"), 1, at=time(4, 31))
    # 04:40 in Ghent is 22:40 of the evening before in New York; the next date not yet nudged is day 2, 20:00 there.
    assert due(telling, at(1, 4, 40)) == at(3, 2)


def test_an_evening_after_midnight_belongs_to_the_evening_before() -> None:
    telling = home()
    telling.tell(HouseholdSet(evening=time(0, 30), quiet_from=time(3), quiet_until=time(9)))
    telling.find(HOYA, CITRUS, 0)
    assert due(telling, at(0, 14)) == at(1, 0, 30)


def test_the_wall_clock_holds_over_the_nights_the_clocks_change() -> None:
    # 20:00 in Ghent is 19:00 UTC in winter and 18:00 UTC in summer; clocks change on 25 October 2026.
    telling = home()
    telling.find(HOYA, CITRUS, 175)
    for day in (175, 176):  # 24 and 25 October
        found = next_nudge_at(telling.household, KNOWLEDGE, at(day, 14).astimezone(UTC))
        assert found is not None
        assert found.utcoffset() == timedelta(0)
        assert found.hour == (18 if day == 175 else 19)
