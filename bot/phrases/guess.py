"""
Which kind of telling or question a message most likely is, where its words leave it open: ranks, never reads.

A linear model over words, pairs of words and letters, with names, numbers and days masked. Its weights are
made by `tests/tools/train.py` from the tables of wordings, and read at the first use.
"""

import json
import math
import re
import struct
from collections.abc import Collection, Iterable, Mapping, Sequence
from functools import cache, lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Any
from zlib import crc32

from bot.actions.action import Expecting
from bot.actions.situation import KnownPlace, KnownPlant, Situation
from bot.domain.value import Value, replace
from bot.phrases.days import MONTHS, WEEKDAYS
from bot.phrases.kept import kept_of_all
from bot.phrases.lexicon import listed
from bot.phrases.text import LONGEST

_Listed = tuple[tuple[str, tuple[str, ...]], ...]
_Names = Mapping[str, Mapping[tuple[str, ...], str]]
"""What marks a run of words, by its first."""
FILE = Path(__file__).with_name("guess.bin")
ASKED = Path(__file__).with_name("asked.bin")
MOST_RANKED = 12
_WORDS = re.compile(r"[^\W\d_]+(?:['\u2019][^\W\d_]+)*|\d+(?:[.,:/]\d+)*|[?!.,;:+=()/-]|[^\s\w]", re.UNICODE)
_NUMBERS = (
    "two three four five six seven eight nine ten eleven twelve dozen thirteen fourteen fifteen sixteen"
    " seventeen eighteen nineteen twenty thirty forty fifty sixty hundred couple half handful"
)
_MARKS: dict[str, str] = {
    **dict.fromkeys((frozenset(WEEKDAYS) | frozenset(MONTHS)) - {"may"}, "D"),
    **dict.fromkeys(listed("today tonight tonite tn now rn"), "D0"),
    **dict.fromkeys(listed("tomorrow tmrw tmr tomoz morrow"), "D+"),
    **dict.fromkeys(listed("yesterday ago earlier yday ystrdy yest"), "D-"),
    **dict.fromkeys(listed(_NUMBERS), "N"),
}
_SHORTEST_PART = 4
"""A word of a longer name stands for the name from so many letters on. Judgement. [1]"""
_LONGEST_NAME = 5
_LETTERS = (3, 4)
_ABOVE_NOUGHT, _MOST_ADDED = 128, 256
_RAISED = bytes(number ^ _ABOVE_NOUGHT for number in range(256))
_MARKED = 4  # letters of a word from which its n-grams are taken


class Guess(Value):
    """A form and its chance."""

    form: str
    chance: float


_FAR = 25
"""What is this much less likely adds nothing to the whole. [nat]"""


class Model(Value):
    """Weights of each form for each bucket of features: a row a bucket."""

    forms: tuple[str, ...]
    buckets: int
    scale: float
    tables: str
    """SHA-256 of the tables it was made from."""
    weights: bytes
    """Each is above nought by 128."""

    def weigh(self, found: Collection[int]) -> list[Guess]:
        """Rank the likeliest forms by the buckets of a message."""
        size = len(self.forms)
        sums = added([self.weights[at * size : (at + 1) * size] for at in found])
        step, top = self.scale / math.sqrt(len(found)), max(sums)
        least = top - _FAR / step
        whole = sum([math.exp((total - top) * step) for total in sums if total > least])
        likeliest = sorted(zip(sums, self.forms, strict=True), reverse=True)[:MOST_RANKED]
        return [Guess(form, math.exp((total - top) * step) / whole) for total, form in likeliest]


def rank(text: str, situation: Situation) -> list[Guess]:
    """Rank the forms that a message may be, the likeliest first."""
    return kept_of_all(_ranked, text, situation)


def rank_asked(text: str, situation: Situation) -> list[Guess]:
    """Rank the forms of questions that a message may be, among them that it tells or says nothing."""
    return kept_of_all(_ranked_asked, text, situation)


def rank_asked_unasked(text: str, situation: Situation) -> list[Guess]:
    """Rank the forms of questions as if nothing were asked just now."""
    return kept_of_all(_ranked_unasked, text, situation)


def _ranked_unasked(text: str, situation: Situation) -> list[Guess]:
    quiet = replace(situation, expecting=Expecting.NOTHING)
    return asked_model().weigh(marks_of(masked(text, situation), quiet, model().buckets))


def _ranked_asked(text: str, situation: Situation) -> list[Guess]:
    return asked_model().weigh(kept_of_all(_marks, text, situation))


@cache
def asked_model() -> Model:
    """Read the weights of questions, once."""
    return load(ASKED.read_bytes())


def _ranked(text: str, situation: Situation) -> list[Guess]:
    return model().weigh(kept_of_all(_marks, text, situation))


def _marks(text: str, situation: Situation) -> frozenset[int]:
    """Give the buckets of a message, which are the same ones in both models."""
    return marks_of(masked(text, situation), situation, model().buckets)


@cache
def model() -> Model:
    """Read the weights, once."""
    return load(FILE.read_bytes())


def load(packed: bytes) -> Model:
    """Read a line of JSON, then one signed byte a bucket and form."""
    told, body = unpacked(packed)
    return Model(
        forms=tuple(told["forms"]),
        buckets=told["buckets"],
        scale=told["scale"],
        tables=told["tables"],
        weights=raised(body),
    )


def unpacked(packed: bytes) -> tuple[dict[str, Any], bytes]:
    """Give the line of JSON that stands before the weights, and the weights, a signed byte each."""
    head, _, body = packed.partition(b"\n")
    return json.loads(head), body


def raised(weights: bytes) -> bytes:
    """Give signed bytes as bytes from nought, each more by 128."""
    return weights.translate(_RAISED)


def added(rows: Sequence[bytes]) -> list[int]:
    """
    Add rows of bytes, column by column.

    All are taken for one long number. Every other byte of it leaves room for the sums of 256 rows; half of
    them is added to the other half until one is left.
    """
    if len(rows) > _MOST_ADDED:
        halves = added(rows[:_MOST_ADDED]), added(rows[_MOST_ADDED:])
        return [one + other for one, other in zip(*halves, strict=True)]
    size = len(rows[0]) + len(rows[0]) % 2
    mask = int.from_bytes(b"\xff\0" * (size * len(rows) // 2), "little")
    whole = int.from_bytes((b"\0" * (size - len(rows[0]))).join(rows), "little")
    sums = [0] * size
    for first, number in enumerate((whole & mask, whole >> 8 & mask)):
        lanes, left = number, len(rows)
        while left > 1:
            left = (left + 1) // 2
            bits = left * size * 8
            lanes = (lanes >> bits) + (lanes & (1 << bits) - 1)
        sums[first::2] = struct.unpack(f"<{size // 2}H", lanes.to_bytes(size, "little"))
    return sums[: len(rows[0])]


def masked(text: str, situation: Situation) -> tuple[str, ...]:
    """Give a message's words with what names a thing, a number or a day as one capital letter."""
    words = [word.lower().replace("\u2019", "'") for word in _WORDS.findall(text[:LONGEST])]
    own = _own(situation.plants, situation.places)
    listed_names = _of_the_catalogue(situation.pests, situation.ingredients)
    kept: list[str] = []
    at = 0
    while at < len(words):
        size, mark = _name_at(words, at, own, listed_names)
        if mark == "P" and "P" in kept[_joined(kept) :]:
            del kept[_joined(kept) + 1 :]  # of several plants is told what is told of one
        else:
            kept.append(mark or _mark(words[at]))
        at += size
    return tuple(kept)


def _joined(kept: Sequence[str]) -> int:
    """Give where the name stands that nothing but joints parts from what comes next."""
    return next((at for at in range(len(kept) - 1, -1, -1) if kept[at] not in _JOINTS), 0)


_JOINTS = listed("and the , & + n my")


def _name_at(words: Sequence[str], at: int, own: _Names, others: _Names) -> tuple[int, str]:
    begins = (words[at], words[at].removesuffix("'s").removesuffix("s"))
    begun = [named[word] for named in (own, others) for word in begins if word in named]
    for size in range(min(_LONGEST_NAME, len(words) - at) if begun else 0, 0, -1):
        run = tuple(words[at : at + size])
        one = (*run[:-1], run[-1].removesuffix("'s").removesuffix("s"))
        mark = next((names[each] for names in begun for each in (run, one) if each in names), "")
        if mark:
            return size, mark
    return 1, ""


def _mark(word: str) -> str:
    return "N" if word[0].isdigit() else _MARKS.get(word, word)


@lru_cache(maxsize=4)
def _of_the_catalogue(pests: _Listed, products: _Listed) -> _Names:
    return _by_first(
        {
            tuple(_WORDS.findall(phrase.lower())): mark
            for mark, kinds in (("B", pests), ("Q", products))
            for _, phrases in kinds
            for phrase in phrases
        }
    )


@lru_cache(maxsize=256)
def _own(plants: tuple[KnownPlant, ...], places: tuple[KnownPlace, ...]) -> _Names:
    """Give the words of a home's names with their mark: whole, each longer part, a numbered name's group."""
    known: dict[tuple[str, ...], str] = {}
    named = [("L", place.name) for place in places]
    named += [("P", name) for plant in plants for name in plant.names]
    for mark, name in named:
        whole = tuple(_WORDS.findall(name.lower()))
        parts = [(part,) for part in whole if len(part) >= _SHORTEST_PART and part.isalpha()]
        group = [whole[:-1]] if len(whole) > 1 and whole[-1].isdigit() else []
        known |= dict.fromkeys([*parts, *group, whole], mark)
    return _by_first(known)


def _by_first(marks: Mapping[tuple[str, ...], str]) -> _Names:
    known: dict[str, dict[tuple[str, ...], str]] = {}
    for run, mark in marks.items():
        known.setdefault(run[0] if run else "", {})[run] = mark
    return known


def marks_of(words: Sequence[str], situation: Situation, size: int) -> frozenset[int]:
    """Give the buckets of masked words: words, pairs, letters, and the situation."""
    framed, state = ("^", *words, "$"), _state(situation)
    marks = [f"p {left} {right}" for left, right in pairwise(framed)]
    marks += [f"s {left} {right}" for left, right in zip(framed, framed[2:], strict=False)]
    marks += [f"@ {one}" for one in state]
    marks += [f"@ {one} {word}" for one in state for word in words]
    each = (marks_of_word(word, _LETTERS, size) for word in words)
    return frozenset(buckets_of(marks, size)).union(*each)


@lru_cache(maxsize=2048)
def marks_of_word(word: str, runs: tuple[int, ...], size: int) -> tuple[int, ...]:
    """Give the buckets of a word by itself, and of runs of its letters."""
    marks = [f"w {word}"]
    if word.isalpha() and len(word) >= _MARKED:
        edged = f"<{word}>"
        marks += [f"c {edged[at : at + run]}" for run in runs for at in range(len(edged) - run + 1)]
    return tuple(buckets_of(marks, size))


def _state(situation: Situation) -> tuple[str, ...]:
    """Name what the situation asks: the open question, the evening's work, nothing."""
    state = []
    if situation.expecting is not Expecting.NOTHING:
        offered = situation.choices[0].commands if situation.choices else ()
        state.append(f"{situation.expecting.value} {type(offered[0]).__name__ if offered else ''}")
    if situation.tonight:
        state.append("tonight")
    if not situation.plants:
        state.append("empty")
    return tuple(state) or ("quiet",)


def buckets_of(marks: Iterable[str], size: int) -> list[int]:
    """Give the buckets that marks fall into: one at least, none with other space in it than blanks."""
    packed = "\x1f".join(marks).encode("utf-8", "surrogatepass").split(b"\x1f")
    return [crc32(mark) % size for mark in packed]
