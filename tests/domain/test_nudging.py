from datetime import UTC, datetime, time, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.journal import Heard, HouseholdSet, Nudged, NudgedTask, Postponed
from bot.domain.nudging import is_quiet, next_nudge_at, placements
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
        assert not is_quiet(telling.household, found)
