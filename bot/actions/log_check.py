"""Write down looks with none seen: what closes in on a case's end."""

from datetime import date

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlantId
from bot.domain.journal import CheckedClean
from bot.domain.progress import Progress
from bot.domain.trade import Level


class LogCheck(Command, kw_only=True):
    plants: tuple[PlantId, ...]
    level: Level | None = None
    on: date | None = None


class CheckLogged(Outcome, kw_only=True):
    on: date
    level: Level
    plants: tuple[str, ...]
    cases: tuple[tuple[str, Progress], ...]
    ready: tuple[str, ...]


@performs
def log_check(command: LogCheck, desk: Desk) -> CheckLogged:
    """Write looks with none seen; the same plant and day told twice is one look."""
    level = command.level or Level.PLAIN
    on: date = command.on or desk.today
    plants = tuple(dict.fromkeys(command.plants))
    desk.write(desk.draft(CheckedClean(level), plant=plant, on=command.on) for plant in plants)
    return CheckLogged(
        on=on,
        level=level,
        plants=desk.names(plants),
        cases=tuple(
            (desk.plant(plant).name, state)
            for plant in plants
            for state in desk.agenda.progress.get(plant, ())
        ),
        ready=desk.names(plant for plant in desk.agenda.ready if plant in command.plants),
    )
