"""Whether plants are poisonous to cats, dogs and people."""

from collections.abc import Iterable, Mapping

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.catalogue.poison import load_poisons
from bot.domain.identity import PlantId
from bot.domain.plant_kind import PlantKind
from bot.domain.poison import Eater, PoisonOf, poison_of
from bot.domain.value import Value


class AskPoison(Command, kw_only=True):
    """Whether plants at home, or kinds by name, are poisonous; all at home where none is named."""

    plants: tuple[PlantId, ...] = ()
    names: tuple[str, ...] = ()
    eaters: tuple[Eater, ...] = ()
    others: tuple[str, ...] = ()
    """Animals that no list was read for, as they were said."""


class Judged(Value):
    """What is known of one name for one eater; a stranger has no finding, a shared name several."""

    name: str
    eater: Eater
    found: tuple[PoisonOf, ...]


class PoisonTold(Outcome):
    """Which plants are poisonous, and by which lists."""

    judged: tuple[Judged, ...]
    others: tuple[str, ...]
    cited: Mapping[str, str]


ANIMALS = {"cat": Eater.CATS, "dog": Eater.DOGS}
"""Whom the animals that were told of are, in the lists."""


@performs
def tell_poison(command: AskPoison, desk: Desk) -> PoisonTold:
    """Judge each plant for everyone asked about, else for who lives here; people always do."""
    plants = [desk.plant(plant) for plant in command.plants]
    if not plants and not command.names:
        plants = list(desk.household.living)
    kinds = [(plant.name, desk.knowledge.kind_of(plant)) for plant in plants]
    at_home = [kind for _, kind in kinds]
    spoken = [(name, desk.knowledge.kind_named(name)) for name in command.names]
    kinds += [(name, kind) for name, kind in spoken if kind is None or kind not in at_home]
    told = tuple(eater for animal, eater in ANIMALS.items() if animal in desk.household.animals)
    eaters = command.eaters or (() if command.others else (*(told or ANIMALS.values()), Eater.PEOPLE))
    return PoisonTold(judge(kinds, eaters), command.others, desk.knowledge.cited)


def judge(kinds: Iterable[tuple[str, PlantKind | None]], eaters: Iterable[Eater]) -> tuple[Judged, ...]:
    """Look names up in the lists of poisonous plants."""
    poisons = load_poisons()
    known = list(kinds)
    return tuple(
        Judged(name, eater, poison_of(poisons, kind, eater)) for eater in eaters for name, kind in known
    )
