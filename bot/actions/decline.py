"""What was offered is not wanted."""

from dataclasses import dataclass

from bot.actions.choice import Command
from bot.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class Decline(Command):
    """What was offered is not wanted; writes nothing."""


@dataclass(frozen=True, slots=True)
class Declined(Outcome):
    """An offer was declined."""
