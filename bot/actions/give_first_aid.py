"""Somebody or an animal got some: heard before everything else."""

from dataclasses import dataclass

from bot.actions.choice import Command
from bot.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class GiveFirstAid(Command):
    """Somebody or an animal got some: matched before everything else, writes nothing."""


@dataclass(frozen=True, slots=True)
class Exposed(Outcome):
    """First aid; writes nothing."""
