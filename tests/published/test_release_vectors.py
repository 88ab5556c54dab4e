"""
Against a release table worked out apart from this code, for citrus mealybug.

By temperature and rhythm of checks, all of them finding nothing, rounds not binding; the rule is that of
Martin, Cameron and Greiner 2007 with hiding classes on the development of Arai 1996.
"""

from datetime import date, timedelta

import pytest

from bot.catalogue.load import load
from bot.domain.release import CleanCheck, ReleaseRecord, forecast_release, release_state
from bot.domain.trade import Level
from bot.domain.value import replace

FOUND = date(2026, 1, 1)
RECORD = ReleaseRecord(
    pest=load().pests["citrus_mealybug"],
    temperature=21,
    last_find_on=FOUND,
    checks=(),
    started_on=FOUND,
    treated_on=None,
    rounds_done=20,
    rounds_since_find=20,
    rounds_needed=5,
)
PLAIN, LENS, GLANCE = Level.PLAIN, Level.LENS, Level.GLANCE


@pytest.mark.parametrize(
    ("temperature", "level", "every", "strict", "release_day", "checks"),
    [
        (18, PLAIN, 5, False, 55, 11),
        (18, PLAIN, 7, False, 56, 8),
        (18, PLAIN, 10, False, 70, 7),
        (18, PLAIN, 14, False, 84, 6),
        (18, LENS, 7, False, 56, 8),
        (18, GLANCE, 7, False, 119, 17),
        (18, PLAIN, 7, True, 70, 10),
        (18, LENS, 7, True, 56, 8),
        (21, PLAIN, 5, False, 45, 9),
        (21, PLAIN, 7, False, 49, 7),
        (21, PLAIN, 10, False, 60, 6),
        (21, PLAIN, 14, False, 84, 6),
        (21, LENS, 7, False, 42, 6),
        (21, GLANCE, 7, False, 112, 16),
        (21, PLAIN, 7, True, 63, 9),
        (21, LENS, 7, True, 49, 7),
        (25, PLAIN, 5, False, 35, 7),
        (25, PLAIN, 7, False, 42, 6),
        (25, PLAIN, 10, False, 60, 6),
        (25, PLAIN, 14, False, 70, 5),
        (25, LENS, 7, False, 35, 5),
        (25, GLANCE, 7, False, 105, 15),
        (25, PLAIN, 7, True, 63, 9),
        (25, LENS, 7, True, 42, 6),
    ],
)
def test_release_day_and_checks(  # noqa: PLR0917
    temperature: int,
    level: Level,
    every: int,
    strict: bool,  # noqa: FBT001
    release_day: int,
    checks: int,
) -> None:
    record = replace(RECORD, temperature=temperature, strict=strict)
    found = forecast_release(record, FOUND, every, level=level)
    assert found.earliest_on == FOUND + timedelta(days=release_day)
    assert found.more_checks == checks


@pytest.mark.parametrize(("temperature", "release_day"), [(18, 63), (21, 56), (25, 49)])
def test_one_missed_weekly_check_costs_a_week(temperature: int, release_day: int) -> None:
    taken = tuple(CleanCheck(FOUND + timedelta(days=7 * number), PLAIN) for number in (1, 2, 3, 4))
    record = replace(RECORD, temperature=temperature, checks=taken)
    # Check 5 was left out; the sixth of day 42 takes its place.
    with_sixth = replace(record, checks=(*taken, CleanCheck(FOUND + timedelta(days=42), PLAIN)))
    found = forecast_release(with_sixth, FOUND + timedelta(days=42))
    assert found.earliest_on == FOUND + timedelta(days=release_day)


def test_the_probability_week_by_week() -> None:
    # 21 degC, plain; catalogue instars are rounded to 133.7, so the fourth digit may differ by one.
    expected = (0.51256, 0.52912, 0.58136, 0.69303, 0.80149, 0.86911, 0.91019, 0.93530, 0.95091, 0.96082)
    days = [FOUND + timedelta(days=7 * week) for week in range(1, 11)]
    record = replace(RECORD, checks=tuple(CleanCheck(on, PLAIN) for on in days))
    assert [release_state(record, on).probability for on in days] == pytest.approx(expected, abs=1e-4)
