"""What to mind with products, and what is refused: read when it is told, and not before."""

import functools
from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType

from bot.catalogue.load import load
from bot.catalogue.table import CatalogueError, Source, Table, entries
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

    CatalogueError lists every problem: an occasion, product, animal or source nobody knows, a plan that is
    refused without words, words for a plan nobody can make.
    """
    problems: list[str] = []
    found = entries("cautions", text, problems, functools.partial(_entry, products=products), sources)
    dangers = {danger.value for danger in Danger}
    refused = {Danger(key): one for key, one in found.items() if isinstance(one, Refused) and key in dangers}
    problems.extend(f"cautions.{one.value}: no words" for one in Danger if one not in refused)
    if problems:
        raise CatalogueError(tuple(problems))
    told = tuple(one for one in found.values() if isinstance(one, Caution))
    return Cautions(told, MappingProxyType(refused))


def _entry(key: str, table: Table, *, products: Collection[str]) -> Caution | Refused:
    if "refused" in table.left:
        table.check("no such plan is refused", (key,), {danger.value for danger in Danger})
        return table.read(Refused, text=table.text("refused"))
    occasion = table.value("when", Occasion)
    caution = table.read(Caution, occasion=occasion, is_of_eating=table.flag("eaten"))
    table.check("products: nobody knows {}", sorted(caution.products), products)
    table.check("animals: nobody knows {}", sorted(caution.animals), ANIMALS)
    return caution
