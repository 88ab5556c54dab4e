"""Buttons of earlier messages."""

from dataclasses import dataclass
from datetime import date

from bot.actions.choice import Choice
from bot.actions.outcome import Outcome


@dataclass(frozen=True, slots=True)
class ButtonExpired(Outcome):
    """An unknown, foreign or outdated button."""


@dataclass(frozen=True, slots=True)
class AnsweredAlready(Outcome):
    """The question under that button has its answer since a day; another may take its place."""

    answer: Choice
    on: date
    other: Choice | None = None
