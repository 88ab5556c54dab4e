"""Answers that teach: how a thing is done, what a word means, what an animal is, what must not be done."""

from bot.actions.describe_pest import PestDescribed
from bot.actions.identify import Identified
from bot.actions.tell_how import HowTold
from bot.domain.key import Nature
from bot.domain.trade import Method
from bot.wording.days import counted, listed, plural
from bot.wording.saying import says

_FIRST = {
    Method.PRUNE: "cut off the worst",
    Method.DRY: "let the mix dry on top",
    Method.RINSE: "wash every leaf",
    Method.CLEAN_OUT: "a clean-out",
}

_BESIDES = {Method.DRENCH: "drench the mix", Method.DRY: "let the mix dry on top"}


@says
def _how_told(told: HowTold) -> str:
    heading = told.title if told.plant is None else f"{told.title}: {told.plant}"
    asked = ["How much comes off? Count one leaf: “leaf 12 before, 3 after”."] if told.asks_leaf else []
    lines = [f"{heading}.", *told.cautions, *asked, *(f"• {step}" for step in told.steps)]
    return "\n".join(lines)


@says
def _pest_described(told: PestDescribed) -> str:
    pest = told.pest
    well, partly, never = pest.reached
    products = listed(told.products) if told.products else "nothing that works on it"
    return "\n".join(
        [
            f"{pest.name.capitalize()} ({pest.latin}).",
            f"Where: {pest.hides}.",
            f"Spreads: {pest.spreads}.",
            f"Against it: {_fought(told)}",
            f"On your shelf: {products}.",
            f"Seen some? “hoya 3 {plural(pest.name)}”, and I plan it.",
            f"A treatment reaches {well}, partly {partly}, not {never}.",
        ]
    )


def _fought(told: PestDescribed) -> str:
    fight, rounds = told.pest.fight, told.pest.least.rounds
    first = [_FIRST[method] for method in fight.start if method in _FIRST]
    hand = [] if fight.handwork is None else [fight.handwork_word]
    put_on = ["drench the mix" if fight.round_by is Method.DRENCH else "spray"]
    besides = [_BESIDES[method] for method in fight.with_round if method in _BESIDES]
    opening = f"first {listed(first)}; " if first else ""
    least = f", {counted(rounds, 'treatment')} at least" if rounds is not None else ", time after time"
    return f"{opening}{listed([*hand, *put_on, *besides])}{least}."


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
    lines.append(_if_so(told))
    return "\n".join(line for line in lines if line)


def _if_so(told: Identified) -> str:
    pests = [one for one in told.creatures if one.nature is Nature.PEST]
    if not pests:
        return "Nothing is written."
    if told.asking and not told.plants:
        return "On which plant? Not written yet."
    if told.asking:
        return f"Shall I write it for {listed(told.plants)}? Not written yet."
    return f"If so, say for instance “hoya 5 {plural(pests[0].name)}”. Not written yet."
