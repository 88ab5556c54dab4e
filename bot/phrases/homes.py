"""A home as people tell it: town, plants, places, windows, finds and what is at hand, in any order."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import time
from functools import lru_cache
from itertools import groupby, pairwise, takewhile

from bot.actions.action import Expecting
from bot.actions.add_plants import NewPlant
from bot.actions.decline import Decline
from bot.actions.isolate import Isolate
from bot.actions.move_plant import MovePlant
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.situation import Situation
from bot.catalogue.towns import find_towns
from bot.domain.identity import PlaceId, PlantId
from bot.domain.measure import INCH_CM
from bot.domain.trade import Form, Grade
from bot.domain.value import Value, replace
from bot.domain.window import Facing, Outdoors
from bot.phrases.days import every_at
from bot.phrases.kept import kept
from bot.phrases.lexicon import (
    Spot,
    Word,
    classes_of,
    common_words,
    listed,
    phrase_at,
    phrases_of,
    sayings,
    words_in,
    words_of_class,
)
from bot.phrases.names import OneOf, Pest, Place, Plants, Product, names_of
from bot.phrases.numbers import UnclearVolume, Volume, measure_at, number_at
from bot.phrases.setup import lamp_at
from bot.phrases.spotting import slip_of
from bot.phrases.text import plain, tidy, words_of

MOST_PLANTS = 120
MOST_UNASKED = 20
"""More of one name are asked about before they are written. Judgement. [1]"""
_MOST_OF_A_KIND = 40
_LONGEST_KIND = 4
_LONGEST_NAME = 60
_MOST_STRANGE = 2
_MOST_OF_A_NAME = 4
_SHORTEST_OWN = 3
_MOST_LOOKED_UP = 8
_RAW = re.compile(r"\n|\d+(?:[.,]\d+)?|[^\W\d_]+(?:['-][^\W\d_]+)*|\S")
_BULLET = re.compile(r"^\s*(?:[-*•·–—>]+|\d{1,3}[.)](?=\s))\s*", re.MULTILINE)
_SETTLED = re.compile(
    r"\b(?:residing|reside|dwell|dwelling|stationed|stay|staying|settled)(?= (?:in|near|at) [A-Z])"
    r"|\bbase(?=:)",
    re.IGNORECASE,
)
"""Other words for living somewhere."""
_ENUMERATED = re.compile(r"(?<![\w(])\d{1,2}\)\s+(?=\w)")
"""“1) fern 2) ivy” in one line."""
_HEADING = re.compile(
    r"(\A|\n\s*\n|^[ \t]*[-*•·–—>][^\n]*\n)(\w[^\n:.!?,;]{1,40})(?=\n\s*[-*•·–—>]+ ?\w)", re.MULTILINE
)
"""A line over bullets."""
_WITH = re.compile(r"\bw/\s*", re.IGNORECASE)
_ARROW = re.compile(r"\s*(?:[→➜⇒]|[-=]>)\s*")
_SIGNED = re.compile(
    r"(?:\n|(?<=[.!?]) )[^\n.!?:]{0,30}"
    r"\b(?:regards|yours|greetings|sincerely|wishes|respect|thanks|thank you)\b"
    r"[^\n.!?:]{0,20}(?:\n[^\n:]{1,30}|, ?[^\W\d_]+[.!]?\s*)$",
    re.IGNORECASE,
)
"""How a letter ends: who signs it is no plant."""
_UNHYPHENED = re.compile(r"(?<=[^\W\d_])-(?!(?:in|to|on|up|out)\b(?!-))(?=[^\W\d_])", re.IGNORECASE)
"""“Lean-to” and “walk-in” stay one word."""
_ROOMS = words_of_class("home", "rooms")
_OF_TWO_WORDS = phrases_of("home", "rooms-of-two-words")
_GENERAL_ROOMS = words_of_class("home", "no-room")
_AROUND = words_of_class("home", "around")
_BODY = listed("pain hand hands finger fingers eye eyes grief misery disaster bath careful")
_IDLE = (
    frozenset(one for one in words_of_class("idle", "words") if len(one) > len("mi"))
    | listed("um uh er ah oh ta mi ur")
) - _BODY
"""What carries nothing; but where somebody may be hurt, every word of it counts."""
_LOOKS = words_of_class("home", "looks")
_HEADS = words_of_class("home", "heads")
_ELDERS = words_of_class("home", "elders")
_GROUNDS = words_of_class("home", "their-grounds")
_HANDED_DOWN = words_of_class("home", "handed-down")
_BUGS = words_of_class("home", "bugs")
_SORTS = words_of_class("home", "sorts-of-room")
_LISTED = (("bugs", _BUGS), ("room", _ROOMS))
_COURTESIES = words_of_class("talk", "greeting", "nod")
_NOTHING = phrases_of("home", "nothing")
_LIVES = phrases_of("home", "lives")
_PREPOSITIONS = listed("in on at by im auf am dans sur near beside inside under behind outside upon pon inna")
_ARTICLES = listed(
    "the a an my our his her its this that der die das dem den le la les un une ze di da dis ma"
)
_PASSED = _AROUND | _ARTICLES | _PREPOSITIONS | _COURTESIES
"""What only leads from one word to the next."""
_ALL_OF_THEM = listed("it they all both these those she he each everything")
_GERMAN = listed("ich habe im auf und mit der die das steht")
_STOPS = frozenset(".!;?")
_NUMBERED = {"couple": 2, "pair": 2, "dozen": 12}
_TO = frozenset({"-", "to", "thru", "through", "till", "until", "bis"})
_WAYS = {spelt: way for way in classes_of("compass") for spelt in (way, *words_of_class("compass", way))}
_FACINGS: dict[tuple[str, ...], Facing] = {
    ("north",): Facing.N,
    ("south",): Facing.S,
    ("east",): Facing.E,
    ("west",): Facing.W,
}
_FACINGS |= {("north", "east"): Facing.NE, ("north", "west"): Facing.NW}
_FACINGS |= {("south", "east"): Facing.SE, ("south", "west"): Facing.SW}
_SUN: tuple[tuple[str, Facing | Outdoors], ...] = (
    ("none", Facing.NONE),
    ("all-day", Outdoors.ALL_DAY),
    ("morning", Outdoors.MORNING),
    ("afternoon", Outdoors.AFTERNOON),
    ("shade", Outdoors.SHADE),
)
_OUTDOORS = frozenset(Outdoors)
_LAMPS = listed("lamp lamps growlight growlights bulb bulbs")
_ONLY = listed("only just under no nothing but single sole lone artificial lit by")
"""What says of a lamp that it is all the light there is: "only a lamp", "under a grow light"."""
_SUN_WORDS = {phrase: told for name, told in _SUN for phrase in phrases_of("sun", name)}
_OF_THE_SUN = frozenset(word for phrase in _SUN_WORDS for word in phrase)
_LONGEST_SUN = max(map(len, _SUN_WORDS))
SPOKEN = (
    _OF_THE_SUN | frozenset(_WAYS) | listed("faces facing looks gets no idea unknown sure dunno know window")
)
"""Words known here, that a slip may be a slip of."""
_LONE_LETTERS = frozenset("nsew")
_TWO_LETTERS = {"ne": Facing.NE, "nw": Facing.NW, "se": Facing.SE, "sw": Facing.SW}
_COUNTED_TOO = listed(
    "cm inch inches plants plant pots pot houseplants rooms room weeks days year years % percent degrees"
)
_GRADES = {Grade.FEW: "few", Grade.SOME: "some", Grade.MANY: "many"}
_Lit = tuple[time | None, time]
_Listed = tuple[tuple[str, tuple[str, ...]], ...]
_SEPARATING = frozenset({"comma", "and", "line", "stop", "colon"})
_GREETED = listed("hi hey hello and then is are was were ,")
_EXISTS = listed("is are was were stands stand lives live i we")
_NEXT_TO = listed("in beside by near")
"""“There” is a place again but for "hi there" and "there is"; so is "beside it"."""
_ABROAD = {here: {" ".join(name) for name in phrases_of("abroad", here)} for here in classes_of("abroad")}
"""A place that was told in another language, by what it may be called in the next message."""
_ILL = listed("sick unwell dying infested infestation pest pests bugs bug insects")
_BEARING = listed("has have had got with")
_LEADING = frozenset(one[0] for one in _LIVES)
_BESIDE_A_TOWN = listed(
    "here in at near from meant not , . ! area city town gang folks guys people everyone"
) | {"\n"}
_WINDOW = frozenset({"window"})
_SHOPS = listed("market shop store centre center nursery sale supermarket shops friend neighbour")
_COUNTING = (*"0123456789", *_GRADES.values())
_FORMS = {Form.READY: "ready to use", Form.CONCENTRATE: "concentrate"}


class Home(Value):
    """What a message tells of a home."""

    town: str = ""
    plants: tuple[NewPlant, ...] = ()
    places: tuple[SetPlace, ...] = ()
    lines: tuple[str, ...] = ()
    """What was seen and what is at hand, a plain sentence each."""
    unplaced: str = ""
    """What was seen where no plant was named."""
    unread: tuple[str, ...] = ()
    is_known: bool = True
    """Whether every name holds a kind of plant that the catalogue knows."""
    has_kinds: bool = False
    """Whether any name does."""
    has_nothing: bool = False
    """Whether there is nothing to treat with."""
    is_ill: bool = False
    """Whether something is said to be ill, and nothing more."""
    named: tuple[PlantId, ...] = ()
    """Plants of the home that are named."""
    is_led: bool = False
    """Whether the town is led in: "I live in"."""
    denied: tuple[str, ...] = ()
    """Plants and places of which it is said that they are not what was meant."""
    corrects: bool = False
    is_guessed: bool = False
    """Whether a slip was read into what it is most likely of."""

    def is_strange(self) -> bool:
        """Whether nothing was told but names that may be of anything."""
        is_placed = all(one.place for one in self.plants)
        return bool(self.plants) and not (
            self.has_kinds or self.town or self.lines or self.places or is_placed
        )

    def is_long_range(self) -> bool:
        """Whether so many of one name are told that they are asked about, with their number."""
        numbered = (one.name.rpartition(" ")[0] for one in self.plants if _number(one.name) > 0)
        return max(Counter(numbered).values(), default=0) > MOST_UNASKED

    def is_empty(self) -> bool:
        """Whether nothing of a home was told."""
        return not (self.town or self.plants or self.places or self.lines or self.unplaced)

    def in_words(self) -> str:
        """Say it back, place by place."""
        by_place: dict[str, list[str]] = {}
        for one in self.plants:
            by_place.setdefault(one.place or "", []).append(one.name)
        for place in self.places:
            by_place.setdefault(place.name, [])
        looks = {
            one.name: " ".join(filter(None, map(_way, (one.facing, one.outdoors)))) for one in self.places
        }
        lines = [self.town] if self.town else []
        for name, plants in by_place.items():
            where = " ".join(filter(None, [name, f"({looks[name]})" if looks.get(name) else ""]))
            lines.append(": ".join(filter(None, [where, ", ".join(_in_runs(plants))])))
        lines += self.lines
        return "; ".join([*lines, *([self.unplaced] if self.unplaced else [])])


FEWEST_IN_A_RUN = 5
"""So many numbered names are said from the first to the last. Judgement. [1]"""


def _in_runs(names: list[str]) -> list[str]:
    """Say "AV 1 to AV 30 (30)" for names that are numbered on."""
    said: list[str] = []
    for _, run in groupby(
        enumerate(names), lambda one: (one[1].rpartition(" ")[0], _number(one[1]) - one[0])
    ):
        own = [name for _, name in run]
        said += [f"{own[0]} to {own[-1]} ({len(own)})"] if len(own) >= FEWEST_IN_A_RUN else own
    return said


def _number(name: str) -> int:
    last = name.rpartition(" ")[2]
    return int(last) if last.isdecimal() else -1


def _way(told: Facing | Outdoors | None) -> str:
    return "" if told is None else {"none": "no window"}.get(told.value.lower(), told.value.lower())


class _Event(Value):
    """A run of words and what it stands for."""

    what: str
    value: object
    start: int
    end: int


@dataclass(slots=True)
class _Telling:
    """What was gathered of a message so far."""

    situation: Situation
    raw: list[str]
    words: tuple[str, ...]
    town: str = ""
    plants: list[NewPlant] = field(default_factory=list)
    waiting: list[str] = field(default_factory=list)
    """Plants whose place is still to be told."""
    facets: dict[str, list[Facing | Outdoors | _Lit]] = field(default_factory=dict)
    indoors: set[str] = field(default_factory=set)
    """Places whose window was told: what sun they get is no sun outdoors."""
    denied: list[str] = field(default_factory=list)
    corrects: bool = False
    is_guessed: bool = False
    lines: list[str] = field(default_factory=list)
    unplaced: str = ""
    unread: list[str] = field(default_factory=list)
    is_known: bool = True
    has_kinds: bool = False
    has_nothing: bool = False
    is_led: bool = False
    heading: str | None = None
    last_place: str | None = None
    last_plant: str = ""
    last_look: object = None

    def text(self, start: int, end: int) -> str:
        return " ".join(self.raw[start:end])


def read_home(text: str, situation: Situation) -> Home:
    """
    Read what a message tells of a home, and what of it could not be read.

    Every word is looked at once: what names a plant, a place, a way a window looks, an animal, a product or
    the town is taken for that, what only leads from one to the next is passed over, and all else is unread.
    """
    asked = situation.expecting if situation.expecting in _ASKED else None
    beside = (asked, situation.untold, situation.lacks_town, _pending(situation))
    return kept(_read_once, (text, *beside), situation)


_ASKED = frozenset({Expecting.PLANTS, Expecting.WHERE, Expecting.TOWN})
"""What is asked of a home; any other open question leaves it as it is read."""


def _read_once(asked: tuple[object, ...], situation: Situation) -> Home:
    """Read a text; what is asked of the situation besides its names stands beside it."""
    text = str(asked[0])
    if _is_of_others(text):
        return Home(unread=(text,))
    home = _read(text, situation)
    if not home.unread and home.is_known and not (home.is_empty() and situation.lacks_town):
        return home
    mends = _doubtful(home, situation)
    if not kept(_spots, (text, mends, situation.lacks_town), situation)[-1]:
        return home  # no word may be a slip
    mended = _read(text, situation, mends)
    is_better = (len(mended.unread), _strangers(mended, situation)) < (
        len(home.unread),
        _strangers(home, situation),
    )
    return mended if is_better and not mended.is_empty() else home


_Mends = tuple[frozenset[str], frozenset[str]]
"""Words that may be slips of anything, and words of plants' names, which may be slips of kinds only."""


def _doubtful(home: Home, situation: Situation) -> _Mends:
    """Give the words that were not read, and those of plants whose kind is not known."""
    unread = frozenset(word for one in home.unread for word in words_of(one.lower()))
    places = words_in(one.name.lower() for one in home.places) | words_in(
        one.place.lower() for one in home.plants if one.place
    )
    strange = [
        one.name for one in home.plants if not _is_of_a_kind(words_of(one.name.lower()), situation.kinds)
    ]
    return unread | places, words_in(one.lower() for one in strange) | words_in(strange)


def _is_of_others(text: str) -> bool:
    """Whether somebody else's plants are told of: a grandmother's garden, nothing handed down."""
    words = frozenset(words_of(plain(text)))
    return bool(words & _ELDERS and words & _GROUNDS) and not words & _HANDED_DOWN


def read_town(text: str, situation: Situation) -> SetTown | None:
    """Read "I live in Ghent", and no more, at any time."""
    words = words_of(plain(text[:_LONGEST_MOVE]))
    if not any(_lead_at(words, at) for at in range(len(words))):
        return None
    home = read_home(text, situation if situation.lacks_town else replace(situation, lacks_town=True))
    is_else = home.plants or home.places or home.lines or home.unplaced or home.named or home.unread
    return SetTown(home.town) if home.is_led and home.town and not is_else else None


_HALVES = listed("morning morning. afternoon afternoon. evening evening. sun sun.")


def read_places(text: str, situation: Situation) -> tuple[SetPlace, ...] | None:
    """Read "the living room faces south, bedroom is north": all of it, or None."""
    if "?" in text or not _OF_LIGHT.search(_STRETCHED.sub(r"\1", tidy(text).lower())):
        return None
    home = read_home(text, situation)
    is_else = home.town or home.plants or home.lines or home.unplaced or home.named or home.has_nothing
    is_sure = home.is_known and not home.unread
    is_sure = is_sure and all(one.name and one.name.lower() not in _GENERAL_ROOMS for one in home.places)
    if any(one.outdoors is Outdoors.ALL_DAY for one in home.places) and _HALVES & frozenset(
        text.lower().split()
    ):
        return None  # the half of the day was told in words that are not read
    return home.places if home.places and is_sure and not is_else else None


_OF_LIGHT = re.compile(
    "sun|shad|window|outdoor|outside|open air|lamp|light|bulb|north|south|east|west"
    rf"|(?<!')(?<![^\W\d_])(?:[ns]?[ew]|{'|'.join(_WAYS)})(?![^\W\d_])"
)
"""Without any of these nothing is told of a place's light."""
_OPENING = re.compile(r"(?:(?:add|new) (?:a |an )?(?:place|room)|place) *:? *", re.IGNORECASE)
_TOLD_OF_IT = re.compile(r",| (?:is|has|gets|faces|facing|looks)\b")
_UNKNOWN = re.compile(
    r"\b(?:not sure|do ?n.t know|do not know|no idea|dunno|no clue|can ?n.t tell|unknown|unsure)\b"
)
_MOST_UNREAD = 2
"""So many words that were not read may stand in an answer about one window. Judgement. [1]"""


def read_place(text: str, situation: Situation) -> SetPlace | None:
    """Read "add place cellar, grow light from 8 to 20": whatever is named so is a place."""
    opening = _OPENING.match(tidy(text))
    if opening is None or "\n" in text or "?" in text:
        return None
    named = tidy(text)[opening.end() :]
    name = _TOLD_OF_IT.split(named, maxsplit=1)[0].strip(" :,.")
    told = read_places(f"hall{named[len(name) :]}", situation) if 0 < len(name) <= _LONGEST_NAME else None
    if told is None or len(told) != 1:
        return None
    known = _set_place(name, (), situation)
    return replace(told[0], name=known.name, place_id=known.place_id)


def facets_in(words: tuple[str, ...]) -> tuple[Facing | None, Outdoors | None] | None:
    """Find which way a place looks, or its sun outdoors, among other words; the last told counts."""
    if _UNKNOWN.search(" ".join(words)):
        return Facing.UNKNOWN, None
    said = " ".join(words)
    points = re.findall(r"\b(north|south)?[- ]*(east|west)\b|\b(north|south)", said)
    points += re.findall(r"\b(n|s)?(e|w)\b|\b(n|s)\b", said) if not points else []
    if points and points[-1]:
        return _FACINGS[tuple(_WAYS[one] for one in points[-1] if one)], None
    told = [one[0] for at in range(len(words)) if (one := _sun_at(words, at)) is not None]
    outdoors = [one for one in told if isinstance(one, Outdoors) and one is not Outdoors.ALL_DAY]
    outdoors += [half for half in (Outdoors.MORNING, Outdoors.AFTERNOON) if half.value in words]
    outdoors += [Outdoors.AFTERNOON] if "evening" in words else []
    if outdoors or Outdoors.ALL_DAY in told or "sun" in words:
        return None, [Outdoors.ALL_DAY, *outdoors][-1]
    return (Facing.NONE, None) if told else None


def read_facets(text: str, situation: Situation) -> SetPlace | None:
    """Read "west", "it faces kinda north east" or "no idea" in answer to which way a window looks."""
    home = read_home(text, situation)
    if _UNKNOWN.search(plain(text)) and not home.places:
        return SetPlace(name="", facing=Facing.UNKNOWN)
    is_else = home.town or home.plants or home.lines or home.unplaced or home.named
    is_alone = len(home.places) == 1 and not home.places[0].name
    if not is_alone or is_else or len(home.unread) > _MOST_UNREAD:
        return None
    told = home.places[0]
    sun = facets_in(words_of(plain(text))) if told.outdoors is Outdoors.ALL_DAY else None
    return told if sun is None else replace(told, outdoors=sun[1] or told.outdoors)


_MOVED = listed("moved move took carried shifted relocated brought")
_LONGEST_MOVE = 200
_TO_A_PLACE = listed("to into onto")
_THEM = listed("it they them these those both")
_APART = listed("apart alone isolated separated quarantined")
_OF_A_MOVE = (Word.MOVE, Word.PUT, Word.ISOLATE, Word.AWAY)
_OF_SOMETHING_ELSE = frozenset({"pest", "product", "plant", "town"})


def read_standing(text: str, situation: Situation) -> tuple[Isolate | MovePlant | SetPlace, ...] | None:
    """Read where plants of the home are said to stand, in a room that is known or new."""
    return read_move(text, situation, is_new=False)


def read_move(
    text: str, situation: Situation, *, is_new: bool = True
) -> tuple[Isolate | MovePlant | SetPlace, ...] | None:
    """Read plants of the home that were taken to, or now stand in, a room which is new: it is to be made."""
    words = frozenset(words_of(plain(text[:_LONGEST_MOVE])))
    may_stand = words & _STANDING and (words & _ROOMS or not is_new)
    if len(text) > _LONGEST_MOVE or not (words & _MOVED or may_stand) or words & {"?", "\n", "not"}:
        return None
    typed = frozenset(words_of(_STRETCHED.sub(r"\1", plain(text))))
    if not typed & (_THEM | names_of(situation).begin_plants):
        return None
    raw, spelt, spots, _ = kept(_spots, (text, None, situation.lacks_town), situation)
    events = _events(spots, raw, spelt, situation)
    here = {one.id for one in situation.plants if one.place is not None}
    moved, standing = list[MovePlant](), list[PlantId]()
    for one in events:
        if one.what == "own" and isinstance(one.value, Plants):
            standing += one.value.ids
        elif one.what == "place" and (_TO_A_PLACE | _PREPOSITIONS) & frozenset(
            spelt[max(0, one.start - 2) : one.start]
        ):
            them = tuple(dict.fromkeys(standing)) or (situation.spoken if _THEM & words else ())
            room = " ".join(raw[one.start : one.end])
            known = one.value.id if isinstance(one.value, Place) else None
            moved.append(MovePlant(them, known or PlaceId(0), room="" if known else room))
            standing = []
    if len(moved) == 1 and not moved[0].plants:
        moved, standing = [replace(moved[0], plants=tuple(dict.fromkeys(standing)))], []
    ids = tuple(plant for one in moved for plant in one.plants)
    else_told = any(one.what == "telling" and one.value not in _OF_A_MOVE for one in events)
    is_told = bool(words & _MOVED) or not (else_told or (is_new and set(ids) - here))
    counted = {one.value for one in events if one.what == "count"} - {len(ids)}
    is_else = counted or standing or {one.what for one in events} & _OF_SOMETHING_ELSE
    is_whole = all(one.plants for one in moved) and (not is_new or any(one.room for one in moved))
    if is_else or not (ids and is_told and is_whole):
        return None
    apart: tuple[Isolate, ...] = (Isolate(ids),) if words & _APART else ()
    facets = facets_in(words_of(plain(text))) if any(one.what == "facing" for one in events) else None
    if facets is None:
        return (*apart, *moved)
    if len(moved) > 1 or not moved[0].room:
        return None
    there = SetPlace(name=moved[0].room, facing=facets[0], outdoors=facets[1])
    return (*apart, *moved, there)


def _strangers(home: Home, situation: Situation) -> int:
    """Count the plants whose name is of no kind that is known; two kinds in one name are two."""
    return sum(not _is_of_a_kind(words_of(one.name.lower()), situation.kinds) for one in home.plants)


def _read(text: str, situation: Situation, mends: _Mends | None = None) -> Home:
    raw, words, spots, is_guessed = kept(_spots, (text, mends, situation.lacks_town), situation)
    events = _events(spots, raw, words, situation)
    told = _Telling(situation, raw, words, is_guessed=is_guessed)
    for line in _split(_without_denied(events, told), "line"):
        for sentence in _split(line, "stop"):
            _read_sentence(sentence, told, is_first=sentence is line or sentence[0] is line[0])
    places = tuple(
        _set_place(name, [one for one in looks if not (name in told.indoors and one in _OUTDOORS)], situation)
        for name, looks in told.facets.items()
    )
    return Home(
        told.town,
        tuple(told.plants[:MOST_PLANTS]),
        places,
        tuple(dict.fromkeys(told.lines)),
        told.unplaced,
        tuple(one for one in told.unread if one.strip(" '\"()-:,")),
        told.is_known and not told.is_guessed,
        told.has_kinds,
        told.has_nothing,
        bool(_ILL & frozenset(words)),
        tuple(plant for one in events if isinstance(one.value, Plants) for plant in one.value.ids),
        told.is_led,
        tuple(told.denied),
        told.corrects,
        told.is_guessed,
    )


def _sun_by_the_hour(told: re.Match[str]) -> str:
    """Say "sun from 1 pm" as afternoon sun, "sun until noon" as morning sun; any other hour as it is told."""
    lead, hour, half, alone = (one.lower() for one in told.groups(""))
    if alone:
        return "afternoon sun" if alone == "p" else "morning sun"
    noon = hour in {"noon", "midday"} or int(hour) == _NOON
    is_late = not noon and (half == "pm" or int(hour) > _NOON)
    if lead in {"until", "till", "up to"}:
        return told[0] if is_late else "morning sun"
    return "afternoon sun" if is_late or noon else told[0]


_SUN_HOURS = re.compile(
    r"\bsun (?:(?:\w+ ){0,2}(from|after|since|until|till|up to) (?:about |around )?"
    r"(\d{1,2}|noon|midday)(?::\d\d)? ?(am|pm)?\b|([ap])\.? ?m\b\.?)",
    re.IGNORECASE,
)
_NOON = 12
_SHORT_WINDOW = re.compile(
    r"(?<![\w'’])(north|south|east|west|[ns]?[ew]|[ns])\.? (?:win\b\.?|wind\b\.?|window\b)", re.IGNORECASE
)
"""“W win”, “n window”."""


def _in_full(told: re.Match[str]) -> str:
    way = told[1].lower()
    spelt = (way,) if way in _WAYS else way
    return f"{' '.join(_WAYS[one] for one in spelt)} window"


_STRETCHED = re.compile(r"([^\W\d_])\1{2,}")


def _tokens(text: str) -> tuple[list[str], tuple[str, ...]]:
    """Give the words as typed and as they are looked up, in step."""
    headed = _SETTLED.sub("live", _HEADING.sub(r"\1\2:", _ARROW.sub(": ", tidy(text))))
    bare = _SUN_HOURS.sub(
        _sun_by_the_hour, _WITH.sub("with ", _ENUMERATED.sub(", ", _BULLET.sub("", headed)))
    )
    bare = _SIGNED.sub("", _SHORT_WINDOW.sub(_in_full, _UNHYPHENED.sub(" ", bare)))
    raw: list[str] = []
    words: list[str] = []
    for typed in _RAW.findall(bare):
        is_one = typed == "\n" or "-" in typed[1:]
        spelt = (typed.lower(),) if is_one else words_of(_STRETCHED.sub(r"\1", typed.lower())) or ("",)
        if typed.lower() == "w" and words and words[-1] in _ROOMS:
            spelt = ("w",)  # a window's way, not "with"
        if typed.lower() == "win" and words and words[-1] in _ROOMS:
            spelt = ("window",)
        if words[-1:] == ["an"] and typed.lower() in _ARTICLES:
            words[-1] = "and"  # "the fern an the ivy"
        is_quote = typed in {"'", '"'}
        words += ["'"] if is_quote else spelt
        raw += [typed] if is_quote or len(spelt) == 1 else spelt
    return raw, tuple(words)


def _slips(words: tuple[str, ...], mends: _Mends, situation: Situation) -> dict[str, str]:
    """Give what misspelt and shortened words are most likely meant for."""
    anything, of_kinds = mends
    known = _vocabulary(situation.kinds, situation.ingredients, situation.pests)
    listed_too = (known, _IDLE, common_words(), _OF_A_WINDOW)
    strange = {one for one in words if one.isalpha() and not any(one in some for some in listed_too)}
    strange = {one for one in strange if phrase_at((one,), 0) is None and number_at((one,), 0) is None}
    near = (
        (one, _set_apart(one, known) or slip_of(one, known)) for one in strange if len(one) >= _SHORTEST_OWN
    )
    kinds = _words_of_kinds(situation.kinds)
    return {
        one: meant
        for one, meant in near
        if meant is not None
        and (
            one in anything
            or " " in meant
            or (({one, singular(one)} & of_kinds) and singular(meant) in kinds)
        )
        and not find_towns(one)
    }


def _set_apart(word: str, known: frozenset[str]) -> str | None:
    """Set two words apart that were typed as one: "livein", "thebreakfast", "onlya"."""
    for at in range(1, len(word)):
        first, second = word[:at], word[at:]
        is_led = (
            first in _GLUED and (second in known or second in common_words()) and len(second) >= _SHORTEST_OWN
        )
        if is_led or (second in _GLUED and first in known | common_words() and len(first) >= _SHORTEST_OWN):
            return f"{first} {second}"
    return None


_GLUED = listed("a the my in on is has have and with")


@lru_cache(maxsize=2)
def _vocabulary(kinds: frozenset[str], ingredients: _Listed, pests: _Listed) -> frozenset[str]:
    named = words_in((*kinds, *(name for _, names in (*ingredients, *pests) for name in names)))
    said = words_in(name for one in _LIVES | _NOTHING for name in one) | frozenset(_WAYS) | _OF_THE_SUN
    several = frozenset(f"{one}s" for one in named if not one.endswith("s"))
    return named | several | said | _ROOMS | _AROUND | _LOOKS | _HEADS | _SORTS | _COURTESIES


def _split(events: Sequence[_Event], what: str) -> Iterator[list[_Event]]:
    part: list[_Event] = []
    for one in events:
        if one.what == what:
            if part:
                yield part
            part = []
        else:
            part.append(one)
    if part:
        yield part


_Spots = tuple[list[str], tuple[str, ...], tuple[_Event, ...], bool]
"""Words as typed, as they are looked up, what each run of them stands for, and whether a slip was mended."""


def _spots(what: tuple[str, _Mends | None, bool], situation: Situation) -> _Spots:
    """Look at every word once: of a text, with its slips mended or not, while the town is lacking or not."""
    text, mends, lacks_town = what
    raw, words = _tokens(text)
    slips = _slips(words, mends, situation) if mends is not None else {}
    if slips:
        meant = [slips.get(word, typed) for word, typed in zip(words, raw, strict=True)]
        raw = [part for one in meant for part in (one.split(" ") if " " in one else [one])]
        words = tuple(part for word in words for part in slips.get(word, word).split(" "))
    elif mends is not None:
        return kept(_spots, (text, None, lacks_town), situation)
    events: list[_Event] = []
    at = 0
    while at < len(words):
        kind, value, size = _spotted(raw, words, at, situation)
        events.append(_Event(kind, value, at, at + size))
        at += size
    return raw, words, tuple(_without_asides(events, words)), bool(slips)


def _without_asides(events: list[_Event], words: tuple[str, ...]) -> list[_Event]:
    """Leave out "(I think that is what it is called)": brackets around talk that names nothing listed."""
    for at, one in enumerate(events):
        if words[one.start] not in {"(", "["}:
            continue
        end = next((n for n in range(at + 1, len(events)) if words[events[n].start] in {")", "]"}), at)
        inner = events[at + 1 : end]
        is_talk = any(each.what in {"around", "common", "telling"} for each in inner)
        if is_talk and all(each.what in _TALK for each in inner):
            return _without_asides([*events[:at], *events[end + 1 :]], words)
    return events


_TALK = frozenset({"around", "common", "telling", "strange", "looks", "again", "comma", "and"})


def _events(
    spots: Iterable[_Event], raw: list[str], words: tuple[str, ...], situation: Situation
) -> list[_Event]:
    events = _with_nested(_with_rooms(list(spots), words), words)
    events = _with_town(events, raw, words, situation)
    events = _with_strange_places(events, raw, words, situation)
    return _with_plants(events, words, situation)


_FIRST = sayings(
    "lit | nothing | own | place | facing | kind | product | pest | volume | every | bugs | room"
)
"""Of two readings of one length the first of these counts."""


def _spotted(
    raw: list[str], words: tuple[str, ...], at: int, situation: Situation
) -> tuple[str, object, int]:
    """Tell what begins at a word and how many words it takes; the longest reading wins."""
    mark = _mark(words[at])
    if mark and (words[at] != "n" or _sun_at(words, at) is None):
        return mark, None, 1
    town = _town_led_in(raw, words, at, situation)
    if town is not None:
        return town
    found = list(_readings(words, at, situation))
    if found:
        return max(found, key=lambda one: (one[2], -_FIRST.index(one[0])))
    what, value, size = _of_the_lexicon(words, at)
    is_named = what == "common" and raw[at][:1].isupper() and at > 0 and not _mark(words[at - 1])
    is_ones = (
        size == 1 and raw[at].lower().endswith("'s") and words[at].isalpha() and words[at] not in _AROUND
    )
    return ("strange" if is_named or is_ones else what), value, size


def _readings(words: tuple[str, ...], at: int, situation: Situation) -> Iterator[tuple[str, object, int]]:
    """Give what a run of words that begins here may stand for."""
    named = names_of(situation).exact_at(words, at)
    if named is not None:
        what = {Plants: "own", OneOf: "own", Place: "place", Product: "product", Pest: "pest"}[type(named[0])]
        yield what, *named
    size = kind_at(words, at, situation.kinds)
    if size:
        yield "kind", None, size
    lit = lamp_at(words, at)
    if lit is not None:
        yield "lit", *lit
    sun = _sun_at(words, at) or _lamp_at(words, at)
    if sun is not None:
        yield "facing", *sun
    yield from (("nothing", None, size) for size in range(1, 6) if words[at : at + size] in _NOTHING)
    is_verb = words[at] == "living" and words[max(0, at - 1) : at] in {("are",), ("is",), ("am",), ("been",)}
    is_named = words[at] == "thing" and at > 0 and _of_the_lexicon(words, at - 1)[0] == "strange"
    yield from (
        (what, None, 1) for what, named in _LISTED if words[at] in named and not (is_verb or is_named)
    )
    yield from (("room", None, 2) for _ in range(words[at : at + 2] in _OF_TWO_WORDS))
    measured = measure_at(words, at, situation.units)
    if measured is None and (repeated := every_at(words, at)) is not None:
        yield "every", *repeated
    elif measured is not None and isinstance(measured[0], Volume | UnclearVolume):
        yield "volume", *measured


def _mark(word: str) -> str:
    if word == "\n":
        return "line"
    if word in _STOPS:
        return "stop"
    if word in {"and", "&", "+", "plus", "n"}:
        return "and"
    return "comma" if word in {",", "|", "-", "/"} else "colon" if word == ":" else ""


def _of_the_lexicon(words: tuple[str, ...], at: int) -> tuple[str, object, int]:
    word = words[at]
    number = number_at(words, at)
    if number is not None and word not in {"a", "an", "one"}:
        return "count", int(number[0]), number[1]
    dozen = words[at + (word in _ARTICLES) : at + 2]
    if dozen and dozen[0] in _NUMBERED:
        return "count", _NUMBERED[dozen[0]], 1 + (word in _ARTICLES)
    phrase = phrase_at(words, at)
    if phrase is not None and isinstance(phrase[0], Grade | Form):
        return ("grade" if isinstance(phrase[0], Grade) else "form"), phrase[0], phrase[1]
    if phrase is not None and phrase[0] in {Word.NOT, Word.NOTHING, Word.NONE, Word.AGAINST}:
        return "telling", phrase[0], phrase[1]
    before, behind = words[max(0, at - 1) : at], words[at + 1 : at + 2]
    is_there = word == "there" and not (_GREETED & frozenset(before) or _EXISTS & frozenset(behind))
    is_there = is_there or (word in {"it", "them"} and bool(_NEXT_TO & frozenset(before)))
    if word == "same" or is_there:
        return "again", None, 1
    if word in _LOOKS:
        return "looks", None, 1
    is_around = word in _PASSED or not word.strip(" '\"()[]~*…")
    if is_around or (phrase is not None and (phrase[0] is Word.FILLER or isinstance(phrase[0], Spot))):
        size = 1 if is_around or phrase is None else phrase[1]
        return "around", word, size
    if phrase is not None:
        return "telling", phrase[0], phrase[1]
    if word in _IDLE or not any(letter.isalpha() for letter in word):
        return "around", word, 1
    return ("common" if word in common_words() else "strange"), word, 1


def _sun_at(words: tuple[str, ...], at: int) -> tuple[Facing | Outdoors, int] | None:
    for size in range(min(_LONGEST_SUN, len(words) - at), 0, -1):
        told = _SUN_WORDS.get(words[at : at + size])
        if told is not None:
            return told, size
    word = words[at]
    for way in ("north", "south"):
        rest = word.removeprefix(way)
        if word != rest and rest.removesuffix("ern").removesuffix("erly") in {"east", "west"}:
            return _FACINGS[way, rest[:4]], 1
    first = _WAYS.get(word)
    ends = _ENDS_OF_A_WAY.issuperset(words[at + 1 : at + 2])
    is_led = at > 0 and (words[at - 1] in _ROOMS or words[at - 1] in {"faces", "facing", "(", ":"})
    is_led = is_led or words[at + 1 : at + 2] == ("window",)
    is_last = words[at + 1 : at + 2] in {(), (".",), ("\n",), (")",), (";",)}
    is_led = is_led or (at > 1 and words[at + 1 : at + 2] == (":",) and words[at - 1].isalpha())
    is_led = is_led or (at > 0 and words[at - 1] in {",", "-", "/"} and is_last)
    if word in _TWO_LETTERS and ends and is_led:
        return _TWO_LETTERS[word], 1
    if first is None or (word in _LONE_LETTERS and not (ends and is_led)):
        return None
    second = _WAYS.get(words[at + 1]) if at + 1 < len(words) else None
    both = None if second is None else _FACINGS.get((first, second))
    return (both, 2) if both is not None else (_FACINGS[first,], 1)


_ENDS_OF_A_WAY = frozenset({",", ".", ":", "\n", ")", "and", ";", "window"})


def _lamp_at(words: tuple[str, ...], at: int) -> tuple[str, int] | None:
    """Find a lamp that is all the light there is: "lamp only", "just a sad little lamp"."""
    size = 2 if words[at : at + 2] in {("grow", "light"), ("grow", "lights"), ("grow", "lamp")} else 1
    if size == 1 and words[at] not in _LAMPS:
        return None
    near = (*words[max(0, at - 4) : at], *words[at + size : at + size + 1])
    last = max((n for n, word in enumerate(near) if word in {",", ".", "\n", ":", ";"}), default=-1)
    return (_LAMP, size) if _ONLY & frozenset(near[last + 1 if last < len(near) - 1 else 0 :]) else None


_LAMP = "lamp"
"""No window, where none is told."""


@lru_cache(maxsize=4)
def _kinds_begun(kinds: frozenset[str]) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Give the words of the kinds by the first of them."""
    named = [tuple(kind.split()) for kind in kinds]
    owned = (tuple(word.removesuffix("s") for word in words[:-1]) + words[-1:] for words in named)
    begun: dict[str, tuple[tuple[str, ...], ...]] = {}
    for words in dict.fromkeys((*named, *owned)):  # "burro's tail" is looked up as "burro tail"
        begun[words[0]] = (*begun.get(words[0], ()), words)
    return begun


def kind_at(words: tuple[str, ...], at: int, kinds: frozenset[str]) -> int:
    """Count the words of the longest kind of plant that begins here."""
    begun = _kinds_begun(kinds)
    known = begun.get(words[at], ()) + begun.get(singular(words[at]), ())
    for size in range(min(_LONGEST_KIND, len(words) - at) if known else 0, 0, -1):
        run = words[at : at + size]
        if run in known or (*run[:-1], singular(run[-1])) in known:
            # what two kinds share is of one plant: "chinese elm" and "elm bonsai"
            return max([size, *(n + kind_at(words, at + n, kinds) for n in range(1, size))])
    return 0


@lru_cache(maxsize=4)
def _words_of_kinds(kinds: frozenset[str]) -> frozenset[str]:
    return words_in(kinds)


def holds_a_kind(words: Iterable[str], kinds: frozenset[str]) -> bool:
    """Whether any word may be of a kind of plant."""
    known = _words_of_kinds(kinds)
    return any(word in known or singular(word) in known for word in words)


@lru_cache(maxsize=4096)
def singular(name: str) -> str:
    """Give one of several: "two hoyas" are "hoya" 1 and 2."""
    head, _, last = name.rpartition(" ")
    low = last.lower()
    if low.endswith("ies") and len(low) > len("pies"):
        last = f"{last[:-3]}y"
    elif low == "cacti":
        last = "cactus"
    elif low.endswith(("ses", "xes", "shes", "oes")):
        last = last[:-2]
    elif low.endswith("s") and not low.endswith(("ss", "us", "is", "pearls", "hearts")):
        last = last[:-1]
    return f"{head} {last}" if head else last


def _lead_at(words: tuple[str, ...], at: int) -> int:
    """Count the words that lead to a town here: "i live in"."""
    if words[at] not in _LEADING:
        return 0
    return max((len(one) for one in _LIVES if words[at : at + len(one)] == one), default=0)


def _town_led_in(
    raw: list[str], words: tuple[str, ...], at: int, situation: Situation
) -> tuple[str, object, int] | None:
    """Find a town behind what leads to one: "I live in Ghent"."""
    lead = _lead_at(words, at)
    if not lead:
        return None
    start = at + lead
    is_giver = not situation.lacks_town or raw[start : start + 1] == [] or raw[start][:1].islower()
    if words[at:start] == ("from",) and is_giver:
        return None
    if words[start : start + 1] == ("the",):
        start += 1
        if not raw[start : start + 1] or not (
            raw[start][:1].isupper() or words[start] in {"city", "town", "village"}
        ):
            return None  # "it lives in the walk-in"
    start += 2 * (words[start : start + 2] in {("city", "of"), ("town", "of"), ("village", "of")})
    town = _longest_town(raw, start)
    rest = words[start : start + 2]
    if town is None and len(rest) and rest[0].isalpha() and (len(rest) == 1 or _mark(rest[1])):
        is_strange = situation.lacks_town and _of_the_lexicon(words, start)[0] == "strange"
        return ("town", raw[start], start + 1 - at) if is_strange else None
    if town is None:
        return None
    is_room = words[start] in _ROOMS and not raw[start][:1].isupper()
    is_plant = bool(kind_at(words, start, situation.kinds)) and not raw[start][:1].isupper()
    return None if is_room or is_plant else ("town", town[0], start + town[1] - at)


def _longest_town(raw: Sequence[str], start: int) -> tuple[str, int] | None:
    """Give the longest run of words that names a town, with what narrows it behind a comma."""
    end = start
    while end < len(raw) and end - start < _MOST_OF_A_NAME and raw[end][:1].isalpha():
        end += 1
    for stop in range(end, start, -1):
        name = " ".join(raw[start:stop])
        is_short = len(raw[stop - 1]) < 3 and raw[stop - 1].islower()  # noqa: PLR2004 - "portland me"
        if is_short or len(name) < 3 or not find_towns(name):  # noqa: PLR2004
            continue
        for more in (2, 1):
            behind = raw[stop + 1 : stop + 1 + more]
            narrowed = f"{name}, {' '.join(behind)}"
            is_told = len(behind) == more and all(part.isalpha() for part in behind)
            if raw[stop : stop + 1] == [","] and is_told and find_towns(narrowed):
                return narrowed, stop + 1 + more - start
        return name, stop - start
    return None


def _joined(events: list[_Event], first: int, last: int, what: str, value: object) -> list[_Event]:
    run = _Event(what, value, events[first].start, events[last].end)
    return [*events[:first], run, *events[last + 1 :]]


def _with_rooms(events: list[_Event], words: tuple[str, ...]) -> list[_Event]:
    """Put the words of a room together: "front room", "kitchen window sill", "rack 1"."""
    at = 0
    is_german = bool(_GERMAN & frozenset(words))
    while at < len(events):
        if events[at].what != "room" or (is_german and words[events[at].start] == "den"):
            at += 1
            continue
        last = at
        while last + 1 < len(events) and events[last + 1].what == "room":
            last += 1
        if last + 1 < len(events) and _is_a_mark(words[events[last + 1].start]):
            follows = events[last + 2].what if last + 2 < len(events) else "stop"
            is_letter = words[events[last + 1].start].isalpha()
            last += follows in _SEPARATING | {"facing"} or not (is_letter or follows in _NO_END)
        first = at
        spelt = words[events[at].start : events[last].end]
        is_told = any(one.what == "place" and words[one.start : one.end] == spelt for one in events[:at])
        while first and _is_sort(events[first - 1], words, is_told=is_told) and at - first < _MOST_STRANGE:
            first -= 1
        is_of_a_kind = (
            first == at and first > 0 and events[at - 1].what == "kind" and words[events[at].start] == "room"
        )
        first -= is_of_a_kind  # "the orchid room"
        first -= first == at and first > 0 and _is_of_its_name(events, first - 1, words)
        last += _is_headless(events, last, words)
        first -= (
            first == at and first > 0 and events[at - 1].what == "place"
        )  # the sill of a kitchen known already
        run = words[events[first].start : events[last].end]
        led = [words[one.start] for one in events[max(0, first - 2) : first]]
        is_led = len(led) > 1 and led[0] in _PREPOSITIONS and led[1] in _ARTICLES
        what = "around" if all(word in _GENERAL_ROOMS for word in run) and not is_led else "place"
        is_strange = not led[-1:] or led[-1] not in _PREPOSITIONS | _ARTICLES
        is_odd = is_strange and any(
            one.what in {"strange", "common"} and words[one.start] not in _SORTS for one in events[first:at]
        )
        way = events[first - 1] if first and what == "place" else None
        is_named_by_it = way is not None and way.what == "facing" and words[way.start] in _WAYS_IN_FULL
        if way is not None and is_named_by_it and (first == 1 or _begins_a_name(events[first - 2], words)):
            look = _Event("facing", way.value, way.start, way.start)  # "the west balcony"
            events = [*_joined(events, first - 1, last, what, None)[:first], look, *events[last + 1 :]]
            at = first + 1
            continue
        events = _joined(events, first, last, what, "odd" if is_odd else None)
        at = first + 1
    return events


_WAYS_IN_FULL = frozenset(_WAYS.values())


def _is_of_its_name(events: list[_Event], before: int, words: tuple[str, ...]) -> bool:
    """Whether a word that may carry nothing is of a room's name: "still room", "window ledge"."""
    word = words[events[before].start]
    if word == "window":
        return before == 0 or events[before - 1].what != "facing"
    is_room = words[events[before + 1].start] == "room" and events[before].what in {"around", "telling"}
    return is_room and word.isalpha() and word not in _PASSED_BEFORE_ROOM


_PASSED_BEFORE_ROOM = (
    _ARTICLES
    | _PREPOSITIONS
    | listed(
        "one same each every another other own room big bright dark of and to from with for has have is all"
    )
)


def _is_headless(events: list[_Event], last: int, words: tuple[str, ...]) -> bool:
    """Whether a sort of room still wants what it is: "dining area"."""
    behind = events[last + 1].what if last + 1 < len(events) else ""
    return words[events[last].start] in _SORTS and behind in {"strange", "common"}


def _begins_a_name(before: _Event, words: tuple[str, ...]) -> bool:
    return before.what in _SEPARATING or words[before.start] in _ARTICLES


_NO_END = ("kind", "own", "pest", "strange", "looks")


def _is_a_mark(word: str) -> bool:
    """Whether a word may be what shelves are told apart by: "rack 1", "shelf B"."""
    return word.isdigit() or (len(word) == 1 and word.isalpha() and word not in _LONE_LETTERS)


def _with_nested(events: list[_Event], words: tuple[str, ...]) -> list[_Event]:
    """Keep the last room of "the sill in the kitchen" and "the fig from the office, study"."""
    places = [at for at, one in enumerate(events) if one.what == "place"]
    for first, second in pairwise(places):
        between = [words[one.start] for one in events[first + 1 : second]]
        before = [words[one.start] for one in events[max(0, first - 2) : first]]
        if "from" in before:
            events[first] = replace(events[first], what="around")
        if between[:1] in (["in"], ["of"]) and set(between[1:]) <= _ARTICLES:
            events[first] = replace(events[first], what="around")
    return events


def _is_sort(event: _Event, words: tuple[str, ...], *, is_told: bool) -> bool:
    word = words[event.start]
    if is_told and event.what == "strange":
        return False  # a room told before under its own name
    is_word = event.what in {"strange", "common", "looks"} or word in _IDLE - _AROUND - _PREPOSITIONS
    return is_word or word in _SORTS


def _with_plants(events: list[_Event], words: tuple[str, ...], situation: Situation) -> list[_Event]:
    """Put the words of a plant's name together, with how many of it there are."""
    is_seen = any(one.what in {"pest", "bugs"} for one in events)
    is_asked = situation.expecting is Expecting.PLANTS and not is_seen
    at = 0
    while at < len(events):
        if events[at].what not in {"kind", "own"}:
            at += 1
            continue
        first = last = at
        is_own = events[at].what == "own" and not _is_another(events, at, words)
        last += not is_own and _is_one_of_two(events, at, words)
        while not is_own and last + 1 < len(events) and _goes_on(events[last + 1], words, last - at):
            last += 1
        if last + 1 < len(events) and words[events[last + 1].start] == "'":
            last = _closing(events, last + 1, words) or last
        while first and _leads_a_kind(events, first - 1, words, situation) and at - first < _MOST_STRANGE:
            first -= 1
        is_other = is_own and first == at and last == at
        name = (events[first].start, events[last].end)
        numbers, first, last = _numbers(events, first, last, words, is_asked=None if is_own else is_asked)
        value = events[at].value if is_other and not numbers else (name, numbers)
        events = _joined(events, first, last, "own" if is_other and not numbers else "plant", value)
        at = first + 1
    return _with_unknown_plants(events, words, situation)


def _is_one_of_two(events: list[_Event], at: int, words: tuple[str, ...]) -> bool:
    """Whether two kinds are one item of a list of plants that has commas: "ficus bonsai, ivy"."""
    run = _Run(events, at, at + 2, words)
    is_item = run.begins() and run.what(at + 2) in _SEPARATING
    is_listed = is_item and bool({"comma", "and"} & {run.what(run.before()), run.what(at + 2)})
    first, last = (words[one.end - 1] for one in (events[at], events[min(at + 1, len(events) - 1)]))
    is_same = singular(first) == singular(last)  # "ten orchids, orchid 1 to orchid 10"
    return is_listed and not is_same and run.what(at) == run.what(at + 1) == "kind"


def _leads_a_kind(events: list[_Event], at: int, words: tuple[str, ...], situation: Situation) -> bool:
    """Whether a word before a kind is of the name: "my zorbia fern", "leaf" within "heart leaf fern"."""
    is_part = (
        at > 0 and events[at - 1].what == "strange" and words[events[at].start] not in _PASSED_BEFORE_ROOM
    )
    is_part = is_part and words[events[at].start] in _words_of_kinds(situation.kinds)
    return events[at].what in {"looks", "strange"} or (events[at].what == "around" and is_part)


def _is_another(events: list[_Event], at: int, words: tuple[str, ...]) -> bool:
    """Whether a number makes another plant of a known name: "orchid 2, study"."""
    number, behind = (events[n] if n < len(events) else None for n in (at + 1, at + 2))
    is_end = behind is None or behind.what in {"comma", "line", "stop", "place"}
    is_alone = at == 0 or events[at - 1].what in {"line", "stop"}
    if number is None or not (words[number.start].isdigit() and is_end and is_alone):
        return False
    return not any(one.what in {"pest", "bugs"} for one in events)


def _goes_on(event: _Event, words: tuple[str, ...], taken: int) -> bool:
    """Whether a word behind a kind is of the name too: "plant", "kerrii", but no slip for "and"."""
    word, behind = words[event.start], words[event.end : event.end + 1]
    is_head = event.what in {"around", "strange"} and word in _HEADS
    is_own = len(word) >= _SHORTEST_OWN and not (
        behind and behind[0] in _ARTICLES | {"there", "here", "together"}
    )
    return is_head or (event.what == "strange" and taken < _MOST_STRANGE and is_own)


def _closing(events: list[_Event], at: int, words: tuple[str, ...]) -> int | None:
    return next((n for n in range(at + 1, min(at + 5, len(events))) if words[events[n].start] == "'"), None)


def _numbers(
    events: list[_Event], first: int, last: int, words: tuple[str, ...], *, is_asked: bool | None = False
) -> tuple[tuple[int, ...], int, int]:
    """
    Read how many, "two", "x3", "(2x)", "1-12", "3", and where the run of the plant begins and ends.

    Plants may be asked for; None is for a name that is the home's own, and gets no number.
    """
    start = events[last].end
    start += words[start : start + 1] == ("#",)
    told = None if is_asked is None else _numbered(words, start, words[start - 1])
    told = told or _pieces(words, start, is_asked=bool(is_asked))
    ends = {one.end: at for at, one in enumerate(events)}
    if told is not None and start + told[1] in ends:
        return told[0], first, ends[start + told[1]]
    return ((), first, last) if is_asked is None else _counted(events, first, last, words)


_ENDS = frozenset({",", ".", "!", "\n", ";", ":", "and", "&", "+", "(", ")", "|"})
_PIECES = listed("piece pieces pcs pc pots")
_MARKS = listed(", : ( [ = just only")
_TO_OF = listed("them those these")


def _numbered(words: tuple[str, ...], at: int, name: str) -> tuple[tuple[int, ...], int] | None:
    """Read "1-12", "1..18", "1 to AV 18", "3" behind a name, and how many words that took."""
    if not words[at : at + 1] or not words[at].isdigit():
        return None
    first, stop = int(words[at]), at + 1
    while (
        words[stop : stop + 1] and (words[stop] in _TO or words[stop] == ".") and stop < at + _MOST_OF_A_NAME
    ):
        stop += 1
    is_range = stop > at + 1
    stop += is_range and words[stop : stop + 1] == (name,)
    if is_range and words[stop : stop + 1] and words[stop].isdigit():
        last = int(words[stop])
        return (tuple(range(first, last + 1)), stop + 1 - at) if 0 < last - first < _MOST_OF_A_KIND else None
    behind = words[at + 1 : at + 2]
    is_end = not behind or behind[0] in _ENDS | {"-", "/", "plus", "n"} or behind[0] in _PREPOSITIONS | _ROOMS
    is_wide = behind == ("in",) and (words[at + 2 : at + 3] == () or words[at + 2] in _ENDS)  # inches
    is_end = is_end and not is_wide
    return ((first,), 1) if is_end else None


def _pieces(words: tuple[str, ...], start: int, *, is_asked: bool) -> tuple[tuple[int, ...], int] | None:
    """Read how many behind a name: "x3", "(2x)", "clivia, 3 of them"; "begonia, one" if asked."""
    at = start
    while words[at : at + 1] and words[at] in _MARKS and at < start + 2:
        at += 1
    marks = frozenset(words[start:at])
    at += words[at : at + 1] == ("x",)
    number = number_at(words, at)
    if number is None or number[0] != int(number[0]) or not 0 < number[0] <= _MOST_OF_A_KIND:
        return None
    times = words[at - 1 : at] == ("x",) and at > start
    at += number[1]
    told = at
    is_alone = words[at + 1 : at + 2] == () or words[at + 1] in _ENDS | {"]"}
    at += words[at : at + 1] == ("x",) and is_alone
    at += bool(words[at : at + 1]) and words[at] in _PIECES
    at += 2 * (words[at : at + 1] == ("of",) and bool(_TO_OF & frozenset(words[at + 1 : at + 2])))
    is_told = times or at > told or bool(marks & {"(", "[", "just", "only"}) or (is_asked and bool(marks))
    at += bool(marks & {"(", "["}) and words[at : at + 1] in {(")",), ("]",)}
    is_end = times or words[at : at + 1] == () or words[at] in _ENDS
    count = int(number[0])
    return (tuple(range(1, count + 1)) if count > 1 else (), at - start) if is_told and is_end else None


def _counted(
    events: list[_Event], first: int, last: int, words: tuple[str, ...]
) -> tuple[tuple[int, ...], int, int]:
    """Read how many in front of a name: "two", "12", "2 x"."""
    start = first
    if start > 1 and words[events[start - 1].start] == "x" and events[start - 2].what == "count":
        start -= 1
    before = events[start - 1] if start else None
    if before is None or before.what != "count" or not isinstance(before.value, int):
        return (), first, last
    if start > 1 and words[events[start - 2].start] in {"number", "no", "nr", "#"}:
        return (before.value,), start - 2, last
    if 1 < before.value <= _MOST_OF_A_KIND:
        return tuple(range(1, before.value + 1)), start - 1, last
    return (), start - 1 if before.value == 1 else first, last


_SIGNS = frozenset(
    word for key in classes_of("seen") if key.startswith("look") for word in words_of_class("seen", key)
)
_LITTLE = listed(
    "baby babies kid kids child children toddler boy girl son daughter nephew niece grandson granddaughter he"
    " she him her cat cats dog dogs kitten puppy rabbit bunny hamster bird parrot pet pets hurt pain eye eyes"
)
_OF_A_WINDOW = words_of_class("home", "of-a-window")
_NO_PLACES = _SHOPS | words_of_class("home", "no-place")
_NO_NAMES = _SIGNS | _LITTLE | _OF_A_WINDOW | listed("window windows glass")
_LAST_OF_A_NAME = listed("leaf grass flower lily cress vine tree bush")
_STANDING = listed(
    "put puts is are stands stand standing lives live living sits sit sitting was were hangs goes kept stay"
)
_HOLDING = listed("has have having got holds houses contains hosts with")
_OWNING = listed("have got own keep having there bought had grow forgot")
_BESIDE = listed("to beside near")
_A_PLANT = frozenset({"plant", "own", "kind"})
_SEEN = frozenset({"pest", "bugs"})
_LIT = frozenset({"facing", "lit"})
_LOOKING = listed(
    "is looks look faces face facing window windows has with a the its it which that to have also only got"
)
_ILL_WITH = listed(
    "full of covered in with by all over crawling infested some many few lots about really very so"
)
_PLANT = ("is", "a", "plant")
_LINES = frozenset({"line", "stop"})


@dataclass(frozen=True, slots=True)
class _Run:
    """A run of words that nobody listed, among the events of its message: what stands around it."""

    events: list[_Event]
    start: int
    end: int
    words: tuple[str, ...]

    def word(self, at: int) -> str:
        return self.words[self.events[at].start] if 0 <= at < len(self.events) else ""

    def what(self, at: int) -> str:
        return self.events[at].what if 0 <= at < len(self.events) else "line"

    def before(self) -> int:
        """Give the last event before the run, past articles, brackets and a number."""
        at = self.start - 1
        while at >= 0 and (self.word(at) in _ARTICLES | {"x"} or self.what(at) == "count"):
            at -= 1
        return at

    def is_led(self) -> bool:
        """Whether an article or a number stands before it."""
        return self.before() < self.start - 1

    def bounds(self) -> tuple[int, int]:
        """Give where its sentence begins and ends."""
        first = next((n + 1 for n in range(self.start - 1, -1, -1) if self.what(n) in _LINES), 0)
        ends = (n for n in range(self.end, len(self.events)) if self.what(n) in _LINES)
        return first, next(ends, len(self.events))

    def sentence(self) -> list[_Event]:
        first, last = self.bounds()
        return [*self.events[first : self.start], *self.events[self.end : last]]

    def begins(self) -> bool:
        """Whether it begins an item."""
        return self.what(self.before()) in _SEPARATING or self.word(self.before()) == "("

    def is_introduced(self) -> bool:
        """Whether it begins an item, or what only leads to one stands before it."""
        word = self.word(self.before())
        is_leading = self.what(self.before()) == "around" and word not in _PREPOSITIONS | _PERSONS
        return self.begins() or is_leading

    def ends(self) -> bool:
        """Whether an item of a list ends behind it."""
        is_end = self.what(self.end) in _SEPARATING | {"place", "count"} | _LIT
        return is_end or self.word(self.end) in _CLOSING | _BESIDES

    def past(self, at: int, passed: frozenset[str], what: frozenset[str] = frozenset()) -> int:
        """Give the first event from one on that is none of some words and kinds."""
        while at < len(self.events) and (self.word(at) in passed or self.what(at) in what):
            at += 1
        return at

    def leads_to(self, found: frozenset[str], among: frozenset[str]) -> bool:
        """Whether behind it, past what only leads there, one of some things stands."""
        at = self.past(self.end, among | _ARTICLES, frozenset({"count", "looks"}))
        return at > self.end and self.what(at) in found

    def open_place(self) -> bool:
        """Whether a place stands before it in its sentence whose window is still to be told."""
        first, _ = self.bounds()
        told = [self.what(n) for n in range(first, self.start) if self.what(n) in {"place"} | _LIT]
        return told[-1:] == ["place"]


def _may_name(run: _Run, at: int, *, is_weak: bool) -> bool:
    """Whether a word may be one of a name: a strange one, "plant" or "of" within it, any where it is led."""
    what, word = run.what(at), run.word(at)
    if what in {"strange", "looks"}:
        return True
    if at > run.start and (word in _HEADS | _LAST_OF_A_NAME or (what != "looks" and word == "of")):
        return word != "of" or run.what(at + 1) in {"strange", "common"}
    if word in _SORTS and at + 1 < len(run.events) and run.what(at + 1) in {"strange", "common"}:
        return True
    is_word = what == "common" or (what == "telling" and run.events[at].value not in _DENYING)
    return is_word and (is_weak or (at > run.start and run.word(at - 1) in _SORTS))


_DENYING = frozenset({Word.NOT, Word.NOTHING, Word.NONE})


def _run_at(events: list[_Event], at: int, words: tuple[str, ...], *, is_weak: bool) -> _Run:
    """Give the run of words that begins there and may be a name, four at most; an empty one is none."""
    run = _Run(events, at, at, words)
    end = at
    while end < len(events) and end - at < _MOST_OF_A_NAME and _may_name(run, end, is_weak=is_weak):
        end += 1
    while end > at and (
        words[events[end - 1].start] == "of"
        or (end - at > 1 and run.what(end - 1) == "common" and _is_verb(run, end))
    ):
        end -= 1
    return _Run(events, at, end, words)


def _is_verb(run: _Run, end: int) -> bool:
    """Whether what stands behind says that the word before it is no noun: "likes the", "needs water"."""
    return not (run.what(end) in _SEPARATING | {"place", "count"} | _LIT | _SEEN or run.word(end) in _CLOSING)


_PERSONS = listed("i we you he she they")
_BESIDES = listed("also too then which that all both x together")
_CLOSING = _PERSONS | _PREPOSITIONS | _STANDING | _HOLDING | _LOOKING | {"(", ")"}


def _with_strange_places(
    events: list[_Event], raw: list[str], words: tuple[str, ...], situation: Situation
) -> list[_Event]:
    """Take words nobody listed for a place where one stands: "in the snell", "snell: fern", "snell, west"."""
    at = 0
    while at < len(events):
        is_asked = at == 0 and situation.expecting is Expecting.WHERE
        start = _Run(events, 0, 0, words).past(at, _PREPOSITIONS | _ARTICLES) if is_asked else at
        before = _Run(events, start, start, words)
        is_item = before.begins() or before.word(before.before()) in _PREPOSITIONS
        run = _run_at(events, start, words, is_weak=is_item or is_asked)
        is_way = is_item and before.what(start) == "facing" and before.word(start) in _WAYS_IN_FULL
        if is_way:  # "the south wing"
            rest = _run_at(events, start + 1, words, is_weak=False)
            run = _Run(events, start, rest.end, words) if rest.end > start + 1 else run
        if is_item and (before.word(start) in _OF_A_PLACE or before.what(start) == "kind"):
            run = _odd_place(before) or run
        if run.end > start > 0 and before.what(start - 1) == "place":
            run = _Run(events, start - 1, run.end, words)  # "shelf alpha"
        place = _as_place(run, raw, is_asked=is_asked) if run.end > run.start else None
        if place is not None:
            look = [_Event("facing", events[start].value, events[start].start, events[start].start)]
            events = _joined(events, run.start, run.end - 1, "place", place)
            events[run.start + 1 : run.start + 1] = look if is_way else []
            at = start
        at += 1
    return events


_OF_A_PLACE = _IDLE - _PASSED
"""What carries nothing by itself, but may begin a place's name: "the cold frame"."""


def _odd_place(before: _Run) -> _Run | None:
    """Give the words of a place whose first means something by itself: "the cold frame", "in the bay"."""
    at, word = before.start, before.word(before.start)
    if before.what(at) != "kind":
        rest = _run_at(before.events, at + 1, before.words, is_weak=False)
        is_adverb = word.endswith("ly") or before.what(at) == "telling"
        return None if is_adverb or rest.end == at + 1 else _Run(before.events, at, rest.end, before.words)
    one = before.events[at]
    if word not in _SORTS or one.end > one.start + 1:
        return None
    events = [*before.events[:at], replace(one, what="strange"), *before.events[at + 1 :]]
    return _Run(events, at, at + 1, before.words)


def _as_place(run: _Run, raw: list[str], *, is_asked: bool) -> str | None:
    """Tell whether a place's name stands there, and whether "in" leads it; None where none does."""
    spelt = [run.word(at) for at in range(run.start, run.end)]
    is_strange = any(run.what(at) == "strange" for at in range(run.start, run.end))
    if all(word in _LOOKS for word in spelt):
        return None
    if frozenset(spelt) & _NO_PLACES or any(
        word not in _WINDOW and slip_of(word, _WINDOW) for word in spelt if len(word) > _SHORTEST_OWN
    ):
        return None
    if is_asked and run.start == 0 and all(len(word) <= _SHORTEST_OWN for word in spelt):
        return None  # "wyh"
    before = run.before()
    is_capital = raw[run.events[run.start].start][:1].isupper()
    if run.word(before) in _PREPOSITIONS and run.word(before - 1) != "i":
        return "led" if _is_led_place(run, is_strange=is_strange, is_capital=is_capital) else None
    is_told = is_strange or any(one.what in _A_PLANT | _LIT for one in run.sentence())
    if run.what(run.start) == "place":
        return "odd" if _is_second_field(run, is_placed=True) else None
    if not is_told:
        return None
    return "odd" if _is_place_by_itself(run, is_strange=is_strange, is_asked=is_asked) else None


def _is_led_place(run: _Run, *, is_strange: bool, is_capital: bool) -> bool:
    """Whether a place stands behind "in", "on the", "at"."""
    before = run.before()
    others = [one.what for one in run.sentence() if one.what in _A_PLANT | _SEEN | _LIT]
    if (
        _SEEN & frozenset(others)
        and run.word(before) in {"on", "auf", "sur"}
        and not _A_PLANT & frozenset(others)
    ):
        return _is_told_before(run)
    if run.word(run.start - 1) in {"a", "an"}:
        return run.what(run.end) in _LIT | {"colon"}  # "on a diet"
    if not is_strange:
        return run.is_led() and bool(others) and not _is_verb(run, run.end)
    is_behind = (
        run.what(before - 1) in _A_PLANT | {"strange"} | _SEPARATING or run.word(before - 1) in _STANDING
    )
    is_long = any(len(run.word(at)) >= _SHORTEST_OWN for at in range(run.start, run.end))
    return run.is_led() or (is_long and (is_capital or (is_behind and not _is_verb(run, run.end))))


def _is_told_before(run: _Run) -> bool:
    """Whether a plant of no known kind is said to be on it: "my zorbia on the snell is full of aphids"."""
    is_named = run.what(run.before() - 1) == "strange" or run.word(run.before() - 1) in _HEADS
    return is_named and any(one.what in _SEEN for one in run.events[run.end : run.bounds()[1]])


def _is_place_by_itself(run: _Run, *, is_strange: bool, is_asked: bool) -> bool:
    """Whether a place stands where nothing leads it: before its window or plants, or right behind them."""
    first, last = run.bounds()
    if _stands_behind_plants(run) or _is_second_field(run):
        return True
    if run.start > first and run.word(run.start - 1) == "facing" and run.what(run.start - 2) in _LIT:
        return run.word(run.end) in _HOLDING | {":"} or run.what(run.end) in {"comma", "around"}
    if not run.is_introduced():
        return False
    is_end = run.what(run.end) in _LINES | {"comma"}
    is_answer = is_asked and is_end and "count" not in _whats(run, run.end, last)
    return (
        is_answer
        or _has_a_window(run)
        or _heads_a_list(run, is_strange=is_strange)
        or _holds_plants(run, is_strange=is_strange)
        or _leads_at_a_dash(run)
    )


_NOUNS = _A_PLANT | {"strange", "looks", "count", "common"}


def _whats(run: _Run, start: int, end: int) -> list[str]:
    return [run.what(at) for at in range(start, end)]


def _stands_behind_plants(run: _Run) -> bool:
    """Whether it ends an item behind plants and a dash, bracket or colon: "fern - snell", "fern (snell)"."""
    first, last = run.bounds()
    mark, named = run.word(run.start - 1), run.what(run.start - 2)
    is_named = named in _A_PLANT or (named == "strange" and (mark != ":" or first < run.start - 3))
    if (
        mark not in {"-", "(", ":"}
        or not is_named
        or run.open_place()
        or "colon" in _whats(run, run.end, last)
    ):
        return False
    if run.word(run.end) == ",":
        return mark == "(" or run.what(run.end + 1) in _LIT
    return run.what(run.end) in _LINES | _LIT or run.word(run.end) == ")"


def _has_a_window(run: _Run) -> bool:
    """Whether a window is told of it, not of a place before: "the snell faces west", "snell, west window"."""
    if run.open_place():
        return False
    first, last = run.bounds()
    is_first = run.before() < first or run.word(run.before()) == "(" or not run.begins()
    window = run.past(run.end, _LOOKING | {"("})
    if run.what(window) in _LIT:
        return window > run.end or run.what(window + 1) != "place" or is_first
    if run.what(run.end) != "comma" or run.what(run.past(run.end + 1, _LOOKING)) not in _LIT:
        return False
    is_behind_plants = bool(_NOUNS & frozenset(_whats(run, first, run.before())))
    is_behind_plants = is_behind_plants and "colon" not in _whats(run, run.end, last)
    return is_first or is_behind_plants or run.what(run.before()) == "and"


def _heads_a_list(run: _Run, *, is_strange: bool) -> bool:
    """Whether a colon behind it leads to its plants; "fern, zorbia: snell" tells the place behind."""
    colon = run.past(run.end, _LOOKING | {"(", ")", ","}, _LIT)
    if run.what(colon) != "colon":
        return False
    first, last = run.bounds()
    end = next((n for n in range(colon + 1, last) if run.what(n) in _LIT), last)
    is_one = not {"and", "comma"} & frozenset(_whats(run, colon + 1, end - 1))
    is_last = run.what(run.before()) in {"comma", "and"} and run.before() > first and colon == run.end
    if is_strange and is_last and is_one and run.what(run.before() - 1) in _NOUNS and not run.open_place():
        return False
    plants = run.past(colon + 1, _ARTICLES | {"\n"})
    return run.what(plants) in _NOUNS | _LIT and "product" not in _whats(run, colon, last)


def _holds_plants(run: _Run, *, is_strange: bool) -> bool:
    """Whether it is said to hold plants: "the snell has a fern"."""
    if run.word(run.end) not in _HOLDING or _SEEN & {one.what for one in run.sentence()}:
        return False
    held = run.past(run.end, _HOLDING | _ARTICLES, frozenset({"count", "looks"}))
    return run.what(held) in _A_PLANT | {"place"} or (run.what(held) == "strange" and is_strange)


def _leads_at_a_dash(run: _Run) -> bool:
    """Whether a line begins with it and goes on with several plants: "snell - fern, ivy"."""
    first, last = run.bounds()
    mark, behind = run.word(run.end), _whats(run, run.end, last)
    if run.before() >= first or mark not in {"/", "-"} or run.what(run.end + 1) not in _NOUNS:
        return False
    marks = {run.word(n) for n in range(run.end, last) if run.what(n) in {"comma", "and"}}
    is_of_slashes = marks == {"/"} and bool(_LIT & frozenset(behind))
    return is_of_slashes if mark == "/" else len(marks) > 1 and "place" not in behind


def _is_second_field(run: _Run, *, is_placed: bool = False) -> bool:
    """Whether each line of a message is a plant and, behind a comma, its place: "fern, snell"."""
    if (
        run.what(run.start - 1) != "comma"
        or run.what(run.end) not in {"line", "comma"}
        or "\n" not in run.words
    ):
        return False
    first, last = run.bounds()
    fields = [n for n in range(first, last) if run.what(n) == "comma"]
    is_second = fields[:1] == [run.start - 1] and (len(fields) == 1 or run.what(fields[1] + 1) == "count")
    spelt = run.words[run.events[run.start].start : run.events[run.end - 1].end]
    again = sum(run.words[n : n + len(spelt)] == spelt for n in range(len(run.words))) > 1
    is_else = any(
        one.what == "colon" or (one.what == "place" and run.what(n - 1) != "comma")
        for n, one in enumerate(run.events)
    )
    return is_second and (again or is_placed or not is_else)


def _with_unknown_plants(events: list[_Event], words: tuple[str, ...], situation: Situation) -> list[_Event]:
    """Take words nobody listed for a plant's name where a plant's name stands; its kind is not known."""
    is_asked = situation.expecting is Expecting.PLANTS
    before = events
    at = 0
    while at < len(events):
        field = _field_at(events, at, words)
        run = _Run(events, at, field, words) if field else _plant_run(events, at, words)
        if run is None:
            at += 1
            continue
        if field or _is_plants_place(run, is_asked=is_asked):
            name = (events[run.start].start, events[run.end - 1].end)
            numbers, first, last = _numbers(events, run.start, run.end - 1, words, is_asked=is_asked)
            events = _joined(events, first, last, "plant", (name, numbers))
            at = first
        at = max(run.end if events is run.events else at + 1, at + 1)
    return events if events is before else _with_unknown_plants(events, words, situation)


_LONGEST_FIELD = 8
"""Words of a line's first field, a plant's name with what tells it apart. Judgement. [1]"""


def _field_at(events: list[_Event], at: int, words: tuple[str, ...]) -> int:
    """Give where a line's first field ends if a place is its second, whatever it is: "plant b, kitchen"."""
    end = next((n for n in range(at, len(events)) if events[n].what in _SEPARATING), len(events))
    is_line = "\n" in words and (at == 0 or events[at - 1].what == "line")
    behind = [one.what for one in events[end : end + 3]]
    is_placed = behind in (["comma", "place"], ["comma", "place", "line"], ["comma", "place", "comma"])
    is_bare = events[at].what in _A_PLANT and not any(one.what == "place" for one in events[at:end])
    return end if is_line and is_placed and 0 < end - at <= _LONGEST_FIELD and not is_bare else 0


def _plant_run(events: list[_Event], at: int, words: tuple[str, ...]) -> _Run | None:
    """Give the run of words that begins there and may be a plant's name."""
    whole = _run_at(events, at, words, is_weak=True)
    run = _run_at(events, at, words, is_weak=False)
    is_headed = whole.end > at and whole.word(whole.end - 1) in _HEADS | _LAST_OF_A_NAME
    if is_headed and whole.begins() and whole.ends():
        run = whole
    spelt = [run.word(n) for n in range(at, run.end)]
    strange = [word for n, word in zip(range(at, run.end), spelt, strict=True) if run.what(n) == "strange"]
    is_long = any(len(one) >= _SHORTEST_OWN for one in strange) or (run is whole and len(spelt) > 1)
    is_sign = bool(_NO_NAMES & {*spelt, run.word(run.end)} - {"with", "has"})
    is_name = bool(strange or run is whole) and not is_sign and (is_long or run.what(run.end) == "count")
    return run if run.end > at and is_name else None


def _is_plants_place(run: _Run, *, is_asked: bool) -> bool:
    """Whether a plant's name stands there: in a list of plants, owned, ill, or said to stand somewhere."""
    if run.words[run.events[run.end - 1].end :][:3] == _PLANT and run.begins():
        return True
    before, begins = run.before(), run.begins()
    sentence = run.sentence()
    is_seen = any(one.what in _SEEN for one in sentence)
    others = any(one.what in _A_PLANT for one in sentence)
    is_told = any(one.what in _A_PLANT | {"place"} for one in run.events)
    is_item = begins or run.word(before) in _OWNING | _HOLDING | _STANDING | _BESIDES
    if is_item and run.ends() and (_is_among_plants(run) or (is_asked and not is_told)):
        return True
    if (
        is_item
        and run.is_led()
        and run.ends()
        and not is_seen
        and any(one.what == "place" for one in sentence)
    ):
        return "product" not in {one.what for one in sentence}
    if (
        is_seen
        and (begins or run.is_led())
        and (
            run.word(run.end) in _BEARING
            or run.leads_to(_SEEN, _STANDING | _ILL_WITH)
            or run.what(run.end) in _SEEN
        )
    ):
        return True
    if is_seen and not others and run.word(before) in {"on", "auf", "sur", "of"} and run.is_led():
        return True
    if run.leads_to(
        frozenset({"place", "again"}), _STANDING | _PREPOSITIONS | listed("all both i have got")
    ) and (begins or run.is_led() or run.word(before) in _OWNING | _HOLDING):
        return True
    if run.what(before) in {"facing", "place"} and run.what(before) != "line":
        return run.what(run.end) in _SEPARATING | {"pest"}
    if run.word(before) in _BESIDE and run.is_led() and run.ends() and others:
        return True
    if any(run.word(at) == "all" for at in range(max(0, before), run.start)):
        return False  # "all three dey in the hall"
    is_stock = any(one.what == "product" for one in sentence)
    said = {run.word(at) for at in range(max(0, before - 2), before + 1)}
    said -= {"there"} if not said & {"is", "are", "was", "were"} else set()
    is_owned = run.is_led() and bool(said & _OWNING) and not (is_seen or is_stock) and run.ends()
    holds = _HOLDING | _STANDING | {"there"}
    is_held = run.word(before) in holds and any(one.what == "place" for one in run.events[:before])
    return is_owned or (is_held and run.ends() and (run.is_led() or run.word(before) in _HOLDING))


def _is_among_plants(run: _Run) -> bool:
    """Whether the item before or behind is a plant, or a place's heading leads to it."""
    passed = _ARTICLES | {"(", ")"}
    at = run.start - 1
    while at >= 0 and (run.what(at) in {"comma", "and", "line", "count"} or run.word(at) in passed):
        at -= 1
    if run.what(at) in _A_PLANT or run.what(at) == "colon":
        return True
    if at < run.start - 1 and run.what(at) == "place" and run.word(at + 1) in {"\n", "/"}:
        return True
    placed = run.past(run.end + 1, _PREPOSITIONS | _ARTICLES)
    if run.word(run.end) in {"-", "(", ":"} and run.what(placed) == "place":
        return True
    behind = run.past(run.end, passed, frozenset({"comma", "and", "count"}))
    if behind == run.end or run.what(behind) not in _A_PLANT:
        return False
    is_headed = (
        run.what(run.past(behind, frozenset(), _A_PLANT | {"comma", "and", "count", "around"})) == "colon"
    )
    return run.start > 0 or run.is_led() or not is_headed


def _with_town(
    events: list[_Event], raw: list[str], words: tuple[str, ...], situation: Situation
) -> list[_Event]:
    """Take strange words for the town while it is still to be told, if there is one of that name."""
    if any(one.what == "town" for one in events):
        return _with_town_put_right(events, raw, words)
    if not situation.lacks_town:
        return events
    looked_up = 0
    for at, one in enumerate(events):
        if one.what not in {"strange", "place"}:
            continue
        is_led = all(each.what in {"around", "comma", "again"} for each in events[:at])
        if at and not (_leads_to_a_town(events[at - 1], words) or is_led):
            continue
        if one.what == "place" and (one.value != "led" or not raw[one.start][:1].isupper()):
            continue
        looked_up += 1
        if looked_up > _MOST_LOOKED_UP:
            return events
        town = _longest_town(raw, one.start)
        ends = next(
            (n for n in range(at, len(events)) if town and events[n].end == one.start + town[1]), None
        )
        behind = events[ends + 1 : ends + 2] if ends is not None else []
        is_asked_for = situation.expecting is Expecting.TOWN and raw[one.start][:1].isupper()
        follows = not behind or _follows_a_town(behind[0], words)
        follows = follows or (is_asked_for and behind[0].what in {"around", "common"})
        is_greeted = words[one.start - 1 : one.start] == ("dear",) and len(events) > at + len("x,")
        if town is None or ends is None or is_greeted or not follows:
            continue
        around = (*words[: one.start], *words[events[ends].end :])
        is_in = words[one.start - 1 : one.start] in {("in",), ("near",)}
        is_first = at == 0 or events[at - 1].what in {"stop", "line"}
        is_alone = is_first and (not behind or behind[0].what in {"stop", "line"})
        is_asked = is_led and situation.expecting is Expecting.TOWN
        is_told = is_in or is_alone or is_asked or frozenset(around) <= _COURTESIES | _BESIDE_A_TOWN
        if raw[one.start].islower() and not is_told:
            continue
        return _with_town_put_right(_joined(events, at, ends, "town", town[0]), raw, words)
    return events


def _with_town_put_right(events: list[_Event], raw: list[str], words: tuple[str, ...]) -> list[_Event]:
    """Take the second of "Lyon, no wait, Nantes" for a town too, and that of "Nantes, not Lyon"."""
    first = next(at for at, one in enumerate(events) if one.what == "town")
    known = str(events[first].value).casefold()
    same = (raw[one.start].casefold() == known and one.what == "strange" for one in events)
    events = [replace(one, what="around") if again else one for one, again in zip(events, same, strict=True)]
    for at, one in enumerate(events):
        land = f"{events[first].value}, {' '.join(raw[one.start : one.end])}"
        if one.what == "strange" and raw[one.start][:1].isalpha() and find_towns(land):
            events[first] = replace(events[first], value=land)
            events[at] = replace(one, what="around")
    for at in range(first + 1, len(events)):
        near = {words[one.start] for one in events[max(first, at - _MOST_OF_A_NAME) : at]}
        town = (
            _longest_town(raw, events[at].start) if events[at].what == "strange" and near & _TURNED else None
        )
        ends = (n for n in range(at, len(events)) if town and events[n].end == events[at].start + town[1])
        if town is not None and (end := next(ends, None)) is not None:
            return _joined(events, at, end, "town", town[0])
    return events


_TURNED = listed("no not nope nah sorry wait meant mean actually rather")


def _leads_to_a_town(event: _Event, words: tuple[str, ...]) -> bool:
    word = words[event.start]
    return event.what in _SEPARATING or word in _PREPOSITIONS | _COURTESIES | {"is", "near", "from", "meant"}


def _follows_a_town(event: _Event, words: tuple[str, ...]) -> bool:
    return event.what in _SEPARATING or words[event.start] in _BEHIND_A_TOWN


_BEHIND_A_TOWN = listed("here please is area then now (")


def _read_sentence(events: list[_Event], told: _Telling, *, is_first: bool) -> None:
    """Read one sentence: who stands where, which way windows look, what was seen, what is at hand."""
    if is_first and _is_heading(events, told):
        told.heading = _place_name(told, next(one for one in events if one.what == "place"))
        has_plants = any(one.what == "plant" for one in events)
        events = events if has_plants else [one for one in events if one.what != "place"]
    if events and (_are_one(events, told) or _is_no_plant(events, told)):
        return
    for part in _parts(events, told):
        _read_part(part, told, is_first=is_first and part[0] is events[0])
    events = _without_pots(events, told)
    _read_finds(events, told)
    _read_shelf(events, told)


_SAID_OF_IT = listed("is are isn't aren't does do doesn't don't was ,")
_NO_PLANT = (
    ("no", "plant"),
    ("not", "a", "plant"),
    ("not", "plant"),
    ("not", "exist"),
    ("no", "such", "plant"),
)


def _is_no_plant(events: list[_Event], told: _Telling) -> bool:
    """Take a name of which it is said that it is no plant for a slip of the reader's: it is left out."""
    start, end = events[0].start, events[-1].end
    said = told.words[start:end]
    at = next(
        (n for n in range(1, len(said)) if any(said[n : n + len(one)] == one for one in _NO_PLANT)), None
    )
    if at is None:
        return False
    name = takewhile(lambda typed: typed.lower() not in _SAID_OF_IT, told.raw[start : start + at])
    told.denied.append(" ".join(word for word in name if word.lower() not in _ARTICLES))
    told.corrects = True
    return True


def _are_one(events: list[_Event], told: _Telling) -> bool:
    """Take two names that are said to be of the same plant for one: the second is left out."""
    plants = [one for one in events if one.what in {"plant", "own"}]
    is_same = any(told.words[one.start] == "same" for one in events if plants and one.start >= plants[-1].end)
    if len(plants) != len("xy") or not is_same or {"place", "facing", "pest"} & {one.what for one in events}:
        return False
    told.corrects = True
    told.denied.append(_name_of(plants[1], told))
    return True


def _parts(events: list[_Event], told: _Telling) -> list[list[_Event]]:
    """Cut "bath: fern, hoya in the hall" where a place stands behind its plants, after one before them."""
    kinds = [one.what for one in events]
    first = min((kinds.index(one) for one in ("plant", "own") if one in kinds), default=0)
    cuts = [0]
    for at, one in enumerate(events):
        before = at
        while before and events[before - 1].what == "around":
            before -= 1
        led = {told.words[each.start] for each in events[before:at]} & _PREPOSITIONS
        is_trailing = one.what == "place" and led and before and events[before - 1].what in {"plant", "own"}
        if not is_trailing or "place" not in kinds[:first]:
            continue
        start = before
        while start and events[start - 1].what not in {"comma", "place"}:
            start -= 1
        cuts += [start, at + 1] if start > first else []
    return [part for start, end in pairwise([*cuts, len(events)]) if (part := events[start:end])]


def _read_part(  # noqa: C901, PLR0912 - one arm a kind of word
    events: list[_Event], told: _Telling, *, is_first: bool
) -> None:
    kinds = [one.what for one in events]
    first_place = kinds.index("place") if "place" in kinds else len(kinds)
    first_plant = min((kinds.index(one) for one in ("plant", "own") if one in kinds), default=len(kinds))
    leads = first_place < first_plant < len(kinds)
    current = told.heading
    here: list[str] = []
    own_place: str | None = None
    beside: str | None = None
    for at, one in enumerate(events):
        match one.what:
            case "town":
                told.town = str(one.value)
                told.is_led = told.words[one.start] in _LEADING or told.is_led
            case "plant" | "own":
                is_line = at == 0 and is_first and "\n" in told.words
                shared = own_place if _is_beside(at, events, told) else None
                here = _take_plant(one, shared or beside or current, told, here, is_line=is_line)
                beside = None
            case "place" if leads:
                current = own_place = told.last_place = _place_name(told, one)
                is_of_before = any(told.words[event.start] in _ALL_OF_THEM for event in events[:at])
                is_of_before = is_of_before and "colon" not in kinds[at:]
                homeless = [one.names[0] for one in told.situation.plants if one.place is None]
                _settle(own_place, [*told.waiting, *homeless] if is_of_before else [], told, events)
            case "place" if _stands_before(at, events):
                beside = own_place = told.last_place = _place_name(told, one)
            case "place" if _goes_before(at, events, told):
                current = own_place = told.last_place = _place_name(told, one)
            case "place":
                own_place = told.last_place = _place_name(told, one)
                here = _settle(own_place, here, told, events)
            case "again" if _is_same_look(at, events, told):
                _look(replace(one, value=told.last_look), at, events, own_place, told)
            case "again" if at < first_plant and _last_place(told):
                current = _last_place(told)
            case "again" if _last_place(told):
                here = _settle(_last_place(told), here, told, events)
            case "facing" | "lit":
                _look(one, at, events, own_place, told)
            case "telling" if (
                one.value is Word.NONE and told.last_look is Facing.NONE and "place" in kinds[at:]
            ):
                _look(replace(one, value=Facing.NONE), at, events, own_place, told)
            case "nothing":
                told.has_nothing = True
            case "strange" | "common" | "telling" if not _is_taken(one, at, events, told):
                told.unread.append(told.text(one.start, one.end))
            case _:
                pass


def _is_beside(at: int, events: list[_Event], told: _Telling) -> bool:
    """Whether a plant stands with those before: "in the hall with the ivy"."""
    before = at - 1
    while before >= 0 and told.words[events[before].start] in _ARTICLES | {
        "with",
        "together",
        "beside",
        "also",
        "next",
        "to",
    }:
        before -= 1
    led = {told.words[one.start] for one in events[before + 1 : at]} & {"with", "beside", "next"}
    return bool(led) and before >= 0 and events[before].what == "place"


_NEAR_DENIAL = 12
"""So many words may stand between "not" and what it denies. Judgement. [1]"""
_NAMING = ("plant", "own", "place", "town", "facing", "pest", "bugs")


def _without_denied(events: list[_Event], told: _Telling) -> list[_Event]:
    """Leave out what is denied, "not the kitchen", and what is put right: "my fern, no, the ivy"."""
    kept: list[_Event] = []
    at = 0
    while at < len(events):
        one, at = events[at], at + 1
        is_denial = one.value is Word.NOT or (one.what == "telling" and told.words[one.start] == "never")
        near = range(at, min(at + _NEAR_DENIAL, len(events))) if is_denial else range(0)
        meant = next((n for n in near if events[n].what in _NAMING), None)
        between = events[at:meant] if meant is not None else []
        is_plain = all(each.what in {"around", "comma", "stop", "telling"} for each in between)
        if not is_denial or meant is None or not is_plain:
            kept.append(one)
            continue
        if any(each.value is Word.NOT for each in between):
            continue  # "no, not the fern": the second says it
        named = events[meant]
        alike = _NAMING[:2] if named.what in _NAMING[:2] else (named.what,)
        begins = max((n + 1 for n, each in enumerate(kept) if each.what in _ENDING), default=0)
        before = [n for n in range(begins, len(kept)) if kept[n].what in alike]
        told.corrects = True
        if any(each.value in _TURNS or told.words[each.start] in _TURNING for each in between):
            if before and named.what == "town":
                kept.pop(before[-1])
            elif before and named.what in _NAMING[:3]:
                told.denied.append(_named(kept.pop(before[-1]), told))
            at = meant  # "no, the ivy"
            continue
        if any(each.what == "telling" for each in between):
            kept.append(one)
            continue
        if named.what in _NAMING[:3]:
            told.denied.append(_named(named, told))
            same = [n for n in before if _named(kept[n], told) == told.denied[-1]]
            kept = [each for n, each in enumerate(kept) if n not in same]
        others = [each for each in (*events[: at - 1], *events[meant + 1 :]) if each.what in alike]
        told.unread += [] if others else [told.text(one.start, one.end)]
        at = meant + 1
    return kept


_ENDING = ("line", "stop")
_TURNS = frozenset({Word.IT_IS, Word.MEANT})
_TURNING = listed(", . ! wait sorry")


def _named(event: _Event, told: _Telling) -> str:
    return _place_name(told, event) if event.what == "place" else _name_of(event, told)


def _is_same_look(at: int, events: list[_Event], told: _Telling) -> bool:
    """Whether a place is said to look as the one before: "den same", "same at the deck"."""
    behind = events[at + 1 : at + 2]
    is_place = any(one.what == "place" or told.words[one.start] in _GENERAL_ROOMS for one in behind)
    is_told = told.last_look is not None and any(one.what == "place" for one in events)
    return told.words[events[at].start] == "same" and is_told and not is_place


def _last_place(told: _Telling) -> str:
    """Give the place told of last, be it in the message before: that of the plant that came last."""
    places = {one.id: one.name for one in told.situation.places}
    last = [places[one.place] for one in told.situation.plants if one.place in places]
    return told.last_place or (last[-1] if last else "")


def _stands_before(at: int, events: list[_Event]) -> bool:
    """Whether a place is said right before its plant: "ivy in the kitchen, hall fern"."""
    before = events[at - 1].what if at else "comma"
    behind = events[at + 1].what if at + 1 < len(events) else ""
    return before in {"comma", "and"} and behind in {"plant", "own"}


def _goes_before(at: int, events: list[_Event], told: _Telling) -> bool:
    """Whether what stands there is still to come: "ivy in the kitchen, and on the balcony an oleander"."""
    start = at
    while start and told.words[events[start - 1].start] in _ARTICLES | _PREPOSITIONS:
        start -= 1
    between = {"around", "count", "facing", "comma"}
    behind = next((one.what for one in events[at + 1 :] if one.what not in between), "")
    is_new_part = start < at and start > 0 and events[start - 1].what in {"comma", "and"}
    return is_new_part and behind in {"plant", "own"}


def _is_heading(events: list[_Event], told: _Telling) -> bool:
    """Whether a line begins with a place and a colon, or is a place alone among other lines."""
    what = [one.what for one in events if one.what != "around" and told.words[one.start] != "("]
    if what[:1] != ["place"]:
        return False
    place = next(at for at, one in enumerate(events) if one.what == "place")
    behind = [one.what for one in events[place + 1 :]]
    is_headed = "colon" in behind and not {"plant", "own"} & set(behind[: behind.index("colon")])
    is_alone = what == ["place"] and "\n" in told.words and told.words.count("\n") > 1
    return (is_headed and "facing" not in behind[behind.index("colon") :]) or is_alone


_A_ROOM = frozenset({"room"})


def _place_name(told: _Telling, event: _Event) -> str:
    told.is_known = told.is_known and event.value != "odd"
    if isinstance(event.value, Place):
        own = event.value.id
        return next(one.name for one in told.situation.places if one.id == own)
    words = told.raw[event.start : event.end]
    if tuple(word.lower() for word in words[-2:]) not in _OF_TWO_WORDS:
        words = words[:1] + [word for word in words[1:] if word.lower() not in {"window", "windows"}]
    strange = [word for word in words if event.value == "odd" and word.lower() not in _ROOMS | _SORTS]
    strange = [word for word in strange if len(word) > _LONGEST_KIND and word.islower()]
    strange = [word for word in strange if word not in _LOOKS | _IDLE]
    meant = {word: slip_of(word.lower(), _ROOMS | _SORTS) for word in strange}
    named = {one.casefold() for one in _places(told)}
    *_, sort, room = ("", *(word.casefold() for word in words))
    if sort in _SORTS and room not in _ROOMS | _SORTS and slip_of(room, _A_ROOM):
        meant[words[-1]] = "room"  # "living rom"
    if len(words) > 1 and " ".join(words).casefold() not in named and any(meant.values()):
        told.is_guessed = True
        words = [meant.get(word) or word for word in words]
    typed = _bare(" ".join(words))
    alike = {one for one in _places(told) if one.casefold().endswith(f" {typed.casefold()}")}
    if len(alike) == 1 and typed.casefold() not in {one.casefold() for one in _places(told)}:
        return alike.pop()
    abroad = [one for one in _places(told) if typed.lower() in _ABROAD.get(one.lower(), ())]
    if len(abroad) == 1:
        return abroad[0]
    known = next((one for one in _places(told) if one.casefold() == typed.casefold()), None)
    is_strange = isinstance(event.value, str) and not _ROOMS & frozenset(typed.casefold().split())
    if known is not None or not is_strange:
        return known or typed
    return _meant_place(typed, told)


def _meant_place(typed: str, told: _Telling) -> str:
    """Give the place that a strange name is a slip of: the home's own, else one that is listed."""
    own = {one.casefold(): one for one in _places(told)}
    is_listed = typed.casefold().replace(" ", "") in _ROOMS  # "window seat"
    near = slip_of(typed.casefold(), frozenset(own), is_own=True)
    near = near or (None if is_listed else slip_of(typed.casefold(), _ROOMS))
    told.is_guessed = told.is_guessed or near is not None
    return typed if near is None else own.get(near, near)


def _places(told: _Telling) -> list[str]:
    told_now = [one.place for one in told.plants if one.place]
    return [*(one.name for one in told.situation.places), *told_now, *told.facets]


def _take_plant(
    event: _Event, place: str | None, told: _Telling, here: list[str], *, is_line: bool
) -> list[str]:
    """Take a plant as new, or as named again; give the plants whose place this sentence may still tell."""
    if event.what == "own":
        ids = event.value.ids if isinstance(event.value, Plants | OneOf) else ()
        known = [one for one in told.situation.plants if one.id in ids]
        told.last_plant = known[-1].names[0] if known else told.last_plant
        unplaced = [one.names[0] for one in known if one.place is None]
        if place and unplaced:
            told.plants += [NewPlant(name=name, place=place) for name in unplaced]
            return here
        return [*here, *unplaced]
    assert isinstance(event.value, tuple)
    (start, end), numbers = event.value
    name = _bare(told.text(start, end))
    kinds, one = told.situation.kinds, singular(name)
    base = one if len(numbers) > 1 and (name.lower() not in kinds or one.lower() in kinds) else name
    names = (
        [f"{base} {number}" for number in numbers]
        if numbers
        else [_same(name, start, told, is_placed=place is not None)]
    )
    already = set() if is_line else {one.name.casefold() for one in told.plants}
    already |= {name.casefold() for one in told.situation.plants for name in one.names}
    new = [one[:_LONGEST_NAME] for one in names if one.casefold() not in already]
    told.plants += [NewPlant(name=one, place=place) for one in new]
    named = {one.casefold() for one in names} - {one.casefold() for one in new}
    again = [one.name for one in told.plants if one.place is None and one.name.casefold() in named]
    told.last_plant = names[-1]
    is_kind = _is_of_a_kind(told.words[start:end], told.situation.kinds)
    told.is_known, told.has_kinds = told.is_known and is_kind, told.has_kinds or is_kind
    if place is None:
        told.waiting += new
        return [*here, *new, *again]
    told.plants = [replace(one, place=place) if one.name in again else one for one in told.plants]
    return here


def _same(name: str, start: int, told: _Telling, *, is_placed: bool) -> str:
    """Give the one plant that "the peace lily" means where a big one is, "lemon" where a lemon tree is."""
    is_known = told.words[start - 1 : start] in {("the",), ("my",), ("our",), ("this",), ("that",)}
    is_new = "new" in told.words or told.words[start - 1 : start] in {("a",), ("an",), ("another",), ("of",)}
    is_new = is_new or is_placed or told.situation.expecting is Expecting.PLANTS
    here = [] if is_new else [one.names[0] for one in told.situation.plants]
    known = [one.name for one in told.plants] + (
        [one.names[0] for one in told.situation.plants] if is_known else here
    )
    low = name.casefold()
    alike = {
        one for one in known if one.casefold().endswith(f" {low}") or one.casefold().startswith(f"{low} ")
    }
    is_there = any(one.casefold() == low for one in known)
    return alike.pop() if (is_known or here) and len(alike) == 1 and not is_there else name


def _is_of_a_kind(words: tuple[str, ...], kinds: frozenset[str]) -> bool:
    """Whether a name is a kind of plant with nothing strange before it: behind it stands its own name."""
    start = next((at for at, word in enumerate(words) if word not in _LOOKS), 0)
    return any(kind_at(words, at, kinds) for at in range(start + 1))


def _bare(name: str) -> str:
    joined = re.sub(r"\s*'\s*", "'", name)
    return joined.removesuffix("'s").strip("'") or name


def _settle(place: str, here: list[str], told: _Telling, events: list[_Event]) -> list[str]:
    """Give the plants of this sentence their place; without any it speaks of those before. None is left."""
    has_plants = any(one.what in {"plant", "own"} for one in events)
    looks = any(one.what == "facing" for one in events)
    is_asked = told.situation.expecting is Expecting.WHERE
    led = takewhile(lambda one: one.what != "place", events)
    is_of_all = any(told.words[one.start] in {"all", "both", "everything"} for one in events)
    is_of_all = is_of_all or any(told.words[one.start] in _ALL_OF_THEM for one in led)
    waiting = here or (
        [] if has_plants or (looks and not (is_asked or is_of_all)) else [*told.waiting, *_homeless(told)]
    )
    for name in waiting:
        at = next((n for n, one in enumerate(told.plants) if one.name == name), None)
        if at is None:
            told.plants.append(NewPlant(name=name, place=place))
            told.has_kinds = True
        else:
            told.plants[at] = replace(told.plants[at], place=place)
    told.waiting = [one for one in told.waiting if one not in waiting]
    return []


def _homeless(told: _Telling) -> list[str]:
    """Give the plants of the home that stand nowhere yet, where this message tells of none."""
    return [] if told.plants else [one.names[0] for one in told.situation.plants if one.place is None]


def _look(event: _Event, at: int, events: list[_Event], place: str | None, told: _Telling) -> None:
    """Note which way a place looks: the one named before, else behind, else the one told of last."""
    ahead = next((one for one in events[at + 1 :] if one.what == "place"), None)
    behind = next((n for n in range(at + 1, len(events)) if events[n].what != "around"), at)
    joint = {told.words[one.start] for one in events[at + 1 : behind]} & {"for", "in", "at", "on"}
    name = None if joint and events[behind].what == "place" else place
    if name is None and ahead is not None:
        name = _place_name(told, ahead)
    if name is None and any(one.what in {"plant", "own"} for one in events) and told.heading is None:
        told.unread.append(told.text(event.start, event.end))
        return
    name = name or told.heading or told.last_place or ""
    told.last_look = event.value
    is_of_all = not name and any(told.words[one.start] in _ALL_OF_THEM for one in events)
    names = [name]
    since = next((n + 1 for n in range(at - 1, -1, -1) if events[n].what in {"facing", "place"}), 0)
    if {told.words[one.start] for one in events[since:at]} & _OTHERS:
        names = [
            one for one in dict.fromkeys((*told.situation.untold, *_places(told))) if one not in told.facets
        ]
        told.unread = [one for one in told.unread if one not in _OTHERS]
    elif is_of_all and told.situation.untold:
        names = list(told.situation.untold)
    elif at and told.words[events[at - 1].start] == "both":
        names = list(dict.fromkeys(_places(told)))[-2:] if len(told.facets) + len(told.plants) > 1 else names
    elif own := _joint_places(at, events):
        names = [_place_name(told, one) for one in own]
    _note_look(event, names, told)


def _note_look(event: _Event, names: list[str], told: _Telling) -> None:
    if isinstance(event.value, Facing) and told.words[event.end : event.end + 1] == ("window",):
        told.indoors.update(names)
    for each in names:
        looks = told.facets.setdefault(each, [])
        if isinstance(event.value, Facing | Outdoors | tuple):
            looks.append(event.value)
        elif not looks:
            looks.append(Facing.NONE)


_OTHERS = frozenset({"others", "rest"})


def _joint_places(at: int, events: list[_Event]) -> list[_Event]:
    """Give the places that are said of together: "patio and front room face south"."""
    before = [one for one in events[:at] if one.what != "around"]
    run: list[_Event] = []
    while before and before[-1].what in {"place", "and", "comma"}:
        run.append(before.pop())
    places = [one for one in run if one.what == "place"]
    is_joint = len(places) > 1 and run[0].what == "place" and any(one.what == "and" for one in run)
    is_told = before and before[-1].what in {"plant", "own"}
    return [] if is_told or not is_joint else places[::-1]


def _is_a_person(event: _Event, told: _Telling) -> bool:
    """Whether somebody says who they are: "it is Claire", "I'm Bo"."""
    is_led = told.words[event.start - 1 : event.start] in {("is",), ("am",), ("name",), ("here",)}
    return is_led and told.raw[event.start][:1].isupper() and told.raw[event.start][1:].islower()


def _is_taken(event: _Event, at: int, events: list[_Event], told: _Telling) -> bool:
    """Whether a word may stand there though it tells nothing: how an animal looks, "spray" at a product."""
    near = {one.what for one in events[max(0, at - 3) : at + 4]}
    if event.what == "strange":
        is_look = "pest" in near and told.words[event.start].endswith(("y", "ish"))
        return is_look or _is_a_person(event, told)
    is_tool = told.words[event.start] in _BESIDE_A_PRODUCT
    is_seen = event.value in {Word.SAW, Word.GOT, Word.HAD, Word.BUGS, Word.ALL, Word.IT, Word.THEM, Word.NEW}
    return is_seen or event.value in {Word.LEFT, Word.IT_IS, Word.MEANT} or (is_tool and "product" in near)


_BESIDE_A_PRODUCT = listed("spray sprays bottle got have had new spraying")


def _without_pots(events: list[_Event], told: _Telling) -> list[_Event]:
    """Read the width of a pot behind its plant, "hoya, landing, 15 cm", and leave it out."""
    left: list[_Event] = []
    for at, one in enumerate(events):
        unit = told.words[one.end : one.end + 1]
        is_width = one.what == "count" and unit and unit[0] in {"cm", "inch", "inches", "in", "'"}
        typed = told.raw[one.start].replace(",", ".")
        ends = events[at + 2].what if at + 2 < len(events) else "comma"
        if (
            not is_width
            or not typed[0].isdigit()
            or (unit[0] == "in" and ends not in {"comma", "stop", "around"})
        ):
            left.append(one)
        elif told.plants:
            width = float(typed) if unit[0] == "cm" else round(float(typed) * float(INCH_CM), 2)
            told.plants[-1] = replace(told.plants[-1], pot_cm=width)
    return left


def _read_finds(events: list[_Event], told: _Telling) -> None:
    """Say what was seen as plain sentences, one an animal."""
    pests = [at for at, one in enumerate(events) if one.what == "pest"]
    pests = pests or [at for at, one in enumerate(events) if one.what == "bugs"][:1]
    if not pests:
        _read_more_of_a_find(events, told)
        return
    if any(one.what == "telling" and one.value in {Word.NOT, Word.NOTHING, Word.NONE} for one in events):
        told.unread += [told.text(events[at].start, events[at].end) for at in pests]
        return
    numbers = [
        at for at, one in enumerate(events) if one.what == "count" and not _counts_else(at, events, told)
    ]
    counts = numbers or [at for at, one in enumerate(events) if one.what == "grade"]
    seen: set[object] = set()
    for at in pests:
        key = events[at].value
        if key in seen:
            continue
        seen.add(key)
        count = min(counts, key=lambda n: abs(n - at), default=None)
        counts = [n for n in counts if n != count]
        animal = told.text(events[at].start, events[at].end)
        number = "" if count is None else _how_many(events[count])
        plant = _enumerated(_plants_of(at, events, told))
        line = f"{number} {animal}".strip()
        if plant:
            told.lines.append(f"{line} on {plant}" if events[at].what == "pest" else _as_told(events, told))
        elif events[at].what == "pest":
            told.unplaced = line
        else:
            told.unread.append(animal)


def _as_told(events: list[_Event], told: _Telling) -> str:
    """Give a sentence as it was typed, but its town and place: how it looks tells what has no name yet."""
    others = [at for at, one in enumerate(events) if one.what in {"town", "place", "facing"}]
    seen = [at for at, one in enumerate(events) if one.what in {"bugs", "plant", "own"}]
    first = max((at + 1 for at in others if at < seen[0]), default=0)
    last = min((at for at in others if at > seen[-1]), default=len(events))
    part = events[first:last]
    told.unread = [one for one in told.unread if one not in told.raw[part[0].start : part[-1].end]]
    return told.text(part[0].start, part[-1].end)


def _read_more_of_a_find(events: list[_Event], told: _Telling) -> None:
    """Take what a find told before still lacks: its plant, or how many."""
    found = [
        one
        for at, one in enumerate(events)
        if one.what in {"count", "grade"} and not _counts_else(at, events, told)
    ]
    number = _how_many(found[0]) if found else ""
    pending = told.unplaced or _pending(told.situation)
    is_bare = not any(one.what in {"plant", "own"} for one in events)
    finds = [at for at, line in enumerate(told.lines) if " on " in line and line[0].isdigit()]
    corrects = {one.value for one in events if one.what == "telling"} & {Word.NOT, Word.MEANT}
    if finds and corrects and number.isdigit() and is_bare:
        told.lines[finds[-1]] = f"{number} {told.lines[finds[-1]].partition(' ')[2]}"
        told.unread = [one for one in told.unread if one.lower() not in {"no", "not"}]
        return
    lacks = [at for at, line in enumerate(told.lines) if " on " in line and not line.startswith(_COUNTING)]
    described = [
        at for at, line in enumerate(told.lines) if " on " not in line and not line.startswith("got ")
    ]
    if lacks and number and is_bare:
        told.lines[lacks[-1]] = f"{number} {told.lines[lacks[-1]]}"
    elif described and number and is_bare:
        told.lines[described[-1]] += f", {number}"
    elif number.isdigit() and not pending:
        told.unread += [number] if int(number) != len(told.plants) else []  # "that's five"
    elif pending:
        line = f"{number} {pending}" if number and not pending.startswith(_COUNTING) else pending
        is_on = sum(one.what in {"plant", "own"} for one in events) == 1
        told.lines += [f"{line} on {told.last_plant}"] if is_on else []
        told.unplaced = "" if is_on else line if number or told.unplaced or not is_bare else ""


def _counts_else(at: int, events: list[_Event], told: _Telling) -> bool:
    """Whether a number is of something else than animals: a pot's width, so many plants, so many rooms."""
    behind = events[at + 1] if at + 1 < len(events) else None
    return behind is not None and told.words[behind.start] in _COUNTED_TOO


def _how_many(event: _Event) -> str:
    return _GRADES[event.value] if isinstance(event.value, Grade) else str(event.value)


def _enumerated(names: list[str]) -> str:
    return " and ".join([*([", ".join(names[:-1])] if len(names) > 1 else []), *names[-1:]])


def _plants_of(at: int, events: list[_Event], told: _Telling) -> list[str]:
    """Give the plants an animal was seen on: named behind "on", else before, else behind, else the last."""
    named = [n for n, one in enumerate(events) if one.what in {"plant", "own"}]
    ahead, before = [n for n in named if n > at], [n for n in named if n < at]
    leads = any(told.words[one.start] in {"on", "auf", "sur"} for one in events[at + 1 : at + 3])
    if ahead and (leads or not before):
        return _joint_plants(ahead, events, told)
    if before:
        said = {told.words[one.start] for one in events[before[-1] + 1 : at]}
        several = _names_of(events[before[-1]], told)
        if not said & _PLURAL:
            return several[:1] if said & {"has", "is"} else several
        return list(reversed(_joint_plants(before[::-1], events, told)))
    living = told.situation.plants
    last = told.last_plant or (living[0].names[0] if len(living) == 1 else "")
    return [last] if last else []


_PLURAL = listed("are have all both were each")


def _joint_plants(named: list[int], events: list[_Event], told: _Telling) -> list[str]:
    """Give the first plant, and those that a comma or "and" joins to it."""
    joint = [named[0]]
    for first, other in pairwise(named):
        between = events[min(first, other) + 1 : max(first, other)]
        if not all(one.what in {"and", "comma"} or told.words[one.start] in _ARTICLES for one in between):
            break
        joint.append(other)
    start = min(joint)
    is_owned = bool({told.words[one.start] for one in events[max(0, start - 2) : start]} & _OWNING)
    names = [_names_of(events[n], told) for n in (joint[:1] if is_owned and named[0] > named[-1] else joint)]
    return [name for one in names for name in (one if named[-1] >= named[0] else one[::-1])]


def _names_of(event: _Event, told: _Telling) -> list[str]:
    if isinstance(event.value, tuple):
        (start, end), numbers = event.value
        name = _bare(told.text(start, end))
        return [f"{singular(name)} {number}" for number in numbers] or [
            _same(name, start, told, is_placed=False)
        ]
    ids = event.value.ids if isinstance(event.value, Plants | OneOf) else ()
    return [one.names[0] for one in told.situation.plants if one.id in ids] or [""]


def _name_of(event: _Event, told: _Telling) -> str:
    return _names_of(event, told)[0]


def _pending(situation: Situation) -> str:
    """Give what was seen before any plant was named."""
    offered = (one for choice in situation.choices for one in choice.commands)
    return next((one.keeps for one in offered if isinstance(one, Decline) and one.keeps), "")


def _read_shelf(events: list[_Event], told: _Telling) -> None:
    """Say what is at hand as plain sentences, one a product."""
    got: list[str] = []
    ahead = ""
    for at, one in enumerate(events):
        behind = next((other.what for other in events[at + 1 :] if other.what != "around"), "")
        if one.what == "product":
            got.append(f"got {told.text(one.start, one.end).lower()}{ahead}")
            ahead = ""
        elif one.what in {"form", "volume", "every"} and behind == "product":
            said = _FORMS[one.value] if isinstance(one.value, Form) else told.text(one.start, one.end).lower()
            ahead += f", {said}"
        elif got and one.what == "form":
            assert isinstance(one.value, Form)
            got[-1] += f", {_FORMS[one.value]}"
        elif got and one.what in {"volume", "every"}:
            got[-1] += f", {told.text(one.start, one.end).lower()}"
    told.lines += got


def _set_place(name: str, facets: Iterable[Facing | Outdoors | _Lit], situation: Situation) -> SetPlace:
    known = next((one for one in situation.places if one.name.casefold() == name.casefold()), None)
    looks = list(facets)
    outdoors = [one for one in looks if isinstance(one, Outdoors)]
    lamp = next((one for one in reversed(looks) if isinstance(one, tuple)), (None, None))
    closer = next((one for one in reversed(outdoors) if one is not Outdoors.ALL_DAY), None)
    return SetPlace(
        name=name if known is None else known.name,
        place_id=None if known is None else known.id,
        facing=next((one for one in reversed(looks) if isinstance(one, Facing)), None),
        outdoors=closer or next(iter(outdoors), None),
        lamp_from=lamp[0],
        lamp_until=lamp[1],
    )
