"""
What went wrong, and what must not be done: recognised before everything else, rather once too often.

Whether somebody came to harm is weighed, not parsed: people tell it by the way, as a question, without naming
the product, in half words. The words, the classes they belong to and which classes stand near each other each
have a weight, made by `tests/tools/alarm.py` from what people wrote.
"""

import math
import re
import tomllib
from collections.abc import Collection, Iterator, Sequence
from enum import Enum
from functools import cache, lru_cache
from itertools import chain, combinations, pairwise, product
from pathlib import Path

from bot.actions.action import Command
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.domain.value import Value
from bot.phrases.bottles import is_of_a_bottle
from bot.phrases.guess import buckets_of, marks_of_word, unpacked
from bot.phrases.home_words import kind_at
from bot.phrases.kept import kept, kept_of_all
from bot.phrases.names import OneOf, Plants, names_of
from bot.phrases.text import plain, words_of

FILE = Path(__file__).with_name("alarm.bin")
LEAST_SCORES = {"victim": (-2.4, 0.3), "people": (-2.0, 0.3), "nobody": (1.5, 2.5)}
"""
Scores from which help is given beside what else a message may mean, and from which only help is given:
where it names a victim or a harm; only people ("my flat is in Leeds" is none); nobody. By the figures that
`tests/tools/alarm.py` prints. [1]
"""
LIKELY = -1.0
"""Score from which help is given beside whatever else is understood. By the same figures. [1]"""
OF_THE_WORST = 0.4
"""How much the worst sentence counts beside the whole message. [1]"""
LONGEST = 1200
"""Characters that are listened to. [1]"""
_WORDS = Path(__file__).with_name("emergencies.toml")
_ENDINGS = ("ing", "ed", "es", "s", "d")
_SHORTEST_STEM = 3
_NEAR = 7
"""Words within which two classes stand near each other. Judgement. [1]"""
_LETTERS = (3, 4, 5)
_OF_A_VICTIM = frozenset(
    {"people", "small_people", "animals", "parts_of_the_head", "parts_of_the_body", "self_harm"}
    | {"symptoms", "signs_of_harm", "signs_in_animals", "eating", "swallowing", "calls", "flames"}
)
_HARM = frozenset(
    {"eating", "swallowing", "symptoms", "signs_of_harm", "signs_in_animals"}
    | {"landing", "getting_at", "treated"}
)
_WHO = frozenset(
    {"people", "small_people", "animals", "parts_of_the_body", "parts_of_the_head"}
    | {"pests", "green_things", "plant_parts", "plants_people_keep", "substances"}
)
_NEXT = 9
"""Words within which somebody is next to what is told of harm. Judgement. [1]"""
_FULL_STOPS = frozenset(".!?;\n")
_REPEATED = re.compile(r"(.)\1{2,}")


_ASKS_AHEAD = re.compile(
    r"\W*(?:(?:can|may|could|should)|is it (?:ok|okay|safe|fine|bad|dangerous) (?:for|if))"
    r" (?:(?:my|our|the|a) )?(?:dog|cat|pet|kid|child|toddler|rabbit|bird|parrot|hamster)s?"
    r" (?:to )?(?:lick|eat|touch|smell|sniff|chew)s?"
    r"(?: \w+){0,4}\W*"
)
"""Asked before anything happened: "can my dog lick the soap"; help is given beside the answer."""


class Alarm(Enum):
    """How sure it is that somebody or an animal came to harm."""

    LOUD = "loud"
    LIKELY = "likely"
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

    def score(self, found: Collection[int]) -> float:
        """Weigh the buckets of a message: above nought it is rather an emergency. [1]."""
        if not found:
            return -math.inf
        return sum(map(self.each.__getitem__, found)) * self.scale / math.sqrt(len(found)) + self.middle


def hear_emergency(text: str, situation: Situation) -> Command | None:
    """Tell what is answered before anything else: first aid, or the danger of a plan; else None."""
    return kept_of_all(_heard, text, situation)


def _heard(text: str, situation: Situation) -> Command | None:
    if alarm(text, situation) is Alarm.LOUD:
        return GiveFirstAid()
    threat = danger(text, situation)
    return None if threat is None else NotUnderstood(text, reason=threat)


def alarm(text: str, situation: Situation) -> Alarm:
    """Tell whether a message is of somebody or an animal that came to harm."""
    return kept(_alarm, text, situation)


def _alarm(text: str, situation: Situation) -> Alarm:
    words = kept(_words, text, situation)
    score, *parts = map(weights().score, _marks_of_all(words, weights().buckets))
    score += OF_THE_WORST * (max(parts, default=score) - score)
    named = {name for word in words for name in classes_of(word)} & _OF_A_VICTIM
    faint, loud = LEAST_SCORES["nobody" if not named else "people" if named == {"people"} else "victim"]
    if score < faint or is_of_a_bottle(words_of(plain(text[:LONGEST])), situation):
        return Alarm.NONE  # a product and its label to the last word: nobody else is in it
    if score >= loud and _ASKS_AHEAD.fullmatch(plain(text[:LONGEST])):
        return Alarm.LIKELY
    return Alarm.LOUD if score >= loud else Alarm.LIKELY if score >= LIKELY else Alarm.FAINT


def danger(text: str, situation: Situation) -> str | None:
    """Name a plan that harms: bleach with what makes gas of it, or oil or alcohol in the air near a flame."""
    return _danger(kept(_words, text, situation))


@cache
def weights() -> Weights:
    """Read the weights, once."""
    return load(FILE.read_bytes())


def load(packed: bytes) -> Weights:
    """Read a line of JSON, then one signed byte a bucket."""
    told, body = unpacked(packed)
    return Weights(
        buckets=told["buckets"],
        scale=told["scale"],
        middle=told["middle"],
        tables=told["tables"],
        each=memoryview(body).cast("b"),
    )


def marks_of(text: str, situation: Situation, buckets: int) -> list[frozenset[int]]:
    """
    Give the buckets of a message's marks, then those of each sentence where it has several.

    Marks are words, their neighbours, letters, classes, classes nearby, and who stands beside what harms.
    """
    return _marks_of_all(_words(text, situation), buckets)


def _marks_of_all(words: Sequence[str], size: int) -> list[frozenset[int]]:
    parts = _sentences(words)
    return [_marks(one, size) for one in (words, *(parts if len(parts) > 1 else ()))]


def _marks(words: Sequence[str], size: int) -> frozenset[int]:
    classes = [_classes_in_order(word) for word in words]
    framed = ("^", *words, "$")
    kinds = ("^", *(known[0] if known else word for known, word in zip(classes, words, strict=True)), "$")
    marks = [f"p {left} {right}" for left, right in pairwise(framed)]
    marks += [f"s {left} {right}" for left, right in zip(framed, framed[2:], strict=False)]
    marks += [f"q {left} {right}" for left, right in pairwise(kinds)]
    marks += [f"t {left} {right}" for left, right in zip(kinds, kinds[2:], strict=False)]
    marks += map(" ".join, zip(kinds, kinds[1:], kinds[2:], strict=False))
    marks += chain.from_iterable(map(_roles, _sentences(words)))
    near = {
        (one, other)
        for at, own in enumerate(classes)
        for one in own
        for other in chain.from_iterable(classes[at : at + _NEAR])
    }
    marks += [f"n {one} {other}" for one, other in near]
    named = sorted(set(chain.from_iterable(classes)))
    marks += [f"k {name}" for name in named]
    marks += [f"kk {one} {other}" for one, other in combinations(named, 2)]
    each = (marks_of_word(word, _LETTERS, size) for word in words)
    return frozenset(buckets_of(marks, size)).union(*each)


def _roles(words: Sequence[str]) -> Iterator[str]:
    """Tell who or what stands next before and next after each word of harm in a sentence."""
    if all(_HARM.isdisjoint(classes_of(word)) for word in words):
        return
    named = [classes_of(word) & _WHO for word in words]
    for at, word in enumerate(words):
        harms = classes_of(word) & _HARM
        beside = (("<", named[max(0, at - _NEXT) : at][::-1]), (">", named[at + 1 : at + 1 + _NEXT]))
        for side, others in beside if harms else ():
            who = next(filter(None, others), {"-"})
            yield from (f"{side} {what} {one}" for what in (*harms, word) for one in who)


def _sentences(words: Sequence[str]) -> list[Sequence[str]]:
    ends = [at for at, word in enumerate(words, 1) if word in _FULL_STOPS]
    parts = [words[start:end] for start, end in pairwise((0, *ends, len(words)))]
    return [one for one in parts if not _FULL_STOPS.issuperset(one)]


def _words(text: str, situation: Situation) -> tuple[str, ...]:
    names = names_of(situation)
    words = words_of(_REPEATED.sub(r"\1", plain(text[:LONGEST])))
    heard: list[str] = []
    at = 0
    while at < len(words):
        known = names.exact_at(words, at)
        size = known[1] if known is not None and isinstance(known[0], Plants | OneOf) else 0
        kind = kind_at(words, at, situation.kinds)
        if kind > size and (kind > 1) == any(classes_of(word) for word in words[at : at + kind]):
            size = kind  # "mother in law's tongue" is nobody's
        heard.append("houseplant" if size else words[at])
        at += size or 1
    return tuple(heard)


@lru_cache(maxsize=4096)
def classes_of(word: str) -> frozenset[str]:
    """Give the classes of a word, as listed or as a form of a listed word."""
    forms = (word, *sorted(_stems(word), key=len, reverse=True))
    return next((_listed()[form] for form in forms if form in _listed()), frozenset())


@lru_cache(maxsize=4096)
def _classes_in_order(word: str) -> tuple[str, ...]:
    return tuple(sorted(classes_of(word)))


@cache
def _listed() -> dict[str, frozenset[str]]:
    """Give each form of each listed word the classes it belongs to."""
    classes: dict[str, set[str]] = {}
    for name, words in tomllib.loads(_WORDS.read_text(encoding="utf-8")).items():
        for word in words.split():
            for form in {word, *_stems(word)}:
                classes.setdefault(form, set()).add(name)
    return {form: frozenset(names) for form, names in classes.items()}


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


_JOINTS = frozenset({"and", "with", "plus", "to", "add", "mix", "together", "in", "into", "&", "+"})
_MIXED = frozenset({"mix", "mixed", "mixing", "together", "combine"})
_APART = frozenset({",", "then", *".!?;\n"})
_LAMPS = frozenset({"lamp", "bulb", "radiator", "match"})
"""What gives light or warmth and burns nothing unless it is near."""
_NEAR_IT = frozenset({"near", "next", "beside", "by", "under", "close", "hot", "lit", "around", "over"})
_IN_THE_AIR = frozenset({"fog", "fogged", "fogging", "oil", "lit", "mist", "alcohol", "hot"})


def _danger(words: tuple[str, ...]) -> str | None:
    """Name a plan that harms: bleach with what makes gas of it, or oil in the air near a flame."""
    said, pairs = frozenset(words), frozenset(pairwise(words))
    at: dict[str, list[int]] = {}
    for number, word in enumerate(words):
        for name in classes_of(word):
            at.setdefault(name, []).append(number)
    is_warned = bool(pairs & {("not", "mix"), ("never", "mix")}) or words[:1] in {
        ("got",),
        ("bought",),
        ("ordered",),
    }
    both = product(at.get("bleaches", ()), at.get("acids", ()))
    between = [frozenset(words[min(pair) : max(pair)]) for pair in both]
    if not is_warned and any((one & _JOINTS and not one & _APART) or said & _MIXED for one in between):
        return "bleach"
    if pairs & {("is", "off"), ("are", "off")} or not at.keys() >= {"flames", "burning", "fogging"}:
        return None
    is_far = _LAMPS & {words[one] for one in at["flames"]} and not (said & _NEAR_IT and said & _IN_THE_AIR)
    return None if is_far else "flame"
