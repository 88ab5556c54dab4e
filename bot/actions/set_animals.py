"""Animals that live here."""

from dataclasses import dataclass

from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.domain.journal import HouseholdSet


@dataclass(frozen=True, slots=True)
class SetAnimals(Command):
    """Animals that live here, or no longer do."""

    animals: tuple[str, ...]
    gone: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AnimalsNoted(Outcome):
    """The animals that live here now."""

    animals: tuple[str, ...]


@performs
def set_animals(command: SetAnimals, desk: Desk) -> AnimalsNoted:
    """Keep which animals live here; some products are dangerous to them."""
    animals = tuple(sorted((desk.household.animals | set(command.animals)) - set(command.gone)))
    desk.write([desk.draft(HouseholdSet(animals=animals))])
    return AnimalsNoted(animals)
