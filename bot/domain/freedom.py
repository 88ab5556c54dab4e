"""How sure a run of checks that found nothing can make anybody."""

from collections.abc import Sequence

from bot.domain.development import Clock
from bot.domain.value import Value

PRIOR = 0.5  # even odds, the usual cautious start
BLIND_SPOT = 0.02  # share of cases no look at the leaves ever shows
ROOT_BLIND_SPOT = 0.10  # the same for root-prone kinds until the pot was lifted
CHANCE_WEIGHTS = (0.25, 0.5, 0.25)  # low, mid and high chance of seeing
_WEEK = 7.0  # [d]


class HidingWeights(Value, kw_only=True):
    """Shares of what is left after a round: visible already, first instar, egg."""

    visible: float = 0.1
    first_instar: float = 0.2
    egg: float = 0.7


class Look(Value):
    """One counted check with nothing found."""

    day: float  # [d] since the last find
    chances: tuple[float, float, float]  # that it finds a visible light case: low, mid, high


_WEIGHTS = HidingWeights()
_VISIBLE = HidingWeights(visible=1, first_instar=0, egg=0)


def disc_prior(free: float, reintroduction: float) -> float:
    """
    Lower a confidence of freedom [1] by the chance of a new infestation since [1]. [1].

    .. [rsurveillance] disc.prior.
    """
    return free * (1 - reintroduction)


def p_free(  # noqa: PLR0913 - the switches by which it reduces to the published formula
    looks: Sequence[Look],
    clock: Clock,
    *,
    blind_spot: float = BLIND_SPOT,
    prior: float = PRIOR,
    weekly_reintroduction: float = 0.0,
    weights: HidingWeights = _WEIGHTS,
) -> float:
    """
    Probability [1] that nothing is left, given checks that found nothing, with eggs and hatchlings in mind.

    What was left behind is already visible, a first instar or an egg (by `weights`, a judgement from a
    simulated campaign), and becomes visible as the clock says [d]; a share of it, the blind spot, no look
    ever shows. With nothing hidden, one chance and no blind spot this is the published period-by-period rule,
    with the `prior` and the chance a week that something new comes in. Never above 1 / (1 + the blind spot)
    from even odds.

    .. [martin2007] as implemented in rsurveillance, pfree.calc; the hiding classes are ours.
    """
    free = prior
    blind = (1 - prior) * blind_spot
    masses = _hidden(1 - prior - blind, weights)
    before = 0.0
    for look in looks:
        if weekly_reintroduction:
            came_in = 1 - (1 - weekly_reintroduction) ** ((look.day - before) / _WEEK)
            arrived = free - disc_prior(free, came_in)
            free, before = free - arrived, look.day
            blind += arrived * blind_spot
            fresh = _hidden(arrived * (1 - blind_spot), _VISIBLE)
            masses = [mass + new for mass, new in zip(masses, fresh, strict=True)]
        low, middle, high = look.chances
        young = _ramp(look.day, clock.first_instar, clock.second_instar)
        egg = _ramp(look.day, clock.h1, clock.h2)
        # written out, class by class: a forecast weighs hundreds of looks
        masses = [
            masses[0] * (1 - low),
            masses[1] * (1 - middle),
            masses[2] * (1 - high),
            masses[3] * (1 - low * young),
            masses[4] * (1 - middle * young),
            masses[5] * (1 - high * young),
            masses[6] * (1 - low * egg),
            masses[7] * (1 - middle * egg),
            masses[8] * (1 - high * egg),
        ]
    return free / (free + blind + sum(masses))


def _hidden(infested: float, weights: HidingWeights) -> list[float]:
    """Spread an infestation over the hiding classes, and each over the chances of seeing it."""
    shares = (weights.visible, weights.first_instar, weights.egg)
    return [infested * share * q for share in shares for q in CHANCE_WEIGHTS]


def _ramp(day: float, start: float, end: float) -> float:
    if day < start:
        return 0.0
    return 1.0 if day >= end else (day - start) / (end - start)
