"""How long a stage takes: the linear degree-day model, held inside the range it was fitted for."""

import math
from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from bot.domain.pest import Pest, Stage
from bot.domain.value import Value, field

MARGIN = 3.0  # [degC] above T0; below it the line is known to mislead
SLOW_DEFAULT = 18.0  # [degC] unknown temperature, slow side
FAST_DEFAULT = 24.0  # [degC] unknown temperature, fast side
HORIZON_DAYS = 1500  # a stage not over by then counts as never


def is_too_cold(stage: Stage, temperature: float) -> bool:
    """Whether the line says nothing at this temperature [degC]: within 3 degC of the threshold or below."""
    return temperature < stage.t0 + MARGIN


def held(pest: Pest, temperature: float) -> float:
    """Hold a temperature [degC] at the pest's upper bound, past which warmth no longer speeds it up."""
    return min(temperature, pest.t_high)


def development_days(stage: Stage, temperature: float) -> float:
    """
    Time one stage takes at a constant temperature [degC], by the linear model: K / (T - T0). [d].

    K [degC d] and T0 [degC] are of one study, never mixed; infinite where it is too cold to tell.

    .. [arai1996] nymphal constants in this form.
    """
    if stage.dd == 0:
        return 0.0
    return math.inf if is_too_cold(stage, temperature) else stage.dd / (temperature - stage.t0)


class Warmth(Value, kw_only=True):
    """The temperatures of a plant from a day on: measured days, and a mean for all the others."""

    since_on: date
    mean: float  # [degC]
    daily: Mapping[date, float] = field(default_factory=dict)  # [degC]

    def on(self, day: date) -> float:
        return self.daily.get(day, self.mean)


def sequence_days(pest: Pest, stages: Sequence[Stage], warmth: Warmth) -> float:
    """
    Time several stages take one after the other, day by day where temperatures [degC] are known. [d].

    Infinite if not over within the horizon. Days too cold to tell add nothing, the pest's upper bound holds
    hot ones.

    .. [arai1996] the linear model that is summed.
    """
    if not warmth.daily:
        return sum(development_days(stage, held(pest, warmth.mean)) for stage in stages)
    elapsed = 0.0
    for stage in stages:
        elapsed = _stage_end(pest, stage, warmth, elapsed)
    return elapsed


def _stage_end(pest: Pest, stage: Stage, warmth: Warmth, elapsed: float) -> float:
    left = stage.dd
    while left > 0 and elapsed < HORIZON_DAYS:
        rest_of_day = math.floor(elapsed) + 1 - elapsed
        temperature = held(pest, warmth.on(warmth.since_on + timedelta(days=math.floor(elapsed))))
        gain = 0.0 if is_too_cold(stage, temperature) else temperature - stage.t0
        if gain * rest_of_day >= left:
            return elapsed + left / gain
        left -= gain * rest_of_day
        elapsed = float(math.floor(elapsed) + 1)
    return elapsed if left <= 0 else math.inf


class Clock(Value, kw_only=True):
    """Days from the last find until what was left behind would show."""

    first_instar: float  # [d] a hatchling's first moult
    second_instar: float  # [d] its second
    h1: float  # [d] an egg could be seen for the first time
    h2: float  # [d] an egg is surely of a visible size
    h3: float  # [d] an egg is an adult


def clock(pest: Pest, warmth: Warmth) -> Clock:
    """
    Work out when eggs and hatchlings that nobody saw would show, by the warmth since the last find. [d].

    h1 = egg_lo + first instar, h2 = egg_hi + first two, h3 = egg_hi + all, on the pest's slow side.

    .. [arai1996] instars; the egg's range is a judgement inside hortipm_mealybug.
    """
    first, second, rest = pest.instars
    eggs_hi = (pest.egg_hi, first, second)
    return Clock(
        first_instar=sequence_days(pest, (first,), warmth),
        second_instar=sequence_days(pest, (first, second), warmth),
        h1=sequence_days(pest, (pest.egg_lo, first), warmth),
        h2=sequence_days(pest, eggs_hi, warmth),
        h3=sequence_days(pest, (*eggs_hi, rest), warmth),
    )
