"""The campaign model: which rhythm wins, and after how many rounds."""

import pytest

from bot.domain.survival import (
    LIVES,
    SPRAY,
    SPRAY_AND_WIPE,
    Kill,
    winning_interval,
)

CITRUS = LIVES["citrus_mealybug"]


def test_the_brood_multiplies_as_worked_by_hand() -> None:
    assert CITRUS.r0 == pytest.approx(75.97, abs=0.005)  # 250 * .55 * .85 * .65


def test_the_winning_interval_worked_by_hand() -> None:
    # 8.8 * .0943 + 10.05 * (1.6607 + 1.2730 + 1.1239) + 15.385 * .7765 = 53.56; / ln 75.969 = 4.3303 -> 12.37
    assert winning_interval(CITRUS, 21, 0.9, SPRAY) == pytest.approx(12.37, abs=0.01)


# The formula again, by hand for each cell, coverage .95, .9, .8, .7.
@pytest.mark.parametrize(
    ("kill", "temperature", "days"),
    [
        (SPRAY, 18, (18.0, 16.0, 12.9, 10.4)),
        (SPRAY, 21, (13.9, 12.4, 9.9, 8.0)),
        (SPRAY, 25, (10.7, 9.5, 7.6, 6.2)),
        (SPRAY_AND_WIPE, 18, (23.1, 20.4, 16.3, 13.0)),
        (SPRAY_AND_WIPE, 21, (17.9, 15.8, 12.5, 10.0)),
        (SPRAY_AND_WIPE, 25, (13.7, 12.1, 9.6, 7.7)),
    ],
)
def test_winning_intervals(kill: Kill, temperature: float, days: tuple[float, ...]) -> None:
    found = tuple(winning_interval(CITRUS, temperature, coverage, kill) for coverage in (0.95, 0.9, 0.8, 0.7))
    assert found == pytest.approx(days, abs=0.051)
