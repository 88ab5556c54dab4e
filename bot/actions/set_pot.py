"""How wide the pots are."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlantId
from bot.domain.journal import PlantSet


class SetPot(Command):
    """How wide the pots of plants are. [cm]."""

    plants: tuple[PlantId, ...]
    pot_cm: float


class PotSet(Outcome):
    """The width of pots was written. [cm]."""

    plants: tuple[str, ...]
    pot_cm: float


@performs
def set_pot(command: SetPot, desk: Desk) -> PotSet:
    """Keep how wide the pots are: mixtures and work days are reckoned by it. [cm]."""
    desk.write(desk.draft(PlantSet(pot_cm=command.pot_cm), plant=plant) for plant in command.plants)
    return PotSet(desk.names(command.plants), command.pot_cm)
