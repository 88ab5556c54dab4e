"""Animals that live here."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.tell_poison import ANIMALS, Judged, judge
from bot.domain.journal import HouseholdSet


class SetAnimals(Command):
    animals: tuple[str, ...]
    gone: tuple[str, ...] = ()


class AnimalsNoted(Outcome):
    animals: tuple[str, ...]
    judged: tuple[Judged, ...] = ()
    """What is known of the plants at home, for the cats and dogs just told of."""


@performs
def set_animals(command: SetAnimals, desk: Desk) -> AnimalsNoted:
    """Keep which animals live here; some products and plants are dangerous to them."""
    animals = tuple(sorted((desk.household.animals | set(command.animals)) - set(command.gone)))
    desk.write([desk.draft(HouseholdSet(animals=animals))])
    eaters = tuple(eater for animal, eater in ANIMALS.items() if animal in command.animals)
    kinds = [(plant.name, desk.knowledge.kind_of(plant)) for plant in desk.household.living]
    return AnimalsNoted(animals, judge(kinds, eaters))
