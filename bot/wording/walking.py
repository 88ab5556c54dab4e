"""The check walk in words."""

from bot.actions.walk_through import NoWalk, WalkDone, WalkLevelAsked, WalkStep, WalkStopped
from bot.domain.release import Level
from bot.wording.days import counted, listed
from bot.wording.saying import says

HOW = {
    Level.GLANCE: "A glance counts for little; a plain look takes 3 to 5 minutes a plant.",
    Level.PLAIN: "Axils, undersides, crown, rim of the pot: 3 to 5 minutes each.",
    Level.LENS: "With the lens or a phone's macro: axils, undersides along the veins, crown, rim of the pot.",
    Level.ROOTS: "Lift each pot: the root ball, the drainage holes, the rim.",
    Level.TAP: "White paper under a branch, tap it three times, look for what walks.",
    Level.CARD: "Count what sticks to each card, then hang a fresh one.",
    Level.TAPE: "Sticky tape round the stem, sticky side out; look after two days for what stuck.",
    Level.POTATO: "A slice of potato on the mix for 48 hours; then look under it for larvae.",
}


@says
def level_asked(told: WalkLevelAsked) -> str:
    """Ask how closely, once for the whole walk."""
    return (
        f"Check walk, {counted(told.plants, 'plant')}, those without a find first. How closely do you look?"
    )


@says
def walk_step(told: WalkStep) -> str:
    """Say which plant is next."""
    where = f", {told.place}" if told.place else ""
    lines = [f"{told.number} of {told.count}: {told.plant}{where}."]
    if told.pests:
        lines.append(f"Open case: {listed(told.pests)}. It hides in {told.hides}.")
    if told.is_first:
        lines.insert(
            0,
            f"{HOW[told.level]} Pick dead leaves and debris off the mix on the way; wash hands before the cases.",
        )
    if told.is_resumed:
        lines.insert(0, "Going on where you stopped.")
    return "\n".join(lines)


@says
def walk_done(told: WalkDone) -> str:
    """Sum the walk up."""
    lines = ["Walk done."]
    if told.none_seen:
        lines.append(f"None seen: {listed(told.none_seen)}.")
    if told.found:
        lines.append(f"Found something: {listed(told.found)}.")
    if told.passed:
        lines.append(f"Not looked at: {listed(told.passed)}.")
    lines += [f"{name} may leave isolation by the rule: “put {name} back”." for name in told.ready]
    return "\n".join(lines)


@says
def walk_stopped(told: WalkStopped) -> str:
    """Say how to go on."""
    if not told.plants_left:
        return "The walk is over. What you told me stays written."
    return f"Stopped, {counted(told.plants_left, 'plant')} left. “walk” goes on there within two days."


@says
def _no_walk(_: NoWalk) -> str:
    return "No check walk is under way. “walk” begins one."
