"""
Whether words that nothing accounts for carry nothing where they stand: learned, and decided nowhere else.

A linear model over such words, what stands beside them, the form and the rest of the message. Its weights
are made by `tests/tools/trust.py` from what people told, and from what was only near to a telling.
"""

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

from bot.domain.value import Value
from bot.phrases.accounting import Left, word_or_kind
from bot.phrases.guess import Model, buckets_of, load
from bot.phrases.items import Item, Unknown
from bot.phrases.lexicon import words_of_class

FILE = Path(__file__).with_name("trust.bin")
SURE, HELD = "sure", "held"
TRUSTED_FROM = 0.94
"""So likely what is left over carries nothing that the rest is written. Judgement. [1]"""
_CAREFUL = words_of_class("idle", "careful")
_STEPS = 10
_MOST_LEFT = 6


class Weighed(Value):
    """A message read as a form, with the chances of it and that nothing is told, and what is left over."""

    form: str
    chance: float
    idle: float
    items: tuple[Item, ...]
    left: tuple[Left, ...]


def is_trusted(weighed: Weighed) -> bool:
    """Whether the words left over in a message carry nothing."""
    best = _model().weigh(marks_of(weighed, _model().buckets))[0]
    return best.form == SURE and best.chance >= TRUSTED_FROM


def marks_of(weighed: Weighed, size: int) -> frozenset[int]:
    """Give the buckets of a message of which words are left over."""
    form, likely = weighed.form, int(weighed.chance * _STEPS)
    words = ["^", *map(word_or_kind, weighed.items), "$"]
    marks = [f"form {form}", f"chance {likely}", f"{form} {likely}", f"idle {int(weighed.idle * _STEPS)}"]
    marks += [f"left {min(len(weighed.left), _MOST_LEFT)}", *(f"w {word}" for word in words)]
    marks += [f"b {one} {other}" for one, other in pairwise(words)]
    return frozenset(buckets_of([*marks, *(mark for one in weighed.left for mark in _marks_of(one))], size))


def _marks_of(left: Left) -> Iterator[str]:
    word, before, behind = left.around
    kind = "?" if isinstance(left.items[left.at].meaning, Unknown) else "!"
    kind = "careful" if word in _CAREFUL else kind
    yield from (f"u {left.head} {word}", f"u {word}", f"u {word} {behind}", f"u {before} {word}")
    yield from (f"k {left.head} {kind}", f"k {before} {kind}", f"k {kind} {behind}", f"k {kind}")


@cache
def _model() -> Model:
    return load(FILE.read_bytes())
