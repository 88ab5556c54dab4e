"""A leaf counted before and after a wash: "leaf 12 before, 3 after"."""

from bot.actions.count_leaf import CountLeaf
from bot.phrases.asking import Meant
from bot.phrases.lexicon import listed
from bot.phrases.numbers import number_at

_AROUND = listed(
    "leaf one on a the of my wash washing rinse wiping wipe it was were and , . : pests mites to from"
)
_SIDES = {"before": 0, "after": 1}


def read_leaf(words: tuple[str, ...]) -> Meant | None:
    """Read a count of one leaf, each number beside its word."""
    if not {"leaf", "before", "after"} <= set(words):
        return None
    counts: list[int | None] = [None, None]
    at, held = 0, None
    while at < len(words):
        number = number_at(words, at) if words[at] not in {"a", "one"} else None
        if number is not None and number[0] == int(number[0]):
            if held is not None:
                return None
            held = int(number[0])
            at += number[1]
            continue
        if words[at] in _SIDES and held is not None:
            counts[_SIDES[words[at]]], held = held, None
        elif words[at] not in _AROUND:
            return None
        at += 1
    before, after = counts
    return None if before is None or after is None else (CountLeaf(before, after),)
