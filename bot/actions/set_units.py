"""Measures and the clock people here are used to."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.journal import HouseholdSet
from bot.domain.measure import Units


class SetUnits(Command):
    """Measures and clock people here are used to; None is unchanged."""

    units: Units | None = None
    clock_hours: int | None = None


class UnitsSet(Outcome):
    """Measures and clock are as the voice has them now."""


@performs
def set_units(command: SetUnits, desk: Desk) -> UnitsSet:
    units = None if command.units is None else command.units.value
    desk.write([desk.draft(HouseholdSet(units=units, clock_hours=command.clock_hours))])
    return UnitsSet()
