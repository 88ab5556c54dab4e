"""What did not fit into the last answer."""

from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome


class More(Command):
    """What did not fit into the last answer."""

    text: str


class MoreText(Outcome):
    """What did not fit before."""

    text: str


@performs
def show_more(command: More, desk: Desk) -> MoreText:
    """Show the rest."""
    del desk
    return MoreText(command.text)
