"""Candidate evenings and household routines."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.recurrence import between, candidate_evenings, is_valid_rule, next_at, next_on

SUNDAY = date(2026, 3, 1)
BRUSSELS = ZoneInfo("Europe/Brussels")


def test_candidate_evenings_run_from_the_first_to_the_last_day_of_the_window() -> None:
    assert candidate_evenings(SUNDAY, 7, 9) == (date(2026, 3, 8), date(2026, 3, 9), date(2026, 3, 10))


def test_a_window_of_one_day_has_one_evening() -> None:
    assert candidate_evenings(SUNDAY, 7, 7) == (date(2026, 3, 8),)


def test_the_next_day_is_strictly_after() -> None:
    assert next_on("FREQ=WEEKLY", SUNDAY, SUNDAY) == date(2026, 3, 8)


def test_a_rule_that_is_over_has_no_next_day() -> None:
    assert next_on("FREQ=DAILY;COUNT=3", SUNDAY, date(2026, 3, 3)) is None


def test_a_prefix_and_lower_case_are_understood() -> None:
    assert next_on("rrule:freq=weekly;byday=we", SUNDAY, SUNDAY) == date(2026, 3, 4)


def test_between_includes_both_ends() -> None:
    found = between("FREQ=DAILY;INTERVAL=2", SUNDAY, SUNDAY, date(2026, 3, 5))
    assert found == (SUNDAY, date(2026, 3, 3), date(2026, 3, 5))


@pytest.mark.parametrize(
    "text", ["FREQ=DAILY", "FREQ=WEEKLY;BYDAY=SU", "FREQ=MONTHLY;BYDAY=1SA", "FREQ=DAILY;UNTIL=20301231"]
)
def test_valid_rules(text: str) -> None:
    assert is_valid_rule(text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "every sunday",
        "FREQ=SOMETIMES",
        "FREQ=HOURLY",
        "FREQ=DAILY;BYHOUR=9,17",
        "FREQ=DAILY\nEXDATE:20260301",
        "DTSTART:20260301\nRRULE:FREQ=DAILY",
        "FREQ=DAILY;COUNT=x",
        "FREQ=DAILY;INTERVAL=0",
        "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30",
        "INTERVAL=2",
    ],
)
def test_what_is_not_one_rule_of_whole_days(text: str) -> None:
    assert not is_valid_rule(text)


def test_a_rule_that_never_matches_is_a_bug() -> None:
    with pytest.raises(ValueError, match="never matches"):
        next_on("FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30", SUNDAY, SUNDAY)


def test_moments_without_a_zone_are_a_bug() -> None:
    naive = datetime(2026, 3, 1, 19)  # noqa: DTZ001 - what is under test
    with pytest.raises(ValueError, match="zone"):
        next_at("FREQ=DAILY", naive, datetime(2026, 3, 1, tzinfo=UTC))


def test_the_wall_clock_stays_when_the_offset_changes() -> None:
    # Clocks in Brussels go forward on 29 March 2026 (EU directive 2000/84: last Sunday of March).
    anchor = datetime(2026, 3, 28, 19, tzinfo=BRUSSELS)
    found = next_at("FREQ=DAILY", anchor, anchor)
    assert found is not None
    assert found.astimezone(UTC) == datetime(2026, 3, 29, 17, tzinfo=UTC)


NIGHTS = [datetime(2026, 3, 29, tzinfo=UTC), datetime(2026, 10, 25, tzinfo=UTC)]  # both changes of 2026
moments = st.one_of(st.sampled_from(NIGHTS), st.datetimes(datetime(2026, 1, 2), datetime(2026, 12, 31)))  # noqa: DTZ001


@settings(max_examples=60, deadline=None)
@given(moments, st.integers(-180, 180), st.integers(0, 23), st.sampled_from([0, 30]))
def test_a_daily_moment_comes_once_a_day(after: datetime, shift: int, hour: int, minute: int) -> None:
    anchor = datetime(2026, 1, 1, hour, minute, tzinfo=BRUSSELS)
    start = after.replace(tzinfo=UTC) + timedelta(minutes=shift)
    found = next_at("FREQ=DAILY", anchor, start)
    assert found is not None
    assert timedelta() < found.astimezone(UTC) - start <= timedelta(hours=25)
