"""What plants are: edible, hairy, waxy, or not."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlantId
from bot.domain.journal import PlantSet


class SetTraits(Command):
    plants: tuple[PlantId, ...]
    trait: str


class TraitNoted(Outcome):
    plants: tuple[str, ...]
    trait: str


@performs
def set_traits(command: SetTraits, desk: Desk) -> TraitNoted:
    """Keep what plants are; the opposite told before no longer holds."""
    opposite = (
        command.trait.removeprefix("not-") if command.trait.startswith("not-") else f"not-{command.trait}"
    )
    desk.write(
        desk.draft(
            PlantSet(traits=(*(one for one in desk.plant(plant).traits if one != opposite), command.trait)),
            plant=plant,
        )
        for plant in command.plants
    )
    return TraitNoted(desk.names(command.plants), command.trait)
