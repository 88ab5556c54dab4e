"""How sure clean checks make."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.development import Clock
from bot.domain.freedom import BLIND_SPOT, Look, p_free

PLAIN = (0.30, 0.50, 0.70)
# Citrus mealybug at 21 degC by hand: egg 99 and 133 DD above 8.5, instars 401/3 DD each above 7.7.
_INSTAR = 401 / 3 / 13.3
CLOCK = Clock(
    first_instar=_INSTAR,
    second_instar=2 * _INSTAR,
    h1=99 / 12.5 + _INSTAR,
    h2=133 / 12.5 + 2 * _INSTAR,
    h3=133 / 12.5 + 3 * _INSTAR,
)


def test_weekly_plain_checks_with_eggs_considered() -> None:
    # Worked out apart from this code for the same classes and levels, days 7 to 70.
    expected = (0.51256, 0.52912, 0.58136, 0.69303, 0.80149, 0.86911, 0.91019, 0.93530, 0.95091, 0.96082)
    looks = [Look(7 * week, PLAIN) for week in range(1, 11)]
    found = [p_free(looks[:count], CLOCK) for count in range(1, 11)]
    assert found == pytest.approx(expected, abs=2e-5)


def test_no_checks_leave_the_odds_even() -> None:
    assert p_free([], CLOCK) == pytest.approx(0.5)


def test_what_may_come_in_each_week_costs_confidence() -> None:
    looks = [Look(7 * week, PLAIN) for week in range(1, 11)]
    assert p_free(looks, CLOCK, weekly_reintroduction=0.01) < p_free(looks, CLOCK)


@settings(max_examples=40)
@given(st.lists(st.integers(1, 200), min_size=1, max_size=20, unique=True))
def test_another_clean_check_never_lowers_it_and_never_passes_the_ceiling(days: list[int]) -> None:
    looks = [Look(day, PLAIN) for day in sorted(days)]
    before, after = p_free(looks[:-1], CLOCK), p_free(looks, CLOCK)
    assert before <= after + 1e-12
    assert after <= 1 / (1 + BLIND_SPOT) + 1e-12  # by hand: .5 / (.5 + .5 u)
