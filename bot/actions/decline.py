"""What was offered is not wanted."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk


class Decline(Command):
    """What was offered is not wanted; writes nothing."""

    keeps: str = ""
    """What was told before, while the question beside this button is open."""


class Declined(Outcome):
    """An offer was declined."""


@performs
def decline(_: Decline, desk: Desk) -> Declined:
    """Ask no longer."""
    desk.close_question()
    return Declined()
