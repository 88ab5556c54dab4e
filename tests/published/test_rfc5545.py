"""Against the examples of RFC 5545, sections 3.3.5 and 3.8.5.3 (all in New York's wall clock)."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from bot.domain.recurrence import between, evenings, on_the_clock

NEW_YORK = ZoneInfo("America/New_York")
START = date(1997, 9, 2)


def dates(year: int, *days: tuple[int, int]) -> tuple[date, ...]:
    return tuple(date(year, month, day) for month, day in days)


@pytest.mark.parametrize(
    ("rule", "anchor", "expected"),
    [
        ("FREQ=DAILY;COUNT=10", START, dates(1997, *((9, day) for day in range(2, 12)))),
        (
            "FREQ=DAILY;INTERVAL=10;COUNT=5",
            START,
            dates(1997, (9, 2), (9, 12), (9, 22), (10, 2), (10, 12)),
        ),
        (
            "FREQ=WEEKLY;COUNT=10",
            START,
            dates(
                1997,
                *((9, day) for day in (2, 9, 16, 23, 30)),
                *((10, day) for day in (7, 14, 21, 28)),
                (11, 4),
            ),
        ),
        (
            "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO",
            date(1997, 8, 5),
            dates(1997, (8, 5), (8, 10), (8, 19), (8, 24)),
        ),
        (
            "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU",
            date(1997, 8, 5),
            dates(1997, (8, 5), (8, 17), (8, 19), (8, 31)),
        ),
        (
            "FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5",
            date(2007, 1, 15),
            dates(2007, (1, 15), (1, 30), (2, 15), (3, 15), (3, 30)),
        ),
    ],
)
def test_examples_of_recurrence_rules(rule: str, anchor: date, expected: tuple[date, ...]) -> None:
    assert between(rule, anchor, anchor, anchor + timedelta(days=800)) == expected


def test_the_hour_stays_nine_when_summer_time_ends() -> None:
    # the same example: 25 October in EDT, 26 October in EST
    found = [on_the_clock(date(1997, 10, day), time(9), NEW_YORK) for day in (25, 26)]
    assert found == [datetime(1997, 10, 25, 13, tzinfo=UTC), datetime(1997, 10, 26, 14, tzinfo=UTC)]


def test_days_of_exdate_are_left_out() -> None:
    # 3.8.5.1: EXDATE takes single moments out of the set that RRULE makes.
    left_out = frozenset({date(1997, 9, 3), date(1997, 9, 5)})
    assert evenings(START, date(1997, 9, 6), left_out) == dates(1997, (9, 2), (9, 4), (9, 6))


# 3.3.10 also says that such an instance is ignored; its other paragraph, followed here, refers to 3.3.5.
def test_a_time_inside_the_gap_takes_the_offset_before_it() -> None:
    # 3.3.5: 2:30 on 11 March 2007 is 3:30 EDT
    assert on_the_clock(date(2007, 3, 11), time(2, 30), NEW_YORK) == datetime(2007, 3, 11, 7, 30, tzinfo=UTC)


def test_a_time_that_occurs_twice_is_the_first() -> None:
    # 3.3.5: 1:30 on 4 November 2007 is EDT
    assert on_the_clock(date(2007, 11, 4), time(1, 30), NEW_YORK) == datetime(2007, 11, 4, 5, 30, tzinfo=UTC)
