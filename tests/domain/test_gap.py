"""The window of the next round."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.catalogue.load import load
from bot.domain.gap import Lateness, lateness, plan_gap
from bot.domain.pest import Pest
from bot.domain.value import replace

PESTS = load().pests
CITRUS, MITE = PESTS["citrus_mealybug"], PESTS["spider_mite"]
any_pest = st.sampled_from(sorted(PESTS)).map(PESTS.__getitem__)


# Worked by hand, label 7 d: W = D/(T - T0), U = floor(min(f W, cap)).
# citrus 18: W 13.7, U 10; 21: W 10.4, U 8; 25: W 7.9, U 6; mite 25: W 6.6, U 5; thrips 25: W 3.4, U 3;
# armoured 20: W 11.9, U 9.
@pytest.mark.parametrize(
    ("key", "temperature", "opens", "closes", "handwork"),
    [
        ("citrus_mealybug", 18, 7, 10, ()),
        ("citrus_mealybug", 21, 7, 8, ()),
        ("citrus_mealybug", 25, 7, 7, ()),
        ("spider_mite", 25, 7, 8, (2, 5)),
        ("western_flower_thrips", 25, 7, 8, (2, 5)),
        ("armoured_scale", 20, 7, 9, ()),
    ],
)
def test_windows_under_a_label_of_seven_days(
    key: str, temperature: float, opens: int, closes: int, handwork: tuple[int, ...]
) -> None:
    plan = plan_gap(PESTS[key], temperature, 7)
    assert (plan.opens_days, plan.closes_days, plan.aim_days) == (opens, closes, opens)
    assert plan.handwork_days == handwork


def test_without_a_label_the_window_opens_three_days_before_its_end() -> None:
    plan = plan_gap(CITRUS, 21, None)  # by hand: U 8
    assert (plan.opens_days, plan.closes_days) == (5, 8)


def test_the_label_may_leave_no_slack() -> None:
    plan = plan_gap(CITRUS, 25, 7)
    assert (plan.opens_days, plan.label_outlasts) == (plan.closes_days, False)


def test_a_label_longer_than_the_hatch_asks_for_another_kind_of_product() -> None:
    plan = plan_gap(PESTS["western_flower_thrips"], 25, 7)
    assert plan.label_outlasts
    assert plan.wants_shorter_label


@pytest.mark.parametrize(("label", "wants"), [(7, True), (None, True), (3, False)])
def test_for_mites_a_week_is_long_at_any_temperature(label: int | None, wants: bool) -> None:  # noqa: FBT001
    assert plan_gap(MITE, 15, label).wants_shorter_label is wants


def test_unknown_temperature_counts_as_warm() -> None:
    assert plan_gap(CITRUS, None, 7) == plan_gap(CITRUS, 24, 7)


def test_cold_is_held_three_degrees_over_the_threshold_and_said() -> None:
    plan = plan_gap(CITRUS, 9, 7)  # by hand: 130 / 3 = 43.3, times .8, capped at 10
    assert (plan.too_cold, plan.temperature, plan.closes_days) == (True, 11.5, 10)


def test_heat_is_held_at_the_upper_bound_and_said() -> None:
    plan = plan_gap(CITRUS, 35, None)
    assert (plan.above_range, plan.temperature) == (True, 30)


def test_a_round_is_on_time_then_late_then_missed() -> None:
    plan = plan_gap(CITRUS, 21, 7)  # by hand: U 8, floor W 10
    found = [lateness(plan, days) for days in (8, 9, 10, 11)]
    assert found == [Lateness.ON_TIME, Lateness.LATE, Lateness.LATE, Lateness.MISSED]


def test_the_last_day_of_a_window_the_label_pushed_back_is_on_time() -> None:
    plan = plan_gap(CITRUS, 25, 7)  # by hand: U 6, window day 7
    assert [lateness(plan, days) for days in (7, 8)] == [Lateness.ON_TIME, Lateness.MISSED]


def test_where_handwork_fills_the_wait_only_the_pest_counts() -> None:
    plan = plan_gap(MITE, 25, 7)  # by hand: U 5, floor W 6
    found = [lateness(plan, days) for days in (5, 6, 7)]
    assert found == [Lateness.ON_TIME, Lateness.LATE, Lateness.MISSED]


def test_a_negative_label_is_a_bug() -> None:
    with pytest.raises(ValueError, match="-1 d"):
        plan_gap(CITRUS, 21, -1)


def test_a_very_fast_pest_is_met_every_day() -> None:
    fast = replace(PESTS["western_flower_thrips"], gap_f=0.1)
    assert (plan_gap(fast, 33, None).opens_days, plan_gap(fast, 33, None).closes_days) == (1, 1)


@settings(max_examples=60)
@given(any_pest, st.none() | st.floats(-5, 45), st.none() | st.integers(0, 40))
def test_the_label_is_never_broken(pest: Pest, temperature: float | None, label: int | None) -> None:
    plan = plan_gap(pest, temperature, label)
    assert 1 <= plan.opens_days <= plan.aim_days <= plan.closes_days
    assert plan.opens_days >= (label or 1)
    assert list(plan.handwork_days) == sorted(set(plan.handwork_days))
    assert all(0 < day < plan.opens_days for day in plan.handwork_days)


@settings(max_examples=60)
@given(any_pest, st.floats(5, 40), st.floats(0, 10))
def test_warmer_never_means_longer(pest: Pest, temperature: float, warmer: float) -> None:
    cool = plan_gap(pest, temperature, None)
    warm = plan_gap(pest, temperature + warmer, None)
    assert warm.upper_days <= cool.upper_days
    assert warm.missed_after_days <= cool.missed_after_days


@settings(max_examples=60)
@given(any_pest.filter(lambda pest: pest.fight.handwork is not None), st.floats(12, 33), st.integers(2, 30))
def test_no_day_without_work_outlasts_the_hatch(pest: Pest, temperature: float, label: int) -> None:
    plan = plan_gap(pest, temperature, label)
    steps = [0, *plan.handwork_days, plan.aim_days]
    # Days are whole, so a piece can be rounded up by half a day past an even share.
    assert max(b - a for a, b in itertools.pairwise(steps)) <= plan.missed_after_days + 1
