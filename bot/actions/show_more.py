"""What did not fit into the last answer."""

from bot.actions.action import Command, Outcome, performs


class More(Command):
    """What did not fit into the last answer."""

    text: str


class MoreText(Outcome):
    """What did not fit before."""

    text: str


@performs
def show_more(command: More) -> MoreText:
    """Show the rest."""
    return MoreText(command.text)
