"""Texts that set a household up: town, hours, places, plant lists."""

import re
from datetime import time
from itertools import pairwise

from bot.actions.action import Command, Expecting
from bot.actions.set_hours import SetHours
from bot.actions.set_repeats import SetRepeats
from bot.actions.set_town import SetCoordinates, SetTown
from bot.phrases.days import clock_at, evening_hour
from bot.phrases.lexicon import listed, sayings
from bot.phrases.text import plain, tidy, words_of

_COORDINATES = re.compile(r"(-?\d{1,3}(?:\.\d{1,8})?) ?[, ] ?(-?\d{1,3}(?:\.\d{1,8})?)")
_NEAR = ("i am near ", "i'm near ", "near ", "close to ", "in ", "it is ", "it's ", "from ", "i am from ")
_EVENING = sayings(
    "nudge me at | nudge me daily at | nudge at | nudges at | evening time | evening at | evening"
    " | write me at | message me at | nudge time | set evening to | nudge us at"
)
_QUIET = sayings(
    "quiet hours | quiet hours from | quiet from | quiet between | quiet | silent from | do not disturb"
)
_LONGEST_ANSWER = 10
_SMALL_HOURS = 4


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


def read_hours(text: str, expecting: Expecting = Expecting.NOTHING) -> Command | None:
    """Read "nudge me at 20:30", "quiet from 10 pm to 8"; bare times when that was asked."""
    words = _bare_words(text)
    repeats = read_repeats(words)
    if repeats is not None:
        return repeats
    evening = _after(words, _EVENING)
    if evening is None and expecting is Expecting.EVENING:
        evening = words
    told = None if evening is None else _single_time(evening)
    if told is not None:
        return SetHours(evening=told if _is_written_out(evening or ()) else evening_hour(told))
    quiet = _after(words, _QUIET)
    if quiet is None and expecting is Expecting.QUIET:
        quiet = words
    pair = None if quiet is None else _two_times(quiet)
    return None if pair is None else SetHours(quiet_from=_quiet_from(*pair), quiet_until=pair[1])


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


def _is_written_out(words: tuple[str, ...]) -> bool:
    """Whether the half of the day is told: by two figures for the hour, as "09:00", or by "am"."""
    return any(word in {"am", "morning"} or re.fullmatch(r"0\d[:.]\d\d", word) for word in words)


def _quiet_from(start: time, end: time) -> time:
    """Read "quiet from 2 to 9" as two at night: a small hour before the end is of the same night."""
    is_night = start.hour <= _SMALL_HOURS and start < end
    return start if is_night else evening_hour(start)


def _opening(words: tuple[str, ...], openings: tuple[str, ...]) -> str | None:
    """Give the longest opening a message begins with."""
    found = [one for one in openings if words[:1] == (one.partition(" ")[0],) and _starts(words, one)]
    return max(found, key=len, default=None)


def _starts(words: tuple[str, ...], opening: str) -> bool:
    expected = tuple(opening.split())
    return words[: len(expected)] == expected


def _bare_words(text: str) -> tuple[str, ...]:
    words = tuple(word for word in words_of(plain(text)) if word not in {":", ",", "!", "please"})
    return words[:-1] if words[-1:] == (".",) else words


def _after(words: tuple[str, ...], openings: tuple[str, ...]) -> tuple[str, ...] | None:
    opening = _opening(words, openings)
    return None if opening is None else words[len(opening.split()) :]


def _single_time(words: tuple[str, ...]) -> time | None:
    told = _time_at(words)
    return told[0] if told is not None and told[1] == len(words) else None


def _two_times(words: tuple[str, ...]) -> tuple[time, time] | None:
    words = words[1:] if words[:1] in {("from",), ("between",)} else words
    start = _time_at(words)
    if start is None:
        return None
    rest = words[start[1] :]
    if rest[:1] in {("to",), ("until",), ("till",), ("-",), ("and",)}:
        end = _single_time(rest[1:])
        return None if end is None else (start[0], end)
    return None


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
