"""Which kinds of plant are poisonous: read when somebody asks, and not before."""

import functools
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from bot.catalogue.load import load
from bot.catalogue.table import CatalogueError, Source, Table, entries
from bot.domain.plant_kind import PlantKind
from bot.domain.poison import Eater, Poison, Verdict

_FILE = Path(__file__).parent / "poison.toml"


@functools.cache
def load_poisons() -> Mapping[str, Poison]:
    """Give what is known of each kind, by its key."""
    catalogue = load()
    return read_poisons(_FILE.read_text("utf-8"), catalogue.sources, catalogue.kinds)


def read_poisons(
    text: str, sources: Mapping[str, Source], kinds: Mapping[str, PlantKind]
) -> Mapping[str, Poison]:
    """
    Read the list of poisonous plants from its TOML text.

    CatalogueError lists every problem of every row: a kind or source nobody knows, "not poisonous" without a
    list that says so, one eater in both.
    """
    problems: list[str] = []
    found = entries("poison", text, problems, _poison, sources)
    problems.extend(f"poison.{key}: no such kind in plants.toml" for key in found if key not in kinds)
    if problems:
        raise CatalogueError(tuple(problems))
    return MappingProxyType(found)


def _poison(_key: str, table: Table) -> Poison:
    yes, no = _listed(table, "yes"), _listed(table, "no")
    grave = table.texts("grave") if "grave" in table.left else ()
    for who in grave:
        if who not in {eater.value for eater in yes}:
            table.problem(f"grave for {who}, for whom it is not poisonous")
    for eater, named in no.items():
        if eater in yes:
            table.problem(f"{eater.value} are in yes and in no")
        if not named:
            table.problem(f"not poisonous to {eater.value} says no list")
    verdicts = {
        **{eater: Verdict(is_poisonous=False, sources=named) for eater, named in no.items()},
        **{
            eater: Verdict(is_poisonous=True, sources=named, is_grave=eater.value in grave)
            for eater, named in yes.items()
        },
    }
    return Poison(MappingProxyType(verdicts), table.text("note") if "note" in table.left else "")


def _listed(table: Table, key: str) -> Mapping[Eater, tuple[str, ...]]:
    found: Mapping[Eater, tuple[str, ...]] = (
        table.value(key, Mapping[Eater, tuple[str, ...]]) if key in table.left else {}
    )
    table.check(
        "source {} is not in sources.toml",
        sorted(one for named in found.values() for one in named),
        table.sources,
    )
    return found
