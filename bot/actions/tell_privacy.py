"""Tell what is kept of a person, where, and how to be forgotten; nothing here writes."""

from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.export import Export
from bot.actions.outcome import Outcome


class TellPrivacy(Command):
    """A plea for what is kept."""


class PrivacyTold(Outcome):
    """What is kept, and how to be forgotten."""


@performs
def tell_privacy(_: TellPrivacy, desk: Desk) -> PrivacyTold:
    """Tell what is kept of a person."""
    del desk
    return PrivacyTold(offers=(Choice(ButtonText.EXPORT_FIRST, (Export(),)),))
