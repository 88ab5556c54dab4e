"""One pinned message that always says how things stand, where the home wants it."""

from datetime import datetime

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.journal import HouseholdSet


class SetStatus(Command):
    """Keep a pinned message up to date, or no longer."""

    is_wanted: bool


class StatusSet(Outcome):
    is_wanted: bool


class StatusNow(Outcome):
    """How things stand: who is apart, what is left tonight, when the next evening comes."""

    apart: tuple[str, ...]
    left: tuple[str, ...]
    next_at: datetime | None


@performs
def set_status(command: SetStatus, desk: Desk) -> StatusSet:
    """Keep whether the home wants a pinned message."""
    desk.write([desk.draft(HouseholdSet(status=command.is_wanted))])
    return StatusSet(command.is_wanted)


def status_now(desk: Desk, next_at: datetime | None) -> StatusNow:
    """Give how things stand."""
    living = desk.household.living
    apart = tuple(plant.name for plant in living if plant.is_isolated)
    left = tuple(dict.fromkeys(desk.plant(task.plant).name for task in desk.tonight()))
    return StatusNow(apart, left, next_at)
