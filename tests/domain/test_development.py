"""Degree-days: one line, held inside its range, summed by day."""

import math
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.catalogue.load import load
from bot.domain.development import Warmth, clock, development_days, held, is_too_cold, sequence_days
from bot.domain.pest import Stage

CITRUS = load().pests["citrus_mealybug"]
START = date(2026, 3, 1)


def test_days_are_the_constant_over_the_warmth_above_the_threshold() -> None:
    # by hand: 130 / (21 - 8.5) = 10.4
    assert development_days(Stage(dd=130, t0=8.5), 21) == pytest.approx(10.4)


def test_a_live_birth_takes_no_time_however_cold() -> None:
    assert development_days(Stage(dd=0, t0=8), -5) == 0


def test_within_three_degrees_of_the_threshold_the_line_says_nothing() -> None:
    stage = Stage(dd=100, t0=10)
    assert is_too_cold(stage, 12.9)
    assert not is_too_cold(stage, 13)
    assert math.isinf(development_days(stage, 12.9))


def test_heat_past_the_upper_bound_does_not_speed_anything_up() -> None:
    assert held(CITRUS, 36) == CITRUS.t_high


# Worked by hand from 99 and 133 DD above 8.5 and 401/3 DD an instar above 7.7 (arai1996 for the nymph).
@pytest.mark.parametrize(
    ("temperature", "h1", "h2", "h3"),
    [(18, 23.4, 40.0, 52.9), (21, 18.0, 30.7, 40.8), (25, 13.7, 23.5, 31.2)],
)
def test_the_clock_of_citrus_mealybug(temperature: float, h1: float, h2: float, h3: float) -> None:
    found = clock(CITRUS, Warmth(since_on=START, mean=temperature))
    assert (found.h1, found.h2, found.h3) == pytest.approx((h1, h2, h3), abs=0.051)


def test_days_all_alike_sum_to_the_same_as_their_mean() -> None:
    daily = {START + timedelta(days=number): 21.0 for number in range(60)}
    by_day = clock(CITRUS, Warmth(since_on=START, mean=5, daily=daily))
    steady = clock(CITRUS, Warmth(since_on=START, mean=21))
    assert (by_day.h1, by_day.h2, by_day.h3) == pytest.approx((steady.h1, steady.h2, steady.h3))


def test_a_cold_day_adds_nothing() -> None:
    daily = {START + timedelta(days=2): 9.0}
    late = sequence_days(CITRUS, CITRUS.instars, Warmth(since_on=START, mean=21, daily=daily))
    plain = sequence_days(CITRUS, CITRUS.instars, Warmth(since_on=START, mean=21))
    assert late == pytest.approx(plain + 1)


def test_two_temperatures_sum_day_by_day() -> None:
    # by hand: 20 DD above 10: two days at 15 give 10, half a day at 30 the rest
    pest_line = (Stage(dd=20, t0=10),)
    daily = {START: 15.0, START + timedelta(days=1): 15.0}
    assert sequence_days(CITRUS, pest_line, Warmth(since_on=START, mean=30, daily=daily)) == pytest.approx(
        2.5
    )


def test_always_too_cold_never_ends() -> None:
    assert math.isinf(clock(CITRUS, Warmth(since_on=START, mean=8)).h1)
    assert math.isinf(clock(CITRUS, Warmth(since_on=START, mean=8, daily={START: 8.0})).h3)


@settings(max_examples=40)
@given(st.sampled_from(sorted(load().pests)), st.floats(14, 40), st.floats(0, 5))
def test_warmer_is_never_slower(key: str, temperature: float, warmer: float) -> None:
    pest = load().pests[key]
    cool = clock(pest, Warmth(since_on=START, mean=temperature))
    warm = clock(pest, Warmth(since_on=START, mean=temperature + warmer))
    assert warm.h1 <= cool.h1
    assert warm.h3 <= cool.h3
