"""
Lines that people wrote for a meaning in a situation, each person's apart: a hand.

Hands to train and mend on stand in `tables/`, a file each with who wrote it and when. A drawer is a folder that was
written outside and opened only once its first figures stood: NN.lines.tsv, NN.meanings.tsv, NN.who.txt, situations/.

Situations stand many in a file, with the homes they are in, or each in a file of its own, as writers get them.
"""

import hashlib
import tomllib
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from bot import rehearsal
from bot.actions.action import Command
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.incomplete import Incomplete
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.phrases.hearing import understand
from bot.phrases.notation import notation
from tests.phrases.meanings import asked_of, fits, untold, writes
from tests.phrases.situation import KNOWLEDGE

HERE = Path(__file__).parent
SITUATIONS = HERE / "situations"
TABLES = HERE / "tables"
DRAWERS = HERE / "drawers"
APART = HERE / "apart"
"""Drawers opened since, from which the guess is kept: what is trusted is learned by honest chances."""


@dataclass(frozen=True, slots=True)
class Line:
    """What somebody typed, in which situation, a telling, question, answer or chatter, and what it means."""

    text: str
    situation: Situation
    kind: str
    sort: str
    meaning: str


@dataclass(frozen=True, slots=True)
class Hand:
    """One person's lines."""

    name: str
    who: str
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Seen:
    """What became of a line: what was read as sure, what the first button offers, and how right they are."""

    line: Line
    sure: str
    offered: tuple[str, ...]
    is_at_once: bool
    is_on_button: bool
    untold: int

    @property
    def is_right(self) -> bool:
        """Whether it is right at once or on the first button."""
        return self.is_at_once or self.is_on_button

    @property
    def is_misled(self) -> bool:
        """Whether the first button offers what was not meant."""
        return bool(self.offered) and not self.is_right

    @property
    def offers_a_write(self) -> bool:
        """Whether any button would write."""
        return any(writes(one) for one in self.offered)


@cache
def situations_told(place: Path) -> dict[str, dict[str, Any]]:
    """Give what a folder's files tell of situations, each by its name, whole."""
    found: dict[str, dict[str, Any]] = {}
    for file in sorted(place.glob("*.toml")):
        told = tomllib.loads(file.read_text("utf-8"))
        if "now" in told:
            found[file.stem] = told
            continue
        homes = told.pop("homes")
        for name, own in told.items():
            shared = homes.get(own.pop("home", ""), {})
            found[name] = {**shared, **own}
    return found


@cache
def situation_of(name: str, place: Path = SITUATIONS) -> Situation:
    """Read a situation once."""
    return rehearsal.situation_of(situations_told(place)[name], KNOWLEDGE)


def tables() -> tuple[Hand, ...]:
    """Give the hands to train and mend on."""
    return tuple(_table(file) for file in sorted(TABLES.glob("*.tsv")))


def _table(file: Path) -> Hand:
    rows = file.read_text("utf-8").splitlines()
    who = next(row.removeprefix("# who:").strip() for row in rows if row.startswith("# who:"))
    told = [row.split("\t") for row in rows if row and not row.startswith("#")]
    return Hand(file.stem, who, tuple(_line(SITUATIONS, *columns) for columns in told))


def drawer(folder: Path) -> tuple[Hand, ...]:
    """Give the filled hands of a drawer; a line that is missing is an error, for none may be left out."""
    return tuple(_filled(file, folder) for file in sorted(folder.glob("*.meanings.tsv")))


def opened(drawers: Path = DRAWERS) -> tuple[Hand, ...]:
    """Give the hands of every drawer whose first figures stand, each by its drawer and its number."""
    folders = sorted(folder for folder in drawers.iterdir() if folder.is_dir())
    return tuple(
        replace(hand, name=f"{folder.name}-{hand.name}") for folder in folders for hand in drawer(folder)
    )


def _filled(file: Path, folder: Path) -> Hand:
    name = file.name.partition(".")[0]
    typed = dict(
        row.split("\t", 1) for row in (folder / f"{name}.lines.tsv").read_text("utf-8").splitlines() if row
    )
    meant = [row.split("\t") for row in file.read_text("utf-8").splitlines() if row]
    who = (folder / f"{name}.who.txt").read_text("utf-8").strip()
    own = folder / "situations"
    place = own if own.is_dir() else SITUATIONS
    return Hand(
        name, who, tuple(_line(place, kind, sort, to, typed[number]) for number, kind, sort, to in meant)
    )


def _line(place: Path, kind: str, sort: str, meaning: str, typed: str) -> Line:
    return Line(typed.replace("\\n", "\n"), situation_of(kind, place), kind, sort, meaning)


def fingerprint(folder: Path) -> str:
    """Give the SHA-256 over all of a drawer: names and contents, in the order of names."""
    sums = hashlib.sha256()
    for file in sorted(path for path in folder.rglob("*") if path.suffix in {".tsv", ".txt", ".toml"}):
        sums.update(f"{file.relative_to(folder).as_posix()}\0".encode())
        sums.update(file.read_bytes() + b"\0")
    return sums.hexdigest()


def read(text: str, situation: Situation) -> tuple[tuple[Command, ...], tuple[tuple[Command, ...], ...]]:
    """Give what is sure, and what is offered for the rest, the likeliest first."""
    meant = understand(text, situation)
    sure = tuple(one for one in meant if not isinstance(one, Incomplete | NotUnderstood))
    offers = [choice.commands for one in meant if isinstance(one, Incomplete) for choice in one.choices]
    return sure, tuple(offers)


def see(line: Line) -> Seen:
    """Read a line and compare it with what it means."""
    sure, offers = read(line.text, line.situation)
    asked = asked_of(line.situation)
    said = notation(sure, line.situation)
    offered = tuple(notation(one, line.situation) for one in offers)
    whole = [notation((*sure, *one), line.situation) for one in offers[:1]]
    is_at_once = fits(said, line.meaning, asked) and not (offers and line.meaning == "-")
    on_button = any(fits(one, line.meaning, asked) for one in (*offered[:1], *whole))
    return Seen(
        line=line,
        sure=said,
        offered=offered,
        is_at_once=is_at_once,
        is_on_button=on_button and not is_at_once and line.meaning != "-",
        untold=len(untold(said, line.meaning, asked)),
    )


def is_first_aid(text: str, situation: Situation) -> bool:
    """Whether a message is heard as an emergency."""
    return any(isinstance(one, GiveFirstAid) for one in read(text, situation)[0])
