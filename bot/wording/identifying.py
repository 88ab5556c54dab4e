"""Answers of the identification key."""

from bot.actions.identify import Identified
from bot.domain.key import Nature
from bot.wording.days import listed, plural
from bot.wording.saying import says

NATURES = {
    Nature.PEST: "",
    Nature.FRIEND: " (a friend: no spray)",
    Nature.HARMLESS: " (harmless: nothing to do)",
    Nature.OTHER: " (not an insect: no insect spray helps)",
}


LOOK_CLOSER = "Look with a lens or the phone's camera, tap a leaf over white paper, and ask again."


@says
def _identified(told: Identified) -> str:
    if not told.creatures:
        return (
            "Nothing I know fits all of that. Look once more in daylight, with a lens or the phone's camera, and "
            "say “what is this” again. Keep the plant apart until you know."
        )
    if told.unnamed > len(told.creatures):
        count = told.unnamed + len(told.creatures)
        return f"Too little to go by: it can still be {count} things. {LOOK_CLOSER} Nothing is written."
    if len(told.creatures) == 1:
        (one,) = told.creatures
        lines = [f"Most likely {one.name}{NATURES[one.nature]}: {one.tell}."]
    else:
        lines = ["It can be one of these:"]
        if told.unnamed:
            count = told.unnamed + len(told.creatures)
            lines = [
                f"Too little to go by: it can still be {count} things. {LOOK_CLOSER} The likeliest so far:"
            ]
        lines += [f"{one.name}{NATURES[one.nature]}: {one.tell}." for one in told.creatures]
    lines.append(_next(told))
    return "\n".join(line for line in lines if line)


def _next(told: Identified) -> str:
    pests = [one for one in told.creatures if one.nature is Nature.PEST]
    if not pests:
        return "Nothing is written."
    if told.asking:
        return f"Shall I write it for {listed(told.plants)}? Nothing is written yet."
    return f"If so, say for instance “hoya 5 {plural(pests[0].name)}”. Nothing is written yet."
