"""At which chance plants may go."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.journal import HouseholdSet
from bot.domain.release import STRICT_TARGET, TARGET


class SetStrict(Command):
    """Let plants go at the stricter chance, or at the usual one again."""

    is_strict: bool


class StrictSet(Outcome):
    """The chance at which plants go. [1]."""

    is_strict: bool
    target: float


@performs
def set_strict(command: SetStrict, desk: Desk) -> StrictSet:
    desk.write([desk.draft(HouseholdSet(strict=command.is_strict))])
    return StrictSet(command.is_strict, STRICT_TARGET if command.is_strict else TARGET)
