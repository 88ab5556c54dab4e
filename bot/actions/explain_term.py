"""What a word of the trade, or of the bot, means."""

from bot.actions.action import Command, Outcome, performs
from bot.catalogue.howto import load_howto


class AskTerm(Command):
    """What a word means, by its key."""

    term: str


class TermTold(Outcome):
    """A word and its meaning."""

    name: str
    text: str


@performs
def explain_term(command: AskTerm) -> TermTold:
    """Give what the word means."""
    term = load_howto().terms[command.term]
    return TermTold(term.name, term.text)
