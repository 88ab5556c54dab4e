"""Whether the counts fall: a slope of few, noisy numbers, and how much to believe it."""

import enum
import math
from collections.abc import Sequence
from datetime import date, timedelta

from bot.domain.development import SLOW_DEFAULT, development_days, held
from bot.domain.pest import Pest
from bot.domain.trade import Grade
from bot.domain.value import Value

LEAST_COUNTS = 4
STANDS_FOR = {Grade.FEW: 3, Grade.SOME: 20, Grade.MANY: 100}
"""How many living ones a grade stands for, where none were counted. Judgement. [1]"""
_SURE = 0.05
_LIKELY = 0.20
_STEPS = 60
_SETTLED = 1e-12
_WEEK = 7
_LARGEST = 50.0
"""The largest exponent: more than animals on earth. Judgement. [1]"""
_EIGHTY = 1.2816  # standard normal deviate of an 80 % interval


class Call(enum.Enum):
    TOO_EARLY = "too early"
    FALLING = "falling"
    PROBABLY_FALLING = "probably falling"
    CANNOT_TELL = "cannot tell"
    PROBABLY_RISING = "probably rising"


class Count(Value):
    """How many living pests were seen on a day."""

    on: date
    number: int
    is_graded: bool = False
    """Whether only a grade was told, and the number is what such a grade usually stands for."""


class Slope(Value):
    """A Poisson log-linear fit."""

    per_day: float  # [1/d]
    error: float  # [1/d] of a Poisson count, before scatter
    scatter: float  # phi, variance over mean, at least 1


class Trend(Value):
    """The call, with the factor a week and the chance of a fall this clear with nothing happening."""

    call: Call
    weekly_factor: float | None
    p_falling: float | None
    weekly_range: tuple[float, float] | None = None
    """Where the factor lies in four of five such records. [1]"""


def trend(counts: Sequence[Count], hatch_due_on: date | None = None) -> Trend:
    """
    Call the trend of counts [animals], in any order, one a check.

    Size by Poisson regression, call by a t-test with scatter (quasi-Poisson, n - 2 degrees of freedom). Where
    all but the first or the last count are nought, the call rests on their order alone. Before a hatch is due
    a wave of hatchlings is normal, and no verdict is given.

    .. [ohara2010] counts are not log-transformed; the levels of the call are a judgement.
    """
    rows = sorted(counts, key=lambda count: count.on)
    if len(rows) < LEAST_COUNTS or (hatch_due_on is not None and rows[-1].on < hatch_due_on):
        return Trend(Call.TOO_EARLY, None, None)
    if sum(row.number > 0 for row in rows) <= 1:
        return _by_order([row.number for row in rows])
    slope = fit_slope([(row.on - rows[0].on).days for row in rows], [row.number for row in rows])
    if slope is None:
        return Trend(Call.CANNOT_TELL, None, None)
    error = slope.error * math.sqrt(slope.scatter)
    p_falling = t_below(slope.per_day / error, len(rows) - 2)
    low, high = (_exp(_WEEK * (slope.per_day + side * _EIGHTY * error)) for side in (-1, 1))
    return Trend(_call(p_falling), _exp(_WEEK * slope.per_day), p_falling, (low, high))


class Band(Value):
    """The fitted mean on a day and where it may lie. [animals]."""

    on: date
    low: float
    middle: float
    high: float


def fitted_band(counts: Sequence[Count]) -> tuple[Band, ...]:
    """
    Give the fitted mean day by day, with its 80 % interval [animals]; nothing where the counts bear no fit.

    exp(a + b t) with the delta-method interval of the linear predictor, widened by the scatter; of at least
    three counts, two of them not nought.

    .. [ohara2010] a Poisson mean with scatter, no log-transformed counts.
    """
    rows = sorted(counts, key=lambda count: count.on)
    days = [(row.on - rows[0].on).days for row in rows]
    numbers = [row.number for row in rows]
    slope = None
    if len(rows) >= LEAST_COUNTS - 1 and sum(number > 0 for number in numbers) > 1:
        slope = fit_slope(days, numbers)
    if slope is None:
        return ()
    weights = [_exp(slope.per_day * day) for day in days]
    start = math.log(sum(numbers) / sum(weights))
    means = [_exp(start) * weight for weight in weights]
    whole, first, second = (
        sum(mean * day**power for mean, day in zip(means, days, strict=True)) for power in (0, 1, 2)
    )
    spread = slope.scatter / (whole * second - first * first)

    def at(day: int) -> Band:
        middle = start + slope.per_day * day
        error = math.sqrt(max(0.0, spread * (second - 2 * day * first + day * day * whole)))
        low, high = (_exp(middle + side * _EIGHTY * error) for side in (-1, 1))
        return Band(rows[0].on + timedelta(days=day), low, _exp(middle), high)

    return tuple(at(day) for day in range(days[-1] + 1))


def _exp(exponent: float) -> float:
    """Give e to that power, beyond what animals can come to as large, or as small, as they can."""
    return math.exp(max(-_LARGEST, min(_LARGEST, exponent)))


def hatch_wave_days(pest: Pest, temperature: float | None) -> float:
    """
    Time after the first round until the slowest egg has become a nymph one can see. [d].

    At the mean of the place, unknown as 18 [degC]; infinite where it is too cold to tell.

    .. [arai1996] the instar; the egg is a judgement inside hortipm_mealybug.
    """
    used = held(pest, SLOW_DEFAULT if temperature is None else temperature)
    return development_days(pest.egg_hi, used) + development_days(pest.instars[0], used)


def _by_order(numbers: Sequence[int]) -> Trend:
    """Judge a single count that is not nought: by chance it is the first one time in n."""
    chance = 1 / len(numbers)
    if numbers[0] > 0:
        return Trend(_call(chance), None, chance)
    return Trend(_call(1 - chance) if numbers[-1] > 0 else Call.CANNOT_TELL, None, None)


def _call(p_falling: float) -> Call:
    if p_falling <= _SURE:
        return Call.FALLING
    if p_falling <= _LIKELY:
        return Call.PROBABLY_FALLING
    return Call.PROBABLY_RISING if 1 - p_falling <= _LIKELY else Call.CANNOT_TELL


def fit_slope(days: Sequence[float], numbers: Sequence[int]) -> Slope | None:
    """
    Fit ln(mean) = a + b day to counts [animals] by Newton's method, None if it never settles.

    Two of them are not nought.

    b with its standard error [1/d], and phi = max(1, Pearson's chi-square / (n - 2)).

    .. [ohara2010] the choice of the model.
    """
    if len(set(days)) == 1:
        return None
    middle = math.fsum(days) / len(days)
    at = [day - middle for day in days]
    level, slope = math.log(math.fsum(numbers) / len(numbers)), 0.0
    for _ in range(_STEPS):
        means = [_exp(level + slope * day) for day in at]
        step_level, step_slope, spread = _newton(at, numbers, means)
        if not math.isfinite(spread) or spread <= 0:
            return None
        level, slope = level + step_level, slope + step_slope
        if abs(step_level) + abs(step_slope) < _SETTLED:
            return Slope(slope, 1 / math.sqrt(spread), _scatter(numbers, means))
    return None


def _newton(
    at: Sequence[float], numbers: Sequence[int], means: Sequence[float]
) -> tuple[float, float, float]:
    """Give one step for level and slope, and the information on the slope."""
    weight = math.fsum(means)
    first = math.fsum(mean * day for mean, day in zip(means, at, strict=True))
    second = math.fsum(mean * day * day for mean, day in zip(means, at, strict=True))
    off = math.fsum(number - mean for number, mean in zip(numbers, means, strict=True))
    tilt = math.fsum((number - mean) * day for number, mean, day in zip(numbers, means, at, strict=True))
    spread = second - first * first / weight
    if spread <= 0:
        return 0.0, 0.0, spread
    step_slope = (tilt - first * off / weight) / spread
    return (off - first * step_slope) / weight, step_slope, spread


def _scatter(numbers: Sequence[int], means: Sequence[float]) -> float:
    pearson = math.fsum((number - mean) ** 2 / mean for number, mean in zip(numbers, means, strict=True))
    return max(1.0, pearson / (len(numbers) - 2))


def t_below(t: float, freedom: int) -> float:
    """
    Probability that Student's t lies below a value. [1].

    By the finite series for whole degrees of freedom, at least one (else ValueError).

    .. [abramowitz1964] 26.7.3 and 26.7.4.
    """
    if freedom < 1:
        raise ValueError(f"Student's t with {freedom} degrees of freedom")
    angle = math.atan(t / math.sqrt(freedom))
    square = math.cos(angle) ** 2
    is_odd = freedom % 2 == 1
    term = math.cos(angle) if is_odd else 1.0
    total = 0.0 if freedom == 1 else term
    for index in range(3 if is_odd else 2, freedom - 1, 2):
        term *= square * (index - 1) / index
        total += term
    within = 2 / math.pi * (angle + math.sin(angle) * total) if is_odd else math.sin(angle) * total
    return (1 + within) / 2
