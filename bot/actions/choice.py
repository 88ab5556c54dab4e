"""What a person may be offered: a button and the commands behind it."""

from bot.actions.button_texts import ButtonText
from bot.actions.command import Command
from bot.domain.value import Value


class Choice(Value):
    """One offered answer: what its button says and what it would do."""

    text: ButtonText
    commands: tuple[Command, ...]
    of: str = ""
    """The name, the number or the words that the text is filled with."""
