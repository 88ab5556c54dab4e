"""What a word of the trade, or of the bot, means."""

from bot.actions.action import Command, Outcome, performs
from bot.catalogue.howto import load_howto


class AskTerm(Command):
    term: str


class TermTold(Outcome):
    name: str
    text: str


@performs
def explain_term(command: AskTerm) -> TermTold:
    term = load_howto().terms[command.term]
    return TermTold(term.name, term.text)
