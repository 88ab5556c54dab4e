"""Candidate evenings and household routines."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.domain.recurrence import between, evenings, next_on, on_the_clock

SUNDAY = date(2026, 3, 1)
BRUSSELS = ZoneInfo("Europe/Brussels")


def test_evenings_run_from_the_first_to_the_last_day_of_the_window() -> None:
    assert evenings(SUNDAY, date(2026, 3, 3)) == (SUNDAY, date(2026, 3, 2), date(2026, 3, 3))
    assert evenings(SUNDAY, SUNDAY) == (SUNDAY,)


def test_where_every_evening_is_left_out_the_first_after_the_window_is_taken() -> None:
    left_out = frozenset(date(2026, 3, day) for day in (1, 2, 3, 4))
    assert evenings(SUNDAY, date(2026, 3, 3), left_out) == (date(2026, 3, 5),)


days = st.dates(date(2026, 3, 1), date(2026, 3, 20))


@given(days, st.integers(0, 9), st.frozensets(days, max_size=12))
def test_no_evening_is_left_out_and_none_of_the_window_is_missing(
    first: date, length: int, left_out: frozenset[date]
) -> None:
    last = first + timedelta(days=length)
    found = evenings(first, last, left_out)
    assert found
    assert not set(found) & left_out
    within = {first + timedelta(days=number) for number in range(length + 1)} - left_out
    assert set(found) == within or (not within and found[0] > last)


def test_the_next_day_is_strictly_after() -> None:
    assert next_on("FREQ=WEEKLY", SUNDAY, SUNDAY) == date(2026, 3, 8)


def test_a_rule_that_is_over_has_no_next_day() -> None:
    assert next_on("FREQ=DAILY;COUNT=3", SUNDAY, date(2026, 3, 3)) is None


def test_a_prefix_and_lower_case_are_understood() -> None:
    assert next_on("rrule:freq=weekly;byday=we", SUNDAY, SUNDAY) == date(2026, 3, 4)


def test_between_includes_both_ends() -> None:
    found = between("FREQ=DAILY;INTERVAL=2", SUNDAY, SUNDAY, date(2026, 3, 5))
    assert found == (SUNDAY, date(2026, 3, 3), date(2026, 3, 5))


def test_a_rule_that_never_matches_is_a_bug() -> None:
    with pytest.raises(ValueError, match="never matches"):
        next_on("FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30", SUNDAY, SUNDAY)


def test_the_wall_clock_stays_when_the_offset_changes() -> None:
    # Clocks in Brussels go forward on 29 March 2026 (EU directive 2000/84: last Sunday of March).
    assert on_the_clock(date(2026, 3, 29), time(19), BRUSSELS) == datetime(2026, 3, 29, 17, tzinfo=UTC)


NIGHTS = [date(2026, 3, 29), date(2026, 10, 25)]  # both changes of 2026


@given(st.sampled_from(NIGHTS) | st.dates(date(2026, 1, 2), date(2026, 12, 31)), st.times())
def test_a_wall_time_comes_once_a_day_and_in_order(day: date, at: time) -> None:
    today, tomorrow = (on_the_clock(day + timedelta(days=number), at, BRUSSELS) for number in (0, 1))
    assert timedelta(hours=23) <= tomorrow - today <= timedelta(hours=25)
