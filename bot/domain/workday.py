"""
A work day: many plants treated in one go, stage by stage, the unaffected first and the infested last.

Amounts are from pot sizes, times are our estimates (no publication found); both are round figures to plan by.
"""

import math
from collections.abc import Sequence
from enum import Enum

from bot.domain.identity import PlantId
from bot.domain.value import Value

USUAL_POT_CM = 15.0
"""A pot nobody told the width of. Judgement. [cm]"""
_BASE, _DEPTH = 0.72, 0.9
"""A standard pot: its base to its rim, its depth to its rim. Common practice, no source. [1]"""
TOP_MIX_CM = 5
"""Mix taken off the top where eggs are in it: common practice, no source. [cm]"""
_FILL, _SETTLES = 0.9, 1.15
_BATH_PER_POT = 5.0
_LEAST_BATH_L, _LEAST_SOAK_L = 2.0, 2.0


class Stage(Enum):
    LOOK = "look"
    APART = "apart"
    PRUNE = "prune"
    WASH = "wash"
    UNPOT = "unpot"
    POTS = "pots"
    REPOT = "repot"
    SPRAY = "spray"
    BAG = "bag"
    SHELF = "shelf"


MINUTES = {
    Stage.LOOK: 4,
    Stage.APART: 2,
    Stage.PRUNE: 4,
    Stage.WASH: 8,
    Stage.UNPOT: 15,
    Stage.POTS: 5,
    Stage.REPOT: 15,
    Stage.SPRAY: 3,
}
"""Minutes a plant takes: our estimates, no publication found. [min]"""
_ONCE = {Stage.POTS: 10, Stage.SHELF: 15, Stage.BAG: 5}
"""Minutes a stage takes by itself: a soak of ten minutes, wiping, tidying up. [min]"""


class Worked(Value, kw_only=True):
    """One plant of a work day; pot width in [cm]."""

    plant: PlantId
    pot_cm: float | None
    is_infested: bool
    is_apart: bool
    is_bad: bool
    """Whether many were seen, or it is to be cleaned out."""
    is_sprayed: bool
    is_cleaned_out: bool


class StagePlan(Value, kw_only=True):
    """One stage: the plants in order, the time [min], and what it takes."""

    stage: Stage
    plants: tuple[PlantId, ...]
    minutes: int
    bath_l: float = 0.0
    soak_l: float = 0.0
    mix_l: float = 0.0
    spray_ml: float = 0.0


def pot_litres(width_cm: float | None) -> float:
    """
    Volume of a standard pot to its brim: a frustum as deep as 0.9 of its rim, its base 0.72 of it. [L].

    By its inner width at the rim [cm], positive (else ValueError); unknown counts as 15.
    """
    top = USUAL_POT_CM if width_cm is None else width_cm
    if top <= 0:
        raise ValueError(f"a pot cannot be {top} cm wide")
    base, depth = _BASE * top, _DEPTH * top
    return math.pi * depth / 12 * (top * top + top * base + base * base) / 1000


def mix_litres(width_cm: float | None) -> float:
    """Fresh mix for a pot: filled to 0.9, and 15 % more for what settles. [L]."""
    return pot_litres(width_cm) * _FILL * _SETTLES


def bath_litres(width_cm: float | None) -> float:
    """Water to rinse one plant's roots in, its own: five pots full, two litres at least. [L]."""
    return max(_LEAST_BATH_L, _BATH_PER_POT * pot_litres(width_cm))


def plan_work(worked: Sequence[Worked], sprays_ml: Sequence[float]) -> tuple[StagePlan, ...]:
    """
    Give the stages of a work day that have something to do; plants without a find come first in each.

    The sprays [mL] stand in the order of `worked`.
    """
    order = sorted(range(len(worked)), key=lambda at: (worked[at].is_infested, worked[at].is_bad))
    plants = [worked[at] for at in order]
    ill = [one for one in plants if one.is_infested]
    out = [one for one in plants if one.is_cleaned_out]
    sprayed = [at for at in order if worked[at].is_sprayed]
    stages = [
        _stage(Stage.LOOK, plants),
        _stage(Stage.APART, [one for one in ill if not one.is_apart]),
        _stage(Stage.PRUNE, [one for one in ill if one.is_bad]),
        _stage(Stage.WASH, ill, bath_l=sum(_LEAST_BATH_L for _ in ill)),
        _stage(Stage.UNPOT, out, bath_l=sum(bath_litres(one.pot_cm) for one in out)),
        _stage(Stage.POTS, out, soak_l=max(_LEAST_SOAK_L, sum(pot_litres(one.pot_cm) for one in out))),
        _stage(Stage.REPOT, out, mix_l=sum(mix_litres(one.pot_cm) for one in out)),
        _stage(Stage.SPRAY, [worked[at] for at in sprayed], spray_ml=sum(sprays_ml[at] for at in sprayed)),
        _stage(Stage.BAG, ill),
        _stage(Stage.SHELF, ill),
    ]
    return tuple(stage for stage in stages if stage.plants)


def _stage(stage: Stage, plants: Sequence[Worked], **amounts: float) -> StagePlan:
    minutes = MINUTES.get(stage, 0) * len(plants) + _ONCE.get(stage, 0)
    return StagePlan(stage=stage, plants=tuple(one.plant for one in plants), minutes=minutes, **amounts)
