"""What plants are: edible, hairy, waxy, burnt by a product, or not."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.household import Plant
from bot.domain.identity import PlantId
from bot.domain.journal import PlantSet
from bot.domain.refusal import BURNT_BY

LAST_USED = "what it was treated with"
"""Stands for the product of a plant's last treatment with one."""


class SetTraits(Command):
    plants: tuple[PlantId, ...]
    trait: str


class TraitNoted(Outcome):
    plants: tuple[str, ...]
    trait: str


@performs
def set_traits(command: SetTraits, desk: Desk) -> TraitNoted:
    """Keep what plants are; the opposite told before no longer holds."""
    trait = command.trait
    if trait == BURNT_BY + LAST_USED:
        used = next(filter(None, (_last_used(desk.plant(one), desk) for one in command.plants)), None)
        if used is None:
            return TraitNoted(desk.names(command.plants), trait)
        trait = BURNT_BY + used
    opposite = trait.removeprefix("not-") if trait.startswith("not-") else f"not-{trait}"
    desk.write(
        desk.draft(
            PlantSet(traits=(*(one for one in desk.plant(plant).traits if one != opposite), trait)),
            plant=plant,
        )
        for plant in command.plants
    )
    return TraitNoted(desk.names(command.plants), trait)


def _last_used(plant: Plant, desk: Desk) -> str | None:
    products = desk.household.products
    used = (products[one.product] for one in reversed(plant.treatments) if one.product in products)
    return next((one.ingredient for one in used), None)
