"""Which function, or which text, words which outcome."""

import sys
from collections.abc import Callable, Mapping, Sized
from datetime import datetime
from functools import lru_cache, partial
from string import Formatter
from types import UnionType
from typing import Any, TypeVar, get_args

from bot.actions.action import Outcome
from bot.wording.button_texts import button_text
from bot.wording.conditions import percent
from bot.wording.days import dated, day, listed, near_day, plural, some
from bot.wording.lines import LONG, SHORT
from bot.wording.voice import Voice

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


def spoken(texts: Mapping[type[Outcome], str], most: int = LONG) -> None:
    """
    Word outcomes by one text each, with their own fields in it: "{name} shares your plants from now on.".

    A field may say how: "{plants:listed}", "{until:day}". "{name:this|that}" says this where it is told or so, else
    that; "{plants!n:stands|stand}" this of one, that of several. Either may hold fields in turn.
    """
    for outcome, text in texts.items():
        SAYERS[outcome] = partial(spoken_of, text), True
        MOST_LINES[outcome] = most


SHOWN = 12
"""So many names are named, of more how many more there are. Judgement. [1]"""
HOW: Mapping[str, Callable[[Any, Voice], str]] = {
    "listed": lambda names, _: listed(names),
    "plants": lambda names, voice: voice.plants(names),
    "count": lambda all_of_them, _: str(len(all_of_them)),
    "day": lambda on, voice: day(on.astimezone(voice.zone) if isinstance(on, datetime) else on),
    "near": lambda on, voice: near_day(on, voice.today),
    "clock": lambda at, voice: voice.clock(at),
    "volume": lambda ml, voice: voice.volume(ml),
    "length": lambda cm, voice: voice.length(cm),
    "warmth": lambda celsius, voice: voice.warmth(celsius),
    "dated": lambda on, voice: dated(on, voice.today),
    "chance": lambda share, _: percent(share),
    "percent": lambda share, _: f"{round(100 * share)} %",
    "some": lambda names, _: some(names, SHOWN),
    "plurals": lambda names, _: listed(map(plural, names)),
    "capital": lambda name, _: name.capitalize(),
    "named": lambda one, _: one.value.replace("-", " "),
    "button": lambda choice, _: button_text(choice),
}
_FORMATTER = Formatter()


@lru_cache(maxsize=256)
def parts_of(text: str) -> tuple[tuple[str, str | None, str, str], ...]:
    """Give the parts of a text: what stands before a field, the field, how it is said, "n" where it is counted."""
    return tuple((before, name, how or "", mark or "") for before, name, how, mark in _FORMATTER.parse(text))


def spoken_of(text: str, told: Outcome, voice: Voice) -> str:
    """Fill a text with what an outcome tells; a line of which nothing is told falls out."""
    return "\n".join(line for line in filled(text, told, voice).split("\n") if line)


def filled(text: str, told: Outcome, voice: Voice) -> str:
    words = []
    for before, name, how, mark in parts_of(text):
        words.append(before)
        if name is not None:
            value = _FORMATTER.get_field(f"0.{name}", (told,), {})[0]
            ways = ways_of(how)
            if len(ways) > 1:
                words.append(filled(ways[0 if _is_so(value, mark) else 1], told, voice))
            else:
                words.append(HOW[how](value, voice) if how in HOW else format(value, how))
    return "".join(words)


def _is_so(value: Any, mark: str) -> bool:
    if mark:
        return (len(value) if isinstance(value, Sized) else value) == 1
    return bool(value)


@lru_cache(maxsize=256)
def ways_of(how: str) -> tuple[str, ...]:
    """Give this and that of "this|that", whatever fields stand in them; all of it where there is no choice."""
    depth = 0
    for at, sign in enumerate(how):
        depth += (sign == "{") - (sign == "}")
        if sign == "|" and depth == 0:
            return how[:at], how[at + 1 :]
    return (how,)
