"""
Against epiR (CRAN), help pages of rsu.pfree.rs and rsu.pfree.equ.

Beware: rsu.pfree.rs returns its two equilibria under each other's names (sensitivity .65, re-introduction
.01: it calls .98462 the posterior and .99456 the prior). A clean result can only raise confidence, so the
larger one is the posterior, as in the help text of rsu.pfree.equ and in RSurveillance.
"""

import pytest

from bot.domain.freedom import disc_prior, pfree, plateau


def test_the_larger_equilibrium_is_the_one_after_a_check() -> None:
    after = plateau(0.65, 0.01)
    assert after == pytest.approx(0.99456, abs=5e-6)
    # 0.98462 before the check: what is left of it when the next one is due
    assert disc_prior(after, 0.01) == pytest.approx(0.98462, abs=5e-6)


def test_plateau_of_the_help_page() -> None:
    assert plateau(0.60, 0.02) == pytest.approx(0.986, abs=5e-4)  # rsu.pfree.equ, example


def test_periods_to_pass_its_first_three_digits() -> None:
    free, periods = 0.5, 0  # rsu.pfree.equ, example: 9 periods
    while free < 0.986:
        free, periods = pfree(disc_prior(free, 0.02), 0.60), periods + 1
    assert periods == 9


# rsu.pfree.rs, example: prior .8, nothing coming in
@pytest.mark.parametrize(("sensitivity", "expected"), [(0.70, 0.9302), (0.95, 0.9877)])
def test_one_period_of_the_help_page(sensitivity: float, expected: float) -> None:
    assert pfree(0.8, sensitivity) == pytest.approx(expected, abs=5e-5)
