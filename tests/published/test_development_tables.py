"""
Catalogue figures against durations that were measured, each row with the error the line makes.

`misses` is stated, not tuned away: where it is large, the comment says why. Rows with a source of their own
are independent of the figures; rows marked "fit" check only that a figure was carried over rightly.
"""

from collections.abc import Callable

import pytest

from bot.catalogue.load import load
from bot.domain.development import development_days
from bot.domain.pest import Pest, Stage

PESTS = load().pests


def first_instar(pest: Pest, temperature: float) -> float:
    return development_days(pest.instars[0], temperature)


def nymph(pest: Pest, temperature: float) -> float:
    return sum(development_days(stage, temperature) for stage in pest.instars)


def egg_slow(pest: Pest, temperature: float) -> float:
    return development_days(pest.egg_hi, temperature)


def egg_fast(pest: Pest, temperature: float) -> float:
    return development_days(pest.egg_lo, temperature)


def egg_to_adult(pest: Pest, temperature: float) -> float:
    return egg_slow(pest, temperature) + nymph(pest, temperature)


def gap_window(pest: Pest, temperature: float) -> float:
    return development_days(pest.gap, temperature)


Row = tuple[str, Callable[[Pest, float], float], float, float, float]
ROWS: list[Row] = [
    # pest, what, temperature [degC], measured [d], model over measured
    # karacaoglu2017, 25 degC: first instar 7.86, third 7.0; our slow line is another study's (arai1996)
    ("citrus_mealybug", gap_window, 25, 7.86, 1.00),  # fit
    ("citrus_mealybug", first_instar, 25, 7.86, 0.98),
    ("citrus_mealybug", first_instar, 25, 7.0, 1.10),
    # polat2008, 28 degC: 20.33 d on Nerium, 12.85 d on Schefflera: the host matters as much as warmth
    ("citrus_mealybug", nymph, 28, 20.33, 0.97),
    ("citrus_mealybug", nymph, 28, 12.85, 1.54),
    # coffee_citri2008: 77 d at 15 degC, 30 d at 30; a poor host, where the line is a third too short
    ("citrus_mealybug", nymph, 15, 77, 0.71),
    ("citrus_mealybug", nymph, 30, 30, 0.60),
    # francis_minor, a relative, egg to adult: 49 d at 20 degC, 31 d at 25
    ("citrus_mealybug", egg_to_adult, 20, 49, 0.90),
    ("citrus_mealybug", egg_to_adult, 25, 31, 1.01),
    # borges_longtailed, 25 degC: 9.5 d and 49.0 d; our slow line is the whole cycle, so it must miss
    ("longtailed_mealybug", first_instar, 25, 9.5, 1.00),  # fit
    ("longtailed_mealybug", nymph, 25, 49.0, 0.81),
    # eppo2002_133: egg 9 d, generation 61 d at 21 degC on Serissa, 90 d on Nerium
    ("root_mealybug", egg_slow, 21, 9, 1.00),  # fit
    ("root_mealybug", egg_to_adult, 21, 61, 1.00),  # fit
    ("root_mealybug", egg_to_adult, 21, 90, 0.68),
    # eajbsz_mite: 30.6 d at 15 degC on pear, 34 d on another variety
    ("spider_mite", egg_to_adult, 15, 30.6, 1.19),
    ("spider_mite", egg_to_adult, 15, 34, 1.07),
    # sabelis1981, from memory: egg 14.3, 6.7 and 2.8 d at 15, 20 and 30 degC
    ("spider_mite", egg_slow, 15, 14.3, 1.11),
    ("spider_mite", egg_slow, 20, 6.7, 1.10),
    ("spider_mite", egg_slow, 30, 2.8, 1.27),
    # ctahr_coffeae, the stand-in species: egg to adult 95.2 d at 18 degC, 31.2 d at 28
    ("brown_soft_scale", egg_to_adult, 18, 95.2, 0.95),
    ("brown_soft_scale", egg_to_adult, 28, 31.2, 1.27),
    # bayindir2018: mean generation 67.5 d at 25 degC, laying included, which our line leaves out
    ("armoured_scale", egg_to_adult, 25, 67.5, 0.94),
    # kim2012: 14.4 d at 14.6 degC, changing temperatures; the slow line is close there
    ("green_peach_aphid", nymph, 14.6, 14.4, 0.93),
    # kersting1999: 12.0 d at 15 degC; parajulee2007, birth to first young: 26 d at 10 degC, 5 d at 25
    ("melon_aphid", nymph, 15, 12.0, 1.03),
    ("melon_aphid", nymph, 10, 26, 1.10),
    ("melon_aphid", nymph, 25, 5, 1.16),
    # ages_whitefly: egg 7 d (6 to 8) at 20 degC: the slow egg is half again as long
    ("greenhouse_whitefly", egg_slow, 20, 7, 1.51),
    # biobest_whitefly: 51 d at 15 degC, 21 d at 25 on tomato; encyclopedia2008_whitefly: 25 to 30 d at 21
    ("greenhouse_whitefly", egg_to_adult, 15, 51, 1.12),
    ("greenhouse_whitefly", egg_to_adult, 25, 21, 1.09),
    ("greenhouse_whitefly", egg_to_adult, 21, 27.5, 1.09),
    # katayama1997: 34.2 d at 15 degC, 12.1 at 25; deligeorgidis2006: 33.99 d at 15, 11.99 at 30; slow line
    ("western_flower_thrips", egg_to_adult, 15, 34.2, 1.10),
    ("western_flower_thrips", egg_to_adult, 25, 12.1, 1.30),
    ("western_flower_thrips", egg_to_adult, 15, 33.99, 1.11),
    ("western_flower_thrips", egg_to_adult, 30, 11.99, 1.01),
    # unh_thrips: egg 3.2 d at 28 degC
    ("western_flower_thrips", egg_fast, 28, 3.2, 0.81),
    # mccool2022 and ucipm_gnat2017, 23.9 degC: egg 3 d, larva and pupa 14 d
    ("fungus_gnat", egg_fast, 23.9, 3, 1.00),  # fit
    ("fungus_gnat", nymph, 23.9, 14, 1.00),  # fit
    ("fungus_gnat", gap_window, 23.9, 10, 1.00),  # fit
]


@pytest.mark.parametrize(("key", "what", "temperature", "measured", "misses"), ROWS)
def test_the_line_misses_a_measured_time_by_the_stated_factor(
    key: str, what: Callable[[Pest, float], float], temperature: float, measured: float, misses: float
) -> None:
    assert what(PESTS[key], temperature) / measured == pytest.approx(misses, abs=0.012)


def test_a_vine_mealybug_line_misses_its_own_paper_by_a_quarter() -> None:
    # Planococcus ficus, abstract: 555.56 DD above 11.11; measured 112.6 d at 17.5 degC, 39.9 d at 30. The
    # constant is one over a rounded slope of .0018: a reason to round such figures, and to keep a margin.
    line = Stage(dd=555.56, t0=11.11)
    assert development_days(line, 17.5) / 112.62 == pytest.approx(0.77, abs=0.01)
    assert development_days(line, 30) / 39.87 == pytest.approx(0.74, abs=0.01)
