"""The evening's time and the hours of quiet."""

from dataclasses import dataclass
from datetime import time

from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.domain.journal import HouseholdSet


@dataclass(frozen=True, slots=True)
class SetHours(Command):
    """Preferred evening time, quiet hours; None is unchanged."""

    evening: time | None = None
    quiet_from: time | None = None
    quiet_until: time | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HoursSet(Outcome):
    """Evening time and quiet hours as they are now."""

    evening: time
    quiet_from: time
    quiet_until: time


@dataclass(frozen=True, slots=True)
class EveningMoved(Outcome):
    """To the others: who moved the home's evening, and to when."""

    name: str
    evening: time


@dataclass(frozen=True, slots=True)
class BadHours(Outcome):
    """The evening would lie in the quiet hours."""

    evening: time
    quiet_from: time
    quiet_until: time


@dataclass(frozen=True, slots=True)
class Hours:
    """An evening and a quiet span, checked together."""

    evening: time
    quiet_from: time
    quiet_until: time

    def is_quiet(self, at: time) -> bool:
        """Whether a clock time lies in the quiet span."""
        if self.quiet_from <= self.quiet_until:
            return self.quiet_from <= at < self.quiet_until
        return at >= self.quiet_from or at < self.quiet_until


@performs
def set_hours(command: SetHours, desk: Desk) -> HoursSet | BadHours:
    """Keep the evening time outside the quiet hours."""
    household = desk.household
    hours = Hours(
        command.evening or household.evening,
        command.quiet_from or household.quiet_from,
        command.quiet_until or household.quiet_until,
    )
    if hours.is_quiet(hours.evening):
        return BadHours(hours.evening, hours.quiet_from, hours.quiet_until)
    desk.write(
        [
            desk.draft(
                HouseholdSet(
                    evening=command.evening, quiet_from=command.quiet_from, quiet_until=command.quiet_until
                )
            )
        ]
    )
    if command.evening not in {None, household.evening}:
        others = {one.chat for one in desk.store.members(desk.member.household)} - {desk.member.chat}
        for chat in sorted(others):
            desk.say_elsewhere(chat, EveningMoved(desk.speaker, hours.evening))
    desk.close_question()
    return HoursSet(evening=hours.evening, quiet_from=hours.quiet_from, quiet_until=hours.quiet_until)
