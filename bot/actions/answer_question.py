"""Answer what is asked; nothing here writes."""

from bot.actions.ask import ANSWERERS, WITHOUT_PLANTS, Ask, Topic, answers
from bot.actions.command import performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.actions.show_plants import NoPlants


class NoDishSoap(Outcome):
    """Dish soap is no labelled insecticide."""


class AntsFirst(Outcome):
    """What to do about ants before the pest they guard."""


@performs
def answer(command: Ask, desk: Desk) -> Outcome:
    """Give the values an answer is made of; before there are plants, little can be asked."""
    if not desk.household.plants and command.topic not in WITHOUT_PLANTS:
        return NoPlants()
    outcome: Outcome = ANSWERERS[command.topic](command, desk)
    return outcome


@answers(Topic.DISH_SOAP)
def warn_of_dish_soap(_: Ask, desk: Desk) -> NoDishSoap:
    """Say what dish soap is."""
    del desk
    return NoDishSoap()


@answers(Topic.ANTS)
def tell_of_ants(_: Ask, desk: Desk) -> AntsFirst:
    """Say what to do about ants."""
    del desk
    return AntsFirst()
