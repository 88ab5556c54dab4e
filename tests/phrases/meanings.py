"""
Meanings compared: what a message meant against what it was to mean.

A meaning is clauses joined by " + ", in any order: a head, then names and options. " | " gives meanings that are as
right; "?" before an option or a clause says that it may stand there or not; "-" alone is nothing. A clause about
several plants is as many clauses about one.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from bot.actions.situation import Situation

Asked = Mapping[str, str]
NOTHING_ASKED: Asked = {}

_PER_PLANT = frozenset("done later find sign none isolate move release lost pot pass".split())
_WRITES = frozenset(
    "done later find sign none isolate move release lost pot tell correct undo rename add stock temperature routine"
    " hold use town hours units place unplace animals tick endwork forget strict removemember handover leave".split()
)
"""Heads that write into the journal; walks, files, mixtures and questions do not."""
_SILENT = frozenset("goon thanks greet decline".split())
"""What may stand beside a meaning."""
_UNSAID = re.compile(r"where=|level=plain$|days=")
_BY_ANOTHER_NAME = {"chile": "chilli", "chili": "chilli", "laurel": "bay"}
"""The same kind of plant by another of its names, as the catalogue lists them."""
_ASKED_LATER = re.compile(r"(pest|product|level|form|gap|ml|place|cm)=")
_FAMILIES = (
    ("root", "root_mealybug"),
    ("mealy|mealies|fluff|cotton|wool|longtail|^mb$", "mealybug"),
    ("scale", "scale"),
    ("spider|mite", "mite"),
    ("aphid|greenfl|blackfl|lice", "aphid"),
    ("white_?fl", "whitefly"),
    ("thrip", "thrips"),
    ("gnat|sciarid|soil_fl", "gnat"),
)


@dataclass(frozen=True)
class Part:
    """One clause about one plant: what must be said, what may be, and whether it may be missing."""

    head: str
    must: frozenset[str]
    may: frozenset[str] = frozenset()
    is_needed: bool = True

    @property
    def writes(self) -> bool:
        """Whether it would be written."""
        return self.head in _WRITES

    def fits(self, meant: "Part") -> bool:
        """Whether what was meant is this, no more and no less."""
        left = meant.must - self.must
        return (
            self.head == meant.head and self.must <= meant.must and (not self.is_needed or left <= self.may)
        )


def asked_of(situation: Situation) -> Asked:
    """Give what the nudge that is being answered asks of each plant."""
    names = {plant.id: plant.names[0].lower().replace(" ", "_") for plant in situation.plants}
    return {names[one.plant]: f"method={one.method.value}" for one in situation.tonight if one.method}


def parts(meaning: str, asked: Asked = NOTHING_ASKED) -> tuple[Part, ...]:
    """Cut a meaning into clauses about one plant each, pests as families; what was asked needs no saying."""
    clauses = (clause.split() for clause in meaning.split(" + "))
    return tuple(part for words in clauses if words for part in _parts(words, asked))


def fits(meant: str, expected: str, asked: Asked = NOTHING_ASKED) -> bool:
    """Whether a meaning is one of those expected."""
    return any(_is(parts(meant, asked), parts(one, asked)) for one in expected.split(" | "))


def untold(meant: str, expected: str, asked: Asked = NOTHING_ASKED) -> tuple[Part, ...]:
    """Give what would be written of a meaning and was not told, by the reading nearest to what was expected."""
    told = [_untold(parts(meant, asked), parts(one, asked)) for one in expected.split(" | ")]
    return min(told, key=len)


def writes(meant: str) -> bool:
    """Whether anything would be written."""
    return any(part.writes for part in parts(meant))


def _parts(words: list[str], asked: Asked) -> list[Part]:
    is_needed = not words[0].startswith("?")
    head, *rest = (words[0].lstrip("?"), *words[1:])
    if head == "-":
        return []
    may = frozenset(_folded(word[1:]) for word in rest if word.startswith("?"))
    said = [_folded(word) for word in rest if not word.startswith("?")]
    plants = [word for word in said if _is_plant(word)] if head in _PER_PLANT else []
    if head == "add":
        said = [_BY_ANOTHER_NAME.get(word, word).replace("'", "") for word in said]
    others = frozenset(word for word in said if word not in plants and not _UNSAID.match(word))
    if not plants:
        return [Part(head, others, may, is_needed)]
    return [
        Part(head, others - {_as_asked(head, plant, asked)} | {plant}, may, is_needed) for plant in plants
    ]


def _as_asked(head: str, plant: str, asked: Asked) -> str:
    return asked.get(plant, "") if head == "done" else ""


def _is_plant(word: str) -> bool:
    return "=" not in word and not word.isdigit() and word not in {"few", "some", "many", "anyway"}


def _folded(word: str) -> str:
    name, _, value = word.partition("=")
    if name != "pest":
        return word
    return next((f"pest={family}" for pattern, family in _FAMILIES if re.search(pattern, value)), word)


def _is(meant: tuple[Part, ...], expected: tuple[Part, ...]) -> bool:
    left = [part for part in meant if part.head not in _SILENT or any(part.head == e.head for e in expected)]
    for part in sorted(expected, key=lambda one: not one.is_needed):
        found = next((one for one in left if part.fits(one)), None)
        if found is not None:
            left.remove(found)
        elif part.is_needed and part.head not in _SILENT:
            return False
    return not left if expected else not any(part.writes for part in left)


def _untold(meant: tuple[Part, ...], expected: tuple[Part, ...]) -> tuple[Part, ...]:
    return tuple(
        part
        for part in dict.fromkeys(meant)
        if part.writes and not any(_tells(told, part) for told in expected)
    )


def _tells(told: Part, meant: Part) -> bool:
    """Whether all that would be written was told; less of it, asked for later, is no untruth."""
    if not told.is_needed:
        return told.fits(meant)
    less = told.must - meant.must
    is_all_told = told.head == meant.head and meant.must <= told.must | told.may
    return is_all_told and all(_ASKED_LATER.match(word) for word in less)
