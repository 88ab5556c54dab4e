"""Answers that teach: how a thing is done, what a word means, what must not be done."""

from bot.actions.count_leaf import LeafNoted
from bot.actions.describe_pest import PestDescribed, PestsKnown
from bot.actions.explain_term import TermTold
from bot.actions.tell_how import HowTold
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
def _leaf_noted(told: LeafNoted) -> str:
    share = f"{round(100 * told.removed)} % come off here, by {counted(told.counts, 'count')}"
    return f"Written: one leaf, {told.before} before and {told.after} after. {share}."


@says
def _term_told(told: TermTold) -> str:
    return f"{told.name.capitalize()}: {told.text}"


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


@says
def _pests_known(told: PestsKnown) -> str:
    return f"I know {listed(map(plural, told.names))}. “what are thrips” tells of one; “what is this” finds it out."


def _fought(told: PestDescribed) -> str:
    fight, rounds = told.pest.fight, told.pest.least.rounds
    first = [_FIRST[method] for method in fight.start if method in _FIRST]
    hand = [] if fight.handwork is None else [fight.handwork_word]
    put_on = ["drench the mix" if fight.round_by is Method.DRENCH else "spray"]
    besides = [_BESIDES[method] for method in fight.with_round if method in _BESIDES]
    opening = f"first {listed(first)}; " if first else ""
    least = f", {counted(rounds, 'treatment')} at least" if rounds is not None else ", time after time"
    return f"{opening}{listed([*hand, *put_on, *besides])}{least}."
