"""
Against RSurveillance (github.com/evansergeant/RSurveillance, R/freedom_functions_1.R), run in R 4.2.2.

The package gives the plain rule; ours reduces to it with everything visible, one chance and no blind spot.
"""

import pytest

from bot.domain.development import Clock
from bot.domain.freedom import HidingWeights, Look, disc_prior, p_free

NOTHING_HIDDEN = HidingWeights(visible=1, first_instar=0, egg=0)
NO_WAIT = Clock(first_instar=0, second_instar=0, h1=0, h2=0, h3=0)


def after_periods(sensitivity: float, periods: int, reintroduction: float) -> float:
    looks = [Look(7 * (number + 1), (sensitivity,) * 3) for number in range(periods)]
    return p_free(looks, NO_WAIT, blind_spot=0, weekly_reintroduction=reintroduction, weights=NOTHING_HIDDEN)


# The R calls are disc.prior(.5, .01) and disc.prior(.95, c(.001, .005, .01, .02, .05)).
@pytest.mark.parametrize(
    ("free", "reintroduction", "expected"),
    [
        (0.5, 0.01, 0.495),
        (0.95, 0.001, 0.94905),
        (0.95, 0.005, 0.94525),
        (0.95, 0.01, 0.94050),
        (0.95, 0.02, 0.93100),
        (0.95, 0.05, 0.90250),
    ],
)
def test_disc_prior(free: float, reintroduction: float, expected: float) -> None:
    assert disc_prior(free, reintroduction) == pytest.approx(expected, abs=1e-9)


def test_pfree_1() -> None:
    assert after_periods(0.8, 1, 0.01) == pytest.approx(0.8305369128, abs=1e-10)  # pfree.1(.8, .01, .5)


# pfree.1(.6, c(.001, .005, .01, .02, .05), .5)
@pytest.mark.parametrize(
    ("reintroduction", "expected"),
    [(0.001, 0.7138774), (0.005, 0.7122405), (0.01, 0.7101865), (0.02, 0.7060519), (0.05, 0.6934307)],
)
def test_pfree_1_by_reintroduction(reintroduction: float, expected: float) -> None:
    assert after_periods(0.6, 1, reintroduction) == pytest.approx(expected, abs=5e-8)


# The R call is pfree.calc(rep(.6, 24), .01, .5)
@pytest.mark.parametrize(
    ("periods", "expected"),
    [
        (1, 0.7101865),
        (2, 0.8554894),
        (3, 0.9325822),
        (4, 0.9678208),
        (5, 0.9828257),
        (6, 0.9890211),
        (12, 0.9932474),
        (24, 0.9932660),
    ],
)
def test_pfree_calc_period_by_period(periods: int, expected: float) -> None:
    assert after_periods(0.6, periods, 0.01) == pytest.approx(expected, abs=5e-8)


def test_many_periods_reach_the_equilibrium() -> None:
    assert after_periods(0.8, 60, 0.05) == pytest.approx(0.9868421, abs=5e-8)  # pfree.equ(.8, .05)
    assert after_periods(0.8, 60, 0.01) == pytest.approx(0.9974747475, abs=1e-10)  # pfree.1(.8, .01, .5)


def test_k_clean_checks_of_the_textbook() -> None:
    # by hand: 1 / (1 + (1 - s)^k), s .5, k 4 = 16/17
    assert after_periods(0.5, 4, 0) == pytest.approx(16 / 17)
