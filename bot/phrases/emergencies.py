"""
What went wrong, and what must not be done: recognised before everything else, rather once too often.

Whether somebody came to harm is weighed, not parsed: people tell it by the way, as a question, without naming
the product, in half words. The words, the classes they belong to and which classes stand near each other each
have a weight, made by `tests/tools/alarm.py` from what people wrote.
"""

import json
import math
import re
import tomllib
from collections.abc import Sequence
from enum import Enum
from functools import cache, lru_cache
from itertools import combinations, pairwise
from pathlib import Path

from bot.actions.action import Command
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.domain.value import Value
from bot.phrases.bottles import is_of_a_bottle
from bot.phrases.guess import buckets_of, marks_of_word
from bot.phrases.homes import is_list_of_plants, kind_at
from bot.phrases.kept import kept, kept_of_all
from bot.phrases.names import OneOf, Plants, names_of
from bot.phrases.slips import slips_between
from bot.phrases.text import plain, words_of

FILE = Path(__file__).with_name("alarm.bin")
LEAST_SCORES = {"victim": (-2.5, 0.3), "people": (-2.0, 0.3), "nobody": (1.5, 2.5)}
"""
Scores from which help is given beside what else a message may mean, and from which only help is given:
where it names a victim or a harm; only people ("my flat is in Leeds" is none); nobody. By the figures that
`tests/tools/alarm.py` prints. [1]
"""
LONGEST = 1200
"""Characters that are listened to. [1]"""
_WORDS = Path(__file__).with_name("emergencies.toml")
_ENDINGS = ("ing", "ed", "es", "s", "d")
_SHORTEST_STEM = 3
_NEAR = 7
"""Words within which two classes stand near each other. Judgement. [1]"""
_LETTERS = (3, 4, 5)
_OF_A_VICTIM = frozenset(
    {"people", "small_people", "animals", "parts_of_the_head", "parts_of_the_body"}
    | {"symptoms", "signs_of_harm", "signs_in_animals", "eating", "swallowing", "calls", "flames"}
)
_BREAK = frozenset(".!?;\n")
_REPEATED = re.compile(r"(.)\1{2,}")
_VOWELS = re.compile("[aeiou]")
_SHORTEST_SKELETON = 3
_LONG = 6
"""Letters from which a word with one slip is still known. Judgement. [1]"""


class Alarm(Enum):
    """How sure it is that somebody or an animal came to harm."""

    LOUD = "loud"
    FAINT = "faint"
    NONE = "none"


class Weights(Value):
    """One signed byte a bucket of marks, and where the middle is."""

    buckets: int
    scale: float
    middle: float
    tables: str
    """SHA-256 of the lines it was made from."""
    each: memoryview

    def score(self, found: Sequence[int]) -> float:
        """Weigh the buckets of a message: above nought it is rather an emergency. [1]."""
        if not found:
            return -math.inf
        return sum(map(self.each.__getitem__, found)) * self.scale / math.sqrt(len(found)) + self.middle


def hear_emergency(text: str, situation: Situation) -> Command | None:
    """Tell what is answered before anything else: first aid, or the danger of a plan; else None."""
    return kept_of_all(_heard, text, situation)


def _heard(text: str, situation: Situation) -> Command | None:
    if alarm(text, situation) is Alarm.LOUD and not is_list_of_plants(text, situation):
        return GiveFirstAid()
    threat = danger(text, situation)
    return None if threat is None else NotUnderstood(text, reason=threat)


def alarm(text: str, situation: Situation) -> Alarm:
    """Tell whether a message is of somebody or an animal that came to harm."""
    return kept(_alarm, text, situation)


def _alarm(text: str, situation: Situation) -> Alarm:
    words = kept(_words, text, situation)
    score = weights().score(_marks(words, weights().buckets))
    named = {name for word in words for name in classes_of(word)} & _OF_A_VICTIM
    faint, loud = LEAST_SCORES["nobody" if not named else "people" if named == {"people"} else "victim"]
    if score < faint or is_of_a_bottle(words_of(plain(text[:LONGEST])), situation):
        return Alarm.NONE  # a product and its label to the last word: nobody else is in it
    return Alarm.LOUD if score >= loud else Alarm.FAINT


def danger(text: str, situation: Situation) -> str | None:
    """Name a plan that harms: bleach with what makes gas of it, or oil or alcohol in the air near a flame."""
    words = kept(_words, text, situation)
    return _Plan(words, tuple(classes_of(word) for word in words)).danger()


@cache
def weights() -> Weights:
    """Read the weights, once."""
    return load(FILE.read_bytes())


def load(packed: bytes) -> Weights:
    """Read a line of JSON, then one signed byte a bucket."""
    head, _, body = packed.partition(b"\n")
    told = json.loads(head)
    return Weights(
        buckets=told["buckets"],
        scale=told["scale"],
        middle=told["middle"],
        tables=told["tables"],
        each=memoryview(body).cast("b"),
    )


def marks_of(text: str, situation: Situation, buckets: int | None = None) -> list[int]:
    """Give the buckets of a message's marks: words, their neighbours, letters, classes and classes nearby."""
    return _marks(_words(text, situation), weights().buckets if buckets is None else buckets)


def _marks(words: tuple[str, ...], size: int) -> list[int]:
    classes = [sorted(classes_of(word)) for word in words]
    framed = ("^", *words, "$")
    kinds = ("^", *(known[0] if known else word for known, word in zip(classes, words, strict=True)), "$")
    marks = {f"p {left} {right}" for left, right in pairwise(framed)}
    marks |= {f"s {left} {right}" for left, right in zip(framed, framed[2:], strict=False)}
    marks |= {f"q {left} {right}" for left, right in pairwise(kinds)}
    marks |= {f"t {left} {right}" for left, right in zip(kinds, kinds[2:], strict=False)}
    for at, own in enumerate(classes):
        near = {name for known in classes[at : at + _NEAR] for name in known}
        marks |= {f"n {one} {other}" for one in own for other in near}
    named = sorted({name for known in classes for name in known})
    marks |= {f"k {name}" for name in named} | {f"kk {one} {other}" for one, other in combinations(named, 2)}
    each = (bucket for word in words for bucket in marks_of_word(word, (), _LETTERS, size))
    return sorted({*buckets_of(marks, size), *each})


def _words(text: str, situation: Situation) -> tuple[str, ...]:
    names = names_of(situation)
    words = words_of(_REPEATED.sub(r"\1", plain(text[:LONGEST])))
    heard: list[str] = []
    at = 0
    while at < len(words):
        known = names.exact_at(words, at)
        size = known[1] if known is not None and isinstance(known[0], Plants | OneOf) else 0
        kind = kind_at(words, at, situation.kinds)
        if kind > size and kind > 1 and any(classes_of(word) for word in words[at : at + kind]):
            size = kind  # "mother in law's tongue" is nobody's
        heard.append("houseplant" if size else words[at])
        at += size or 1
    return tuple(heard)


@lru_cache(maxsize=4096)
def classes_of(word: str) -> frozenset[str]:
    """Give the classes of a word: as listed, as a form of a listed word, or written without its vowels."""
    listed = _listed()
    if word in listed:
        return listed[word]
    for stem in sorted(_stems(word), key=len, reverse=True):
        if stem in listed:
            return listed[stem]
    if (
        len(word) >= _SHORTEST_SKELETON
        and word.isalpha()
        and len(_VOWELS.findall(word[1:])) <= len(word) // 6
    ):
        return _skeletons().get(_skeleton(word), frozenset())
    return _misspelt(word) if len(word) >= _LONG and word.isalpha() else frozenset()


def _misspelt(word: str) -> frozenset[str]:
    """Give the classes of the listed words that lie one slip away and begin alike."""
    near = [one for one in _long_words().get(word[0], ()) if abs(len(one) - len(word)) <= 1]
    return frozenset(name for one in near if slips_between(word, one, 1) <= 1 for name in _listed()[one])


@cache
def _long_words() -> dict[str, tuple[str, ...]]:
    """Give the listed words that are long enough to be known by most of their letters, by their first one."""
    found: dict[str, list[str]] = {}
    for word in _listed():
        if len(word) >= _LONG - 1:
            found.setdefault(word[0], []).append(word)
    return {letter: tuple(words) for letter, words in found.items()}


@cache
def _listed() -> dict[str, frozenset[str]]:
    """Give each form of each listed word the classes it belongs to."""
    classes: dict[str, set[str]] = {}
    for name, words in tomllib.loads(_WORDS.read_text(encoding="utf-8")).items():
        for word in words.split():
            for form in {word, *_stems(word)}:
                classes.setdefault(form, set()).add(name)
    return {form: frozenset(names) for form, names in classes.items()}


@cache
def _skeletons() -> dict[str, frozenset[str]]:
    found: dict[str, frozenset[str]] = {}
    for word, classes in _listed().items():
        for form in (word, f"{word}s", f"{word}ed", f"{word}ing"):
            skeleton = _skeleton(form)
            if len(skeleton) >= _SHORTEST_SKELETON:
                found[skeleton] = found.get(skeleton, frozenset()) | classes
    return found


def _skeleton(word: str) -> str:
    return word[0] + _VOWELS.sub("", word[1:])


def _stems(word: str) -> set[str]:
    """Cut the endings that a form of a word may have: "licking", "chewed", "vomits"."""
    stems: set[str] = set()
    for ending in _ENDINGS:
        stem = word.removesuffix(ending)
        if stem != word and len(stem) >= _SHORTEST_STEM and (ending != "d" or stem[-1] == "e"):
            stems |= {stem, f"{stem}e"}
            if ending in {"ing", "ed"} and stem[-1] == stem[-2]:
                stems.add(stem[:-1])
    return stems


class _Plan(Value):
    """The words of a message and the classes of each."""

    words: tuple[str, ...]
    classes: tuple[frozenset[str], ...]

    def danger(self) -> str | None:
        """Name a plan that harms: bleach with what makes gas of it, or oil in the air near a flame."""
        if not self.words:
            return None
        bleach, acid = self._at("bleaches"), self._at("acids")
        is_warned = self._holds(("not", "mix")) or self._holds(("never", "mix"))
        is_shopping = self.words[0] in {"got", "bought", "ordered"}
        if bleach and acid and not is_warned and not is_shopping and self._are_together(bleach, acid):
            return "bleach"
        if self._holds(("is", "off")) or self._holds(("are", "off")):
            return None
        if self._at("flames") and self._at("burning") and self._at("fogging"):
            is_lamp = {self.words[at] for at in self._at("flames")} & {"lamp", "bulb", "radiator", "match"}
            return None if is_lamp and not self._is_near_a_flame() else "flame"
        return None

    def _is_near_a_flame(self) -> bool:
        """Whether the lamp is spoken of as near: a grow light is a lamp too."""
        near = frozenset({"near", "next", "beside", "by", "under", "close", "hot", "lit", "around", "over"})
        return bool(near & frozenset(self.words)) and bool(
            {"fog", "fogged", "fogging", "oil", "lit", "mist", "alcohol", "hot"} & frozenset(self.words)
        )

    def _are_together(self, first: list[int], second: list[int]) -> bool:
        joints = {"and", "with", "plus", "to", "add", "mix", "together", "in", "into", "&", "+"}
        return any(
            one != other
            and joints & frozenset(between := self.words[min(one, other) : max(one, other)])
            and not frozenset({",", "then", *_BREAK}) & frozenset(between)
            for one in first
            for other in second
        ) or bool({"mix", "mixed", "mixing", "together", "combine"} & frozenset(self.words))

    def _at(self, name: str) -> list[int]:
        return [at for at, one in enumerate(self.classes) if name in one]

    def _holds(self, phrase: tuple[str, ...]) -> bool:
        return any(pair == phrase for pair in pairwise(self.words))
