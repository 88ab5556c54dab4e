"""Fixed habits as RFC 5545 rules."""

from datetime import date

from bot.actions.action import Command, Outcome, performs
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.domain.journal import RoutineSet
from bot.domain.recurrence import next_on


class SetRoutine(Command):
    name: str
    rule: str


class RoutineSaved(Outcome):
    """A habit, and its next day; None where its rule gives no more."""

    name: str
    rule: str
    next_on: date | None


class HabitsTold(Outcome):
    """The rules of the habits set, each with its next day."""

    of: tuple[tuple[str, date | None], ...]


@answers(Topic.ROUTINES)
def show_habits(_: Ask, desk: Desk) -> HabitsTold:
    """Give the habits set, each with its next day."""
    routines = desk.household.routines.values()
    return HabitsTold(tuple((rule, next_on(rule, since, desk.today)) for rule, since in routines))


@performs
def set_routine(command: SetRoutine, desk: Desk) -> RoutineSaved:
    """Keep a habit as its RFC 5545 rule."""
    desk.write([desk.draft(RoutineSet(name=command.name, rule=command.rule))])
    following = next_on(command.rule, desk.today, desk.today) if command.rule else None
    return RoutineSaved(command.name, command.rule, following)
