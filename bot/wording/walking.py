"""The walk by all plants, in words."""

from bot.actions.walk_through import WalkDone, WalkStep
from bot.domain.trade import Level
from bot.wording.conditions import all_clear
from bot.wording.days import listed, plural
from bot.wording.lines import AFTER
from bot.wording.saying import says_shortly
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


@says_shortly
def _walk_done(told: WalkDone, voice: Voice) -> str:
    lines = ["Walk done."]
    if told.found:
        lines.append(f"Found something: {voice.plants(told.found)}.")
    lines += all_clear(told.ready)
    if told.passed:
        lines.append(f"Not looked at: {voice.plants(told.passed)}.")
    if told.none_seen:
        lines.append(f"None seen: {voice.plants(told.none_seen)}.")
    return "\n".join(lines)
