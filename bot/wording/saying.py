"""Which function words which outcome."""

import sys
from collections.abc import Callable
from types import UnionType
from typing import TypeVar, get_args

from bot.actions.action import Outcome
from bot.wording.lines import LONG, SHORT

_F = TypeVar("_F", bound=Callable[..., str])

SAYERS: dict[type[Outcome], tuple[Callable[..., str], bool]] = {}
"""The function, and whether it needs the voice; filled by the files as `bot.wording.sentences` reads them all."""
MOST_LINES: dict[type[Outcome], int] = {}
"""Lines of a phone that an answer takes before the rest waits behind [More]."""


def says(function: _F, most: int = LONG) -> _F:
    """Let a function word the outcomes that its first parameter is annotated with; the voice is its second, if any."""
    annotated = next(iter(function.__annotations__.values()))
    for outcome in get_args(annotated) if isinstance(annotated, UnionType) else (annotated,):
        SAYERS[outcome] = function, function.__code__.co_argcount > 1
        MOST_LINES[outcome] = most
    return function


def says_shortly(function: _F) -> _F:
    """Let a function word one of the answers given most, by count: it fits six lines of a phone."""
    return says(function, SHORT)


def says_at_length(function: _F) -> _F:
    """Let a function word what is read at length, or must never wait."""
    return says(function, sys.maxsize)


def spoken(outcome: type[Outcome], text: str, most: int = LONG) -> None:
    """Word an outcome by one text with its own fields in it: "{0.name} shares your plants from now on."."""
    SAYERS[outcome] = text.format, False
    MOST_LINES[outcome] = most
