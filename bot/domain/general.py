"""What a general word stands for: the cautious side of every pest it may mean."""

import re
from collections.abc import Sequence
from types import MappingProxyType

from bot.domain.campaign import Effect, Effects, Life, Wait
from bot.domain.development import development_days
from bot.domain.pest import Pest
from bot.domain.value import replace

COMPARED_AT_C = 21.0
"""Room warmth, at which gaps and clocks are compared. [degC]"""
_WORST = (Effect.GOOD, Effect.SOME, Effect.NONE, Effect.WORSE)


def cautious_side(key: str, name: str, words: tuple[str, ...], pests: Sequence[Pest]) -> Pest:
    """
    Make one pest of several: the shortest gap, the longest clock and waits, every hiding place.

    A way of looking counts where it shows each of them, as little as it shows the best hidden; an ingredient
    works as it does on the hardiest. Gaps and clocks are compared at room warmth.
    """
    quick = min(pests, key=lambda pest: development_days(pest.gap, COMPARED_AT_C) * pest.gap_f)
    guarded = max(
        pests, key=lambda pest: development_days(pest.protected, COMPARED_AT_C) * pest.protected_safety
    )
    days = [sum(development_days(one, COMPARED_AT_C) for one in (it.egg_hi, *it.instars)) for it in pests]
    slow = pests[days.index(max(days))]
    levels = set.intersection(*(set(pest.looking.needed) for pest in pests))
    seen = set.intersection(*(set(pest.sight) for pest in pests))
    return replace(
        slow,
        key=key,
        name=name,
        latin=" or ".join(pest.latin for pest in pests),
        words=words,
        hides=", ".join(dict.fromkeys(spot for pest in pests for spot in re.split(", |; ", pest.hides))),
        of=tuple(pest.key for pest in pests),
        gap=quick.gap,
        gap_f=quick.gap_f,
        gap_cap_days=quick.gap_cap_days,
        gap_slack_days=quick.gap_slack_days,
        gap_steps=quick.gap_steps,
        gap_evidence=quick.gap_evidence,
        protected=guarded.protected,
        protected_safety=guarded.protected_safety,
        protected_evidence=guarded.protected_evidence,
        at_roots=any(pest.at_roots for pest in pests),
        sight=MappingProxyType({level: min(pest.sight[level] for pest in pests) for level in seen}),
        least=replace(
            slow.least,
            rounds=max((pest.least.rounds for pest in pests if pest.least.rounds), default=None),
            after_find=max(pest.least.after_find for pest in pests),
            clean_looks=max(pest.least.clean_looks for pest in pests),
            since_find=_longest([pest.least.since_find for pest in pests], slow),
            since_start=_longest([pest.least.since_start for pest in pests], slow),
        ),
        looking=replace(
            slow.looking,
            needed=MappingProxyType(
                {level: max(pest.looking.needed[level] for pest in pests) for level in levels}
            ),
        ),
        leaving=replace(
            slow.leaving,
            since_find=_longest([pest.leaving.since_find for pest in pests], slow) or slow.leaving.since_find,
        ),
        effects=_effects(pests),
    )


def _longest(waits: Sequence[Wait | None], clock: Pest) -> Wait | None:
    """Give the longest of several waits at room warmth, those of a clock by the slowest pest's."""
    told = [wait for wait in waits if wait is not None]
    return max(told, key=lambda wait: _days(wait, clock), default=None)


def _days(wait: Wait, clock: Pest) -> float:
    if wait.days is not None:
        return wait.at(COMPARED_AT_C)
    egg, stages = (clock.egg_lo, 1) if wait.clock == "h1" else (clock.egg_hi, 2 if wait.clock == "h2" else 3)
    return wait.times * sum(development_days(one, COMPARED_AT_C) for one in (egg, *clock.instars[:stages]))


def _effects(pests: Sequence[Pest]) -> MappingProxyType[str, Effects]:
    """Give what ingredients do to the hardiest; one not known for each does nothing."""
    known = set.intersection(*(set(pest.effects) for pest in pests))
    found = {}
    for ingredient in sorted(known):
        rows = [pest.effects[ingredient] for pest in pests]
        on = {
            life: max((row.on[life] for row in rows if life in row.on), key=_WORST.index)
            for life in Life
            if any(life in row.on for row in rows)
        }
        found[ingredient] = Effects(MappingProxyType(on), rows[0].evidence)
    return MappingProxyType(found)
