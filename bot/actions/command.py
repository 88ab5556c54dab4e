"""What all commands have in common, and which function performs which."""

from collections.abc import Callable
from types import UnionType
from typing import Any, TypeVar, get_args

from bot.domain.value import Value

Performer = Callable[[Any, Any], Any]
_F = TypeVar("_F", bound=Performer)

PERFORMERS: dict[type["Command"], Performer] = {}
"""Filled by the files of the actions as they are read; `bot.actions.perform` reads them all."""


class Command(Value):
    """Something a person can tell or ask the bot: what the reading and the buttons produce."""


def performs(function: _F) -> _F:
    """Let a function do the commands that its first parameter is annotated with."""
    annotated = next(iter(function.__annotations__.values()))
    for command in get_args(annotated) if isinstance(annotated, UnionType) else (annotated,):
        PERFORMERS[command] = function
    return function
