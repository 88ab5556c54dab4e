"""Texts that set a household up: town, hours, places, plant lists."""

import re
from datetime import time

from bot.actions.commands import AddPlants, Command, NewPlant, SetCoordinates, SetHours, SetPlace, SetTown
from bot.actions.situation import Expecting, Situation
from bot.domain.identity import PlaceId
from bot.domain.window import Facing, Outdoors
from bot.phrases.days import clock_at, evening_hour
from bot.phrases.names import Place, names_of
from bot.phrases.text import plain, tidy, words_of
from bot.phrases.words import listed

_COORDINATES = re.compile(r"(-?\d{1,2}\.\d{1,8}) ?[, ] ?(-?\d{1,3}\.\d{1,8})")
_TOWN = ("i live in ", "we live in ", "town: ", "town ", "my town is ", "our town is ", "city: ", "city ")
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
_LIST = (
    "add",
    "add plants",
    "add plant",
    "new plants",
    "new plant",
    "plants",
    "add a plant",
    "my plants",
    "add a",
)
_HEADINGS = ("plants", "my plants", "new plants", "add plants")
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
_COMPASS = {
    "north": Facing.N,
    "northeast": Facing.NE,
    "east": Facing.E,
    "southeast": Facing.SE,
    "south": Facing.S,
    "southwest": Facing.SW,
    "west": Facing.W,
    "northwest": Facing.NW,
}
_COMPASS |= {facing.value.lower(): facing for facing in _COMPASS.values()}
_FACETS: dict[str, Facing | Outdoors] = {
    **_COMPASS,
    "no window": Facing.NONE,
    "windowless": Facing.NONE,
    "no idea": Facing.UNKNOWN,
    "unknown": Facing.UNKNOWN,
    "not sure": Facing.UNKNOWN,
    "do not know": Facing.UNKNOWN,
    "i do not know": Facing.UNKNOWN,
    "dunno": Facing.UNKNOWN,
    "outdoors": Outdoors.ALL_DAY,
    "outside": Outdoors.ALL_DAY,
    "sun all day": Outdoors.ALL_DAY,
    "all day sun": Outdoors.ALL_DAY,
    "all day": Outdoors.ALL_DAY,
    "full sun": Outdoors.ALL_DAY,
    "morning sun": Outdoors.MORNING,
    "sun in the morning": Outdoors.MORNING,
    "afternoon sun": Outdoors.AFTERNOON,
    "sun in the afternoon": Outdoors.AFTERNOON,
    "evening sun": Outdoors.AFTERNOON,
    "shade": Outdoors.SHADE,
    "shady": Outdoors.SHADE,
    "no sun": Outdoors.SHADE,
}
_LOOSE_WORDS = listed("a the is it window faces facing looks to towards toward has gets and sill my our")
_LAMP = ("grow light", "grow lamp", "growlight", "light", "lamp")
_POT = re.compile(r"(\d{1,3}(?:\.\d)?) ?(cm|inch|inches|in|\")")
_TIMES = re.compile(r"(?:\(?(\d{1,2}) ?x\)?|\(?x ?(\d{1,2})\)?)")
_SENTENCE = listed(
    "in on are is was were have has had i we you to not no done did it them with for from "
    "at than more less need needs want wants reminder note that this place room "
    "everything all nothing here there sprayed checked"
)
_INCH_CM = 2.54
_MOST_TWINS = 20
_MOST_FIELDS = 3
_LONGEST_NAME = 60


def read_town(text: str, situation: Situation) -> Command | None:
    """Read "I live in Ghent" at any time."""
    del situation
    typed = tidy(text)
    for opening in _TOWN:
        if typed.lower().startswith(opening):
            town = typed[len(opening) :].strip(" .!")
            return SetTown(town) if town and "\n" not in town and _could_be_a_name(town) else None
    return None


def read_coordinates(text: str) -> Command | None:
    """Read "51.05, 3.73"."""
    match = _COORDINATES.fullmatch(plain(text))
    if match is None:
        return None
    return SetCoordinates(
        float(match[1]), float(match[2])
    )  # whether that is on the globe is said in the answer


def read_hours(text: str, expecting: Expecting = Expecting.NOTHING) -> Command | None:
    """Read "nudge me at 20:30", "quiet from 10 pm to 8"; bare times when that was asked."""
    words = _bare_words(text)
    evening = _after(words, _EVENING)
    if evening is None and expecting is Expecting.EVENING:
        evening = words
    told = None if evening is None else _single_time(evening)
    if told is not None:
        return SetHours(evening=evening_hour(told))
    quiet = _after(words, _QUIET)
    if quiet is None and expecting is Expecting.QUIET:
        quiet = words
    pair = None if quiet is None else _two_times(quiet)
    return None if pair is None else SetHours(quiet_from=evening_hour(pair[0]), quiet_until=pair[1])


def read_place(text: str, situation: Situation) -> Command | None:
    """Read "place landing, no window, light until 18:00", "kitchen sill faces west"."""
    typed = tidy(text)
    if "\n" in typed:
        return None
    words = words_of(typed.lower())
    opening = next((o for o in sorted(_PLACE, key=len, reverse=True) if _starts(words, o)), None)
    if opening is not None:
        typed = typed[len(opening) :].lstrip(" :")
        name, _, rest = typed.partition(",")
        name, more = _cut_at_verb(name)
        return _place(name, f"{more},{rest}", situation)
    name, rest = _cut_at_verb(typed)
    return _place(name, rest, situation) if rest else None


def read_facets(text: str) -> Command | None:
    """Read "west" or "no idea" in answer to which way a place looks; no name is the place asked of."""
    return _place("", plain(text), None, is_asked=True)


def read_plants(text: str, situation: Situation, *, is_expected: bool) -> Command | None:
    """Read one plant a line: name, place, pot; several in one message."""
    lines = [line.strip() for line in tidy(text).split("\n") if line.strip()]
    if not lines:
        return None
    first = lines[0]
    opening = next(
        (o for o in sorted(_LIST, key=len, reverse=True) if _starts(words_of(first.lower()), o)), None
    )
    if opening is not None:
        rest = first[len(opening) :]
        if opening in _HEADINGS and rest and not rest.lstrip().startswith(":"):
            return None
        lines[0] = rest.lstrip(" :")
        lines = [line for line in lines if line]
    elif not is_expected and not _looks_like_a_list(lines, situation):
        return None
    plants = [plant for line in lines for plant in _plants_of(line)]
    is_clear = all(plant.name and (is_expected or _could_be_a_name(plant.name)) for plant in plants)
    return AddPlants(tuple(plants)) if plants and is_clear else None


def _starts(words: tuple[str, ...], opening: str) -> bool:
    expected = tuple(opening.split())
    return words[: len(expected)] == expected


def _bare_words(text: str) -> tuple[str, ...]:
    words = tuple(word for word in words_of(plain(text)) if word not in {":", ",", "!", "please"})
    return words[:-1] if words[-1:] == (".",) else words


def _after(words: tuple[str, ...], openings: tuple[str, ...]) -> tuple[str, ...] | None:
    for opening in sorted(openings, key=len, reverse=True):
        if _starts(words, opening):
            return words[len(opening.split()) :]
    return None


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
    name = name.strip(" ,.:")
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


def _looks_like_a_list(lines: list[str], situation: Situation) -> bool:
    fields = [[field.strip() for field in line.split(",")] for line in lines]
    if not all(1 < len(line) <= _MOST_FIELDS for line in fields):
        return False
    if all(_POT.fullmatch(line[-1].lower()) for line in fields):
        return True
    places = {place.name.lower() for place in situation.places}
    return len(lines) > 1 and all(line[1].lower() in places for line in fields)


def _plants_of(line: str) -> list[NewPlant]:
    line, twins = _twins(line.lstrip("-*\u2022 ").rstrip(" ."))
    name, *more = [field.strip() for field in line.split(",")]
    place: str | None = None
    pot: float | None = None
    for field in more:
        width = _POT.fullmatch(field.lower())
        if width is not None:
            pot = float(width[1]) * (1 if width[2] == "cm" else _INCH_CM)
        elif place is None:
            place = field or None
        else:
            return [NewPlant(name="")]
    if len(name) > _LONGEST_NAME or "?" in name:
        return [NewPlant(name="")]
    return [NewPlant(name=name, place=place, pot_cm=pot)] * twins


def _twins(line: str) -> tuple[str, int]:
    words = line.split()
    for at, word in enumerate(words):
        match = _TIMES.fullmatch(word.lower().strip(","))
        if match is not None and len(words) > 1:
            number = int(match[1] or match[2])
            comma = "," if word.endswith(",") else ""
            rest = " ".join([*words[: max(at - 1, 0)], *_joined(words, at, comma), *words[at + 1 :]])
            return rest, min(max(number, 1), _MOST_TWINS)
    return line, 1


def _joined(words: list[str], at: int, comma: str) -> list[str]:
    return [words[at - 1] + comma] if at else []
