"""Whether a rhythm of rounds wins against mealybugs."""

import enum
import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from bot.domain.development import MARGIN
from bot.domain.pest import Stage


class Start(enum.Enum):
    """How bad it was at the first round."""

    FEW = "few"
    SOME = "some"
    MANY = "many"


VISIBLE: Mapping[Start, int] = MappingProxyType({Start.FEW: 3, Start.SOME: 20, Start.MANY: 100})


@dataclass(frozen=True, slots=True, kw_only=True)
class LifeTable:
    """One mealybug's life: egg, three instars, before laying, laying; and its losses without any spray."""

    stages: tuple[Stage, Stage, Stage, Stage, Stage, Stage]
    eggs: float = 250.0
    female: float = 0.55
    hatch: float = 0.85
    nymph: float = 0.65

    @property
    def r0(self) -> float:
        """Daughters that grow up, of one female, with nothing done."""
        return self.eggs * self.female * self.hatch * self.nymph


@dataclass(frozen=True, slots=True)
class Kill:
    """Share of each stage that a round kills where it reaches: egg, three instars, females."""

    shares: tuple[float, float, float, float, float, float]


SPRAY = Kill((0.10, 0.90, 0.80, 0.75, 0.60, 0.60))
SPRAY_AND_WIPE = Kill((0.50, 0.90, 0.80, 0.75, 0.85, 0.85))


def _above(t0: float, *constants: float) -> tuple[Stage, ...]:
    return tuple(Stage(dd=dd, t0=t0) for dd in constants)


def _life(egg: Stage, nymphs: tuple[Stage, ...], adult: tuple[Stage, ...]) -> LifeTable:
    first, second, third = nymphs
    before, laying = adult
    return LifeTable(stages=(egg, first, second, third, before, laying))


# The figures behind the campaign model: egg and nymph as read for citrus mealybug (karacaoglu2017, arai1996),
# time before laying, laying time and brood a judgement; longtailed mealybug from its own nymph of 422 and
# whole cycle of 672 (santacecilia2011, supplier_longtailed), born alive, brood taken over.
LIVES: Mapping[str, LifeTable] = MappingProxyType(
    {
        "citrus_mealybug": _life(
            Stage(dd=110, t0=8.5), _above(7.7, 401 / 3, 401 / 3, 401 / 3), _above(8.0, 200, 156)
        ),
        "longtailed_mealybug": _life(
            Stage(dd=0, t0=8.0), _above(8.0, 161.5, 168.3, 92.3), _above(8.0, 250, 306)
        ),
    }
)


def winning_interval(life: LifeTable, temperature: float, coverage: float, kill: Kill) -> float:
    """
    Longest time between rounds that still shrinks the outbreak.

    Each female line has to be hit often enough before it lays to beat its own multiplication.

    Parameters
    ----------
    life
        Stages with their K [degC d] and T0 [degC], and the brood.
    temperature
        Mean of the place, held 3 degC above the thresholds. [degC]
    coverage
        Share of the animals each round reaches, drawn anew each time; below 1. [1]
    kill
        Share killed where reached. [1]

    Returns
    -------
    float
        tau* = sum of D ln(1/(1 - c k)) over the stages before laying, over ln R0. [d]

    References
    ----------
    .. [middleton2022] anchors of the kill shares; the formula is ours, checked against the daily model.
    """
    days = _durations(life, temperature)
    hits = sum(
        span * -math.log1p(-coverage * share) for span, share in zip(days[:-1], kill.shares[:-1], strict=True)
    )
    return hits / math.log(life.r0)


def _durations(life: LifeTable, temperature: float) -> tuple[float, ...]:
    return tuple(stage.dd / max(MARGIN, temperature - stage.t0) for stage in life.stages)
