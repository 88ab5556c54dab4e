"""What could not be read, and what it may have been."""

from dataclasses import dataclass

from bot.actions.choice import Command
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class NotUnderstood(Command):
    """Writes nothing; carries what was not understood."""

    text: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Unclear(Outcome):
    """Not understood, nothing written."""

    text: str
    reason: str
    plants: tuple[str, ...]


LONGEST_KIND = 3
"""Words of a plant's name that is taken for one. Judgement."""


def is_new_plant(text: str, desk: Desk) -> bool:
    """Whether what was not understood is just the name of a kind of plant."""
    return len(text.split()) <= LONGEST_KIND and desk.knowledge.kind_by_word.get(text.casefold()) is not None
