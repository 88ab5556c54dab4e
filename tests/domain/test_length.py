"""How many rounds."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.catalogue.load import load
from bot.domain.length import forecast_rounds, minimum_rounds
from bot.domain.survival import Start

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


def test_other_pests_have_no_range() -> None:
    assert forecast_rounds(PESTS["spider_mite"], 20, 7, Start.SOME).likely is None


def test_a_rhythm_that_does_not_keep_up_has_no_upper_end() -> None:
    # The campaign model's table: 25 degC, every 10 d, 11 rounds at .95, more than 40 at .80.
    assert forecast_rounds(PESTS["citrus_mealybug"], 25, 10, Start.SOME).likely == (11, None)


@settings(max_examples=20)
@given(st.sampled_from(sorted(PESTS)), st.floats(0, 40), st.floats(1, 14))
def test_the_range_never_starts_below_the_minimum(key: str, temperature: float, gap_days: float) -> None:
    found = forecast_rounds(PESTS[key], temperature, gap_days, Start.FEW)
    assert found.minimum >= 3
    assert found.likely is None or found.likely[0] is None or found.likely[0] >= found.minimum
