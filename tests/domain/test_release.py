"""The release rule: each condition alone, and the forecast."""

import math
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.catalogue.load import load
from bot.domain.release import NEVER, CleanCheck, Condition, ReleaseRecord, forecast_release, release_state
from bot.domain.trade import Level
from bot.domain.value import replace

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
    started_on=FOUND,
    checks=checks(7, 14, 21, 28, 35, 42, 49),
    treated_on=day(42),
    rounds_done=7,
    rounds_since_find=5,
    rounds_needed=6,
    root_looks=1,
)


def test_a_full_record_qualifies() -> None:
    state = release_state(RECORD, day(49))
    assert state.qualifies
    assert state.binding == ()
    assert (state.h1_on, state.h3_on) == (day(18), day(41))  # rounded up
    assert (state.counted_checks, state.late_checks, state.days_since_find) == (7, 3, 49)


@pytest.mark.parametrize(
    ("record", "condition"),
    [
        (replace(RECORD, treated_on=day(49)), Condition.FRESH),
        (replace(RECORD, root_prone=True, root_looks=0), Condition.ROOTS),
        (replace(RECORD, rounds_done=5), Condition.ROUNDS),
        (replace(RECORD, rounds_since_find=4), Condition.ROUNDS),
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
    record = replace(RECORD, checks=checks(12, 17, 22, 27, 32, 37, level=Level.LENS), treated_on=day(30))
    # the rounds of this pest wait for the same days
    assert release_state(record, day(40)).binding == (Condition.ROUNDS, Condition.SPAN)


def test_two_looks_on_one_weekend_are_one_look_of_the_closer_level() -> None:
    twice = replace(RECORD, checks=(*checks(7, 14), CleanCheck(day(8), Level.LENS)))
    once = replace(RECORD, checks=(CleanCheck(day(7), Level.LENS), *checks(14)))
    assert release_state(twice, day(14)).counted_checks == 2
    assert release_state(twice, day(14)).probability == release_state(once, day(14)).probability


def test_checks_up_to_the_find_and_after_today_do_not_count() -> None:
    record = replace(RECORD, checks=checks(-7, 0, 7, 60))
    assert release_state(record, day(10)).counted_checks == 1


def test_one_look_at_the_roots_is_a_condition_of_its_own() -> None:
    prone = replace(RECORD, root_prone=True, root_looks=0)
    record = replace(prone, checks=checks(*range(7, 92, 7)), treated_on=day(42))
    state = release_state(record, day(91))
    assert state.binding == (Condition.ROOTS,)
    lifted = replace(record, checks=(*record.checks, CleanCheck(day(91), Level.ROOTS)))
    assert release_state(lifted, day(91)).qualifies
    before = replace(record, checks=(CleanCheck(day(0), Level.ROOTS), *record.checks))
    assert Condition.ROOTS in release_state(before, day(91)).binding, (
        "a look before the last find says nothing"
    )


def test_a_plant_that_cannot_be_lifted_waits_a_quarter_longer() -> None:
    # h3 is 40.8 d at 21 degC; times 1.25 it is 51.0
    prone = replace(RECORD, root_prone=True, cannot_lift=True, root_looks=0)
    record = replace(prone, checks=checks(*range(7, 64, 7)))
    state = release_state(record, day(49))
    assert state.binding == (Condition.SPAN,)
    assert release_state(record, day(50)).binding == (Condition.SPAN,)
    assert Condition.SPAN not in release_state(record, day(51)).binding


def test_a_plant_whose_roots_nobody_looked_at_waits_a_quarter_longer_too() -> None:
    # of a kind that is not root-prone, and so no condition: h3 40.8 d at 21 degC, times 1.25 51.0
    unseen = replace(RECORD, root_looks=0)
    assert release_state(unseen, day(49)).binding == (Condition.SPAN,)
    assert release_state(unseen, day(50)).binding == (Condition.SPAN,)
    assert release_state(unseen, day(51)).qualifies
    lifted = replace(unseen, checks=(*unseen.checks, CleanCheck(day(49), Level.ROOTS)))
    assert release_state(lifted, day(49)).qualifies
    aphids = replace(unseen, pest=PESTS["green_peach_aphid"])
    assert Condition.SPAN in release_state(aphids, day(17)).binding  # never at the roots: the row's 18 days
    assert Condition.SPAN not in release_state(aphids, day(18)).binding


def test_two_looks_at_the_roots_a_fortnight_apart_spare_the_longer_wait_where_some_may_sit_there() -> None:
    # h3 40.8 d at 21 degC, times 1.25 51.0; a fortnight: our judgement, one look misses half
    prone = replace(RECORD, root_prone=True, root_looks=0, root_looks_needed=2)

    def lifted_on(*days: int) -> ReleaseRecord:
        return replace(prone, checks=(*prone.checks, *(CleanCheck(day(one), Level.ROOTS) for one in days)))

    assert release_state(lifted_on(49), day(49)).binding == (Condition.SPAN,)
    assert release_state(lifted_on(36, 49), day(49)).binding == (Condition.SPAN,), (
        "thirteen days are one look"
    )
    assert release_state(lifted_on(35, 49), day(49)).qualifies
    assert release_state(lifted_on(49), day(51)).qualifies, "once is enough to leave, later"


@pytest.mark.parametrize("key", ["green_peach_aphid", "melon_aphid"])
def test_aphids_are_left_alone_for_two_and_a_half_generations_and_then_looked_at(key: str) -> None:
    # the slow lines at 21 degC: 165.6 / 18.8 = 8.81 and 108.9 / 14.8 = 7.36 d, two and a half times that 22.02 and 18.4
    alone = {"green_peach_aphid": 23, "melon_aphid": 19}[key]
    record = replace(RECORD, pest=PESTS[key], checks=checks(7, 14, 21, 28, 35), treated_on=day(21))
    state = release_state(record, day(35))
    assert state.leave_alone_until == day(21 + alone)
    assert set(state.binding) == {Condition.FRESH, *([Condition.CONTACT_FREE] if alone > 14 else [])}
    assert release_state(record, day(21 + alone)).binding == (Condition.FRESH,)
    looked = replace(record, checks=(*record.checks, CleanCheck(day(21 + alone), Level.PLAIN)))
    assert release_state(looked, day(21 + alone)).qualifies


def test_a_plain_look_says_nothing_of_fungus_gnats() -> None:
    record = replace(RECORD, pest=PESTS["fungus_gnat"])
    assert release_state(record, day(49)).counted_checks == 0
    on_cards = replace(record, checks=checks(42, 49, level=Level.CARD))
    assert release_state(on_cards, day(49)).looks_share == 1.0


def test_a_plant_leaves_on_a_fresh_look_only() -> None:
    # the look of day 49 is good up to day 58; younger than ten days is the rule
    assert release_state(RECORD, day(58)).qualifies
    assert release_state(RECORD, day(59)).binding == (Condition.FRESH,)
    assert release_state(RECORD, day(407)).binding == (Condition.FRESH,)


def test_a_look_before_the_last_treatment_of_any_method_is_not_fresh() -> None:
    assert release_state(replace(RECORD, treated_on=day(48)), day(50)).qualifies
    for treated in (49, 50):
        assert release_state(replace(RECORD, treated_on=day(treated)), day(50)).binding == (Condition.FRESH,)


def test_no_day_counts_for_more_than_one_at_26_degrees() -> None:
    # by hand at 26: eggs 133/17.5 = 7.6 and nymphs 401/18.3 = 21.913, together 29.51
    hot = release_state(replace(RECORD, temperature=30), day(49))
    warm = release_state(replace(RECORD, temperature=26), day(49))
    assert (hot.h1_on, hot.h3_on) == (warm.h1_on, warm.h3_on)
    assert warm.h3_on == day(30)


MITES = replace(
    RECORD,
    pest=PESTS["spider_mite"],
    checks=checks(28, 35, 42, level=Level.TAP),
    treated_on=day(42),
    rounds_since_find=6,
    rounds_needed=3,
)


def test_mites_wait_42_days_and_six_rounds_and_then_are_left_alone() -> None:
    # 21 degC: 31 d since the find, 42 d and six rounds till the rounds end; h1 = 47.3/10.35 + 32.3/10.7 = 7.6 d
    state = release_state(MITES, day(42))
    assert state.is_finished
    assert state.leave_alone_until == day(50)
    assert set(state.binding) == {Condition.CONTACT_FREE, Condition.FRESH}
    assert not release_state(MITES, day(41)).is_finished
    assert not release_state(replace(MITES, rounds_since_find=5), day(42)).is_finished
    looked = replace(MITES, checks=(*MITES.checks, CleanCheck(day(50), Level.TAP)))
    assert release_state(looked, day(50)).qualifies


def test_the_strict_rule_leaves_mites_alone_for_longer() -> None:
    # the row: 24, 18, 13 days at 18, 21, 25 degC
    for celsius, days in ((18, 24), (21, 18), (25, 13)):
        state = release_state(replace(MITES, strict=True, temperature=celsius), day(42))
        assert state.leave_alone_until == day(42 + days)


def test_a_card_and_a_plain_look_say_nothing_of_mites() -> None:
    for level, counted, share in (
        (Level.CARD, 0, 0.0),
        (Level.PLAIN, 0, 0.0),
        (Level.TAP, 2, 1.0),
        (Level.LENS, 2, 1.0),
    ):
        state = release_state(replace(MITES, checks=checks(28, 42, level=level)), day(42))
        assert (state.counted_checks, state.looks_share) == (counted, share)


@pytest.mark.parametrize(
    ("celsius", "days"),
    [
        (18, 44.0),
        (21, 31.0),
        (25, 23.0),
        (30, 23.0),
        (23, 1 / ((1 / 31 + 1 / 23) / 2)),
        (19.5, 2 / (1 / 44 + 1 / 31)),
    ],
)
def test_three_figures_are_joined_by_a_straight_line_in_one_over_days(celsius: float, days: float) -> None:
    # 23 and 19.5 degC are half way: the mean of the two rates, by hand 26.4 and 36.4 d
    assert PESTS["spider_mite"].leaving.since_find.at(celsius) == pytest.approx(days)


def test_below_18_degrees_the_line_goes_on_down() -> None:
    # rates 1/44 and 1/31 over 3 degrees: .003177 a degree; at 15 degC .022727 - .009530 = .013197, 75.8 d
    assert PESTS["spider_mite"].leaving.since_find.at(15) == pytest.approx(75.78, abs=0.05)
    assert PESTS["spider_mite"].leaving.since_find.at(10) == math.inf


def test_leaves_say_nothing_about_a_pest_of_the_roots() -> None:
    record = replace(RECORD, pest=PESTS["root_mealybug"])
    assert release_state(record, day(49)).counted_checks == 0
    lifted = replace(record, checks=checks(7, 14, 28, level=Level.ROOTS))
    assert release_state(lifted, day(49)).counted_checks == 2, (
        "21 days apart: the second is part of the first"
    )


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


def test_a_case_that_qualifies_needs_no_more_checks() -> None:
    found = forecast_release(RECORD, day(50))
    assert (found.earliest_on, found.more_checks, found.binding) == (day(50), 0, None)


def test_the_forecast_does_the_rounds_still_owed() -> None:
    record = replace(RECORD, checks=(), treated_on=day(0), rounds_done=1, rounds_since_find=0)
    found = forecast_release(record, day(0))
    # by hand: rounds on days 7 to 35 while h3 = 40.8 d are not over; the round of day 42 is no more needed, as looks
    # and rounds are enough by then; the looks of days 7 to 49 bring 91 % on day 49 (`test_the_probability_week_by_week`)
    assert (found.earliest_on, found.more_rounds, found.more_checks) == (day(49), 5, 7)


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
    ("changed", "is_finished"),
    [
        ({}, True),
        ({"rounds_done": 5}, False),  # of 6
        ({"rounds_since_find": 4}, False),  # of 5, after the day of the find
        ({"checks": checks(7)}, False),  # of 2
    ],
)
def test_rounds_end_when_all_is_met(changed: dict[str, Any], is_finished: bool) -> None:  # noqa: FBT001
    assert release_state(replace(RECORD, **changed), day(41)).is_finished is is_finished
    assert not release_state(RECORD, day(40)).is_finished, "h3 is 40.8 d"


def test_the_strict_rule_asks_for_six_rounds_after_the_find() -> None:
    assert not release_state(replace(RECORD, strict=True, rounds_since_find=5), day(41)).is_finished
    assert release_state(replace(RECORD, strict=True, rounds_since_find=6), day(41)).is_finished


@settings(max_examples=80, deadline=None)
@given(
    pest=st.sampled_from(sorted(PESTS)),
    celsius=st.floats(14, 30),
    looks=st.lists(st.tuples(st.integers(0, 200), st.sampled_from(list(Level))), max_size=30),
    treated=st.integers(0, 200),
    rounds=st.integers(0, 20),
    today=st.integers(0, 260),
)
def test_nothing_leaves_without_a_fresh_look_that_can_show_it(  # noqa: PLR0917
    pest: str, celsius: float, looks: list[tuple[int, Level]], treated: int, rounds: int, today: int
) -> None:
    record = replace(
        RECORD,
        pest=PESTS[pest],
        temperature=celsius,
        checks=tuple(CleanCheck(day(on), level) for on, level in looks),
        treated_on=day(treated),
        rounds_done=rounds,
        rounds_since_find=rounds,
    )
    if release_state(record, day(today)).qualifies:
        fit = [on for on, level in looks if level in PESTS[pest].looking.needed and 0 < on <= today]
        assert fit
        assert treated < max(fit)
        assert today - max(fit) < 10
