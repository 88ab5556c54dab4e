"""What did not fit into the last answer."""

from bot.actions.action import Command, Outcome, performs


class More(Command):
    text: str


class MoreText(Outcome):
    text: str


@performs
def show_more(command: More) -> MoreText:
    return MoreText(command.text)
