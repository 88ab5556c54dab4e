"""Messages that tell of a home, with what tells a thing marked: `homes_told/`, each with the plan it was written to."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

FOLDER = Path(__file__).parent / "homes_told"
_MARK = re.compile(r"\[([TPNLSFBRX])(\d*)=([^\[\]]+)\]")
_PLANT = re.compile(r"P(\d+)=(?:(\d+) x )?(.+?) @L(\d+)(?=, P\d|;)")
_HEADING = 3
_PLACE = re.compile(r"L(\d+)=(.+?) \((.*?)\)(?=, L\d|; plants)")


@dataclass(frozen=True, slots=True)
class Span:
    """Letters of a message that tell a thing, and of which plant or place."""

    start: int
    end: int
    key: str
    """T town, P plant, N how many, L place, S its light, F animal or sign, B at hand, R the rest, X a person."""
    number: int


@dataclass(slots=True)
class Marked:
    """A message with its spans, and what its plan says of counts, places and light."""

    text: str
    spans: list[Span]
    hand: str = ""
    is_planned: bool = False
    counts: dict[int, int] = field(default_factory=dict)
    stands: dict[int, int] = field(default_factory=dict)
    """The place's number of each plant."""
    light: dict[int, str] = field(default_factory=dict)

    def said(self, key: str, number: int) -> list[str]:
        """Give what is marked as one thing."""
        return [self.text[one.start : one.end] for one in self.of(key, number)]

    def of(self, key: str, number: int | None = None) -> list[Span]:
        """Give the spans of a kind, all or those of one plant or place."""
        return [one for one in self.spans if one.key == key and number in {None, one.number}]


def hands() -> dict[str, list[Marked]]:
    """Give all hands by the names of their files; what has no plan tells of no counts, places and lights."""
    return {file.stem: list(_read(file)) for file in sorted(FOLDER.glob("*.txt"))}


def unmarked(line: str) -> Marked:
    """Read a line with its marks."""
    text, spans, at = "", [], 0
    for found in _MARK.finditer(line):
        text += line[at : found.start()].replace("\\n", "\n")
        said = found[3].replace("\\n", "\n")
        spans.append(Span(len(text), len(text) + len(said), found[1], int(found[2] or 0)))
        text += said
        at = found.end()
    return Marked(text + line[at:].replace("\\n", "\n"), spans)


def templates() -> list[tuple[str, str]]:
    """Give shapes of messages with slots, each with the places of its plants."""
    return list(_rows(FOLDER / "templates.tpl"))


def read_line(plan: str, line: str, hand: str) -> Marked:
    """Read a line by its plan: "-" has none, "= P3@2" says which plants do not stand at place 1."""
    told = unmarked(line)
    told.hand, told.is_planned = hand, plan != "-"
    if plan.startswith("="):
        told.stands = {one.number: 1 for one in told.of("P")}
        told.stands |= {int(plant): int(place) for plant, place in _STANDS.findall(plan)}
        return told
    for plant, count, _, place in _PLANT.findall(plan):
        told.counts[int(plant)], told.stands[int(plant)] = int(count or 1), int(place)
    told.light = {int(place): light for place, _, light in _PLACE.findall(plan)}
    return told


_STANDS = re.compile(r"P(\d+)@(\d+)")


def _read(file: Path) -> Iterator[Marked]:
    for plan, line in _rows(file):
        yield read_line(plan, line, file.stem)


def _rows(file: Path) -> Iterator[tuple[str, str]]:
    lines = [one for one in file.read_text("utf-8").split("\n")[_HEADING:] if one]
    yield from zip(lines[::2], lines[1::2], strict=True)
