"""What plants are: edible, hairy, waxy, burnt by a product, or not."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.household import Plant
from bot.domain.identity import PlantId
from bot.domain.journal import PlantSet
from bot.domain.refusal import BURNT_BY

LAST_USED = "last-used"
"""Stands for the product of a plant's last treatment with one."""


class SetTraits(Command):
    plants: tuple[PlantId, ...]
    trait: str


class TraitNoted(Outcome):
    plants: tuple[str, ...]
    trait: str
    product: str = ""
    """What burnt them, by name; empty where none is known, or nothing burnt them."""


@performs
def set_traits(command: SetTraits, desk: Desk) -> TraitNoted | list[TraitNoted]:
    """Keep what plants are; the opposite told before no longer holds."""
    if command.trait != BURNT_BY + LAST_USED:
        return _noted(command.plants, command.trait, desk)
    by: dict[str, list[PlantId]] = {}
    for plant in command.plants:
        by.setdefault(_last_used(desk.plant(plant), desk), []).append(plant)
    return [
        _noted(tuple(plants), BURNT_BY + product, desk)
        if product
        else TraitNoted(desk.names(plants), command.trait)
        for product, plants in by.items()
    ]


def _noted(plants: tuple[PlantId, ...], trait: str, desk: Desk) -> TraitNoted:
    opposite = trait.removeprefix("not-") if trait.startswith("not-") else f"not-{trait}"
    desk.write(
        desk.draft(
            PlantSet(traits=(*(one for one in desk.plant(plant).traits if one != opposite), trait)),
            plant=plant,
        )
        for plant in plants
    )
    product = desk.knowledge.products.get(trait.removeprefix(BURNT_BY))
    return TraitNoted(desk.names(plants), trait, "" if product is None else product.name)


def _last_used(plant: Plant, desk: Desk) -> str:
    """Give the key of the product of its last treatment with one; empty where there was none."""
    products = desk.household.products
    used = (products[one.product] for one in reversed(plant.treatments) if one.product in products)
    return next((one.ingredient for one in used), "")
