"""Texts that set a household up: town, hours, places, plant lists."""

import re
from datetime import time
from itertools import pairwise

from bot.actions.action import Command, Expecting
from bot.actions.set_hours import SetHours
from bot.actions.set_place import SetPlace
from bot.actions.set_repeats import SetRepeats
from bot.actions.set_town import SetCoordinates, SetTown
from bot.actions.situation import Situation
from bot.domain.identity import PlaceId
from bot.domain.window import Facing, Outdoors
from bot.phrases.days import clock_at, evening_hour
from bot.phrases.lexicon import listed, words_in
from bot.phrases.names import Place, names_of
from bot.phrases.places import COMPASS, FACETS
from bot.phrases.text import plain, tidy, words_of

_COORDINATES = re.compile(r"(-?\d{1,3}(?:\.\d{1,8})?) ?[, ] ?(-?\d{1,3}(?:\.\d{1,8})?)")
_TOWN = (
    "i live in ",
    "we live in ",
    "i live near ",
    "we live near ",
    "i am in ",
    "we are in ",
    "i'm in ",
    "im in ",
    "we're in ",
    "my town is ",
    "our town is ",
    "town is ",
    "town: ",
    "town ",
    "city: ",
    "city ",
)
_NO_TOWN = listed("until till vacation holiday holidays hurry bed trouble doubt love charge time pain")
_NEAR = ("i am near ", "i'm near ", "near ", "close to ", "in ", "it is ", "it's ", "from ", "i am from ")
_EVENING = (
    "nudge me at",
    "nudge me daily at",
    "nudge at",
    "nudges at",
    "evening time",
    "evening at",
    "evening",
    "write me at",
    "message me at",
    "nudge time",
    "set evening to",
    "nudge us at",
)
_QUIET = (
    "quiet hours",
    "quiet hours from",
    "quiet from",
    "quiet between",
    "quiet",
    "silent from",
    "do not disturb",
)
_PLACE = ("place", "add place", "new place", "add a place", "add room", "new room", "room")
_VERBS = (
    " is outdoors",
    " is outside",
    " has no window",
    " is facing",
    " faces",
    " facing",
    " looks",
    " gets",
    " has",
)
_FACETS: dict[str, Facing | Outdoors] = {
    **FACETS,
    "no idea": Facing.UNKNOWN,
    "unknown": Facing.UNKNOWN,
    "not sure": Facing.UNKNOWN,
    "do not know": Facing.UNKNOWN,
    "i do not know": Facing.UNKNOWN,
    "dunno": Facing.UNKNOWN,
    "all day": Outdoors.ALL_DAY,
}
_LONGEST_ANSWER = 10
_MORE_THAN_A_WINDOW = listed("light lamp until till from , ;")
_SAID_OF_A_WINDOW = (
    (Facing.UNKNOWN, re.compile(r"\b(?:not sure|do not know|no idea|dunno|no clue|can not tell)\b")),
    (Facing.NONE, re.compile(r"\b(?:no|without an?y?) windows?\b")),
    *(
        (facing, re.compile(rf"\b{way[:5]} ?-?{way[5:]}(?:ern|erly|wards?)?\b"))
        for way, facing in sorted(COMPASS.items(), key=lambda one: -len(one[0]))
    ),
)
"""What says it in a longer answer: "it faces kinda north east"."""
SPOKEN = words_in((*_FACETS, *_VERBS))
"""Words known here, that a slip may be a slip of."""
_LOOSE_WORDS = listed("a the is it window faces facing looks to towards toward has gets and sill my our")
_LAMP = ("grow light", "grow lamp", "growlight", "light", "lamp")
_SMALL_HOURS = 4
_SENTENCE = listed(
    "in on are is was were have has had i we you to not no done did it them with for from "
    "at than more less need needs want wants reminder note that this place "
    "everything all nothing here there sprayed checked"
)
_LONGEST_NAME = 60


def read_town(text: str, situation: Situation) -> Command | None:
    """Read "I live in Ghent" at any time."""
    del situation
    typed = tidy(text)
    for opening in _TOWN:
        if typed.lower().startswith(opening):
            town = typed[len(opening) :].strip(" .!")
            is_town = _could_be_a_name(town) and not frozenset(words_of(town.lower())) & _NO_TOWN
            return SetTown(town) if town and "\n" not in town and is_town else None
    return None


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


def read_place(text: str, situation: Situation) -> Command | None:
    """Read "place landing, no window, light until 18:00", "kitchen sill faces west"."""
    typed = tidy(text)
    if "\n" in typed:
        return None
    words = words_of(typed.lower())
    opening = _opening(words, _PLACE)
    if opening is not None:
        typed = typed[len(opening) :].lstrip(" :")
        name, _, rest = typed.partition(",")
        name, more = _cut_at_verb(name)
        return _place(name, f"{more},{rest}", situation)
    name, rest = _cut_at_verb(typed)
    return _place(name, rest, situation) if rest else None


def read_facets(text: str) -> Command | None:
    """Read "west" or "no idea" in answer to which way a place looks; no name is the place asked of."""
    told = _place("", plain(text).replace(" with ", ", "), None, is_asked=True)
    words = words_of(plain(text))
    if told is not None or len(words) > _LONGEST_ANSWER or frozenset(words) & _MORE_THAN_A_WINDOW:
        return told
    for facing, pattern in _SAID_OF_A_WINDOW:
        if pattern.search(" ".join(words)):
            return SetPlace(name="", facing=facing)
    return None


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


def _cut_at_verb(typed: str) -> tuple[str, str]:
    lowered = typed.lower()
    found = [(lowered.find(verb), verb) for verb in _VERBS if verb in lowered]
    if not found:
        return typed, ""
    at, verb = min(found)
    told = verb.removeprefix(" is").removeprefix(" has")
    return typed[:at], f"{told} {typed[at + len(verb) :]}"


def _place(name: str, rest: str, situation: Situation | None, *, is_asked: bool = False) -> Command | None:
    name = re.sub(r"(?:'s)?\s+windows?$", "", name.strip(" ,.:"), flags=re.IGNORECASE)
    for article in ("the ", "my ", "our "):
        name = name[len(article) :] if name.lower().startswith(article) else name
    facets = _facets(rest)
    if facets is None or (not name and not is_asked) or not _could_be_a_name(name):
        return None
    facing, outdoors, lamp_from, lamp_until = facets
    if facets == (None,) * 4 or (situation is not None and _is_plant(name, situation)):
        return None
    return SetPlace(
        name=name,
        place_id=None if situation is None else _known_place(name, situation),
        facing=facing,
        outdoors=outdoors,
        lamp_from=lamp_from,
        lamp_until=lamp_until,
    )


_Facets = tuple[Facing | None, Outdoors | None, time | None, time | None]


def _facets(rest: str) -> _Facets | None:
    """Everything told of a place, or None when any of it is not understood."""
    facing: Facing | None = None
    outdoors: Outdoors | None = None
    lamp: tuple[time | None, time | None] = (None, None)
    for part in rest.lower().replace(" and ", ",").split(","):
        words = words_of(part)
        told = _facet(words)
        light = _lamp(words)
        if light is not None:
            lamp = light
        elif isinstance(told, Facing):
            facing = told
        elif isinstance(told, Outdoors):
            outdoors = told
        elif not frozenset(words) <= _LOOSE_WORDS | {".", "!"}:
            return None
    return facing, outdoors, *lamp


def _facet(words: tuple[str, ...]) -> Facing | Outdoors | None:
    exact = _FACETS.get(" ".join(word for word in words if word not in {".", "!"}))
    if exact is not None:
        return exact
    joined = " ".join(word for word in words if word not in _LOOSE_WORDS | {".", "!"})
    return _FACETS.get(joined) or _FACETS.get(joined.replace(" ", "").replace("-", ""))


def _lamp(words: tuple[str, ...]) -> tuple[time | None, time | None] | None:
    rest = _after(tuple(word for word in words if word not in {"a", "is", "on", "the"}), _LAMP)
    if rest is None:
        return None
    pair = _two_times(rest)
    if pair is not None:
        return pair
    until = _single_time(rest[1:]) if rest[:1] in {("until",), ("till",), ("til",), ("to",)} else None
    return None if until is None else (None, until)


def _could_be_a_name(name: str) -> bool:
    return len(name) <= _LONGEST_NAME and not frozenset(words_of(name.lower())) & _SENTENCE


def _is_plant(name: str, situation: Situation) -> bool:
    return any(plain(name) == plain(known) for plant in situation.plants for known in plant.names)


def _known_place(name: str, situation: Situation) -> PlaceId | None:
    words, names = words_of(plain(name)), names_of(situation)
    for place in situation.places:
        if place.name.lower() == plain(name):
            return place.id
    found = names.exact_at(words, 0)
    is_whole = found is not None and found[1] == len(words)
    return found[0].id if found is not None and is_whole and isinstance(found[0], Place) else None
