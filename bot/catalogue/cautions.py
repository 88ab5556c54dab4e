"""What to mind with products, and what is refused: read when it is told, and not before."""

import functools
from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType

from bot.catalogue.load import load
from bot.catalogue.table import CatalogueError, Source, Table, entries, evidence_of
from bot.domain.caution import Caution, Cautions, Danger, Occasion, Refused

_FILE = Path(__file__).parent / "cautions.toml"
ANIMALS = frozenset({"bird", "cat", "dog", "fish", "reptile"})


@functools.cache
def load_cautions() -> Cautions:
    """Give all cautions and refusals."""
    catalogue = load()
    return read_cautions(_FILE.read_text("utf-8"), catalogue.sources, catalogue.knowledge.products)


def read_cautions(text: str, sources: Mapping[str, Source], products: Collection[str]) -> Cautions:
    """
    Read cautions and refusals from their TOML text.

    Raises
    ------
    CatalogueError
        With every problem: an occasion, product, animal or source nobody knows, a plan that is refused
        without words, words for a plan nobody can make.
    """
    problems: list[str] = []
    build = functools.partial(_entry, sources=sources, products=products)
    found = entries("cautions", text, problems, build)
    dangers = {danger.value for danger in Danger}
    refused = {Danger(key): one for key, one in found.items() if isinstance(one, Refused) and key in dangers}
    problems.extend(f"cautions.{one.value}: no words" for one in Danger if one not in refused)
    if problems:
        raise CatalogueError(tuple(problems))
    told = tuple(one for one in found.values() if isinstance(one, Caution))
    return Cautions(told, MappingProxyType(refused))


def _entry(
    key: str, table: Table, *, sources: Mapping[str, Source], products: Collection[str]
) -> Caution | Refused:
    evidence = evidence_of(table, sources) if "basis" in table.left else None
    if "refused" in table.left:
        if key not in {danger.value for danger in Danger}:
            table.problem("no such plan is refused")
        return Refused(table.text("refused"), evidence)
    occasion = table.text("when")
    if occasion not in {one.value for one in Occasion}:
        table.problem(f"when must be use, clean-out, asked or waste, got {occasion!r}")
        occasion = Occasion.ASKED.value
    return Caution(
        text=table.text("text"),
        occasion=Occasion(occasion),
        products=_known(table, "products", products),
        animals=_known(table, "animals", ANIMALS),
        is_of_eating=table.flag("eaten"),
        evidence=evidence,
    )


def _known(table: Table, key: str, known: Collection[str]) -> frozenset[str]:
    named = frozenset(table.texts(key)) if key in table.left else frozenset()
    for one in sorted(named - set(known)):
        table.problem(f"{key}: nobody knows {one}")
    return named
