"""Whether a rhythm of rounds wins against mealybugs, and after how many rounds nothing is likely left."""

import enum
import functools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from bot.domain.development import MARGIN
from bot.domain.pest import Stage

WON = 0.95  # [1] probability that nothing is alive at which a campaign counts as won
MAX_ROUNDS = 40
_HALVINGS = 50  # narrow the daily growth factor down to rounding


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
    boxes: tuple[int, int, int, int, int, int] = (6, 5, 5, 5, 6, 4)  # equal steps of each stage
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


@dataclass(frozen=True, slots=True)
class Rhythm:
    """How rounds are done: days between them, share of the animals each reaches, what it kills there."""

    gap_days: int
    coverage: float  # [1]
    kill: Kill


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


def p_none(life: LifeTable, temperature: float, rhythm: Rhythm, *, rounds: int, visible: int) -> float:
    """
    Probability that nothing is alive, eggs included, right after the last of some rounds.

    Parameters
    ----------
    life
        Stages and brood.
    temperature
        Mean of the place, to be held in the pest's range by the caller. [degC]
    rhythm
        The first round is on day 0.
    rounds
        At least one.
    visible
        Animals of visible size at the start; younger ones are added in the proportions of a growing outbreak.

    Returns
    -------
    float
        By generating functions, exact for the model. [1]

    Raises
    ------
    ValueError
        If there is no round or no day between rounds.

    References
    ----------
    .. [middleton2022] anchors of the kill shares; brood and losses are a judgement inside polat2008.
    """
    if rounds < 1 or rhythm.gap_days < 1:
        raise ValueError(f"{rounds} rounds every {rhythm.gap_days} d are no campaign")
    flow = _flow(life, temperature)
    lost = _struck([0.0] * len(flow.stage), flow, rhythm)
    for _ in range(rounds - 1):
        lost = _round_earlier(lost, flow, rhythm)
    return _p_all(lost, _stable(life, temperature), visible)


def rounds_to_win(life: LifeTable, temperature: float, rhythm: Rhythm, visible: int) -> int | None:
    """
    Count the rounds until nothing is alive with probability .95; none where 40 do not get there.

    Parameters
    ----------
    life
        Stages and brood.
    temperature
        Mean of the place. [degC]
    rhythm
        The first round is on day 0.
    visible
        Animals of visible size at the start.

    Returns
    -------
    int or None
        Not by expected survivors: those are swayed by the rare plant on which one laying female lived on.

    References
    ----------
    .. [middleton2022] see `p_none`.
    """
    flow, mixture = _flow(life, temperature), _stable(life, temperature)
    lost = _struck([0.0] * len(flow.stage), flow, rhythm)
    for rounds in range(1, MAX_ROUNDS + 1):
        if _p_all(lost, mixture, visible) >= WON:
            return rounds
        lost = _round_earlier(lost, flow, rhythm)
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Flow:
    stage: tuple[int, ...]  # of each box
    moves: tuple[float, ...]  # chance a day to leave the box
    survives: tuple[float, ...]  # that move
    daughters: float  # eggs of females laid a day


def _durations(life: LifeTable, temperature: float) -> tuple[float, ...]:
    return tuple(stage.dd / max(MARGIN, temperature - stage.t0) for stage in life.stages)


@functools.lru_cache(maxsize=512)
def _flow(life: LifeTable, temperature: float) -> _Flow:
    days = _durations(life, temperature)
    stage, moves, survives = [], [], []
    passing = (life.hatch, *(life.nymph ** (1 / 3),) * 3, 1.0, 1.0)
    for index, (span, wanted, passes) in enumerate(zip(days, life.boxes, passing, strict=True)):
        boxes = min(wanted, math.floor(span))  # no box can be passed in less than a day
        stage += [index] * boxes
        moves += [boxes / span for _ in range(boxes)]
        survives += [1.0] * (boxes - 1) + [passes] * min(1, boxes)
    return _Flow(
        stage=tuple(stage),
        moves=tuple(moves),
        survives=tuple(survives),
        daughters=life.eggs * life.female * _first_loss(life, days) / days[-1],
    )


def _first_loss(life: LifeTable, days: tuple[float, ...]) -> float:
    """Young born alive have no egg to hatch from: the share lost at hatching is lost at birth."""
    return 1.0 if math.floor(days[0]) else life.hatch


def _round_earlier(lost: list[float], flow: _Flow, rhythm: Rhythm) -> list[float]:
    for _ in range(rhythm.gap_days):
        lost = _day_earlier(lost, flow)
    return _struck(lost, flow, rhythm)


def _struck(lost: list[float], flow: _Flow, rhythm: Rhythm) -> list[float]:
    dies = [rhythm.coverage * rhythm.kill.shares[stage] for stage in flow.stage]
    return [share + (1 - share) * chance for share, chance in zip(dies, lost, strict=True)]


def _day_earlier(lost: list[float], flow: _Flow) -> list[float]:
    """Step the chance that a line dies out one day back; a laying female's also needs her brood's."""
    brood = math.exp(flow.daughters * (lost[0] - 1))
    laying = flow.stage[-1]
    stepped = []
    rows = zip(lost, (*lost[1:], 1.0), flow.moves, flow.survives, flow.stage, strict=True)
    for here, onward, moves, survives, stage in rows:
        chance = moves * (survives * onward + 1 - survives) + (1 - moves) * here
        stepped.append(chance * brood if stage == laying else chance)
    return stepped


@functools.lru_cache(maxsize=512)
def _stable(life: LifeTable, temperature: float) -> tuple[float, ...]:
    """Mixture of boxes an undisturbed outbreak settles to, for one animal of visible size."""
    # Ages settle over years of simulated days, so the daily factor is bracketed instead of iterated.
    flow = _flow(life, temperature)
    low, high = 1.0, 2.0
    for _ in range(_HALVINGS):
        factor = (low + high) / 2
        is_faster = _newborn(_mixture(flow, factor), flow) > factor - 1 + flow.moves[0]
        low, high = (factor, high) if is_faster else (low, factor)
    mixture = _mixture(flow, high)
    seen = sum(share for share, stage in zip(mixture, flow.stage, strict=True) if stage > 1)
    return tuple(share / seen for share in mixture)


def _mixture(flow: _Flow, factor: float) -> list[float]:
    mixture = [1.0]
    for moves, survives, next_moves in zip(flow.moves[:-1], flow.survives[:-1], flow.moves[1:], strict=True):
        mixture.append(mixture[-1] * moves * survives / (factor - 1 + next_moves))
    return mixture


def _newborn(mixture: list[float], flow: _Flow) -> float:
    laying = flow.stage[-1]
    return flow.daughters * sum(
        share for share, stage in zip(mixture, flow.stage, strict=True) if stage == laying
    )


def _p_all(lost: list[float], mixture: tuple[float, ...], visible: int) -> float:
    return math.exp(
        visible * sum(share * math.log(chance) for chance, share in zip(lost, mixture, strict=True))
    )
