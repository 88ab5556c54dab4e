"""The trend of few counts."""

import math
from datetime import date, timedelta

import pytest

from bot.catalogue.load import load
from bot.domain.trend import Call, Count, fit_slope, fitted_band, hatch_wave_days, t_below, trend

START = date(2026, 3, 1)


def weekly(*numbers: int) -> list[Count]:
    return [Count(START + timedelta(days=7 * week), number) for week, number in enumerate(numbers)]


# Poisson log-linear fits by R's glm: slope, its standard error, scatter.
@pytest.mark.parametrize(
    ("numbers", "slope", "error"),
    [
        # growth of an epidemic, 13 years (rstudio-pubs 1419470)
        ((12, 14, 33, 50, 67, 74, 123, 141, 165, 204, 253, 246, 240), 0.2021212, 0.0077715),
        ((0, 1, 2, 3, 1, 4, 9, 18, 23, 31, 20, 25, 37, 45), 0.2565236, 0.0220391),
    ],
)
def test_slopes_of_published_counts(numbers: tuple[int, ...], slope: float, error: float) -> None:
    found = fit_slope(range(1, len(numbers) + 1), numbers)
    assert found is not None
    assert (found.per_day, found.error) == pytest.approx((slope, error), abs=5e-7)


def test_the_scatter_of_published_counts() -> None:
    numbers = (12, 14, 33, 50, 67, 74, 123, 141, 165, 204, 253, 246, 240)
    found = fit_slope(range(13), numbers)
    assert found is not None
    assert found.scatter == pytest.approx(6.747, abs=5e-4)  # R, Pearson over n - 2


def test_an_outbreak_that_falls() -> None:
    # R's glm on 20 24 11 9 10 2 a week apart: slope -.0458576, factor .7254 a week
    found = trend(weekly(20, 24, 11, 9, 10, 2))
    assert found.call is Call.FALLING
    assert found.weekly_factor == pytest.approx(0.7254, abs=5e-5)


@pytest.mark.parametrize(
    ("numbers", "call"),
    [
        ((9, 6, 1), Call.TOO_EARLY),
        ((2, 4, 9, 16), Call.PROBABLY_RISING),
        ((5, 4, 6, 5), Call.CANNOT_TELL),
        ((0, 0, 0, 0), Call.CANNOT_TELL),
        ((0, 3, 0, 0), Call.CANNOT_TELL),
        ((0, 0, 0, 0, 4), Call.PROBABLY_RISING),
        ((7, 0, 0, 0, 0), Call.PROBABLY_FALLING),  # by hand: first of five by chance, p .2
        ((7, 0, 0, 0), Call.CANNOT_TELL),  # by hand: p .25
    ],
)
def test_calls(numbers: tuple[int, ...], call: Call) -> None:
    assert trend(weekly(*numbers)).call is call


def test_no_verdict_before_the_hatch_wave() -> None:
    assert trend(weekly(20, 11, 6, 2), START + timedelta(days=22)).call is Call.TOO_EARLY
    assert trend(weekly(20, 11, 6, 2), START + timedelta(days=21)).call is not Call.TOO_EARLY


def test_counts_of_one_day_are_no_slope() -> None:
    assert trend([Count(START, number) for number in (5, 4, 3, 2)]).call is Call.CANNOT_TELL


def test_the_hatch_wave_of_citrus_mealybug() -> None:
    # by hand at 21 degC: 133 / 12.5 + 133.7 / 13.3 = 20.7 d
    assert hatch_wave_days(load().pests["citrus_mealybug"], 21) == pytest.approx(20.7, abs=0.01)


# One-sided 95 % points of Student's t, as in any printed table (from memory).
@pytest.mark.parametrize(
    ("freedom", "point"), [(1, 6.314), (2, 2.920), (3, 2.353), (4, 2.132), (5, 2.015), (10, 1.812)]
)
def test_points_of_students_t(freedom: int, point: float) -> None:
    assert t_below(point, freedom) == pytest.approx(0.95, abs=5e-5)
    assert t_below(-point, freedom) == pytest.approx(0.05, abs=5e-5)


def test_no_degree_of_freedom_is_a_bug() -> None:
    with pytest.raises(ValueError, match="0 degrees"):
        t_below(1, 0)


def test_the_fitted_band_of_published_counts() -> None:
    # R's glm of the thirteen years above: intercept 3.1405895, slope .2021212; at the first year its mean is
    # exp(3.1405895 + .2021212) = 28.2956, at the last exp(5.7681651) = 319.95.
    numbers = (12, 14, 33, 50, 67, 74, 123, 141, 165, 204, 253, 246, 240)
    band = fitted_band([Count(START + timedelta(days=day), number) for day, number in enumerate(numbers)])
    assert len(band) == 13
    assert band[0].middle == pytest.approx(28.2956, rel=1e-4)
    assert band[-1].middle == pytest.approx(319.95, rel=1e-4)
    # Its standard error of the intercept is .078247 at scatter 1, where t = 0, one day before the first.
    assert all(one.low < one.middle < one.high for one in band)


def test_too_few_counts_bear_no_band() -> None:
    assert fitted_band(weekly(9, 6)) == ()
    assert fitted_band(weekly(9, 0, 0)) == ()


def test_the_weekly_factor_comes_with_its_range() -> None:
    # 40, 20, 10, 5, 2 fall by a half each week; a clear fall leaves even the upper end below one.
    found = trend(weekly(40, 20, 10, 5, 2))
    assert found.weekly_range is not None
    assert found.weekly_factor is not None
    low, high = found.weekly_range
    assert low < found.weekly_factor < high < 1
    # On the scale of logarithms the factor lies in the middle: low x high = factor squared.
    assert abs(low * high - found.weekly_factor**2) < 1e-9


@pytest.mark.parametrize("numbers", [(100_000, 0, 1), (100_000, 1, 1), (1, 100_000, 2), (100_000, 1000, 3)])
@pytest.mark.parametrize("days", [(0, 1, 400), (0, 1, 2), (0, 399, 400)])
def test_counts_that_no_plant_bears_break_nothing(numbers: tuple[int, ...], days: tuple[int, ...]) -> None:
    told = [Count(START + timedelta(days=day), number) for day, number in zip(days, numbers, strict=True)]
    four = [*told, Count(told[-1].on + timedelta(days=1), 1)]
    for counts in (told, four):
        assert trend(counts).call in Call
        assert all(math.isfinite(one.high) for one in fitted_band(counts))
