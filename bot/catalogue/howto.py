"""How each thing is done and what each word means: read when somebody asks, and not before."""

import functools
import textwrap
from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from bot.catalogue.load import load
from bot.catalogue.table import CatalogueError, Source, Table, entries
from bot.domain.howto import Bears, HowTo, Term, Variant, Way

_T = TypeVar("_T", Way, Term)
_HERE = Path(__file__).parent
WIDTH, LINES, TERM_LINES = 38, 10, 4
"""What a phone shows without scrolling: an answer must fit. [characters, lines]"""
STEPS = range(3, 7)


@functools.cache
def load_howto() -> HowTo:
    """Give all ways and terms."""
    catalogue = load()
    ways, terms = (_HERE.joinpath(name).read_text("utf-8") for name in ("ways.toml", "terms.toml"))
    return read_howto(ways, terms, catalogue.sources, catalogue.knowledge.pests)


def read_howto(ways: str, terms: str, sources: Mapping[str, Source], pests: Collection[str]) -> HowTo:
    """
    Read ways and terms from their TOML texts.

    CatalogueError lists every problem: a pest, trait or source nobody knows, no variant that fits everything,
    a word that stands for two things, more than a phone shows.
    """
    problems: list[str] = []
    found = entries("ways", ways, problems, functools.partial(_way, pests=pests), sources)
    explained = entries("terms", terms, problems, _term)
    way_by_word, term_by_word = _by_word(found, problems), _by_word(explained, problems)
    if problems:
        raise CatalogueError(tuple(problems))
    return HowTo(
        MappingProxyType(found),
        MappingProxyType(explained),
        MappingProxyType(way_by_word),
        MappingProxyType(term_by_word),
    )


def _way(key: str, table: Table, *, pests: Collection[str]) -> Way:
    title = table.text("title")
    words = table.texts("words")
    after = table.texts("after") if "after" in table.left else ()
    variants = tuple(_variant(title, row, pests) for row in table.rows("variants"))
    for variant in variants[:-1]:
        if not variant.pests and not variant.plants:
            table.problem("a variant that fits everything stands before another")
    if not variants or variants[-1].pests or variants[-1].plants:
        table.problem("the last variant must fit everything")
    return Way(key, words, variants, after)


def _variant(title: str, table: Table, pests: Collection[str]) -> Variant:
    traits = table.texts("plants") if "plants" in table.left else ()
    known = {bears.value for bears in Bears}
    table.check("no such trait: {}", sorted(traits), known)
    variant = table.read(
        Variant,
        title=table.text("title") if "title" in table.left else title,
        plants=frozenset(Bears(trait) for trait in traits if trait in known),
    )
    table.check("no such pest: {}", sorted(variant.pests), pests)
    lines = 1 + sum(len(textwrap.wrap(f"• {step}", WIDTH)) for step in variant.steps)
    if lines > LINES:
        table.problem(f"{lines} lines of {WIDTH} characters, at most {LINES}")
    if len(variant.steps) not in STEPS:
        table.problem(f"{len(variant.steps)} steps, 3 to 6 are wanted")
    return variant


def _term(key: str, table: Table) -> Term:
    about = table.texts("about") if "about" in table.left else ()
    term = Term(key.replace("_", " "), table.texts("words"), table.text("text"), about)
    if len(textwrap.wrap(f"{term.name}: {term.text}", WIDTH)) > TERM_LINES:
        table.problem(f"more than {TERM_LINES} lines of {WIDTH} characters")
    return term


def _by_word(found: Mapping[str, _T], problems: list[str]) -> dict[str, _T]:
    by_word: dict[str, _T] = {}
    for key, one in found.items():
        for word in one.words:
            if word in by_word:
                problems.append(f"{key}: {word} stands for another too")
            by_word[word] = one
    return by_word
