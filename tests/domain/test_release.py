"""The release rule: each condition alone, and the forecast."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from bot.catalogue.load import load
from bot.domain.release import (
    NEVER,
    CleanCheck,
    Condition,
    Level,
    ReleaseRecord,
    forecast_release,
    release_state,
    rounds_finished,
)

PESTS = load().pests
FOUND = date(2026, 3, 1)


def day(number: int) -> date:
    return FOUND + timedelta(days=number)


def checks(*days: int, level: Level = Level.PLAIN) -> tuple[CleanCheck, ...]:
    return tuple(CleanCheck(day(number), level) for number in days)


# Citrus mealybug at 21 degC by hand: h1 17.97, h2 30.7, h3 40.8 d.
RECORD = ReleaseRecord(
    pest=PESTS["citrus_mealybug"],
    temperature=21,
    last_find_on=FOUND,
    checks=checks(7, 14, 21, 28, 35, 42, 49),
    last_spray_on=day(21),
    rounds_done=7,
    rounds_since_find=4,
    rounds_needed=6,
)


def test_a_full_record_qualifies() -> None:
    state = release_state(RECORD, day(49))
    assert state.qualifies
    assert state.binding == ()
    assert (state.h1_on, state.h2_on, state.h3_on) == (day(18), day(31), day(41))  # rounded up
    assert (state.counted_checks, state.late_checks, state.days_since_find) == (7, 3, 49)


@pytest.mark.parametrize(
    ("record", "condition"),
    [
        (replace(RECORD, last_spray_on=day(35)), Condition.SPRAY_FREE),
        (replace(RECORD, rounds_done=5), Condition.ROUNDS),
        (replace(RECORD, rounds_since_find=3), Condition.ROUNDS),
        (replace(RECORD, strict=True), Condition.PROBABILITY),
        (replace(RECORD, checks=checks(7, 35, 42, level=Level.LENS)), Condition.CHECKS),
        (replace(RECORD, checks=checks(7, 14, 21, 28, 35, level=Level.LENS)), Condition.LATE_CHECKS),
    ],
)
def test_each_condition_holds_a_plant_back(record: ReleaseRecord, condition: Condition) -> None:
    state = release_state(record, day(49))
    assert not state.qualifies
    assert condition in state.binding


def test_the_span_holds_however_good_the_checks() -> None:
    record = replace(RECORD, checks=checks(12, 17, 22, 27, 32, 37, level=Level.LENS))
    assert release_state(record, day(40)).binding == (Condition.SPAN,)


def test_two_looks_on_one_weekend_are_one_look_of_the_closer_level() -> None:
    twice = replace(RECORD, checks=(*checks(7, 14), CleanCheck(day(8), Level.LENS)))
    once = replace(RECORD, checks=(CleanCheck(day(7), Level.LENS), *checks(14)))
    assert release_state(twice, day(14)).counted_checks == 2
    assert release_state(twice, day(14)).probability == release_state(once, day(14)).probability


def test_checks_up_to_the_find_and_after_today_do_not_count() -> None:
    record = replace(RECORD, checks=checks(-7, 0, 7, 60))
    assert release_state(record, day(10)).counted_checks == 1


def test_a_strict_target_is_out_of_reach_until_the_roots_were_seen() -> None:
    record = replace(RECORD, strict=True, root_prone=True)
    state = release_state(record, day(49))
    assert Condition.UNREACHABLE in state.binding
    assert state.ceiling == pytest.approx(1 / 1.1)  # by hand: .5 / (.5 + .5 * .1)
    assert forecast_release(record, day(49)).earliest_on is None
    assert forecast_release(record, day(49)).binding is Condition.UNREACHABLE
    lifted = replace(record, checks=(*record.checks, CleanCheck(day(49), Level.ROOTS)))
    assert Condition.UNREACHABLE not in release_state(lifted, day(49)).binding


def test_leaves_say_nothing_about_a_pest_of_the_roots() -> None:
    record = replace(RECORD, pest=PESTS["root_mealybug"])
    assert release_state(record, day(49)).counted_checks == 0
    lifted = replace(record, checks=checks(7, 14, level=Level.ROOTS))
    assert release_state(lifted, day(49)).counted_checks == 2


def test_where_it_is_too_cold_the_clock_stands_still() -> None:
    state = release_state(replace(RECORD, temperature=9), day(400))
    assert state.too_cold
    assert state.h3_on == NEVER
    assert Condition.SPAN in state.binding
    assert forecast_release(replace(RECORD, temperature=9), day(60)).earliest_on is None


def test_cold_days_push_the_release_back() -> None:
    cold = {day(number): 8.0 for number in range(10)}
    state = release_state(replace(RECORD, daily=cold), day(49))
    assert state.h3_on == day(51)  # by hand: 40.8 and ten days that add nothing, rounded up


def test_unknown_temperature_counts_as_cool() -> None:
    unknown = release_state(replace(RECORD, temperature=None), day(49))
    assert unknown == release_state(replace(RECORD, temperature=18), day(49))


def test_what_may_come_in_on_watch_lowers_the_odds_and_the_ceiling() -> None:
    watched = release_state(replace(RECORD, weekly_reintroduction=0.01), day(49))
    alone = release_state(RECORD, day(49))
    assert watched.probability < alone.probability
    assert watched.ceiling <= alone.ceiling


def test_a_case_that_qualifies_needs_no_more_checks() -> None:
    found = forecast_release(RECORD, day(50))
    assert (found.earliest_on, found.more_checks, found.binding) == (day(50), 0, None)


def test_the_forecast_does_the_rounds_still_owed() -> None:
    record = replace(RECORD, checks=(), last_spray_on=day(0), rounds_done=1, rounds_since_find=1)
    found = forecast_release(record, day(0))
    # by hand: rounds 2 to 6 on days 7 to 35, h1 17.97 d without spray: from day 53, at the check of day 56
    assert (found.earliest_on, found.binding) == (day(56), Condition.SPRAY_FREE)


def test_the_forecast_agrees_with_the_state_on_its_day() -> None:
    record = replace(RECORD, checks=checks(7, 14, 21))
    found = forecast_release(record, day(22))
    assert found.earliest_on is not None
    future = checks(*(21 + 7 * number for number in range(1, found.more_checks + 1)))
    later = replace(record, checks=record.checks + future)
    assert release_state(later, found.earliest_on).qualifies
    assert not release_state(later, found.earliest_on - timedelta(days=1)).qualifies


def test_an_overdue_check_can_be_taken_today() -> None:
    record = replace(RECORD, checks=checks(7, 14, 21, 28, 35, 42))
    assert forecast_release(record, day(60)).earliest_on == day(60)


def test_a_rhythm_of_no_days_is_a_bug() -> None:
    with pytest.raises(ValueError, match="no rhythm"):
        forecast_release(RECORD, day(1), 0)


@pytest.mark.parametrize(
    ("counts", "finished"),
    [
        ((5, 5, 19, 18.0, 4, 2), True),
        ((5, 4, 19, 18.0, 4, 2), False),
        ((5, 5, 17, 18.0, 4, 2), False),
        ((5, 5, 19, 18.0, 3, 2), False),
        ((5, 5, 19, 18.0, 4, 1), False),
    ],
)
def test_rounds_end_when_all_four_are_met(
    counts: tuple[int, int, int, float, int, int],
    finished: bool,  # noqa: FBT001
) -> None:
    assert rounds_finished(*counts) is finished
