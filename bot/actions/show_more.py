"""What did not fit into the last answer."""

from bot.actions.action import Choice, Command, Outcome, performs


class More(Command):
    text: str
    choices: tuple[Choice, ...] = ()
    """Buttons that did not fit."""


class MoreText(Outcome):
    text: str


@performs
def show_more(command: More) -> MoreText:
    return MoreText(command.text, offers=command.choices)
