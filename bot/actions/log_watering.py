"""Write down that plants were watered: noted and shown in the history; no plan follows from it."""

from datetime import date

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlantId
from bot.domain.journal import Watered


class LogWatering(Command):
    plants: tuple[PlantId, ...]
    on: date | None = None


class WateringLogged(Outcome):
    """Watering written for a day."""

    plants: tuple[str, ...]
    on: date


@performs
def log_watering(command: LogWatering, desk: Desk) -> WateringLogged:
    """Note it, once a plant and day."""
    plants = tuple(dict.fromkeys(command.plants))
    desk.write(desk.draft(Watered(), plant=plant, on=command.on) for plant in plants)
    return WateringLogged(desk.names(plants), command.on or desk.today)
