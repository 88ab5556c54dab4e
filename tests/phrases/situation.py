"""The evening that the tables of wordings are read in: Wednesday 2026-05-06, 20:10 in Brussels."""

from collections.abc import Iterator
from pathlib import Path

from bot.phrases.rehearsal import (
    ALCOHOL,
    BALCONY,
    BAY,
    CALATHEA,
    CHILLI,
    COFFEE,
    EVENING,
    HOYA,
    IVY,
    KITCHEN,
    LANDING,
    NEEM,
    ORCHID,
    SMALL_HOYA,
    SOAP,
    STUDY,
    ZONE,
)

__all__ = [
    "ALCOHOL",
    "BALCONY",
    "BAY",
    "CALATHEA",
    "CHILLI",
    "COFFEE",
    "EVENING",
    "HOYA",
    "IVY",
    "KITCHEN",
    "LANDING",
    "NEEM",
    "ORCHID",
    "SMALL_HOYA",
    "SOAP",
    "STUDY",
    "ZONE",
    "clauses",
    "table",
]


def table(name: str) -> Iterator[tuple[str, str]]:
    """Wording and meaning, line by line."""
    for line in (Path(__file__).parent / name).read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            wording, _, meaning = line.partition("\t")
            yield wording, meaning


def clauses(meaning: str) -> set[tuple[str, frozenset[str]]]:
    """A meaning without its order: what is asked keeps its topic with it."""
    return {(part.split()[0], frozenset(part.split()[1:])) for part in meaning.split(" + ")}
