"""`python -m tests.tools.common`: makes bot/phrases/common.txt, the words that many hands type and that name nothing."""

import re
import sys
from collections import Counter
from pathlib import Path

from bot.actions.situation import Situation
from bot.phrases.home_words import singular
from bot.phrases.lexicon import words_in
from bot.phrases.text import plain, words_of
from tests.phrases.hands import tables

FILE = Path(__file__).parent.parent.parent / "bot" / "phrases" / "common.txt"
FEWEST_HANDS = 4
"""So many hands type a word that is no slip: at three "tonighr" is one. Judgement. [1]"""
SHORTEST = 3
_NAMED = re.compile(r"(?:\btown |\badd |place=)([^\W\d]+)")
"""What a line names that is new: a town, a plant, a place."""


def common() -> str:
    """Give the words, a line each in the order of letters."""
    hands: Counter[str] = Counter()
    named: set[str] = set()
    for hand in tables():
        hands.update({word for line in hand.lines for word in words_of(plain(line.text))})
        named.update(*(_names(line.situation) for line in hand.lines))
        named.update(*(name.split("_") for line in hand.lines for name in _NAMED.findall(line.meaning)))
    often = {word for word, count in hands.items() if count >= FEWEST_HANDS and len(word) >= SHORTEST}
    return "".join(f"{word}\n" for word in sorted(often) if word.isalpha() and not _is_named(word, named))


def _is_named(word: str, named: set[str]) -> bool:
    """Whether a word is of a name, or its plural."""
    return word in named or singular(word) in named


def _names(situation: Situation) -> frozenset[str]:
    """Give every word that is of a name: of plants and their kinds, places, pests, products."""
    listed = (name for _, names in (*situation.ingredients, *situation.pests) for name in names)
    plants = (name.lower() for plant in situation.plants for name in plant.names)
    return words_in((*situation.kinds, *listed, *plants, *(one.name.lower() for one in situation.places)))


def main() -> int:
    """Write the file."""
    FILE.write_text(common(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
