"""Tell what is kept of a person, where, and how to be forgotten; nothing here writes."""

from bot.actions.action import ButtonText, Choice, Command, Outcome, performs
from bot.actions.export import Export


class TellPrivacy(Command):
    """A plea for what is kept."""


class PrivacyTold(Outcome):
    """What is kept, and how to be forgotten."""


@performs
def tell_privacy(_: TellPrivacy) -> PrivacyTold:
    return PrivacyTold(offers=(Choice(ButtonText.EXPORT_FIRST, (Export(),)),))
