"""What did not fit into the last answer."""

from dataclasses import dataclass

from bot.actions.choice import Command
from bot.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class More(Command):
    """What did not fit into the last answer."""

    text: str


@dataclass(frozen=True, slots=True)
class MoreText(Outcome):
    """What did not fit before."""

    text: str
