"""The walk by all plants and the stages of a work day, in words."""

import math
from decimal import Decimal

from bot.actions.walk_through import WalkStep
from bot.actions.work_through import WorkDone, WorkStage
from bot.domain.trade import Level
from bot.domain.workday import TOP_MIX_CM, Stage
from bot.wording.days import listed, plural
from bot.wording.lines import AFTER
from bot.wording.saying import says, says_shortly
from bot.wording.voice import Voice

HOW = {
    Level.GLANCE: "A glance counts for little; a plain look takes 3 to 5 minutes.",
    Level.PLAIN: "Axils, undersides, crown, rim of the pot: 3 to 5 minutes each.",
    Level.LENS: "Lens or phone close-up: axils, undersides, crown, rim of the pot.",
    Level.ROOTS: "Lift each pot: the root ball, the drainage holes, the rim.",
    Level.TAP: "White paper under a branch, tap it three times, look for what walks.",
    Level.CARD: "Count what sticks to each card, then hang a fresh one.",
    Level.TAPE: "Sticky tape round the stem, sticky side out; look after two days for what stuck.",
    Level.POTATO: "A slice of potato on the mix for 48 hours; then look under it for larvae.",
}


@says_shortly
def _walk_step(told: WalkStep) -> str:
    where = f", {told.place}" if told.place else ""
    lines = ["Going on where you stopped."] if told.is_resumed else []
    lines.append(f"{told.number} of {told.count}: {told.plant}{where}.")
    if told.pests:
        lines.append(f"It has {listed(plural(one) for one in told.pests)}: {told.hides}.")
    lines.append(AFTER)
    if told.is_first:
        lines += [HOW[told.level], "Dead leaves off the potting mix on the way."]
    return "\n".join(lines)


HEADS = {
    Stage.LOOK: "look them over",
    Stage.APART: "set them apart",
    Stage.PRUNE: "cut off the worst",
    Stage.WASH: "wash",
    Stage.UNPOT: "unpot and rinse the roots",
    Stage.POTS: "pots, saucers and stones",
    Stage.REPOT: "fresh mix",
    Stage.SPRAY: "spray",
    Stage.SHELF: "shelf, sill and saucers",
    Stage.BAG: "tidy up",
}
WORKED = {
    Stage.LOOK: "Axils, undersides, crown, rim of the pot. Wash hands between plants.",
    Stage.APART: "Away from all others; if one cannot be moved, say so later.",
    Stage.PRUNE: "Worst leaves and shoots into a closed bag. Blade wiped with alcohol between plants: no flame near.",
    Stage.WASH: "Lukewarm, both leaf sides, fresh water each, a bag round the pot: {bath}. "
    f"Eggs in the potting mix: top {TOP_MIX_CM} cm off.",
    Stage.UNPOT: "Old potting mix into the bag, not on the compost. Roots rinsed, each in its own water: {bath}.",
    Stage.POTS: (
        "Scrub, 10 min in {soak}: water, then {bleach} plain bleach; rinse. Air, gloves; never with ammonia, acid or "
        "alcohol; children and animals out."
    ),
    Stage.REPOT: "Clean pots, fresh bagged potting mix: about {mix}.",
    Stage.SPRAY: "To run-off, both leaf sides, out of the sun: about {spray}{product}.",
    Stage.SHELF: "Soapy water, cracks too: mealybugs live about two weeks on a bare shelf.",
    Stage.BAG: "Close the bag. Wash hands and tools. Leftover spray never down the drain.",
}
WRITTEN = {
    Stage.APART: "kept apart",
    Stage.PRUNE: "pruned",
    Stage.WASH: "rinsed",
    Stage.REPOT: "cleaned out",
    Stage.SPRAY: "sprayed",
}


@says_shortly
def _work_stage(told: WorkStage, voice: Voice) -> str:
    plan = told.plan
    lines = [
        f"Stage {told.number} of {told.count}, {HEADS[plan.stage]}, {plan.minutes:.0f} min: {voice.plants(told.plants)}.",
        _how(told, voice),
    ]
    washed = told.just_washed if plan.stage is Stage.SPRAY else ()
    lines += (
        [f"One leaf first: {voice.plants(washed)}.", AFTER, "Just washed roots burn easily."]
        if washed
        else [AFTER]
    )
    lines += _written(told.written, voice)
    if told.number == 1:
        lines.append(f"{told.minutes_left:.0f} minutes in all; “stop for today” keeps the rest.")
    return "\n".join(lines)


def _how(told: WorkStage, voice: Voice) -> str:
    plan = told.plan
    soak_ml = 1000 * plan.soak_l
    return WORKED[plan.stage].format(
        bath=_litres(plan.bath_l, voice),
        soak=_litres(plan.soak_l, voice),
        bleach=_tens(soak_ml / 10, voice),
        mix=_litres(plan.mix_l, voice),
        spray=_tens(plan.spray_ml, voice),
        product=f" of {told.product}" if told.product else "",
    )


def _litres(litres: float, voice: Voice) -> str:
    return voice.volume(Decimal(1000 * max(1, math.ceil(litres - 0.05))))


def _tens(ml: float, voice: Voice) -> str:
    return voice.volume(Decimal(10 * math.ceil(ml / 10)))


def _written(written: tuple[tuple[Stage, tuple[str, ...]], ...], voice: Voice) -> list[str]:
    told = [(WRITTEN[stage], plants) for stage, plants in written if stage in WRITTEN and plants]
    return [f"Written: {voice.plants(plants)} {word}." for word, plants in told] or (
        ["Ticked off."] if written else []
    )


@says
def _work_done(told: WorkDone, voice: Voice) -> str:
    return "\n".join(
        [
            *_written(told.written, voice),
            "That was the last stage. Well worked; the evenings go on as planned.",
        ]
    )
