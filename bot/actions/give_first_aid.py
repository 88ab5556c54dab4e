"""Somebody or an animal got some: heard before everything else."""

from dataclasses import dataclass

from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class GiveFirstAid(Command):
    """Somebody or an animal got some: matched before everything else, writes nothing."""


@dataclass(frozen=True, slots=True)
class Exposed(Outcome):
    """First aid; writes nothing."""


@performs
def give_first_aid(_: GiveFirstAid, desk: Desk) -> Exposed:
    """Tell what to do at once."""
    del desk
    return Exposed()
