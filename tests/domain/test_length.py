"""How many rounds."""

import pytest

from bot.catalogue.load import load
from bot.domain.length import minimum_rounds

PESTS = load().pests


# Worked by hand: ceil(safety S / (T - T0) / gap) + 1.
# citrus 18, 10 d: 1.3 * 330 / 10 = 42.9 -> 5 + 1; citrus 25, 6 d: 25.2 -> 5 + 1; root 20, 9 d: 31.1 -> 4 + 1;
# mite 23, 6 d: 7.25 -> 2 + 1; green peach aphid 28, 3 d: 6.4 -> 3 + 1; thrips 18, 6 d: 17.1 -> 3 + 1.
@pytest.mark.parametrize(
    ("key", "temperature", "gap_days", "rounds"),
    [
        ("citrus_mealybug", 18, 10, 6),
        ("citrus_mealybug", 25, 6, 6),
        ("root_mealybug", 20, 9, 5),
        ("spider_mite", 23, 6, 3),
        ("green_peach_aphid", 28, 3, 4),
        ("western_flower_thrips", 18, 6, 4),
    ],
)
def test_rounds_outlast_what_the_first_one_could_not_reach(
    key: str, temperature: float, gap_days: int, rounds: int
) -> None:
    assert minimum_rounds(PESTS[key], temperature, gap_days) == rounds


def test_never_fewer_than_three() -> None:
    assert minimum_rounds(PESTS["spider_mite"], 30, 20) == 3  # the floor of the rule


def test_unknown_temperature_counts_as_cool() -> None:
    pest = PESTS["citrus_mealybug"]
    assert minimum_rounds(pest, None, 7) == minimum_rounds(pest, 18, 7)


def test_rounds_without_a_gap_are_a_bug() -> None:
    with pytest.raises(ValueError, match="no gap"):
        minimum_rounds(PESTS["spider_mite"], 20, 0)
