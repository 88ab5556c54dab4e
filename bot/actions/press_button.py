"""Buttons of earlier messages."""

from dataclasses import dataclass

from bot.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class ButtonExpired(Outcome):
    """An unknown, foreign or outdated button."""
