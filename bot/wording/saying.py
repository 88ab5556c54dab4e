"""Which function words which outcome."""

from collections.abc import Callable
from types import UnionType
from typing import TypeVar, get_args

from bot.actions.action import Outcome

_F = TypeVar("_F", bound=Callable[..., str])

SAYERS: dict[type[Outcome], tuple[Callable[..., str], bool]] = {}
"""The function, and whether it needs the voice; filled by the files as `bot.wording.sentences` reads them all."""


def says(function: _F) -> _F:
    """Let a function word the outcomes that its first parameter is annotated with; the voice is its second, if any."""
    annotated = next(iter(function.__annotations__.values()))
    for outcome in get_args(annotated) if isinstance(annotated, UnionType) else (annotated,):
        SAYERS[outcome] = function, function.__code__.co_argcount > 1
    return function


def spoken(outcome: type[Outcome], text: str) -> None:
    """Word an outcome by one text with its own fields in it: "{0.name} shares your plants from now on."."""
    SAYERS[outcome] = text.format, False
