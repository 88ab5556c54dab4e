"""Against epiR (CRAN), help pages of rsu.pfree.rs and rsu.pfree.equ."""

import pytest

from bot.domain.development import Clock
from bot.domain.freedom import HidingWeights, Look, p_free

NOTHING_HIDDEN = HidingWeights(visible=1, first_instar=0, egg=0)
NO_WAIT = Clock(first_instar=0, second_instar=0, h1=0, h2=0, h3=0)


def free_after(prior: float, sensitivity: float, periods: int, coming_in: float) -> float:
    looks = [Look(7 * (number + 1), (sensitivity,) * 3) for number in range(periods)]
    return p_free(
        looks, NO_WAIT, blind_spot=0, prior=prior, weekly_reintroduction=coming_in, weights=NOTHING_HIDDEN
    )


def test_periods_to_pass_its_first_three_digits() -> None:
    # rsu.pfree.equ, example: .986 in 9 periods
    assert free_after(0.5, 0.60, 8, 0.02) < 0.986 <= free_after(0.5, 0.60, 9, 0.02)


# rsu.pfree.rs, example: prior .8, nothing coming in
@pytest.mark.parametrize(("sensitivity", "expected"), [(0.70, 0.9302), (0.95, 0.9877)])
def test_one_period_of_the_help_page(sensitivity: float, expected: float) -> None:
    assert free_after(0.8, sensitivity, 1, 0.0) == pytest.approx(expected, abs=5e-5)
