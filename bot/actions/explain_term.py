"""What a word of the trade, or of the bot, means."""

from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.catalogue.howto import load_howto


class AskTerm(Command):
    """What a word means, by its key."""

    term: str


class TermTold(Outcome):
    """A word and its meaning."""

    name: str
    text: str


@performs
def explain_term(command: AskTerm, desk: Desk) -> TermTold:
    """Give what the word means."""
    del desk
    term = load_howto().terms[command.term]
    return TermTold(term.name, term.text)
