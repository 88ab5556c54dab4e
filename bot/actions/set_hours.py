"""The evening's time and the hours of quiet."""

from datetime import time

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.household import lies_within
from bot.domain.journal import HouseholdSet


class SetHours(Command):
    """Preferred evening time, quiet hours; None is unchanged."""

    evening: time | None = None
    quiet_from: time | None = None
    quiet_until: time | None = None


class HoursSet(Outcome, kw_only=True):
    """The home's evening time and the speaker's quiet hours as they are now."""

    evening: time
    quiet_from: time
    quiet_until: time
    is_own: bool = False
    """Whether others of the home have quiet hours of theirs."""
    is_silent: bool = False
    """Whether the evening comes to the speaker without a sound."""


class EveningMoved(Outcome):
    """To the others: who moved the home's evening, and to when."""

    name: str
    evening: time


class BadHours(Outcome):
    """The evening would lie in the quiet hours."""

    evening: time
    quiet_from: time
    quiet_until: time


@performs
def set_hours(command: SetHours, desk: Desk) -> HoursSet | BadHours:
    """Move the home's evening, or the quiet hours: those of one who shares the plants are one's own."""
    household, me = desk.household, desk.member
    since, until = household.quiet_hours(me.id)
    evening = command.evening or household.evening
    quiet = command.quiet_from or since, command.quiet_until or until
    is_silent = lies_within(evening, *quiet)
    of_others = [household.quiet_hours(one.id) for one in desk.others]
    if is_silent and all(lies_within(evening, *hours) for hours in of_others):
        return BadHours(evening, *quiet)
    told = [
        HouseholdSet(quiet_from=command.quiet_from, quiet_until=command.quiet_until, is_own=bool(desk.others))
    ]
    told = told if command.quiet_from or command.quiet_until else []
    moved = [HouseholdSet(evening=command.evening)] if command.evening else []
    desk.write(desk.draft(one) for one in (*told, *moved))
    if command.evening not in {None, household.evening}:
        desk.tell_others(EveningMoved(desk.speaker, evening))
    return HoursSet(
        evening=evening,
        quiet_from=quiet[0],
        quiet_until=quiet[1],
        is_own=bool(desk.others),
        is_silent=is_silent,
    )
