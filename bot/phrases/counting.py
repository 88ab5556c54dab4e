"""A leaf counted before and after a wash: "leaf 12 before, 3 after"."""

from bot.actions.count_leaf import CountLeaf
from bot.phrases.asking import Meant
from bot.phrases.lexicon import listed
from bot.phrases.numbers import number_at

_AROUND = listed(
    "leaf one on a the of my wash washing rinse wiping wipe it was were and , . : pests mites to from"
)


def read_leaf(words: tuple[str, ...]) -> Meant | None:
    """Read a count of one leaf, each number before its word and nothing else told."""
    counts: dict[str, int] = {}
    strange = set(words) - _AROUND - {"before", "after"}
    for side in ("before", "after"):
        at = words.index(side) if side in words else 0
        for size in (2, 1):
            number = number_at(words[at - size : at], 0) if at >= size else None
            if number is not None and number[1] == size and number[0] == int(number[0]):
                counts.setdefault(side, int(number[0]))
                strange -= {*words[at - size : at]}
    is_told = "leaf" in words and len(counts) > 1 and not strange
    return (CountLeaf(counts["before"], counts["after"]),) if is_told else None
