"""Texts that set a household up: town, hours, places, plant lists."""

import re
from datetime import time
from itertools import pairwise

from bot.actions.action import Command
from bot.actions.set_repeats import SetRepeats
from bot.actions.set_town import SetCoordinates, SetTown
from bot.phrases.days import clock_at
from bot.phrases.lexicon import listed
from bot.phrases.text import plain, tidy

_COORDINATES = re.compile(r"(-?\d{1,3}(?:\.\d{1,8})?) ?[, ] ?(-?\d{1,3}(?:\.\d{1,8})?)")
_NEAR = ("i am near ", "i'm near ", "near ", "close to ", "in ", "it is ", "it's ", "from ", "i am from ")
_LONGEST_ANSWER = 10


def read_expected_town(text: str) -> SetTown:
    """Read whatever answers "which town": the town without what leads to it, "near Leeds"."""
    town = tidy(text)
    for opening in sorted(_NEAR, key=len, reverse=True):
        if town.lower().startswith(opening):
            town = town[len(opening) :]
            break
    return SetTown(town.strip(" .!"))


def read_coordinates(text: str, *, is_asked: bool = False) -> Command | None:
    """Read "51.05, 3.73"; whole degrees only where the town is asked for."""
    match = _COORDINATES.fullmatch(plain(text))
    if match is None or not (is_asked or ("." in match[1] and "." in match[2])):
        return None
    return SetCoordinates(
        float(match[1]), float(match[2])
    )  # whether that is on the globe is said in the answer


def read_repeats(words: tuple[str, ...]) -> Command | None:
    """Read "only one msg", "you do not have to write me two times"."""
    said = frozenset(words)
    if len(words) > _LONGEST_ANSWER or not said & _MESSAGES:
        return None
    is_twice = "twice" in said or ("two", "times") in pairwise(words)
    is_once = bool(said & {"one", "once", "single"} and said & {"only", "just", "enough"})
    is_too_often = is_twice and bool(said & _DENIALS)
    return SetRepeats(is_wanted=False) if is_once or is_too_often else None


_MESSAGES = listed("msg msgs message messages write remind nudge ping text")
_DENIALS = listed("not no never stop dont without")


def _time_at(words: tuple[str, ...]) -> tuple[time, int] | None:
    """Read a time that stands where one is expected, so that a bare number counts."""
    if words[:1] == ("at",):
        told = clock_at(words, 0)
        return None if told is None else (told[0].time, told[1])
    told = clock_at(("at", *words), 0) if words else None
    return None if told is None else (told[0].time, told[1] - 1)


_LAMPS = listed("light lights lamp growlight")


def lamp_at(words: tuple[str, ...], at: int) -> tuple[tuple[time | None, time], int] | None:
    """Read "grow light until 18:00", "lamp 8 to 20" and how many words that took."""
    start = at + (words[at] == "grow")
    if start >= len(words) or words[start] not in _LAMPS:
        return None
    start += 1
    while words[start : start + 1] in {("is",), ("on",), ("from",), ("between",)}:
        start += 1
    is_open = words[start : start + 1] not in {("until",), ("till",), ("til",), ("to",)}
    first = _time_at(words[start:]) if is_open else None
    end = start + (0 if first is None else first[1])
    if words[end : end + 1] not in {("to",), ("until",), ("till",), ("til",), ("-",), ("and",)}:
        return None
    last = _time_at(words[end + 1 :])
    if last is None or (is_open and first is None):
        return None
    return (None if first is None else first[0], last[0]), end + 1 + last[1] - at
