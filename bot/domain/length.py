"""How many rounds an outbreak takes."""

import functools
import math
from dataclasses import dataclass

from bot.domain.development import FAST_DEFAULT, MARGIN, SLOW_DEFAULT, held
from bot.domain.pest import Pest
from bot.domain.survival import LIVES, SPRAY_AND_WIPE, VISIBLE, Rhythm, Start, rounds_to_win, winning_interval

LEAST_ROUNDS = 3
_GOOD_COVERAGE = 0.95
_POOR_COVERAGE = 0.80


@dataclass(frozen=True, slots=True)
class RoundForecast:
    """Least rounds, and the likely range; a side of None does not win within 40 rounds."""

    minimum: int
    likely: tuple[int | None, int | None] | None


def minimum_rounds(pest: Pest, temperature: float | None, actual_gap_days: float) -> int:
    """
    Count the rounds that outlast what the first one could not reach.

    Parameters
    ----------
    pest
        Its protected stages S, on the slow side, and their safety factor.
    temperature
        Mean of the place, held between T0 + 3 and the upper bound; unknown counts as 18. [degC]
    actual_gap_days
        Days between the rounds as they are done. [d]

    Returns
    -------
    int
        max(3, ceil(safety S / (T - T0) / gap) + 1). [rounds]

    Raises
    ------
    ValueError
        If there is no time between the rounds.

    References
    ----------
    .. [karacaoglu2017] laying time of the citrus mealybug, the model for the others.
    """
    if actual_gap_days <= 0:
        raise ValueError(f"rounds {actual_gap_days} d apart have no gap")
    used = max(_slow(pest, temperature), pest.protected.t0 + MARGIN)
    campaign = pest.protected_safety * pest.protected.dd / (used - pest.protected.t0)
    return max(LEAST_ROUNDS, math.ceil(campaign / actual_gap_days) + 1)


def least_rounds(pest: Pest, temperature: float | None, actual_gap_days: float) -> int:
    """Give the least rounds: as the pest's row says, else as many as outlast what was protected. [rounds]."""
    return pest.least.rounds or minimum_rounds(pest, temperature, actual_gap_days)


def forecast_rounds(pest: Pest, temperature: float | None, gap_days: float, start: Start) -> RoundForecast:
    """
    Foresee how many rounds it takes.

    Parameters
    ----------
    pest
        Leaf mealybugs have a range, all others only a minimum.
    temperature
        Mean of the place, rounded to a whole degree for the range; unknown counts as 18. [degC]
    gap_days
        Days between rounds, rounded to whole days for the range. [d]
    start
        How bad it was.

    Returns
    -------
    RoundForecast
        The range runs from 95 to 80 % of the animals reached each round, spray and wiping together.

    References
    ----------
    .. [middleton2022] anchors of the kill shares.
    """
    minimum = least_rounds(pest, temperature, gap_days)
    if pest.key not in LIVES:
        return RoundForecast(minimum, None)
    degree, days = round(_slow(pest, temperature)), max(1, round(gap_days))
    good, poor = (_likely(pest.key, degree, days, start, reach) for reach in (_GOOD_COVERAGE, _POOR_COVERAGE))
    return RoundForecast(minimum, (_at_least(good, minimum), _at_least(poor, minimum)))


def winning_gaps(pest: Pest, temperature: float | None) -> tuple[float, float] | None:
    """
    Longest days between rounds that still shrink the outbreak, reaching 95 and 80 % of the animals. [d].

    Parameters
    ----------
    pest
        Leaf mealybugs; others have no such figure.
    temperature
        Mean of the place; unknown counts as 24, the fast side. [degC]

    References
    ----------
    .. [middleton2022] anchors of the kill shares.
    """
    if pest.key not in LIVES:
        return None
    celsius = held(pest, FAST_DEFAULT if temperature is None else temperature)
    good, poor = (
        winning_interval(LIVES[pest.key], celsius, reach, SPRAY_AND_WIPE)
        for reach in (_GOOD_COVERAGE, _POOR_COVERAGE)
    )
    return good, poor


def _slow(pest: Pest, temperature: float | None) -> float:
    return held(pest, SLOW_DEFAULT if temperature is None else temperature)


def _at_least(rounds: int | None, minimum: int) -> int | None:
    return None if rounds is None else max(rounds, minimum)


@functools.lru_cache(maxsize=4096)
def _likely(key: str, degree: int, gap_days: int, start: Start, coverage: float) -> int | None:
    return rounds_to_win(LIVES[key], degree, Rhythm(gap_days, coverage, SPRAY_AND_WIPE), VISIBLE[start])
