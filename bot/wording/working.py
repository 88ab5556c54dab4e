"""The stages of a work day in words."""

import math
from decimal import Decimal

from bot.actions.work_through import NoWork, WorkDone, WorkPaused, WorkStage
from bot.domain.workday import TOP_MIX_CM, Stage
from bot.wording.days import counted, listed
from bot.wording.saying import says
from bot.wording.voice import Voice

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
HOW = {
    Stage.LOOK: "Axils, undersides, crown, rim of the pot, this order, hands washed between. Tell me what you find.",
    Stage.APART: "Away from all others; if one cannot be moved, say so later.",
    Stage.PRUNE: "Worst leaves and shoots into a closed bag. Wipe the blade with alcohol between plants: no flame near.",
    Stage.WASH: "Lukewarm, both sides of the leaves, each in its own water, a bag around the pot. {bath} of water. "
    f"Eggs in the mix: take the top {TOP_MIX_CM} cm off and fill up with fresh.",
    Stage.UNPOT: "Old mix into the bag, not on the compost. Rinse the roots, each in its own water: {bath} in all.",
    Stage.POTS: (
        "Scrub first. Then 10 minutes in 1 part plain bleach and 9 parts water (some say 1 and 10): {bleach} bleach in {soak} made up, "
        "the bleach into the water; rinse well, clay ten minutes more. Air and gloves; never with ammonia, acid or "
        "alcohol; animals and children out."
    ),
    Stage.REPOT: "Clean pots, fresh bagged mix: about {mix}.",
    Stage.SPRAY: "To run-off, both sides of the leaves, out of the sun: about {spray}{product}.",
    Stage.SHELF: "Wipe them with soapy water, cracks too: mealybugs live about two weeks on a bare shelf.",
    Stage.BAG: "Close the bag: old mix, prunings, swabs. Wash hands and tools. Leftover spray never down the drain.",
}
DONE = {
    Stage.APART: "kept apart",
    Stage.PRUNE: "pruned",
    Stage.WASH: "rinsed",
    Stage.REPOT: "cleaned out",
    Stage.SPRAY: "sprayed",
}


@says
def work_stage(told: WorkStage, voice: Voice) -> str:
    """Say what was written, and the stage at hand."""
    plan = told.plan
    lines = _written(told.written)
    lines.append(
        f"Stage {told.number} of {told.count}, {HEADS[plan.stage]} (about {counted(plan.minutes, 'minute')}): "
        f"{listed(told.plants)}."
    )
    lines.append(_how(told, voice))
    if plan.stage is Stage.SPRAY and told.just_washed:
        lines.append(
            f"{listed(told.just_washed)}: just washed roots burn easily. One leaf first, or wait a few days."
        )
    but = f", or “done except {told.plants[-1]}”" if len(told.plants) > 1 else ""
    lines.append(
        f"Then “done”{but}; “skip” leaves it out, “stop for today” keeps the rest "
        f"(about {counted(told.minutes_left, 'minute')} left in all)."
    )
    return "\n".join(lines)


def _how(told: WorkStage, voice: Voice) -> str:
    plan = told.plan
    soak_ml = 1000 * plan.soak_l
    return HOW[plan.stage].format(
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


def _written(written: tuple[tuple[Stage, tuple[str, ...]], ...]) -> list[str]:
    told = [(DONE[stage], plants) for stage, plants in written if stage in DONE and plants]
    return [f"Written for today: {listed(plants)} {word}." for word, plants in told] or (
        ["Ticked off."] if written else []
    )


@says
def work_done(told: WorkDone) -> str:
    """Say that all is done."""
    return "\n".join(
        [*_written(told.written), "That was the last stage. Well worked; the evenings go on as planned."]
    )


@says
def work_paused(told: WorkPaused) -> str:
    """Say how to go on."""
    if not told.stages_left:
        return "The work day is over. What you ticked stays written."
    return (
        f"Enough for today, {counted(told.stages_left, 'stage')} left. “work day” goes on where you stopped."
    )


@says
def no_work(told: NoWork) -> str:
    """Say what a work day needs."""
    if told.is_begun:
        return "Nothing of the work day is left."
    return (
        "No plant has an open case, so there is nothing to work on. “work day for hoya and ivy” names some."
    )
