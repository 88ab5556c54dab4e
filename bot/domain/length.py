"""How many rounds an outbreak takes."""

import math

from bot.domain.development import MARGIN, SLOW_DEFAULT, held
from bot.domain.pest import Pest

LEAST_ROUNDS = 3


def minimum_rounds(pest: Pest, temperature: float | None, actual_gap_days: float) -> int:
    """
    Count the rounds that outlast what the first one could not reach. [rounds].

    max(3, ceil(safety S / (T - T0) / gap) + 1) with the protected stages S on the slow side, T the mean of
    the place, held between T0 + 3 and the pest's upper bound, unknown as 18 [degC], and the gap as the rounds
    are done [d]; ValueError where that is not positive.

    .. [karacaoglu2017] laying time of the citrus mealybug, the model for the others.
    """
    if actual_gap_days <= 0:
        raise ValueError(f"rounds {actual_gap_days} d apart have no gap")
    slow = held(pest, SLOW_DEFAULT if temperature is None else temperature)
    used = max(slow, pest.protected.t0 + MARGIN)
    campaign = pest.protected_safety * pest.protected.dd / (used - pest.protected.t0)
    return max(LEAST_ROUNDS, math.ceil(campaign / actual_gap_days) + 1)


def least_rounds(pest: Pest, temperature: float | None, actual_gap_days: float) -> int:
    """Give the least rounds: as the pest's row says, else as many as outlast what was protected. [rounds]."""
    return pest.least.rounds or minimum_rounds(pest, temperature, actual_gap_days)
