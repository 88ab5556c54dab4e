"""Lines of tonight that one of several takes: the others are told, the repeat comes to the taker alone."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.log_round import NothingDue, nothing_due
from bot.domain.identity import PlantId
from bot.domain.journal import LineTaken


class TakeLines(Command):
    """The speaker means to do what is open tonight on these plants."""

    plants: tuple[PlantId, ...]


class LinesTaken(Outcome):
    plants: tuple[str, ...]
    others: tuple[str, ...]


class TakenByOther(Outcome):
    name: str
    plants: tuple[str, ...]


@performs
def take_lines(command: TakeLines, desk: Desk) -> LinesTaken | NothingDue:
    """Write who does it; it is open until it is told as done."""
    is_open = {line.plant for line in desk.evening.open(desk.now)}
    taken = [plant for plant in command.plants if plant in is_open]
    if not taken:
        return nothing_due(desk)
    desk.write(desk.draft(LineTaken(), plant=plant, on=desk.evening.on) for plant in taken)
    names = desk.names(taken)
    desk.tell_others(TakenByOther(desk.speaker, names))
    return LinesTaken(names, tuple(one.name for one in desk.others))
