"""Whether an evening's message that nobody answers comes a second time."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.journal import HouseholdSet


class SetRepeats(Command):
    """Once an evening is enough, or a second time is wanted again."""

    is_wanted: bool


class RepeatsSet(Outcome):
    is_wanted: bool


@performs
def set_repeats(command: SetRepeats, desk: Desk) -> RepeatsSet:
    """Keep it for the home: the evening's message is one for all."""
    desk.write([desk.draft(HouseholdSet(repeats=command.is_wanted))])
    return RepeatsSet(command.is_wanted)
