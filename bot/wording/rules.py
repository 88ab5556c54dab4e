"""The rules a case goes by, each with its figure, its unit, and where it comes from."""

import math
from collections.abc import Iterator, Mapping

from bot.domain.campaign import Basis, Effect, Evidence, Fight, Least, Leaving, Life, Looking, Wait
from bot.domain.climate import FADES_OVER_DAYS
from bot.domain.development import FAST_DEFAULT, SLOW_DEFAULT, Clock, Warmth, clock
from bot.domain.gap import plan_gap
from bot.domain.pest import Pest
from bot.domain.progress import Progress
from bot.domain.refusal import generation_days
from bot.domain.release import FRESH_DAYS, ROOTS_AGAIN_DAYS, UNLIFTED_FACTOR, can_show, rounds_after_find
from bot.domain.remedy import AT_ROOTS_TWICE, FEW_SPRAYED, STALL_DAYS
from bot.domain.trade import Grade, Level
from bot.domain.value import Value
from bot.wording.acts import planned
from bot.wording.days import counted, listed
from bot.wording.voice import Voice

JUDGED = "our judgement"
ROTATION = Evidence(Basis.READ, ("wsu_rotation", "canr_thrips"), "")
_LOOKS = {
    Level.GLANCE: "at a glance",
    Level.PLAIN: "plain",
    Level.LENS: "with a lens",
    Level.ROOTS: "at the roots",
    Level.TAP: "tapped over paper",
    Level.CARD: "by card",
    Level.TAPE: "by tape",
    Level.POTATO: "by potato",
}
_GRADES = {Grade.FEW: "1 pest", Grade.SOME: "6 pests", Grade.MANY: "31 pests"}
_LIVES = {Life.EGG: "eggs", Life.YOUNG: "young", Life.PUPA: "pupae", Life.ADULT: "adults"}
_CLOCKS = {"h1": "egg and first instar", "h2": "egg and two instars", "h3": "from egg to grown"}


class _Cool(Value):
    """The warmth that waits are counted at, and the pest's clock at it."""

    celsius: float
    clock: Clock
    voice: Voice

    def wait(self, wait: Wait) -> str:
        """Say the days of a wait, and what they rest on."""
        if wait.days is not None and len(set(wait.days)) == 1:
            return f"{wait.days[0]:.0f} days"
        days = wait.at(self.celsius) if wait.days is not None else self._counted(wait)
        if math.isinf(days):
            return "longer than can be told at that warmth"
        what = "" if wait.clock is None else f", {_CLOCKS[wait.clock]}"
        times = "" if wait.times == 1 else f" times {wait.times:g}"
        return f"{days:.0f} days ({self.voice.warmth(self.celsius)}{what}{times})"

    def _counted(self, wait: Wait) -> float:
        ends = {"h1": self.clock.h1, "h2": self.clock.h2, "h3": self.clock.h3}
        return wait.times * ends[wait.clock or "h3"]


def rule_lines(state: Progress, cited: Mapping[str, str], voice: Voice, product: str | None) -> list[str]:
    """Give every rule of a pest's plan at the warmth of the place."""
    pest = state.pest
    celsius = SLOW_DEFAULT if state.outbreak.cool is None else state.outbreak.cool
    cool = _Cool(celsius, clock(pest, Warmth(since_on=state.outbreak.today, mean=celsius)), voice)
    blocks = (
        (_gap(pest, state.outbreak.warm, voice), cite(pest.gap_evidence, cited)),
        (_fight(pest.fight, voice), cite(pest.fight.evidence, cited)),
        (_least(pest, cool, strict=state.record.strict), cite(pest.least.evidence, cited)),
        (_looking(pest.looking), cite(pest.looking.evidence, cited)),
        (_sight(pest), cite(pest.sight_evidence, cited)),
        (_leaving(pest.leaving, cool, strict=state.record.strict), cite(pest.leaving.evidence, cited)),
        (_rotation(pest, state.outbreak.warm, voice), cite(ROTATION, cited)),
        (_for_all(pest), JUDGED),
    )
    lines = [f"{line} ({source})." for found, source in blocks for line in found]
    known = None if product is None else pest.effects.get(product)
    return [*lines, *([_effects(known.on, known.evidence, cited)] if known is not None else [])]


def _gap(pest: Pest, celsius: float | None, voice: Voice) -> Iterator[str]:
    plan = plan_gap(pest, celsius, None)
    yield f"Treatments {plan.opens_days} to {plan.upper_days} days apart at {voice.warmth(plan.temperature)}, as a label allows"


def _rotation(pest: Pest, celsius: float | None, voice: Voice) -> Iterator[str]:
    days, warm = generation_days(pest, celsius), voice.warmth(FAST_DEFAULT if celsius is None else celsius)
    if math.isfinite(days):
        yield f"What acts on nerves or growth: one number of the label for a generation, {days:.0f} days at {warm}, then another"


def _sight(pest: Pest) -> Iterator[str]:
    shown = ((level, mid) for level, (_, mid, _) in pest.sight.items() if can_show(pest, level))
    chances = (f"{round(100 * mid)} % {_LOOKS[level]}" for level, mid in shown)
    yield f"Of light cases one look finds {listed(chances)}"


def _fight(fight: Fight, voice: Voice) -> Iterator[str]:
    if fight.handwork is not None:
        yield f"Handwork: {fight.handwork_word} with each spray, within 36 hours"
    if fight.few_by_hand:
        by_hand = f"{counted(fight.few_by_hand, 'treatment')} by hand alone"
        yield f"Up to 5 pests: {by_hand}, then {FEW_SPRAYED} with a spray, and with it while living ones are seen"
    if fight.start:
        yield f"Day 1: {planned([(one, None) for one in fight.start])}"
    if fight.strong and fight.strong_from is not None:
        yield (
            f"Strong step: {planned([(one, None) for one in fight.strong])}, from {_GRADES[fight.strong_from]} on, "
            f"at most {fight.strong_most} times, {fight.strong_apart_days} days apart"
        )
        at_roots = fight.strong_from_at_roots
        if at_roots is not None and at_roots is not fight.strong_from:
            yield (
                f"Where it may sit at the roots, from {_GRADES[at_roots]} on, {AT_ROOTS_TWICE} times whatever is "
                f"seen, and {fight.strong_most + 1} times at most"
            )
    yield from _between(fight, voice)
    if fight.label_sought_days is not None:
        yield f"A label of {counted(fight.label_sought_days, 'day')} or less is sought"
    if fight.warm_from_c is not None:
        yield f"From {voice.warmth(fight.warm_from_c)} on it is hard to win: a cooler place"


def _between(fight: Fight, voice: Voice) -> Iterator[str]:
    below = [(limit, times) for limit, times in fight.between_a_week if times]
    for number, (limit, times) in enumerate(below):
        where = f"below {voice.warmth(limit)}" if number + 1 < len(below) else "warmer than that"
        yield f"Between sprays: {fight.handwork_word} {counted(times, 'day')} a week {where}"
    if fight.between_least:
        yield f"Between sprays, where the label is too long: {fight.handwork_word} on {fight.between_least} days"


def _least(pest: Pest, cool: _Cool, *, strict: bool) -> Iterator[str]:
    least: Least = pest.least
    if least.rounds is not None:
        yield f"At least {counted(least.rounds, 'treatment')} in all"
    if least.nematodes > 1:
        yield f"A use of nematodes counts for {least.nematodes} treatments"
    yield f"After the day of the last find: {counted(rounds_after_find(pest, strict=strict), 'treatment')}"
    if least.clean_looks:
        yield f"And {counted(least.clean_looks, 'look')} in a row with none seen"
    if least.since_find is not None:
        yield f"And {cool.wait(least.since_find)} after the last find"
    if least.since_start is not None:
        yield f"And {cool.wait(least.since_start)} after the first treatment"


def _looking(looking: Looking) -> Iterator[str]:
    ways = (f"{number} {_LOOKS[level]}" for level, number in looking.needed.items())
    chance = ", beside the chance that nothing is left" if looking.has_chance else ""
    yield f"Looks that suffice: {listed(ways, 'or')}, {looking.apart_days} days apart{chance}"
    if looking.late:
        yield f"{looking.late} looks come late, when hidden young would show"
    if looking.first_after_unpotting_days:
        yield f"None counts sooner than {looking.first_after_unpotting_days} days after fresh mix"


def _leaving(leaving: Leaving, cool: _Cool, *, strict: bool) -> Iterator[str]:
    yield f"Goes back {cool.wait(leaving.since_find)} after the last find"
    free = leaving.contact_free_strict if strict and leaving.contact_free_strict else leaving.contact_free
    if free is not None:
        yield f"Left alone before: {cool.wait(free)} without spray, rinse or wipe"
    if leaving.clock_most_c is not None:
        yield f"No day counts for more than one at {cool.voice.warmth(leaving.clock_most_c)}"


def _for_all(pest: Pest) -> Iterator[str]:
    if pest.fight.strong:
        yield f"Alive {STALL_DAYS} days after the start or the last strong step: the strong step again"
    yield f"The last look is younger than {FRESH_DAYS} days and later than the last treatment"
    yield f"A reading of the warmth counts for its day and fades over {FADES_OVER_DAYS} days"
    if pest.at_roots and not pest.rooted:
        yield "Living ones after 2 treatments by clean-out: a drench of the mix joins, as labelled"
    if pest.at_roots:
        yield (
            f"Root-prone plants: 1 look at the roots, from some pests on 2, {ROOTS_AGAIN_DAYS} days apart; "
            f"else {UNLIFTED_FACTOR:g} times the days"
        )
    if pest.fight.flies or pest.fight.shares_clock:
        yield f"1 last find for all plants {'of the home' if pest.fight.flies else 'of a place'}"


def _effects(on: Mapping[Life, Effect], evidence: Evidence, cited: Mapping[str, str]) -> str:
    reached = listed(f"{_LIVES[life]} {effect.value}" for life, effect in on.items())
    return f"What is sprayed: {reached} ({cite(evidence, cited)})."


BASIS = {Basis.READ: "read", Basis.MEMORY: "from memory", Basis.JUDGEMENT: "our judgement"}


def cite(evidence: Evidence, cited: Mapping[str, str]) -> str:
    """Say whether a figure was read, remembered or judged, and where it stands."""
    quoted = "; ".join(cited.get(key, key) for key in evidence.sources)
    return BASIS[evidence.basis] + (f": {quoted}" if quoted else "")
