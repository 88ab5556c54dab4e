"""Answer what is asked; nothing here writes."""

from bot.actions.action import Outcome, performs
from bot.actions.ask import ANSWERERS, WITHOUT_PLANTS, Ask, Topic
from bot.actions.desk import Desk
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


ANSWERERS |= {Topic.DISH_SOAP: lambda *_: NoDishSoap(), Topic.ANTS: lambda *_: AntsFirst()}
