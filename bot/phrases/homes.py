"""A home as people tell it: town, plants, places, windows, finds and what is at hand, in any order."""

import re
from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import groupby, pairwise

from bot.actions.action import ButtonText, Expecting
from bot.actions.add_plants import NewPlant
from bot.actions.decline import Decline
from bot.actions.isolate import Isolate
from bot.actions.log_find import LogFind
from bot.actions.move_plant import MovePlant
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.situation import Situation
from bot.catalogue.load import load
from bot.catalogue.towns import find_towns
from bot.domain.identity import PlaceId, PlantId
from bot.domain.measure import INCH_CM
from bot.domain.sun import sunniest
from bot.domain.trade import Form, Grade
from bot.domain.value import Value, replace
from bot.domain.window import BEARING_DEG, Facing, Outdoors
from bot.phrases.home_words import (
    ARTICLES,
    ENDS,
    HEADS,
    LIVES,
    LOOKS,
    OF_TWO_WORDS,
    PREPOSITIONS,
    ROOMS,
    SORTS,
    Event,
    Mends,
    Words,
    kind_at,
    singular,
    words_at,
)
from bot.phrases.items import items_of
from bot.phrases.kept import kept
from bot.phrases.lexicon import (
    Word,
    classes_of,
    is_ordinary,
    listed,
    phrases_of,
    worded,
    words_in,
    words_of_class,
)
from bot.phrases.light import A_LAMP, UNKNOWN, WAYS, Lit, facets_in, light_in
from bot.phrases.names import OneOf, Place, Plants, names_of
from bot.phrases.numbers import number_at
from bot.phrases.saying import say_all
from bot.phrases.spotting import slip_of
from bot.phrases.tagging import Span, linked, spans_in
from bot.phrases.text import plain, tidy, words_of

MOST_PLANTS = 120
MOST_UNASKED = 20
"""More of one name are asked about before they are written. Judgement. [1]"""
ASKED = frozenset({Expecting.PLANTS, Expecting.WHERE, Expecting.TOWN})
"""What is asked of a home; any other open question leaves it as it is read."""
SURE_MARGIN = 35
"""A span whose labels stand less above all others is only offered. [1]"""
LEAST_MARGIN = 70
"""A name of ordinary words, none of them listed, whose labels stand less above all others is none. [1]"""
_MOST_OF_A_KIND = 40
_LONGEST_NAME = 60
_MOST_OF_A_NAME = 4
_MOST_LOOKED_UP = 8
_GENERAL_ROOMS = words_of_class("home", "no-room")
_ELDERS = words_of_class("home", "elders")
_GROUNDS = words_of_class("home", "their-grounds")
_HANDED_DOWN = words_of_class("home", "handed-down")
_SIGNS = words_of_class("home", "bugs") | frozenset(
    word for key in classes_of("seen") if key.startswith("look") for word in words_of_class("seen", key)
)
_ABROAD = {here: {" ".join(name) for name in phrases_of("abroad", here)} for here in classes_of("abroad")}
"""A place that was told in another language, by what it may be called in the next message."""
_ALL_OF_THEM = listed("it they all both these those she he each everything every them")
_OTHERS = frozenset({"others", "rest"})
_ILL = listed("sick unwell dying infested infestation pest pests bugs bug insects")
_COUNTED_TOO = listed(
    "cm inch inches plants plant pots pot houseplants rooms room weeks days year years % percent degrees"
)
_GRADES = {Grade.FEW: "few", Grade.SOME: "some", Grade.MANY: "many"}
COUNTING = (*"0123456789", *_GRADES.values())
_FORMS = {Form.READY: "ready to use", Form.CONCENTRATE: "concentrate"}
_KNOWN_BY = listed("the my our this that those these both on")
"""What stands before a name that was told already."""
_JOINTS = frozenset({"and", "comma"})


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
    beyond: tuple[str, ...] = ()
    """Plants of a name beyond how many of it there are said to be: "two ferns, not three"."""
    is_guessed: bool = False
    """Whether a slip was read into what it is most likely of."""
    moved: tuple[NewPlant, ...] = ()
    """Plants of the home that are told at another place than theirs."""

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
            one.name: ", ".join(
                filter(None, [*map(_way, (one.facing, one.outdoors)), "lamp" if one.has_lamp else ""])
            )
            for one in self.places
        }
        lines = [self.town] if self.town else []
        for name, plants in by_place.items():
            where = " ".join(filter(None, [name, f"({looks[name]})" if looks.get(name) else ""]))
            lines.append(": ".join(filter(None, [where, ", ".join(_in_runs(plants))])))
        lines += [*self.lines, *(["nothing to treat with"] if self.has_nothing else [])]
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


@dataclass(slots=True)
class _Telling:
    """What was gathered of a message so far."""

    situation: Situation
    told: Words
    spans: list[Span] = field(default_factory=list)
    links: dict[Span, Span] = field(default_factory=dict)
    pairs: dict[Span, Span] = field(default_factory=dict)
    town: str = ""
    is_led: bool = False
    plants: list[NewPlant] = field(default_factory=list)
    moved: list[NewPlant] = field(default_factory=list)
    names: dict[Span, list[str]] = field(default_factory=dict)
    """Which plants a span names."""
    places: dict[Span, str] = field(default_factory=dict)
    looks: dict[str, list[Lit]] = field(default_factory=dict)
    indoors: set[str] = field(default_factory=set)
    """Places whose window was told: what sun they get is no sun outdoors."""
    beyond: list[str] = field(default_factory=list)
    lines: list[str] = field(default_factory=list)
    unplaced: str = ""
    dropped: set[int] = field(default_factory=set)
    """Words that were read and are left out."""
    far: dict[str, tuple[int, int]] = field(default_factory=dict)
    """How far a plant is named from its place: sentences, then words."""
    unread: dict[int, str] = field(default_factory=dict)
    """What was not read, by where it stands."""
    is_known: bool = True
    is_guessed: bool = False
    has_kinds: bool = False

    def of(self, *keys: str) -> list[Span]:
        return [one for one in self.spans if one.key in keys]

    def before(self, at: int) -> bool:
        """Whether a plant is told before a word."""
        return any(one.start < at for one in self.names)

    def text(self, one: Span | Event) -> str:
        return self.told.text(one.start, one.end)

    def sentence(self, at: int) -> tuple[int, int]:
        """Give where the sentence of a word begins and ends."""
        ends = self.told.ends
        number = bisect_left(ends, at)
        return ends[number - 1] + 1 if number else 0, (*ends[number : number + 1], len(self.told.words))[0]

    def words(self, start: int, end: int) -> frozenset[str]:
        return frozenset(self.told.words[max(0, start) : end])

    def leave(self, one: Span | Event) -> None:
        """Note that something was not read."""
        self.unread[one.start] = self.text(one)


def read_home(text: str, situation: Situation) -> Home:
    """
    Read what a message tells of a home, and what of it could not be read.

    What each run of words tells is judged by a model of where it stands; what is told of it is read by the
    lists of kinds, rooms, animals and products. Every word that carries meaning and is neither is unread.
    """
    asked = situation.expecting if situation.expecting in ASKED else None
    beside = (asked, situation.untold, situation.lacks_town, situation.latitude, _pending(situation))
    return kept(_read_once, (_in_sentences(text), *beside), situation)


def _in_sentences(text: str) -> str:
    """
    Put a stop for a dash between two clauses; a dash behind few words leads in a list.

    Where rooms stand in front of what is told of them, the next room behind a way begins a sentence too.
    """
    text = _DICTATED.sub(lambda told: "," if told[1].lower() == "comma" else ".", text)
    parts = _DASH.split(text)
    is_headed = _begins_with_a_room(parts[0])
    ends = (
        ". "
        if min(len(before.split()), len(behind.split())) > _HEADING_WORDS
        or (
            is_headed
            and light_in(before)
            and len(before.split()) < _HEADING_WORDS
            and _begins_with_a_room(behind)
        )
        else " - "
        for before, behind in pairwise(parts)
    )
    return "".join(one for pair in zip(parts, (*ends, ""), strict=True) for one in pair)


def _begins_with_a_room(text: str) -> bool:
    """Whether a room stands first, with at most what tells it from another."""
    words = words_of(text.lower())
    return next((word in ROOMS for word in words if word not in SORTS | ARTICLES), False)


_DICTATED = re.compile(r"(?<=\w)[^\S\n]+(comma|full stop|new ?line)(?=$|[^\w])", re.IGNORECASE)
"""A mark that was spoken: “hoya comma ivy full stop”."""
_DASH = re.compile(r"[^\S\n][-\u2013\u2014]+[^\S\n]")
_HEADING_WORDS = 3


def _read_once(asked: tuple[object, ...], situation: Situation) -> Home:
    """Read a text; what is asked of the situation besides its names stands beside it."""
    text = str(asked[0])
    if _is_of_others(text):
        return Home(unread=(text,))
    home = _read(text, situation)
    is_told = home.has_nothing or not (home.is_empty() and situation.lacks_town)
    if not home.unread and home.is_known and is_told:
        return home
    mends = _doubtful(home, situation)
    if not kept(words_at, (text, mends), situation).is_mended:
        return home  # no word may be a slip
    mended = _read(text, situation, mends)
    is_better = (len(mended.unread), _strangers(mended, situation)) < (
        len(home.unread),
        _strangers(home, situation),
    )
    return mended if is_better and not mended.is_empty() else home


def _doubtful(home: Home, situation: Situation) -> Mends:
    """Give the words that were not read, and those of plants whose kind is not known."""
    unread = frozenset(word for one in home.unread for word in words_of(one.lower()))
    strange = [
        one.name for one in home.plants if not _is_of_a_kind(words_of(one.name.lower()), situation.kinds)
    ]
    return unread, words_in(one.lower() for one in strange) | words_in(strange)


def _strangers(home: Home, situation: Situation) -> int:
    """Count the plants whose name is of no kind that is known; two kinds in one name are two."""
    return sum(not _is_of_a_kind(words_of(one.name.lower()), situation.kinds) for one in home.plants)


def _is_of_others(text: str) -> bool:
    """Whether somebody else's plants are told of: a grandmother's garden, nothing handed down."""
    words = frozenset(words_of(plain(text)))
    return bool(words & _ELDERS and words & _GROUNDS) and not words & _HANDED_DOWN


def _read(text: str, situation: Situation, mends: Mends | None = None) -> Home:
    words = kept(words_at, (text, mends), situation)
    told = _Telling(situation, words, is_guessed=words.is_mended)
    told.spans = _spans(told)
    has_nothing = _has_nothing(told)
    _leave_mistaken_out(told)
    _leave_theirs_out(told)
    _leave_denied_out(told)
    _read_town(told)
    told.links = linked(told.spans, words.tokens)
    _lead_on(told)
    _share(told)
    told.links |= told.pairs | _at_the_end(told) | _ways_by_turns(told) | _at_the_front(told)
    for one in told.of("place"):
        told.places[one] = _place_name(one, told)
    for one in told.of("plant"):
        _take_plant(one, told)
    _settle(told)
    _leave_strangers(told)
    for one in told.of("side"):
        _look(one, told)
    _of_windows_not_known(told)
    _of_two_windows(told)
    for one in told.of("place"):
        named = told.places[one].lower()
        if (ways := light_in(named) if named.endswith(_PANES) else []) and told.places[one] not in told.looks:
            told.looks[told.places[one]] = ways  # "the west sill"
        if (
            told.told.words[one.end : one.end + 1] == ("same",)
            and told.places[one] not in told.looks
            and told.looks
        ):
            told.looks[told.places[one]] = list(told.looks.values())[-1][-1:]
    for one in told.of("place"):
        is_said = one in told.links.values() or told.places[one] in told.looks
        is_said = is_said or any(each.place == told.places[one] for each in told.plants)
        if not is_said and told.text(one) not in _SPOKEN_OF:
            told.leave(one)
    _read_finds(told)
    _read_clean(told)
    _read_shelf(told)
    _leave_unread(told)
    return Home(
        told.town,
        tuple(told.plants[:MOST_PLANTS]),
        tuple(
            _set_place(
                name, [one for one in looks if not (name in told.indoors and one in _OUTDOORS)], situation
            )
            for name, looks in told.looks.items()
        ),
        tuple(dict.fromkeys(told.lines)),
        told.unplaced,
        tuple(one for _, one in sorted(told.unread.items()) if one.strip(" '\"()-:,")),
        told.is_known and not told.is_guessed,
        told.has_kinds,
        has_nothing and not any(one.startswith("got ") for one in told.lines),
        bool(_ILL & frozenset(words.words)),
        tuple(plant for one in words.events if isinstance(one.value, Plants) for plant in one.value.ids),
        told.is_led,
        tuple(told.beyond),
        told.is_guessed,
        tuple(told.moved),
    )


def runs_told(words: Words, situation: Situation) -> list[Span]:
    """Give the runs of words that tell something of a home, in a message that is looked at already."""
    return _spans(_Telling(situation, words))


_OUTDOORS = frozenset(Outdoors)
_PANES = ("window", "windows", "sill", "sills")
_KEY_OF = {"own": "plant", "place": "place", "pest": "seen", "product": "product", "lamp": "side"}


def _spans(told: _Telling) -> list[Span]:
    """Give the runs that tell something; the home's own names, animals and products as they are listed."""
    asked = told.situation.expecting.value if told.situation.expecting in ASKED else ""
    found = _with_ranges(spans_in(told.told.tokens, asked), told)
    for one in told.told.events:
        key = _KEY_OF.get(one.what, "")
        beside = [each for each in found if each.start < one.end and one.start < each.end]
        holding = [
            each
            for each in beside
            if each.start <= one.start
            and one.end <= each.end
            and (each.start, each.end) != (one.start, one.end)
        ]
        if key and not any(one.what in {"own", "place"} or not _is_strange(each, told) for each in holding):
            found = [each for each in found if each not in beside]
            found.append(Span(key, one.start, one.end, SURE_MARGIN))
    found = sorted([*found, *_rooms_led_in(found, told)], key=lambda one: one.start)
    found = _with_listed([one for one in found if not _is_faint(one, told)], told)
    found = _with_strange_places(_with_named(found, told), told)
    told.spans = found
    found = [replace(one, key="place") if _is_a_place(one, told) else one for one in found]
    gone = [
        one
        for one in found
        if one.key == "place" and ("from" in told.told.before(one.start, 2) or _is_done_to_it(one, told))
    ]
    told.dropped.update(at for one in gone for at in range(one.start, one.end))
    found = _with_fields([part for one in found if one not in gone for part in _parted(one, told)], told)
    found = _with_names_again([bare for one in found if (bare := _bared(one, told)).start < bare.end], told)
    found = [*found, *_ways_alone(found, told), *_said_in_a_word(found, told)]
    found = list(_run_together(_with_counts(sorted(found, key=lambda one: one.start), told), told))
    told.pairs = _pairs(told)
    paired = [one for pair in told.pairs.items() for one in pair]
    found = paired or [*found, *_places_again(found, told)]
    return sorted((_widened(one, found, told) for one in found), key=lambda one: one.start)


def _widened(one: Span, found: list[Span], told: _Telling) -> Span:
    """Take in a word that tells a room from another: "and top landing"."""
    start = one.start - 1
    is_free = start >= 0 and not any(each.start <= start < each.end for each in found)
    is_of_it = one.key == "place" and is_free and told.told.words[start] in _TELLING_APART
    return replace(one, start=start) if is_of_it and _event_of(one, told, "place") is None else one


_TELLING_APART = listed("top back rear front spare guest upper lower main master middle upstairs downstairs")


def _pairs(told: _Telling) -> dict[Span, Span]:
    """Give plants and places where each comma's part is one of both: "ivy hall, jade kitchen, zorb study"."""
    of = "".join(_PAIRING.get(told.told.of(at), "x") for at in range(len(told.told.words)))
    found = next((one for one in _PAIRED if one.fullmatch(of)), None)
    if found is None or "s" not in of or "k" not in of:
        return {}
    parts = [one.span() for one in re.finditer("[^,.]+", of)]
    names, rooms = (
        [
            Span(key, start + one.start(), start + one.end(), LEAST_MARGIN)
            for start, end in parts
            for one in run.finditer(of[start:end])
        ]
        for key, run in (("plant", _NAME_RUN), ("place", _ROOM_RUN))
    )
    return dict(zip(names, rooms, strict=True))


def _at_the_end(told: _Telling) -> dict[Span, Span]:
    """Give plants the place that ends their sentence, where several do so: "Fern, den. Mint, sage, hall."."""
    found: dict[Span, Span] = {}
    ends = set()
    for one in told.spans:
        start, end = told.sentence(one.start)
        here = [each for each in told.spans if start <= each.start < end and each.key in {"plant", "place"}]
        places = [each for each in here if each.key == "place"]
        if one.key == "place" and (places != here[-1:] or len(here) == 1):
            return {}
        if one.key == "plant" and places and places == here[-1:]:
            found[one] = places[0]
            ends.add(places[0])
    return found if len(ends) > 1 else {}


def _at_the_front(told: _Telling) -> dict[Span, Span]:
    """Give all of a clause the room it begins with, where several do: "den fern, hall jade + ivy"."""
    breaks = [at for at in range(len(told.told.words)) if told.told.of(at) in ENDS | {"comma"}]
    found: dict[Span, Span] = {}
    heads = set()
    for start, end in pairwise([-1, *breaks, len(told.told.words)]):
        here = [
            one for one in told.spans if start < one.start < end and one.key in {"plant", "place", "side"}
        ]
        keys = [one.key for one in here]
        if "plant" in keys and (keys[0] != "place" or keys.count("place") > 1):
            return {}
        if "plant" in keys:
            found |= dict.fromkeys(here[1:], here[0])
            heads.add(here[0])
    return found if len(heads) > 1 else {}


def _ways_by_turns(told: _Telling) -> dict[Span, Span]:
    """
    Give each way the place of its sentence that it is told of.

    That is the only one there is, or the one beside it where a place and a way take turns to the end.
    """
    found: dict[Span, Span] = {}
    for one in told.of("side"):
        start, end = told.sentence(one.start)
        here = [each for each in told.spans if start <= each.start < end and each.key in {"place", "side"}]
        places, ways = ([each for each in here if each.key == key] for key in ("place", "side"))
        link = told.links.get(one)
        if len(places) == 1 and (link is None or not start <= link.start < end):
            found[one] = places[0]
        elif 1 < len(places) == len(ways) and here in (
            [each for pair in zip(places, ways, strict=True) for each in pair],
            [each for pair in zip(ways, places, strict=True) for each in pair],
        ):
            found[one] = places[ways.index(one)]
    return found


_PAIRING = {"kind": "k", "kind+": "k", "strange": "s", "room": "r", "room+": "r", "around": "a", "comma": ","}
_PAIRING |= {"stop": "."}
_NAME_RUN, _ROOM_RUN = re.compile("[ks]+"), re.compile("r+")
_PAIRED = tuple(re.compile(rf"{one}(?:,{one})+[.]?") for one in ("(?:k+|s)a?r+", "r+a?(?:k+|s)"))


def _is_done_to_it(one: Span, told: _Telling) -> bool:
    """Whether what may be a room is what was done: "cut it and shower it"."""
    return told.told.of(one.start - 1) == "and" and bool(told.words(one.end, one.end + 1) & {"it", "them"})


def _ways_alone(spans: list[Span], told: _Telling) -> Iterator[Span]:
    """Give what a sentence says of a place's light where it says nothing else: "the loft: outside"."""
    for one in told.told.events:
        start, end = told.sentence(one.start)
        here = [each for each in spans if start <= each.start < end]
        held = {*range(one.start, one.end), *(at for each in here for at in range(each.start, each.end))}
        rest = {told.told.of(at) for at in range(start, end) if at not in held}
        is_answer = not here and start == 0 and end < len(told.told.words) and bool(told.situation.untold)
        is_of_it = is_answer or [each.key for each in here] == ["place"]
        if one.what == "facing" and is_of_it and rest <= _PASSING | {"colon"}:
            yield Span("side", one.start, one.end, SURE_MARGIN)


def _said_in_a_word(spans: list[Span], told: _Telling) -> Iterator[Span]:
    """Give “one” of plants told before that stands in a room, and “none” for a window behind one."""
    words, taken = told.told.words, {at for one in spans for at in range(one.start, one.end)}
    for place in [one for one in spans if one.key == "place"]:
        start, end = told.sentence(place.start)
        here = [one for one in spans if start <= one.start < end]
        at = place.start - 1 - (told.told.words[place.start - 1] in ARTICLES)
        is_more = at > start and words[at] in PREPOSITIONS and words[at - 1] in {"one", "another"}
        if is_more and at - 1 not in taken and any(one.key == "plant" and one.start < at for one in here):
            yield Span("plant", at - 1, at, SURE_MARGIN)
        is_none = (
            words[place.end : place.end + 1] == ("none",) and told.told.of(place.end + 1) in ENDS | _JOINTS
        )
        if is_none and place.end not in taken and {one.key for one in here} == {"place", "side"}:
            yield Span("side", place.end, place.end + 1, SURE_MARGIN)


def _with_ranges(spans: list[Span], told: _Telling) -> list[Span]:
    """Take "AV1-AV30", "orchid 1 to orchid 10", "fern 1 to 30" for a name and its numbers."""
    words = told.told.words
    for at in range(len(words) - 3):
        stop = at + 2
        while stop < len(words) and words[stop] in _TO:
            stop += 1
        is_led = words[at].isalpha() and words[at] not in ARTICLES | PREPOSITIONS and words[at + 1].isdigit()
        if not is_led or stop == at + 2:
            continue
        stop += words[stop : stop + 1] == (words[at],)
        if (
            stop >= len(words)
            or not words[stop].isdigit()
            or told.told.of(at) not in {"kind", "kind+", "strange"}
        ):
            continue
        start = next((one.start for one in spans if one.key == "plant" and one.start < at < one.end), at)
        if {*words[start:at], *map(singular, words[start:at])} & {"numbered", words[at]}:
            start = at  # "orchids orchid 1 to 10"
        spans = [one for one in spans if one.end <= start or one.start > stop]
        spans += [Span("plant", start, at + 1, SURE_MARGIN), Span("count", at + 1, stop + 1, SURE_MARGIN)]
    return sorted(spans, key=lambda one: one.start)


def _parted(one: Span, told: _Telling) -> Iterator[Span]:
    """Set apart two rooms, "attic and den", and a way and the next room: "to the south kitchen is east"."""
    way = _event_of(one, told, "facing") if one.key == "place" else None
    if (
        way is not None
        and way.start == one.start < way.end < one.end
        and told.told.before(one.start, 2) == ("to", "the")
    ):
        yield replace(one, key="side", end=way.end)
        one = replace(one, start=way.end)
    for kind, other in pairwise(told.told.within(one.start, one.end) if one.key == "plant" else []):
        if _are_two_kinds(kind, other, told):  # "hoya ivy"
            yield replace(one, end=other.start)
            one = replace(one, start=other.start)
    inner = told.told.within(one.start, one.end) if one.key == "place" else []
    is_of_it = bool(told.words(one.end - 1, one.end) & (_OF_A_ROOM | _GENERAL_ROOMS))
    for room, way in [] if is_of_it else pairwise(inner[:-1]):
        if (room.what, way.what) == ("room", "facing"):  # "lounge south kitchen north"
            yield replace(one, end=room.end)
            yield replace(one, key="side", start=way.start, end=way.end)
            one = replace(one, start=way.end)
    for at in range(one.start + 1, one.end - 1):
        if told.told.of(at) == "and" and told.told.of(at - 1) == told.told.of(at + 1) == "room":
            yield replace(one, end=at)
            one = replace(one, start=at + 1)
    yield one


def _are_in_a_row(one: Span, other: Span, told: _Telling) -> bool:
    """Whether the last kind of a name and the first of the next are two plants."""
    first, second = (told.told.within(each.start, each.end) for each in (one, other))
    return bool(first and second) and _are_two_kinds(first[-1], second[0], told)


def _are_two_kinds(one: Event, other: Event, told: _Telling) -> bool:
    """Whether two listed kinds in a row are two plants, and not a kind with its head: "aloe cactus"."""
    if not one.what == other.what == "kind" or one.end != other.start:
        return False
    kinds = [
        load().knowledge.kind_named(" ".join(told.told.words[each.start : each.end])) for each in (one, other)
    ]
    is_headed = bool(told.words(other.start, other.end) & (_HEADING_ANY | _SHAPES - HEADS))
    return kinds[0] != kinds[1] and not is_headed


_HEADING_ANY = HEADS - listed("fern ferns ivy")
"""What may stand behind the name of a kind: “jade tree”; an ivy or a fern is one of its own."""
_OF_A_ROOM = listed("corner sill sills windowsill windowsills ledge shelf table desk wall wing side")
"""What stands in a room, not beside it: “the kitchen south corner”."""


def _is_faint(one: Span, told: _Telling) -> bool:
    """Whether ordinary words none of which is listed, or a strange room in a list, are hardly a name."""
    words = told.told.words
    is_more = told.words(one.start, one.end) <= _OF_THEM
    if not _is_strange(one, told) or (is_more and one.key == "plant" and one.margin >= SURE_MARGIN):
        return False
    if one.end == one.start + 1 and len(words[one.start]) == 1:
        return True
    if one.key == "plant" and told.words(one.start - 3, one.end) & _LITTLE:
        return True  # "a cat, Minka"
    return one.margin < LEAST_MARGIN and (
        (one.key == "place" and told.told.of(one.start - 1) == "comma")
        or all(told.told.of(at) != "strange" or is_ordinary(words[at]) for at in range(one.start, one.end))
    )


def _with_names_again(spans: list[Span], told: _Telling) -> list[Span]:
    """Take a plant's own name for the plant wherever it stands, though it may be a person's."""
    words = told.told.words
    own = {words[one.start] for one in spans if one.key == "plant" and _is_strange(one, told)} - _OF_THEM
    taken = {at for one in spans if one.key != "person" for at in range(one.start, one.end)}
    again = [at for at, word in enumerate(words) if word in own and at not in taken]
    left = [one for one in spans if one.key != "person" or not own & told.words(one.start, one.end)]
    named = {one.end + 1 for one in left if one.key == "plant" and words[one.start] in own}
    kinds = [
        Span("plant", one.start, one.end, SURE_MARGIN)
        for one in told.told.events  # "Bertha (a fern)"
        if one.what == "kind"
        and one.start not in taken
        and one.start - (words[one.start - 1] in ARTICLES) in named
        and "(" in told.told.before(one.start, 2)
    ]
    left += [*kinds, *(Span("plant", at, at + 1, LEAST_MARGIN) for at in again)]
    return sorted(left, key=lambda one: one.start)


def _places_again(spans: list[Span], told: _Telling) -> Iterator[Span]:
    """Give what means the place spoken of last, "in there", and that of a plant: "beside the hoya"."""
    places = [one.start for one in spans if one.key == "place"]
    for one in told.told.events:
        is_left = bool(told.situation.places) or any(start < one.start for start in places)
        is_alone = told.situation.expecting is Expecting.WHERE and not spans
        if one.what == "again" and is_left and (is_alone or told.told.words[one.start] != "same"):
            is_of_it = told.told.words[one.start] != "there" and told.told.before(one.start) in {
                ("in",),
                ("by",),
            }
            yield from [] if is_of_it else [Span("place", one.start, one.end, SURE_MARGIN)]


def _stands_at(own: Event, told: _Telling) -> str:
    """Give the place of a plant of the home."""
    places = {one.id: one.name for one in told.situation.places}
    ids = own.value.ids if isinstance(own.value, Plants) else ()
    return next(
        (places[one.place] for one in told.situation.plants if one.id in ids and one.place in places), ""
    )


_LONGEST_FIELD = 8
"""Words of a line's first field. Judgement. [1]"""


def _with_fields(spans: list[Span], told: _Telling) -> list[Span]:
    """Take a line's first field for a plant, whatever it is, where a place is the second: "plant b, hall"."""
    lines = [one.start for one in told.told.events if one.what == "line"]
    commas = [at for at, word in enumerate(told.told.words) if word == ","] or [len(told.told.words)]
    seconds = [
        one
        for one in spans
        if told.told.before(one.start) == (",",)
        and (one.key == "place" or (one.key == "plant" and told.told.of(one.start) == "room"))
    ]
    for start, end in pairwise([-1, *lines, len(told.told.words)] if lines and seconds else []):
        strange = [at for at in range(start + 1, end) if told.told.of(at) == "strange"]
        keys = [one.key for one in spans if start < one.start < end]
        if (
            keys == ["plant"]
            and strange
            and strange[-1] == end - 1
            and told.told.words[start + 1 : end].count(",") == 1
        ):
            spans.append(Span("place", end - 1, end, LEAST_MARGIN))
    for place in [one for one in spans if one.key == "place" and lines]:
        start, end = told.sentence(place.start)
        commas = [at for at in range(start, end) if told.told.words[at] == ","]
        if not commas or not commas[0] < place.start or any(at < place.start for at in commas[1:]):
            continue
        stop = commas[1] if len(commas) > 1 else end
        first = [one for one in spans if start <= one.start < commas[0]]
        second = [one for one in spans if commas[0] < one.start < stop]
        is_short = 0 < commas[0] - start <= _LONGEST_FIELD and stop - commas[0] <= _LONGEST_FIELD
        if (
            is_short
            and not any(one.key in {"seen", "product"} for one in first)
            and not (first and any(each.what == "count" for each in told.told.within(start, first[-1].start)))
            and {one.key for one in first} != {"count", "plant"}
            and all(one == place or _is_strange(one, told) for one in second)
        ):
            margin = min([one.margin for one in first], default=LEAST_MARGIN)
            spans = [one for one in spans if one not in {*first, *second}]
            spans += [Span("plant", start, commas[0], margin), replace(place, start=commas[0] + 1, end=stop)]
    is_asked = told.situation.expecting is Expecting.PLANTS
    is_list = is_asked and any(one.key == "plant" for one in spans)
    begins = [told.told.of(at) for at in range(min(told.sentence(0)[1], *commas, len(told.told.words)))]
    is_untold = not any(one.key != "town" or told.situation.lacks_town for one in spans)
    if is_asked and is_untold and 0 < len(begins) <= _MOST_OF_A_NAME and set(begins) <= {"strange", "looks"}:
        spans.append(Span("plant", 0, len(begins), LEAST_MARGIN))  # "Florence"
    lines = lines if is_list else []
    for start, end in pairwise([*(at + 1 for at in lines), len(told.told.words) + 1] if lines else []):
        words = [told.told.of(at) for at in range(start, end - 1)]
        is_free = not any(one.start < end and start < one.end for one in spans)
        if is_free and 0 < len(words) <= _MOST_OF_A_NAME and set(words) <= {"strange", "looks"}:
            spans.append(Span("plant", start, end - 1, LEAST_MARGIN))
    return sorted(spans, key=lambda one: one.start)


def _rooms_led_in(spans: list[Span], told: _Telling) -> Iterator[Span]:
    """Give listed rooms that head a line or that "in the" leads to, and that nothing else holds."""
    taken = {at for one in spans for at in range(one.start, one.end)}
    words = told.told.words
    for one in told.told.events:
        start, end = one.start, one.end
        while start and words[start - 1] in SORTS:
            start -= 1
        while told.told.of(end).startswith("room"):
            end += 1
        lead = start - (words[max(0, start - 1) : start] != () and words[max(0, start - 1)] in ARTICLES)
        is_led = lead > 0 and words[lead - 1] in PREPOSITIONS | _TO_A_PLACE
        is_led = is_led or (told.told.of(end) == "colon" and start == told.sentence(start)[0])
        is_led = is_led or (told.told.of(end) == "kind" and start == told.sentence(start)[0])
        is_joint = told.told.of(start - 1) in _JOINTS
        is_led = is_led or (is_joint and any((each.key, each.end) == ("place", start - 1) for each in spans))
        if (
            one.what == "room"
            and is_led
            and not taken & set(range(start, end))
            and words[one.start] not in _GENERAL_ROOMS
        ):
            taken.update(range(start, end))
            yield Span("place", start, end, LEAST_MARGIN)


def _with_counts(spans: list[Span], told: _Telling) -> list[Span]:
    """Take a number for how many where it stands right before a name, or it or a range right behind it."""
    named = {one.start for one in spans if one.key == "plant"}
    if any(one.key == "seen" for one in spans):  # "scale on the fern, ten", "scale, some ten of them"
        spans = [
            one
            for one in spans
            if one.key != "count"
            or one.end in named
            or not (
                told.told.before(one.start) == (",",)
                or told.told.words[one.end : one.end + 2] in _OF_WHAT_WAS_SEEN
            )
        ]
    spans = [one for one in spans if not (_counts_what_was_seen(one, spans, told) or _counts_all(one, told))]
    taken = {at for one in spans for at in range(one.start, one.end)}
    counted = {at for one in spans if one.key == "count" for at in (one.start, one.end)}
    more: list[Span] = []
    for one in spans:
        if one.key != "plant" or one.start in counted or one.end in counted:
            continue
        end = one.end
        while end not in taken and "".join(told.told.words[end : end + 1]).isdigit():
            end += 1
        if end > one.end and _counts_what_was_seen(Span("count", one.end, end, one.margin), spans, told):
            continue
        begins = one.start - (told.told.before(one.start) == ("x",))
        before = next(
            (each for each in told.told.events if each.end == begins and each.what == "count"), None
        )
        is_width = told.told.words[end : end + 1] == ("in",) and told.told.of(end + 1) in ENDS | _JOINTS
        if (
            end > one.end
            and not is_width
            and told.told.of(end) in ENDS | _JOINTS | {"colon", "around", "room"}
        ):
            more.append(Span("count", one.end, end, one.margin))
        elif before is not None and before.start not in taken and before.value != 1:
            more.append(Span("count", before.start, before.end, one.margin))
    return sorted([*spans, *more], key=lambda one: one.start)


def _counts_all(count: Span, told: _Telling) -> bool:
    """Whether a number before a comma is how many plants there are: "two plants, no, three, an ivy, ..."."""
    start, _ = told.sentence(count.start)
    is_apart = count.key == "count" and told.told.words[count.end : count.end + 1] in {(",",), (":",), ("-",)}
    return is_apart and any(
        one.what == "count" and told.told.words[one.end : one.end + 1] in _PLANTS
        for one in told.told.within(start, count.start)
    )


_PLANTS = {("plant",), ("plants",), ("pots",), ("houseplants",)}


def _counts_what_was_seen(count: Span, spans: list[Span], told: _Telling) -> bool:
    """Whether a number right behind a kind is how many were seen, no other being told: "aphids on mint 5"."""
    if count.key != "count" or not told.told.words[count.end - 1].isdigit():
        return False
    start, end = told.sentence(count.start)
    clause = [one for one in told.told.within(start, end) if one.what in {"count", "grade"}]
    seen = [one for one in spans if one.key == "seen" and start <= one.start < count.start]
    plant = next((one for one in spans if one.key == "plant" and one.end == count.start), None)
    name = () if plant is None else told.told.words[plant.start : plant.end]
    is_again = any(
        told.told.words[at : at + len(name)] == name or singular(told.told.words[at]) == name[-1]
        for at in range(len(told.told.words))
        if plant is not None and name and not plant.start <= at < plant.end
    )
    return len(clause) == len(seen) == 1 and plant is not None and not (_is_strange(plant, told) or is_again)


_OF_WHAT_WAS_SEEN = frozenset({("of", "them"), ("of", "those"), ("of", "these")})


def _with_listed(spans: list[Span], told: _Telling) -> list[Span]:
    """Take strange words for a plant where they are an item of a list beside a plant: "hoya, zorbia"."""
    taken = {at: one.key for one in spans for at in range(one.start, one.end)}
    size, at = len(told.told.words), 0
    while at < size:
        end = at
        while end < size and end not in taken and told.told.of(end) in {"strange", "looks"}:
            end += 1
        if end > at and any(told.told.of(n) == "strange" for n in range(at, end)):
            left, right = at - 1, end
            while left >= 0 and (told.told.words[left] in ARTICLES or told.told.of(left) == "count"):
                left -= 1
            while right < size and (told.told.of(right) in _JOINTS or told.told.words[right] in ARTICLES):
                right += 1
            before = taken.get(left - 1 - (told.told.of(left - 1) in _JOINTS), "")
            begins, ends = told.told.of(left) in _JOINTS, told.told.of(end) in ENDS | _JOINTS
            ends = ends or told.told.words[end : end + 1] in {("(",), (")",)}
            behind = (
                taken.get(right, "")
                if right > end and told.told.of(left) in _JOINTS | ENDS | {"colon"}
                else ""
            )
            is_item = ends and ((begins and before == "plant") or behind == "plant")
            if is_item and end - at <= _MOST_OF_A_NAME:
                spans.append(Span("plant", at, end, LEAST_MARGIN))
                taken.update(dict.fromkeys(range(at, end), "plant"))
        at = max(end, at + 1)
    return sorted(spans, key=lambda one: one.start)


def _with_named(spans: list[Span], told: _Telling) -> list[Span]:
    """Take what is called so, and a listed kind joined to a plant, for one: "a plant called Bertha"."""
    taken = {at: one.key for one in spans for at in range(one.start, one.end)}
    for at in range(2, len(told.told.words)):
        is_called = told.words(at - 1, at) & {"called", "named"} and told.words(at - 2, at - 1) & {
            "plant",
            "one",
        }
        if is_called and at not in taken and told.told.of(at) in {"strange", "common"}:
            spans.append(Span("plant", at, at + 1, LEAST_MARGIN))  # "a plant called Bertha"
            taken[at] = "plant"
    for one in told.told.events:
        left = one.start - 1 - (told.told.words[one.start - 1] in ARTICLES)
        is_item = one.what == "kind" and one.start not in taken and told.told.of(left) == "and"
        if is_item and taken.get(left - 1) == "plant":
            spans.append(Span("plant", one.start, one.end, LEAST_MARGIN))
    return sorted(spans, key=lambda one: one.start)


_SHOPS = listed("market shop store centre center nursery sale supermarket shops friend neighbour")
_NO_PLACES = _SHOPS | words_of_class("home", "no-place")
_HOLDING = listed("has holds houses contains hosts")


def _with_strange_places(spans: list[Span], told: _Telling) -> list[Span]:
    """Take strange words for a place where one stands: "dry snell: fern", "in the snell I have a fern"."""
    taken = {at for one in spans for at in range(one.start, one.end)}
    words = told.told.words
    for at in range(len(words)):
        if at in taken or told.told.of(at) != "strange" or words[at] in _NO_PLACES:
            continue
        first, last = told.sentence(at)
        plants = [one.start for one in spans if one.key == "plant" and first <= one.start < last]
        if not plants:
            continue
        start = at
        while start > max(first, at - _MOST_OF_A_NAME) and not (
            words[start - 1] in ARTICLES | PREPOSITIONS
            or start - 1 in taken
            or told.told.of(start - 1) in _JOINTS
        ):
            start -= 1
        lead = start - (start > first and words[start - 1] in ARTICLES)
        behind = words[at + 1 : at + 2]
        heads = (
            lead == first and plants[0] > at and (told.told.of(at + 1) == "colon" or {*behind} <= _HOLDING)
        )
        is_led = words[lead - 1 : lead] in {("in",), ("on",), ("at",)} and behind == ("i",)
        is_town = told.situation.lacks_town and told.told.tokens[at].raw[:1].isupper()
        if heads or (is_led and not is_town):
            spans.append(Span("place", start, at + 1, LEAST_MARGIN))
            taken.update(range(start, at + 1))
    return sorted(spans, key=lambda one: one.start)


def _is_strange(one: Span, told: _Telling) -> bool:
    """Whether a span is of names, and nothing within it is listed."""
    listed_as = {each.what for each in told.told.within(one.start, one.end)}
    return one.key in {"plant", "place"} and not listed_as & {"kind", "own", "room", "place"}


def _run_together(spans: list[Span], told: _Telling) -> Iterator[Span]:
    """Put together what is one: "south", "east", and "AV4-AV6"."""
    at = 0
    while at < len(spans):
        one, *behind = spans[at : at + 5]
        keys = [each.key for each in behind]
        is_range = one.key == "plant" and keys[:3] == ["count", "plant", "count"]
        if keys[:1] == ["side"] == [one.key] and behind[0].start == one.end:
            spans[at + 1] = replace(behind[0], start=one.start)
        elif (
            is_range
            and told.text(behind[1]).lower() == told.text(one).lower()
            and told.told.words[behind[0].end] in _TO
        ):
            yield one
            spans[at + 3] = replace(behind[2], start=behind[0].start)
            at += 2
        elif (
            keys[:1] == ["plant"] == [one.key]
            and behind[0].start == one.end
            and told.text(behind[0]) in _SHAPES
            and not _are_in_a_row(one, behind[0], told)
            and singular(told.text(one).lower()) != told.text(behind[0]).lower()
        ):
            spans[at + 1] = replace(behind[0], start=one.start)
        else:
            yield one
        at += 1


_SHAPES = HEADS | listed("bonsai seedling seedlings standard standards cutting cuttings")


def _is_a_bay(one: Span, told: _Telling) -> bool:
    """Whether a kind that is a sort of room too stands where a place does: "in the bay"."""
    words = told.told.words[one.start : one.end]
    behind = next((each for each in told.spans if each.start >= one.end), None)
    is_led = bool(frozenset(told.told.before(one.start, 2)) & PREPOSITIONS)
    held = told.told.words[one.end : one.end + 2]
    is_lit = behind is not None and behind.key == "side" and behind.start <= one.end + 1
    return (
        len(words) == 1 and words[0] in SORTS and (is_led or is_lit or held in {("has", "a"), ("holds", "a")})
    )


def _is_a_place(one: Span, told: _Telling) -> bool:
    """Whether what was taken for a plant is a place: a room's field of a line, or what plants stand on."""
    if one.key != "plant":
        return False
    is_field = told.told.before(one.start) == (",",) and told.told.of(one.start) == "room"
    return (is_field and _event_of(one, told, "kind", "own") is None) or any(
        is_of_place(one, told) for is_of_place in (_is_a_bay, _is_stood_on)
    )


def _is_stood_on(one: Span, told: _Telling) -> bool:
    """Whether a strange name is where the plants before it stand: "basil and mint on the Fensterbrett"."""
    start, end = told.sentence(one.start)
    here = [each.key for each in told.spans if start <= each.start < end]
    before = [each.key for each in told.spans if start <= each.start < one.start]
    lead = told.told.before(one.start, 2)
    is_led = len(lead) > 1 and lead[0] in {"in", "on"} and lead[1] in ARTICLES
    is_led = is_led or bool(told.words(one.start - 1, one.start) & _WHICH)
    return is_led and before[-1:] == ["plant"] and "seen" not in here and _is_strange(one, told)


_NO_NAME = listed("same x pcs pc pieces piece of that this these those ( ) * # ,")


_WHICH = SORTS - listed("plant home right day sun window side work first")
_NO_BEGINNING = listed("the a an my our")


def _bared(one: Span, told: _Telling) -> Span:
    """Leave out what is no name at a name's ends: "x", "pcs of", "same"."""
    start, end = one.start, one.end
    own = _event_of(one, told, "own", "place")
    if own is not None and (own.start, own.end) == (start, end):
        return one
    if _is_strange(one, told) and one.key == "place" and told.words(start - 1, start) & _WHICH:
        start -= 1  # "guest" of a room that nobody listed
    if one.key in {"plant", "place", "side"}:
        while start < end and (
            told.told.words[start] in _NO_NAME | _NO_BEGINNING
            or (told.told.words[start] == "new" and told.told.of(start + 1) == "kind")
        ):
            start += 1
        if one.key == "place" and told.told.words[start : start + 1] == ("top",):
            return replace(one, start=start, end=end)
        while start < end and (
            told.told.words[end - 1] in _NO_NAME | {".", ":"}
            or (one.key == "plant" and end > start + 1 and told.told.words[end - 1].isdigit())
        ):
            end -= 1
        given = [at for at in range(start + 1, end) if told.told.words[at] == "from" and one.key == "plant"]
        if given and told.told.of(start).startswith("kind"):
            end = given[0]  # "the fern from Ann"
        rooms = [
            at + 1 for at in range(start + 1, end - 1) if told.told.words[at] == "in" and one.key == "place"
        ]
        if rooms:  # "the sill in the kitchen"
            return _bared(replace(one, start=rooms[-1], end=end), told)
    return replace(one, start=start, end=end)


def _lead_on(told: _Telling) -> None:
    """Give a plant the place that right behind it is led in: "another on the landing"."""
    words, begins = told.told.words, {one.start: one for one in told.of("place")}
    for one in told.of("plant"):
        if words[one.end : one.end + 1] and words[one.end] in PREPOSITIONS:
            at = one.end + 1
            at += words[at : at + 1] != () and words[at] in ARTICLES
            if at in begins and told.words(one.start, one.end) <= _OF_THEM:
                told.links[one] = begins[at]
            elif at in begins:
                told.links.setdefault(one, begins[at])


def _share(told: _Telling) -> None:
    """Give "basil, mint and parsley on the sill" one place, where no heading holds the first of them."""
    plants = told.of("plant")
    is_shared = False
    for at in range(len(plants) - 1, 0, -1):
        one, before = plants[at], plants[at - 1]
        place, other = told.links.get(one), told.links.get(before)
        between = {told.told.of(n) for n in range(before.end, one.start)}
        is_behind = place is not None and place.start > one.end
        is_listed = between == {"and"} or (between == {"comma"} and is_shared) or before.end == one.start
        is_shared = is_listed
        is_headed = other is not None and told.told.of(other.end) == "colon"
        if is_behind and place is not None and is_listed and other != place and not is_headed:
            told.links[before] = place


def _event_of(one: Span, told: _Telling, *what: str) -> Event | None:
    """Give what is listed within a span."""
    return next((each for each in told.told.within(one.start, one.end) if each.what in what), None)


_NEAR_DENIAL = 12
"""So many words may stand between "not" and what it denies. Judgement. [1]"""
_NAMING = {"kind": "plant", "room": "place", "facing": "side", "bugs": "seen", "strange": "plant"}
_PASSING = frozenset({"around", "comma", "stop", "telling", "looks"})
_TURNS = frozenset({Word.IT_IS, Word.MEANT})
_TURNING = listed(", . ! wait sorry")


_INSTEAD = {("rather", "than"), ("instead", "of")}


def _led_from(one: Span, told: _Telling) -> int:
    return one.start - (told.told.words[one.start - 1] in ARTICLES | PREPOSITIONS if one.start else 0)


def _leave_denied_out(told: _Telling) -> None:
    """Leave out what is denied, "not the kitchen", and what is put right: "my fern, no, the ivy"."""
    instead = [one for one in told.spans if told.told.before(_led_from(one, told), 2) in _INSTEAD]
    told.dropped.update(at for one in instead for at in range(one.start, one.end))
    told.spans = [one for one in told.spans if one not in instead]
    tagged = {one.start: one for one in told.spans}
    inner = {at for one in told.spans for at in range(one.start, one.end)}
    named = dict(tagged)
    for one in told.told.events:
        if one.what in _NAMING and one.start not in inner:
            named[one.start] = Span(_NAMING[one.what], one.start, one.end, 0)
    for one in told.told.events:
        is_denial = one.value is Word.NOT or told.told.words[one.start] == "never"
        if not is_denial or one.start in inner:
            continue
        stop = min(one.end + _NEAR_DENIAL, len(told.told.words))
        meant = next((named[at] for at in range(one.end, stop) if at in named), None)
        between = [] if meant is None else told.told.within(one.end, meant.start)
        is_far = meant is not None and meant.key == "town" and meant.start > one.end + 1
        if meant is None or is_far or not all(each.what in _PASSING for each in between):
            continue  # "no, I live in Graz" denies no town
        if any(each.value is Word.NOT for each in between) or UNKNOWN.search(
            plain(told.told.text(one.start, meant.end))
        ):
            continue  # "no, not the fern": the second says it; "no idea about the landing" denies nothing
        before = [
            each
            for each in told.spans
            if each.key == meant.key
            and (
                told.sentence(one.start)[0] <= each.start < one.start
                or {*told.told.words[each.end : one.start]} == {"."}  # "a fern... no, an ivy"
            )
        ]
        is_turn = any(each.value in _TURNS or told.told.words[each.start] in _TURNING for each in between)
        if is_turn and meant.start in tagged:
            gone = before[-1:]  # "no, the ivy"
        elif is_turn or any(each.what == "telling" for each in between):
            continue
        else:
            gone = [meant, *(each for each in before if told.text(each).lower() == told.text(meant).lower())]
        told.spans = [each for each in told.spans if each not in gone]
        inner.update(at for each in gone for at in range(each.start, each.end))
        told.dropped.update(range(one.start, one.end))
        others = [each for each in told.spans if each.key == meant.key]
        if meant in gone and not others:
            told.unread[one.start] = told.text(one)
        told.dropped.update(at for each in gone for at in range(each.start, each.end))


def _leave_mistaken_out(told: _Telling) -> None:
    """Leave out a sentence that says of a name that it is no plant, or of two that they are the same."""
    words = told.told.words
    for at in range(len(words)):
        start, end = told.sentence(at)
        named = [one for one in told.of("plant") if start <= one.start < at]
        is_same = words[at] == "same" and len(named) == len("xy")
        if is_same or (at > start and any(words[at : at + len(one)] == one for one in _NO_PLANT)):
            told.spans = [one for one in told.spans if not start <= one.start < end]
            told.dropped.update(range(start, end))


def _leave_theirs_out(told: _Telling) -> None:
    """Leave unread what somebody who lives elsewhere has, and what is not here: gone, wished for, at work."""
    words = told.told.words
    for at in range(len(words)):
        run = () if at in told.dropped else _not_here(at, told)
        theirs = range(*run) if run else range(0)
        if any(one.start in theirs for one in told.of("plant")):
            told.spans = [one for one in told.spans if one.start not in theirs]
            told.dropped.update(theirs)
            told.unread[at] = told.told.text(theirs.start, theirs.stop)


def _not_here(at: int, told: _Telling) -> tuple[int, int] | tuple[()]:
    """Give the run of words in which a word says of plants that they are not of this home."""
    words = told.told.words
    start, end = told.sentence(at)
    end = next((n for n in range(at + 1, end) if words[n] in _OUR_OWN), end)
    behind = next((one for one in told.of("plant") if one.start > at), None)
    lead = words[at + 1 : behind.start] if behind is not None and behind.start < end else ()
    is_led = bool(lead) and all(
        word in _LEADING_PLANTS or told.told.of(n) in {"count", "looks"}
        for n, word in enumerate(lead, at + 1)
    )
    if words[at] in _ELSEWHERE and told.told.tokens[at].raw.endswith("'s"):
        is_theirs = behind is not None and (is_led or behind.start == at + 1)
        seen = [one.key for one in told.spans if start <= one.start < at and one.key in {"seen", "plant"}]
        return (start if seen == ["seen"] else at, behind.end) if behind is not None and is_theirs else ()
    if words[at] in _ELSEWHERE | _PARENTS:
        if words[at + 1 : at + 2] and words[at + 1] in _OWNING:
            return max(start, at - 1), end
        before = next((one for one in told.of("plant") if words[one.end : at] in _OF_MINE), None)
        return () if before is None else (start, end)
    if any(words[at - size + 1 : at + 1] in _NOT_HAD_NOW for size in (2, 3)) and is_led:
        return max(start, at - 2), end
    if words[at] in {"work", "school", "college", "uni"} and words[at - 1] == "at":
        begun = [one for one in told.of("plant") if start <= one.start < at]
        placed = [one for one in told.of("place") if start <= one.start]
        is_of_it = bool(begun) and all(word in _IT_STANDS for word in words[begun[-1].end : at - 1])
        is_free = not any(one.start > begun[-1].start for one in placed) if begun else False
        return (begun[-1].start, at + 1) if is_of_it and is_free else ()
    return ()


_ELSEWHERE = words_of_class("home", "elsewhere")
_PARENTS = listed("mother mom mum mam mama mommy mummy father dad daddy papa parents mil fil")
_LEADING_PLANTS = ARTICLES | listed(
    "some another few to buy get have own grow keep order more one of these those"
)
_NOT_HAD_NOW = frozenset(
    worded(
        "used to | there was | there were | would love | would like | id love | id like | i want | we want"
        " | i wanted | want to | wanted to | going to | gonna buy | gonna get | had love | had like"
        " | wish for | dream of | hope to | plan to | planning to | might buy | might get | will buy"
        " | will get | thinking of buying"
    )
)
"""What plants right behind it are said not to be had: gone, or wished for."""
_OF_MINE = {("of", one) for one in ("my", "our", "his", "her", "their", "the")}
_IT_STANDS = listed(
    "but and that it this they these those which is are stands stand lives live only too also , ."
)
_OWNING = listed("has owns keeps grows had have own keep grow")
_OUR_OWN = listed("i we but mine now")
_NO_PLANT = (("no", "plant"), ("not", "a", "plant"), ("not", "exist"), ("no", "such", "plant"))


def _read_town(told: _Telling) -> None:
    """Read the town: the last where one is put right, else the first."""
    alone = told.told.text(0, len(told.told.words)).strip(" .!,")
    is_asked = told.situation.lacks_town and told.situation.expecting not in {
        Expecting.WHERE,
        Expecting.PLANTS,
    }
    is_listed = any(one.what in {"kind", "own"} for one in told.told.events) or not alone.istitle()
    if is_asked and not is_listed and find_towns(alone):
        told.town, told.spans = alone, []  # "Bath" is a town where that is asked
        told.dropped.update(range(len(told.told.words)))
        return
    judged, last = told.of("town"), 0
    for one in _may_be_towns(told):
        is_led = _is_led_in(one.start, told)
        name = _town_name(one, told) if told.situation.lacks_town or is_led else ""
        is_turned = bool(told.words(one.start - _MOST_OF_A_NAME, one.start) & _TURNED) and one.start > last
        if name and (not told.town or is_turned):
            told.town, told.is_led, last = name, told.is_led or is_led, one.start
            told.is_known = told.is_known and (is_led or one in judged or _is_said_alone(one, told))
            told.dropped.update(range(one.start, one.start + len(words_of(name.lower().partition(",")[0]))))
    told.spans = [
        one
        for one in (_behind_the_town(each, told) for each in told.spans)
        if one.key != "town"
        and one.start not in told.dropped
        and (one.end - 1 not in told.dropped or not _is_strange(one, told))
    ]


def _behind_the_town(one: Span, told: _Telling) -> Span:
    """Give a room that a town stands before without that: "Leeds study east"."""
    room = _event_of(one, told, "room") if one.key == "place" and told.town else None
    is_led = room is not None and {*range(one.start, room.start)} <= told.dropped
    return replace(one, start=room.start) if room is not None and is_led else one


_TURNED = listed("no not nope nah sorry wait meant mean actually rather")
_LONGEST_LEAD = max(map(len, LIVES))
_LEADING_IN = frozenset(one[0] for one in LIVES)


def _is_led_in(at: int, told: _Telling) -> bool:
    """Whether words lead to a town: "I live in"."""
    words = told.told.words
    at -= words[max(0, at - 1) : at] == ("the",)
    if words[max(0, at - 2) : at] == ("moved", "from"):
        return False
    return any(words[max(0, at - size) : at] in LIVES for size in range(1, _LONGEST_LEAD + 1))


def _town_name(one: Span, told: _Telling) -> str:
    typed = told.text(one)
    longer = (told.told.text(one.start, end) for end in range(one.end, one.start, -1))
    found = next((name for name in longer if len(name) > len("xy") and find_towns(name)), "")
    if found == typed and (narrowed := _narrowed(found, one.end, told)):
        return narrowed
    is_strange = told.told.of(one.start) == "strange" and one.end == one.start + 1
    is_saying = typed.islower() and bool(told.words(one.start - 2, one.start) & {"from", "the"})
    is_strange = is_strange and not is_saying  # "from the heart"
    return found.rstrip(" .,!?") or (typed if is_strange and _is_led_in(one.start, told) else "")


def _narrowed(town: str, at: int, told: _Telling) -> str:
    """Give a town with the land or region told behind it: "Kassel, Germany", "aarhus in denmark"."""
    start = at + (told.told.words[at : at + 1] in {(",",), ("in",)})
    for end in (start + 2, start + 1):
        rest = told.told.text(start, end)
        is_told = end <= len(told.told.words) and all(
            one.word.isalpha() and len(one.word) > len("xy") for one in told.told.tokens[start:end]
        )
        if is_told and find_towns(f"{town}, {rest}") and (start > at or told.told.of(start) == "strange"):
            told.dropped.update(range(at, end))
            return f"{town}, {rest}"
    return ""


def _may_be_towns(told: _Telling) -> list[Span]:
    """Give what may name the town: what is led in, what is judged one, strange names of large ones."""
    found = told.of("town")
    if told.situation.lacks_town:
        words, taken = told.told.words, {one.start for one in found}
        strange = [one.start for one in told.told.events if one.what == "strange" and one.start not in taken]
        strange = [at for at in strange if at not in told.dropped and words[at] not in _LITTLE]
        runs = (
            Span("town", at, min(len(words), at + _MOST_OF_A_NAME), 0) for at in strange[:_MOST_LOOKED_UP]
        )
        found += [one for one in runs if _is_led_in(one.start, told) or _is_large(one, told)]
    return sorted(found, key=lambda one: not _is_led_in(one.start, told))


LARGE = 50_000
"""A town of fewer people is not read out of a word that nothing leads in. Judgement. [1]"""
_SHORTEST_TOWN = 4


def _is_said_alone(one: Span, told: _Telling) -> bool:
    """Whether a sentence holds no more than a name, or that and courtesies."""
    start, end = told.sentence(one.start)
    return all(
        told.told.of(at) in {"around", "comma", "looks"}
        for at in range(start, end)
        if not one.start <= at < one.start + _MOST_OF_A_NAME
    )


def _is_large(one: Span, told: _Telling) -> bool:
    name = _town_name(one, told)
    is_named = name[:1].isupper() or told.told.text(0, len(told.told.words)).islower()
    return (
        is_named
        and len(name) >= _SHORTEST_TOWN
        and max(each.population for each in find_towns(name)) >= LARGE
    )


def _place_name(one: Span, told: _Telling) -> str:
    """Give a place's name: the home's own, one told before, or as typed."""
    own = _event_of(one, told, "place")
    if own is not None and isinstance(own.value, Place) and (own.start, own.end) == (one.start, one.end):
        known_as = own.value.id
        return next(each.name for each in told.situation.places if each.id == known_as)
    typed = _bare(told.text(one))
    words = typed.split()
    beside = _event_of(one, told, "own")
    if beside is not None and (stood := _stands_at(beside, told)):
        return stood
    if frozenset(words_of(typed.lower())) <= _SPOKEN_OF and (last := _spoken_of(told)):
        return last
    named = {each.casefold().replace("-", " "): each for each in _places(told)}
    bare = " ".join(words[:-1]).casefold().replace("-", " ")
    is_room = bare in named or bare in _LIVED_IN or (" " in bare and not WAYS.keys() & {*bare.split()})
    if words[-1].lower() in {"window", "windows"} and is_room:
        typed = " ".join(words[:-1])  # "the bedroom window"
    low = typed.casefold()
    found = named.get(low.replace("-", " "))
    alike = {each for key, each in named.items() if key.endswith(f" {low}")}
    alike |= {each for each in named.values() if low in _ABROAD.get(each.lower(), ())}
    is_of_light = not any(link == one and each.key == "plant" for each, link in told.links.items())
    if not alike and is_of_light:  # "the bay faces south" of the bay window
        alike = {each for key, each in named.items() if key.startswith(f"{low} ")}
    if found is None and len(alike) == 1:
        found = alike.pop()
    if found is not None:
        return found
    if not _is_listed_place(one, told):
        is_led = bool(frozenset(told.told.before(one.start, 2)) & PREPOSITIONS)
        told.is_known = told.is_known and is_led and one.margin >= SURE_MARGIN
        near = slip_of(low, frozenset(named), is_own=True) if len(words) == 1 and named else None
        if near is not None:
            told.is_guessed = True
            return named[near]
        meant = [_meant_room(word) for word in words]
        told.is_guessed = told.is_guessed or meant != words
        return " ".join(meant)
    return typed


_SPOKEN_OF = _GENERAL_ROOMS | listed("same there it them place spot one")


def _spoken_of(told: _Telling) -> str:
    """Give the place spoken of last: in the message, else the one asked about, else the last plant's."""
    asked = [
        one.name for choice in told.situation.choices for one in choice.commands if isinstance(one, SetPlace)
    ]
    before = [*told.places.values()][-1:] or [one for one in asked if one][:1]
    return before[0] if before else _last_place(told)


def _meant_room(word: str) -> str:
    """Give the room a strange word is a slip of."""
    low = word.lower()
    is_known = low in ROOMS | SORTS | LOOKS or is_ordinary(low)
    meant = None if is_known or not word.islower() else slip_of(low, ROOMS | SORTS)
    is_other = meant is not None and len(meant) == len(low) and sorted(meant) != sorted(low)
    return word if meant is None or len(meant) < _SHORTEST_SLIP or is_other else meant


_SHORTEST_SLIP = 5
"""Shorter words, and those with one letter for another, are mostly their own: "coal", "ladder". [1]"""
_LIVED_IN = (
    (ROOMS | frozenset(f"{sort} room" for sort in SORTS)) - words_of_class("home", "no-room") - listed("shed")
)
"""Rooms whose window is no place of its own."""


def _is_listed_place(one: Span, told: _Telling) -> bool:
    """Whether each word is of a room that is listed."""
    words = told.told.words[one.start : one.end]
    is_named = any(word in ROOMS for word in words) or words[-2:] in OF_TWO_WORDS
    return words in OF_TWO_WORDS or (
        is_named
        and all(
            word in ROOMS | SORTS | LOOKS | ARTICLES
            or word in WAYS
            or not word.isalpha()
            or len(word) == 1
            or word in {"window", "of", "in", "by", "at", "side"}
            for word in words
        )
    )


def _places(told: _Telling) -> list[str]:
    return [*(one.name for one in told.situation.places), *told.places.values()]


def _is_of_another_line(one: Span, place: Span, told: _Telling) -> bool:
    """Whether a plant begins a line, and the place before ends the line of another: "fern - hall", "ivy"."""
    if place.start > one.start:
        return False
    start, _ = told.sentence(place.start)
    is_ending = any(
        start <= each.start < place.start and told.links.get(each) == place for each in told.of("plant")
    )
    at = _colour_at(one, told.spans, told) - 1
    while at >= 0 and (told.told.of(at) == "count" or told.told.words[at] in ARTICLES):
        at -= 1
    return is_ending and told.told.of(at) == "line"


def _begins_anew(one: Span, place: Span, told: _Telling) -> bool:
    """Whether a place behind a plant is of others: "fern, and on the shelf a jade", "fern", "jade, hall"."""
    start, _ = told.sentence(place.start)
    is_next_line = any(told.told.of(at) == "line" for at in range(one.end, start))
    if is_next_line and any(start <= each.start < place.start for each in told.of("plant")):
        return True
    at = place.start - 1
    while at > one.end and told.told.words[at] in ARTICLES | PREPOSITIONS:
        at -= 1
    is_led = one.end <= at < place.start - 1 and told.told.of(at) == "and"
    return is_led and any(
        link == place and each.start > place.end for each, link in told.links.items() if each.key == "plant"
    )


def _counted(one: Span, told: _Telling) -> Span | None:
    """Give the plant that a number counts: the one it stands beside, else the one it belongs to."""
    plants = told.of("plant")
    beside = [each for each in plants if one.start == each.end or each.start == one.end]
    beside = beside or [
        each for each in plants if each.start == one.end + 1 and told.told.of(one.end) == "around"
    ]
    names = {told.text(each).lower() for each in beside}
    is_own = len(beside) > 1 and len(names) == 1  # "AV 2 AV 5"
    return beside[0] if len(beside) == 1 or is_own else told.links.get(one)


def _take_plant(one: Span, told: _Telling) -> None:
    """Take a plant as new, or as named again."""
    link = told.links.get(one)
    if link is not None and (_is_of_another_line(one, link, told) or _begins_anew(one, link, told)):
        del told.links[one]
        link = None
    place = told.places[link] if link is not None else None
    counts = [each for each in told.of("count") if _counted(each, told) == one]
    if told.words(one.start, one.end) <= _OF_THEM and told.before(one.start):
        _take_more(one, place, told)
        return
    if _take_name(one, told):
        return
    own = _event_of(one, told, "own")
    is_own = own is not None and (own.start, own.end) == (one.start, one.end)
    is_own = is_own and (not counts or told.told.words[one.end - 1].isdigit())
    is_own = is_own and _full_name(one, told) == _bare(told.text(one))
    if own is not None and is_own:
        ids = own.value.ids if isinstance(own.value, Plants | OneOf) else ()
        told.names[one] = [each.names[0] for each in told.situation.plants if each.id in ids]
        homeless = [each.names[0] for each in told.situation.plants if each.id in ids and each.place is None]
        if place is not None:
            told.plants += [NewPlant(name=name, place=place) for name in homeless]
            there = [each for each in told.names[one] if each not in homeless]
            told.moved += [NewPlant(name=each, place=place) for each in there if len(ids) == 1]
        return
    name = _full_name(one, told)
    kinds = told.situation.kinds
    is_kind = _is_of_a_kind(words_of(name.lower()), kinds)
    numbers = _numbers_of(one, counts, told)
    again = _told_before(name, one, told) if not numbers else []
    if again:
        told.names[one] = again
        _place_again(again, one, link, told)
        return
    least = 0 if _is_said_plainly(one, link, told) else SURE_MARGIN
    told.is_known = told.is_known and is_kind and one.margin >= least
    told.has_kinds = told.has_kinds or is_kind
    single = singular(name)
    base = single if len(numbers) > 1 and (name.lower() not in kinds or single.lower() in kinds) else name
    names = [f"{base} {number}"[:_LONGEST_NAME] for number in numbers] or [base[:_LONGEST_NAME]]
    already = {each.casefold() for plant in told.situation.plants for each in plant.names}
    told.names[one] = names
    already |= {each.name.casefold() for each in told.plants} if numbers else set()
    new = [each for each in names if each.casefold() not in already]
    wrong = [
        at + 1 for at, word in enumerate(told.told.words) if word == "not" and told.told.of(at + 1) == "count"
    ]
    if numbers and (wrong or told.words(*told.sentence(one.start)) & {"meant", "mean"}):
        told.dropped.update(at for each in wrong for at in (each - 1, each))
        _count_anew(names, told)
        place = place or _place_of(names[0], told)
    if numbers and not new:
        _place_again(names, one, link, told)
        told.moved += [NewPlant(name=each, place=place) for each in names if place is not None]
    told.plants += [NewPlant(name=each, place=place) for each in new]
    told.far.update(dict.fromkeys(new, _distance(one, link, told)))


def _is_said_plainly(one: Span, link: Span | None, told: _Telling) -> bool:
    """Whether a plant is led in as one, "new plant: fern", or stands right behind a room: "hall fern"."""
    is_led = bool(told.words(one.start - 2, one.start) & {"plant", "plants", "add"})
    return is_led or (link is not None and link.end == one.start and _is_listed_place(link, told))


def _count_anew(names: list[str], told: _Telling) -> None:
    """Note which plants are more of a name than there are said to be."""
    base = names[0].rpartition(" ")[0].casefold()
    counted = {one.casefold() for one in names}
    here = [each.names[0] for each in told.situation.plants]
    told.beyond += [
        each for each in here if each.casefold().rpartition(" ")[0] == base and each.casefold() not in counted
    ]


def _place_of(name: str, told: _Telling) -> str | None:
    """Give the place of a plant of the home."""
    places = {one.id: one.name for one in told.situation.places}
    plants = {each.casefold(): one.place for one in told.situation.plants for each in one.names}
    at = plants.get(name.casefold())
    return places.get(at) if at is not None else None


_CALLING = listed("( is called named the 's")


def _take_name(one: Span, told: _Telling) -> bool:
    """Join a plant's own name and its kind: "Bertha (a fern)", "the fern is called Bertha"."""
    before = next((each for each in reversed(told.names) if each.end <= one.start), one)
    between = told.words(before.end, one.start)
    is_own = _is_strange(before, told), _is_strange(one, told)
    is_called = bool(between & _CALLING) and not between - _CALLING - ARTICLES
    if sum(is_own) != 1 or not (is_called or (is_own[0] and _is_introduced(before, one, told))):
        return False
    kind, name = (one, before) if is_own[0] else (before, one)
    old, joined = told.names[before], f"{_bare(told.text(kind))} {_bare(told.text(name))}"
    told.plants = [replace(each, name=joined) if [each.name] == old else each for each in told.plants]
    told.names[one] = told.names[before] = [joined]
    told.has_kinds = True
    link = told.links.get(one)
    _place_again([joined], one, link, told)
    return True


def _is_introduced(name: Span, kind: Span, told: _Telling) -> bool:
    """Whether a kind says what somebody is: "Uncle Bob, my fern", "Ramona sulks. She's a fern"."""
    words, at = told.told.words, kind.start
    at -= words[at - 1] in ARTICLES | _OURS
    if words[max(0, at - 2) : at] in {("he", "is"), ("she", "is")}:
        return True
    is_beside = words[at - 1 : at] == (",",) and at - 1 == name.end and at < kind.start
    is_one = told.told.of(name.start - 1) != "count" and words[name.start - 1 : name.start] not in _ONE
    # "Doris, a fern in the den", and not "Syngo, a fern and a hoya"
    is_told = words[at] in _OURS or frozenset(words[kind.end : kind.end + 1]) & PREPOSITIONS
    return is_beside and is_one and bool(is_told) and told.told.tokens[name.start].raw.istitle()


_OURS = frozenset({"my", "our"})
_ONE = {("a",), ("an",)}
_OF_THEM = listed(
    "one ones other others another rest more second third last the a of them two three four 2 3 4 1"
)
"""What means plants of the kind told last: "a fern in the den and one in the hall"."""


def _take_more(one: Span, place: str | None, told: _Telling) -> None:
    """Take some of the plants told last for those that stand elsewhere, or more of their kind."""
    group = told.names[
        max((each for each in told.names if each.start < one.start), key=lambda each: each.start)
    ]
    named = {name for names in told.names.values() for name in names}
    homeless = [each.names[0] for each in told.situation.plants if each.place is None]
    left = [name for name in homeless if name not in named]
    if "other" in told.words(one.start, one.end) and len(left) == 1 and named <= {*homeless}:
        told.names[one] = left  # of two whose place is asked for
        told.plants.append(NewPlant(name=left[0], place=place))
        return
    base = re.sub(r" \d+$", "", group[0])
    numbers = [each.value for each in told.told.within(one.start, one.end) if isinstance(each.value, int)]
    number = (*numbers, 1)[0]
    before = {told.links.get(each) for each, names in told.names.items() if names == group}
    if before == {told.links.get(one)}:  # "two ferns: one in the hall, one in the den"
        told.plants = [replace(each, place=None) if each.name in group else each for each in told.plants]
    homeless = [each.name for each in told.plants if each.name in group and each.place is None]
    if told.words(one.start, one.end) & _OTHERS:
        number = len(homeless)
    if homeless and place is not None:
        _stand({*homeless[:number]}, place, told)
        told.names[one] = group
        told.links.pop(one, None)
        return
    if len(group) == 1 and group[0] == base:
        told.plants = [replace(each, name=f"{base} 1") if each.name == base else each for each in told.plants]
        told.names = {span: [f"{base} 1"] if names == group else names for span, names in told.names.items()}
    taken = sum(each.name.startswith(f"{base} ") for each in told.plants)
    told.names[one] = [f"{base} {taken + n + 1}" for n in range(number)]
    told.plants += [NewPlant(name=each, place=place) for each in told.names[one]]


def _colour_at(one: Span, spans: list[Span], told: _Telling) -> int:
    """Give where a name begins with the colours and strange words before it, no sizes."""
    taken = {at for each in spans for at in range(each.start, each.end)}
    start = one.start
    tokens = told.told.tokens
    is_titled = _is_strange(one, told) and tokens[start].raw.istitle()  # "Big Bertha"
    while (
        start
        and start - 1 not in taken
        and (told.told.words[start - 1] not in _SIZES or (is_titled and tokens[start - 1].raw.istitle()))
        and (told.told.of(start - 1) in {"looks", "strange"} or told.told.words[start - 1] == "leaf")
    ):
        start -= 1
    return start


_SIZES = listed("new ol small big little large tall old young tiny huge other second third")


def _full_name(one: Span, told: _Telling) -> str:
    """Give a plant's name with its colour, and with its size where there is another one of the name."""
    start = _colour_at(one, told.spans, told)
    name = _bare(told.told.text(start, one.end))
    known = {plant.name.casefold() for plant in told.plants}
    known |= {each.casefold() for plant in told.situation.plants for each in plant.names}
    is_sized = start > 0 and told.told.words[start - 1] in _SIZES and name.casefold() in known
    if is_sized and told.told.before(start - 1) != ("the",):
        start -= 1
    end, taken = one.end, {at for each in told.spans for at in range(each.start, each.end)}
    while told.told.of(end) == "strange" and end not in taken and told.told.tokens[end].raw.istitle():
        end += 1  # "my aloe Tilly"
    told.dropped.update(range(start, end))
    return _bare(told.told.text(start, end))


def _told_before(name: str, one: Span, told: _Telling) -> list[str]:
    """Give the plants of the message or the home that a name means again: "the lily" is the peace lily."""
    groups = {tuple(names) for names in told.names.values() if names}
    groups |= {(each.names[0],) for each in told.situation.plants}
    low = singular(name).casefold()
    bases = {group: singular(re.sub(r" \d+$", "", group[0])).casefold() for group in groups}
    same = [group for group, base in bases.items() if base == low]
    is_new = bool(told.words(one.start - 1, one.start) & {"a", "an", "another", "new", "one"})
    is_asked = told.situation.expecting is Expecting.PLANTS or one in told.links
    is_known = bool(told.situation.plants and not told.plants and not is_asked)
    is_known = (
        is_known
        or bool(told.words(one.start - 2, one.start) & _KNOWN_BY)
        or any(plant == one and each.key == "seen" for each, plant in told.links.items())
    )
    is_known = is_known or not any(each.casefold() == low for each in told.situation.kinds)
    homeless = {each.name for each in told.plants if each.place is None}
    begins = told.sentence(one.start)[0]
    is_placed_now = one in told.links and any(
        span.start < begins and homeless.intersection(names) for span, names in told.names.items()
    )
    if not same and (is_known or is_placed_now) and not is_new:
        same = [
            group for group, base in bases.items() if base.endswith(f" {low}") or base.startswith(f"{low} ")
        ]
        same = [group for group in same if group[0] in homeless] or same
    link = told.links.get(one)
    is_line = "\n" in told.told.words and told.told.of(one.start - 1) == "line"
    if len(same) != 1 or is_new or (is_line and link is not None and same[0][0] not in homeless):
        return []
    placed = {each.place for each in told.plants if each.name in same[0]} - {None}
    is_other = link is not None and placed and told.places[link] not in placed
    return [] if is_other and not is_known else list(same[0])


def _distance(one: Span, link: Span | None, told: _Telling) -> tuple[int, int]:
    """Tell how far a plant is named from its place: sentences, then words."""
    if link is None:
        return len(told.told.words), 0
    first, last = sorted((one, link), key=lambda each: each.start)
    between = range(first.end, last.start)
    return sum(told.told.of(at) in ENDS for at in between), len(between)


def _place_again(names: list[str], one: Span, link: Span | None, told: _Telling) -> None:
    """Give plants that are named again the place they are named nearest to."""
    far = _distance(one, link, told)
    for at, plant in enumerate(told.plants):
        if (
            link is not None
            and plant.name in names
            and (plant.place is None or far[0] < told.far.get(plant.name, far)[0])
        ):
            told.plants[at] = replace(plant, place=told.places[link])
            told.far[plant.name] = far
    here = {one.name for one in told.plants}
    homeless = {each.names[0] for each in told.situation.plants if each.place is None} - here
    if link is not None:
        told.plants += [NewPlant(name=each, place=told.places[link]) for each in names if each in homeless]


def _numbers_of(one: Span, counts: list[Span], told: _Telling) -> tuple[int, ...]:
    """Read how many: "two", "x3", "(2x)", "1-12", "a dozen"; a bare number right behind a name is its own."""
    if not counts:
        return ()
    span = counts[0]
    words = told.told.words[span.start : span.end]
    found: list[int] = []
    at = 0
    while at < len(words):
        number = number_at(words, at)
        if number is not None and number[0] == int(number[0]) and words[at] not in {"a", "an"}:
            found.append(int(number[0]))
        at += 1 if number is None else number[1]
    times = {"dozen": 12, "pair": 2, "couple": 2}
    dozens = [times[word] for word in words if word in times]
    if dozens:
        found = [dozens[0] // 2 if "half" in words else dozens[0] * (found[0] if found else 1)]
    if not found:
        return ()
    if len(found) == len("12") and frozenset(words) & _TO and 0 < found[1] - found[0] < _MOST_OF_A_KIND:
        return tuple(range(found[0], found[1] + 1))
    if len(found) > 1:
        return tuple(dict.fromkeys(found))
    is_times = "x" in told.told.words[max(one.start, span.start - 1) : span.end + 1]
    is_its_own = span.start == one.end and words[-1].isdigit() and not is_times
    is_its_own = is_its_own or bool(frozenset(told.told.before(span.end, 2)) & {"#", "no", "nr", "number"})
    if is_its_own:
        return (found[0],)
    return tuple(range(1, found[0] + 1)) if 1 < found[0] <= _MOST_OF_A_KIND else ()


_TO = frozenset({"-", "to", "thru", "through", "till", "until", "bis", "."})


def _is_of_a_kind(words: Sequence[str], kinds: frozenset[str]) -> bool:
    """Whether a name is a kind of plant with nothing strange before it: behind it stands its own name."""
    start = next((at for at, word in enumerate(words) if word not in LOOKS), 0)
    return any(kind_at(tuple(words), at, kinds) for at, _ in enumerate(words[: start + 1]))


def _bare(name: str) -> str:
    name = " ".join(one.lower() if _ODD_CAPITALS.fullmatch(one) else one for one in name.split(" "))
    if name.count("'") > 1 and name.endswith("'"):
        return re.sub(r"\s*'\s*([^']+?)\s*'", r" '\1'", name).strip()  # "ficus 'Tineke'"
    joined = re.sub(r"\s*'\s*", "'", name)
    if name.count("'") == 1:
        joined = re.sub(r"(?<=\ws')(?=\w\w)", " ", joined)  # "the kids' room"
    return joined.removesuffix("'s").strip("'") or name


_ODD_CAPITALS = re.compile(r"[A-Z]*[a-z]+[A-Z][A-Za-z]*|[A-Z]{2,}[a-z]{2,}")
"""“COleus”, “tuRnip”: thumbs, and no name's own."""


def _settle(told: _Telling) -> None:
    """Give plants without a place the one that is told of them all, of the rest, or by itself."""
    homeless = [one.names[0] for one in told.situation.plants if one.place is None]
    stands = set(told.links.values())
    for one in told.of("place"):
        start, end = told.sentence(one.start)
        is_of_all = bool(told.words(start, end) & _ALL_OF_THEM)
        has_plants = any(start <= each.start < end for each in told.of("plant"))
        is_lit = any(each.key == "side" and link == one for each, link in told.links.items())
        is_asked = told.situation.expecting is Expecting.WHERE
        is_held = any(each.key != "side" and link == one for each, link in told.links.items())
        first = min([one.start, *(each.start for each in told.of("plant") if start <= each.start)])
        is_own = any(each.what == "own" for each in told.told.within(start, one.start))
        if homeless and not is_own and not told.before(start) and told.words(start, first) & _ALL_OF_THEM:
            told.plants += [NewPlant(name=name, place=told.places[one]) for name in homeless]
            told.has_kinds, homeless = True, []
        if is_held or (has_plants and not is_of_all) or (is_lit and not (is_asked or is_of_all)):
            continue
        before = {name for each, names in told.names.items() if each.start < one.start for name in names}
        _stand(before, told.places[one], told)
        if homeless and not told.plants:
            told.plants += [NewPlant(name=name, place=told.places[one]) for name in homeless]
            told.has_kinds, homeless = True, []
    for one in told.of("rest"):
        link = told.links.get(one)
        if link is not None:
            _stand({each.name for each in told.plants}, told.places[link], told)
        elif not told.of("side"):
            told.leave(one)
    again = [one for one in told.told.events if one.what == "again"]
    if again and not stands and (last := _last_place(told)):
        _stand({each.name for each in told.plants}, last, told)


def _leave_strangers(told: _Telling) -> None:
    """Leave unread what is of no known kind and stands nowhere, in no list, where others are placed."""
    is_placed = any(one.place for one in told.plants) and "\n" not in told.told.words
    kinds = told.situation.kinds
    strange = {
        one.name
        for one in told.plants
        if is_placed and one.place is None and not _is_of_a_kind(words_of(one.name.lower()), kinds)
    }
    told.plants = [one for one in told.plants if one.name not in strange]
    for one in [each for each, names in told.names.items() if strange.issuperset(names)]:
        del told.names[one]
        told.leave(one)


def _stand(names: set[str], place: str, told: _Telling) -> None:
    told.plants = [
        replace(one, place=place) if one.place is None and one.name in names else one for one in told.plants
    ]


def _last_place(told: _Telling) -> str:
    """Give the place of the plant that came last, or the only one there is."""
    places = {one.id: one.name for one in told.situation.places}
    last = [places[one.place] for one in told.situation.plants if one.place in places]
    return last[-1] if last else "".join(places.values() if len(places) == 1 else ())


def _look(one: Span, told: _Telling) -> None:
    """Note which way a place looks, or several of which it is said together."""
    looks = light_in(told.text(one)) or ([Facing.NONE] if _is_none(one, told) else [])
    words = told.words(*told.sentence(one.start))
    if looks == [Facing.UNKNOWN] and not told.of("place"):
        return  # "no idea": the answer about one window
    if not looks and words & {"same", "also", "likewise", "too"}:
        looks = list(told.looks.values())[-1][-1:] if told.looks else []
    is_an_hour = not told.of("place") and {*looks} <= {*_BY_ITS_SUN} and not _OF_SUN & words
    names = _lit_by(one, told) if looks and not is_an_hour else []  # "in the evening" is of no window
    if frozenset(words_of(told.text(one).lower())) == {"no", "sun"}:
        names = [name for name in names if _OPEN_AIR & frozenset(words_of(name.lower()))]
    if not names:
        told.leave(one)
        return
    listed_as = {each.what for each in told.told.within(one.start, one.end)}
    told.is_known = told.is_known and "strange" not in listed_as
    is_lamp = A_LAMP in looks and not told.words(one.start, one.end) & _LACKING
    before = max([each.end for each in told.of("side") if each.end <= one.start], default=0)
    ways = dict.fromkeys(way for part in _JOINED.split(told.text(one)) for way in light_in(part))
    is_other = len(ways) > 1 and all(isinstance(way, Facing) for way in ways)
    is_outdoors = bool(words & _OUTSIDE)
    for name in names:
        if is_lamp and told.looks.get(name):
            told.looks[name].append(A_LAMP)  # beside a window
            continue
        if not is_outdoors and _is_indoors(name or "".join(told.situation.untold[:1])):
            looks = [_BY_ITS_SUN.get(look, look) for look in looks]
        if told.words(before, one.start) & _TURNED:
            told.looks.pop(name, None)
        told.looks.setdefault(name, []).extend(ways if is_other else looks)
        if "window" in told.words(one.start, one.end + 1) and isinstance(looks[0], Facing):
            told.indoors.add(name)


def _is_none(one: Span, told: _Telling) -> bool:
    """Whether no window is told in one word where other rooms' ways are: "study south, hall none"."""
    start, end = told.sentence(one.start)
    sides = [each for each in told.of("side") if start <= each.start < end]
    return told.text(one).lower() in {"none", "nothing", "no"} and len(sides) > 1


_BY_ITS_SUN: dict[Lit, Lit] = {Outdoors.MORNING: Facing.E, Outdoors.AFTERNOON: Facing.W}
"""Which way a room's window looks by when the sun comes in: the same on both halves of the earth."""
_OF_SUN = listed("sun sunny sunshine sunlight light bright lit shade rays")
_OUTSIDE = listed("outside outdoors outdoor outdors out")


def _is_indoors(place: str) -> bool:
    """Whether a place is a room with walls, as far as its name says."""
    words = frozenset(words_of(place.lower()))
    return bool(words & (ROOMS - _GENERAL_ROOMS)) and not words & (_OPEN_AIR | _GLAZED)


_GLAZED = listed("greenhouse conservatory orangery polytunnel tunnel frame shed lean-to")


def _of_windows_not_known(told: _Telling) -> None:
    """Note of a place that which way it looks is not known: "no idea about the landing"."""
    lit = {told.links.get(one) for one in told.links if one.key in {"side", "plant"}}
    breaks = [at for at in range(len(told.told.words)) if told.told.of(at) in ENDS | {"comma"}]
    breaks += [at for each in told.spans for at in range(each.start, each.end)]
    for one in told.of("place"):
        start = max([at + 1 for at in breaks if at < one.start], default=0)
        end = min([at for at in breaks if at >= one.end], default=len(told.told.words))
        said = plain(f"{told.told.text(start, one.start)} {told.told.text(one.end, end)}")
        around = frozenset(words_of(UNKNOWN.sub(" ", said)))
        is_asked = told.places[one] in told.situation.untold
        is_of_it = bool(around & _OF_A_WAY) or is_asked
        is_none = (
            light_in(said)[:1] == [Facing.NONE] and around & _OF_A_WAY and around - _BESIDE_A_WAY <= _HAVING
        )
        is_unknown = around <= _BESIDE_A_WAY and UNKNOWN.search(said)
        if one not in lit and is_of_it and (is_none or is_unknown):
            told.looks.setdefault(told.places[one], [Facing.NONE if is_none else Facing.UNKNOWN])
            told.dropped.update(range(start, end))


_OF_A_WAY = listed("window windows way side direction looks look faces facing face light sun compass")
_HAVING = listed("no not get gets have has got does any without")
_BESIDE_A_WAY = (
    _OF_A_WAY
    | ARTICLES
    | PREPOSITIONS
    | listed(
        "i we is it about for of to you tell say though either sorry really which what where that . ! ' and"
    )
)
"""What else may stand where it is said that a window's way is not known."""


_JOINED = re.compile(r"\band\b|[&,+]")
_NORTHERN_DEG = 45.0
"""Latitude of a home whose town nobody told. Judgement."""


def _of_two_windows(told: _Telling) -> None:
    """Keep the sunniest of several windows of a place, and say of the others that they are not kept."""
    for name, looks in told.looks.items():
        ways = {BEARING_DEG[way]: way for way in looks if way in BEARING_DEG}
        if len(ways) < len("xy"):
            continue
        here = told.situation.latitude
        if here is None:
            here = next((one.latitude for one in find_towns(told.town)), _NORTHERN_DEG)
        kept = ways[sunniest(ways, here)]
        for way in ways.values():
            if way is not kept:
                told.looks[name] = [one for one in told.looks[name] if one is not way]
                told.unread[len(told.told.words) + len(told.unread)] = f"{name} {way.value}"


_OPEN_AIR = listed(
    "balcony balkon terrasse patio deck decking terrace allotment pergola gazebo verandah veranda véranda"
    " garden yard backyard courtyard forecourt porch stoop loggia lanai roof rooftop portico catio carport"
)


def _lit_by(one: Span, told: _Telling) -> list[str]:
    """Give the places that a light is told of; an empty name is the place that was asked about."""
    link = told.links.get(one)
    before = [told.places[each] for each in told.of("place") if each.end <= one.start]
    start, end = told.sentence(one.start)
    here = [each for each in told.of("plant") if start <= each.start < end]
    is_of_another = (
        link is not None and link.end < start and any(told.links.get(each) != link for each in here)
    )
    untold = list(told.situation.untold)
    is_answer = start == 0 and not here and (link is None or link.start >= end)
    if is_answer and untold and told.of("plant") and not any(each.end <= end for each in told.of("place")):
        return untold[:1]  # "North! And a fern is in there."
    if is_of_another or (link is None and told.of("plant")):
        return []
    ends = [each.end for each in told.of("side", "place") if each.end <= one.start]
    since = max([start, *ends])
    if told.words(since, one.start) & _OTHERS:
        told.dropped.update(at for at in range(since, one.start) if told.told.words[at] in _OTHERS)
        return [each for each in dict.fromkeys((*untold, *_places(told))) if each not in told.looks]
    if "both" in told.words(since, one.start) and len(before) > 1:
        return list(dict.fromkeys(before))[-2:]
    if told.words(since, one.start) & {"all", "they", "everything", "each"} and len(before) > 1:
        return [each for each in dict.fromkeys(before) if each not in told.looks]
    if link is not None:
        return [*_joint(link, one, told), told.places[link]]
    named = told.words(start, end) & (_ALL_OF_THEM - {"it"})
    named -= {"all"} if ("at", "all") in pairwise(told.told.words[start:end]) else set()
    is_of_all = not before and untold and named
    return untold if is_of_all else before[-1:] or [""]


_LACKING = listed("no without not windowless none zero only")


def _joint(place: Span, side: Span, told: _Telling) -> list[str]:
    """Give the places before one of which the same is said: "patio and front room face south"."""
    found: list[str] = []
    places = [one for one in told.of("place") if one.end <= place.start]
    for one in reversed(places):
        between = range(one.end, place.start)
        is_joint = any(told.told.of(at) == "and" for at in between) and all(
            told.told.of(at) in _JOINTS or told.told.words[at] in ARTICLES | PREPOSITIONS for at in between
        )
        if side.start < place.start or not is_joint or told.places[one] in told.looks:
            break
        if any(each.key != "side" and link == one for each, link in told.links.items()):
            break
        found.insert(0, told.places[one])
        place = one
    return found


def _read_finds(told: _Telling) -> None:
    """Say what was seen as plain sentences, one an animal."""
    free = [
        one
        for one in told.told.events
        if one.what in {"count", "grade"}
        and one.start not in told.dropped
        and not _counts_else(one, told)
        and not any(each.start <= one.start < each.end for each in told.spans if each.key != "seen")
        and not any(each.key == "plant" and each.start == one.end and one.value == 1 for each in told.spans)
    ]
    seen: set[object] = set()
    pests = ((one, _event_of(one, told, "pest")) for one in told.of("seen"))
    ill = {told.links.get(one) for one, pest in pests if pest and "mite" in str(pest.value)}
    for one in (each for each in told.of("seen") if not _is_told_again(each, told)):
        pest = _event_of(one, told, "pest")
        if not pest and told.links.get(one) in ill and "web" in told.text(one).lower():
            continue  # "webs" where spider mites are told
        breaks = (at for at in range(one.start) if told.told.words[at] in _CLAUSE_ENDS - {"and"})
        start = max([told.sentence(one.start)[0], *breaks])
        is_sign = bool(told.words(one.start, one.end) & _SIGNS)
        denied = any(
            each.value in {Word.NOT, Word.NOTHING, Word.NONE} for each in told.told.within(start, one.start)
        )
        if denied or not (pest or is_sign):
            told.leave(one)
            continue
        key = (pest.value if pest else told.text(one), told.links.get(one))
        if key in seen:
            continue
        seen.add(key)
        count = _count_of(one, free, told)
        free = [each for each in free if each is not count]
        number = "" if count is None else how_many(count)
        line = f"{number} {told.text(pest or one)}".strip()
        plants = _seen_on(one, told)
        if plants:
            told.lines.append(f"{line} on {_enumerated(plants)}")
        elif pest:
            told.unplaced = line
        else:
            told.leave(one)
    if not told.of("seen"):
        _read_more_of_a_find(free, told)
        return
    for left in free:
        if left.what == "count" and left.start not in told.dropped and left.value != len(told.plants):
            told.leave(left)


def _is_told_again(one: Span, told: _Telling) -> bool:
    """Whether an animal is only spoken of again: "they are mealybugs, as already reported"."""
    return bool(told.words(told.sentence(one.start)[0], one.end + _NEAR_DENIAL) & _ALREADY)


_ALREADY = listed("already reported")


def _count_of(one: Span, free: list[Event], told: _Telling) -> Event | None:
    """Give how many were seen: told beside it or behind it by itself, the last where it is put right."""
    start, end = told.sentence(one.start)
    near = [each for each in free if start <= each.start < end]
    count = min(near, key=lambda each: (each.what != "count", abs(each.start - one.start)), default=None)
    for each in free:
        first, last = told.sentence(each.start)
        is_alone = first > end and not any(
            first <= span.start < last or end < span.start < first for span in told.spans
        )
        is_right = bool(told.words(end, last) & _TURNED)
        if is_alone and each.what == "count" and (count is None or count.what == "grade" or is_right):
            told.dropped.update(range(end, last))
            count = each
    return count


def _seen_on(one: Span, told: _Telling) -> list[str]:
    """Give the plants an animal was seen on, with those a comma or "and" joins to the one it belongs to."""
    link = told.links.get(one)
    if link is None:
        living = [each.names[0] for each in told.situation.plants]
        groups = list({id(names): names for names in told.names.values()}.values())
        return groups[0] if len(groups) == 1 else living if len(living) == 1 and not groups else []
    plants = told.of("plant")
    at = plants.index(link)
    step = 1 if link.start > one.start else -1
    found = [link]
    said = told.words(link.end, one.start) if step < 0 else frozenset()
    while 0 <= at + step < len(plants):
        first, last = sorted((plants[at], plants[at + step]), key=lambda each: each.start)
        between = range(first.end, last.start)
        is_joint = all(
            told.told.of(n) in {"and", "comma", "count"} or told.told.words[n] in ARTICLES for n in between
        )
        is_listed = step > 0 or bool(said & _OF_SEVERAL)  # "hoya, jade and ivy have thrips"
        is_again = step < 0 and told.names.get(plants[at + step]) == told.names.get(link)
        if is_again or not is_joint or not (is_listed or all(told.told.of(n) != "comma" for n in between)):
            break
        at += step
        found.append(plants[at])
    found.sort(key=lambda each: each.start)
    if step < 0 and len(found) > 1 and not said & _PLURAL:
        found = [link]
    names = list(dict.fromkeys(name for each in found for name in told.names.get(each, [])))
    return names[:1] if said & {"has", "is"} and len(found) == 1 and len(names) > 1 else names


_PLURAL = listed("are have all both were each")
_OF_SEVERAL = listed("have all both each")


def _counts_else(one: Event, told: _Telling) -> bool:
    """Whether a number is of something else than animals: a pot's width, so many plants, so many rooms."""
    behind = told.told.words[one.end : one.end + 1]
    if not behind or behind[0] not in _COUNTED_TOO | {"in", "'"} or one.what != "count":
        return False
    width = {
        "cm": 1.0,
        "inch": float(INCH_CM),
        "inches": float(INCH_CM),
        "in": float(INCH_CM),
        "'": float(INCH_CM),
    }
    ends = told.told.of(one.end + 1)
    if behind[0] in width and told.plants and (behind[0] != "in" or ends in {"line", "comma", "stop"}):
        before = [each for each in told.of("plant") if each.end <= one.start]
        name = told.names[before[-1]][-1] if before and told.names.get(before[-1]) else told.plants[-1].name
        typed = told.told.tokens[one.start].raw.replace(",", ".")
        if typed[:1].isdigit():
            cm = round(float(typed) * width[behind[0]], 2)
            told.plants = [replace(each, pot_cm=cm) if each.name == name else each for each in told.plants]
            told.dropped.update((one.start, one.end))
            return True
    return behind[0] in _COUNTED_TOO


def _read_more_of_a_find(found: list[Event], told: _Telling) -> None:
    """Take what a find told before still lacks: its plant, or how many."""
    number = how_many(found[0]) if found else ""
    pending = _pending(told.situation)
    if pending:
        line = f"{number} {pending}" if number and not pending.startswith(COUNTING) else pending
        named = [name for names in told.names.values() for name in names]
        told.lines += [f"{line} on {named[-1]}"] if named else []
        told.unplaced = "" if named else line if number else ""
    elif number.isdigit() and int(number) != len(told.plants):
        asked = [one for each in told.situation.choices for one in each.commands[:1]]
        finds = [one for one in asked if isinstance(one, LogFind) and one.grade is not None]
        counted = [replace(one, count=int(number), grade=None) for one in finds[:1]]
        is_of_it = not told.names or told.told.words[found[0].end : found[0].end + 2] in _OF_WHAT_WAS_SEEN
        said = say_all(tuple(counted), told.situation) if counted and is_of_it else None
        told.lines += said or ()
        if not said:
            told.leave(found[0])  # "that's five"


def _read_clean(told: _Telling) -> None:
    """Say of plants in whose clause stands no more than that they are clean that they are."""
    words = told.told.words
    for one in [each for each in told.told.events if each.value is Word.CLEAN]:
        start = max((at + 1 for at in range(one.start) if words[at] in _CLAUSES), default=0)
        end = next((at for at in range(one.end, len(words)) if words[at] in _CLAUSES), len(words))
        here = [each for each in told.spans if start <= each.start < end]
        held = {at for each in here for at in range(each.start, each.end)}
        around = [each for each in told.told.within(start, end) if each != one and each.start not in held]
        named = [name for each in here for name in told.names.get(each, ()) if each.start < one.start]
        if (
            named
            and {each.key for each in here} == {"plant"}
            and {each.what for each in around} <= {"around", "and"}
        ):
            told.lines += [f"{name} clean" for name in named]
            told.dropped.update(range(one.start, one.end))


_CLAUSES = listed(", . ; ! but") | {"\n"}


def how_many(event: Event) -> str:
    """Give a number that is told as it is said of a find."""
    return _GRADES[event.value] if isinstance(event.value, Grade) else str(event.value)


def _enumerated(names: list[str]) -> str:
    return " and ".join([*([", ".join(names[:-1])] if len(names) > 1 else []), *names[-1:]])


def _pending(situation: Situation) -> str:
    """Give what was seen before any plant was named."""
    offered = (one for choice in situation.choices for one in choice.commands)
    return next((one.keeps for one in offered if isinstance(one, Decline) and one.keeps), "")


def _read_shelf(told: _Telling) -> None:
    """Say what is at hand as plain sentences, one a product."""
    got: list[str] = []
    ahead = ""
    events = told.told.events
    for at, one in enumerate(events):
        behind = next((other.what for other in events[at + 1 :] if other.what != "around"), "")
        said = told.text(one).lower()
        if isinstance(one.value, Form) and one.what == "form":
            said = _FORMS[one.value]
        if one.what == "product":
            got += [f"got {said}{ahead}"] if _is_at_hand(one, told) else []
            ahead = ""
        elif one.what in {"form", "volume", "every"} and behind == "product":
            ahead += f", {said}"
        elif got and one.what in {"form", "volume", "every"}:
            got[-1] += f", {said}"
    told.lines += got


def _is_at_hand(product: Event, told: _Telling) -> bool:
    """Whether a product is had: "no soap", "oil: not yet", "will buy neem" tell of none."""
    words = told.told.words
    ends = [at for at, word in enumerate(words) if word in _CLAUSE_ENDS]
    begin = max((at + 1 for at in ends if at < product.start), default=0)
    end = min((at for at in ends if at >= product.end), default=len(words))
    before, behind = words[begin : product.start], words[product.end : end]
    is_denied = not _NOT_HAD.isdisjoint(before[-_NEAR_A_PRODUCT:]) or not _NOT_HAD.isdisjoint(behind[:2])
    clause = {*before, *behind}
    is_away = not _AWAY.isdisjoint(clause) and _TO_US.isdisjoint(clause)  # "gave my soap to a friend"
    is_past = clause.issuperset({"used", "to"}) and not clause.isdisjoint({"have", "use"})
    if is_away or is_past or not _ELSEWHERE.isdisjoint(before):
        return False
    return not is_denied and (_TO_GET.isdisjoint(clause) or _TO_COME.isdisjoint(clause))


_AWAY = listed(
    "gave give given threw thrown lent lend binned poured sold might maybe want wants wish ordered banned"
)
_TO_US = listed("me us")
_NOT_HAD = listed("no not without never nor neither")
_TO_GET = listed("buy get order need purchase")
_TO_COME = listed("will to must should shall tomorrow soon going gonna need")
_NEAR_A_PRODUCT = 3
"""Words before a product within which it is denied. Judgement. [1]"""
NOTHING_OF_IT, TREATED = (
    listed("nothing nothin nuthin nowt nil none nought no"),
    listed(
        "treat treating treatment spray sprays spraying product products tool tools toolbox remedy remedies"
        " medicine potions shelf hand chemicals oils stock"
    ),
)


def _has_nothing(told: _Telling) -> bool:
    """Whether it is said, in any words of one clause, that there is nothing to treat with."""
    words = told.told.words
    is_so = any(one.what == "nothing" for one in told.told.events)
    home = told.situation
    is_asked = bool(home.sick) and not home.shelf and home.expecting is not Expecting.WHERE
    is_asked = is_asked and not any(one.text is ButtonText.ON_A_PLANT for one in home.choices)
    breaks = [at for at in range(len(words)) if words[at] in _CLAUSE_ENDS]
    for start, end in pairwise([-1, *breaks, len(words)]):
        said = told.words(start + 1, end)
        is_else = _LISTED_THINGS.intersection(one.what for one in told.told.within(start + 1, end))
        is_of_it = bool(said & TREATED) or "else" in said or (is_asked and said <= _NOTHING_SAID)
        if said & NOTHING_OF_IT and not is_else and is_of_it:
            is_so = True
            told.dropped.update(range(start + 1, end))
            told.spans = [one for one in told.spans if not start < one.start < end]
    return is_so


_NOTHING_SAID = NOTHING_OF_IT | listed("i said told you we have has got in yet still here at all ' as")
"""What may stand beside "nothing" where it is asked what is at hand."""
_LISTED_THINGS = frozenset({"kind", "own", "room", "place", "facing", "lit", "pest", "bugs", "product"})
_CLAUSE_ENDS = listed(", and ; . ! but") | {"\n"}
_MEANING = frozenset({"strange", "common", "telling", "kind", "own", "facing", "lit", "pest", "bugs", "room"})
_SEEING = frozenset(
    {
        Word.SAW,
        Word.GOT,
        Word.HAD,
        Word.BUGS,
        Word.ALL,
        Word.IT,
        Word.THEM,
        Word.NEW,
        Word.LEFT,
        Word.IT_IS,
        Word.MEANT,
    }
)
_BESIDE_A_PRODUCT = listed("spray sprays bottle got have had new spraying")


def _leave_unread(told: _Telling) -> None:
    """Note every word that carries meaning and was not read."""
    read = told.dropped | {
        at
        for one in told.spans
        if one.start not in told.unread and one.key != "product"
        for at in range(one.start, one.end)
    }
    for one in told.told.events:
        is_room = one.what == "room" and told.told.words[one.start] in _GENERAL_ROOMS | {"shelf"}
        if one.what in _MEANING and one.start not in read and not is_room and not _is_taken(one, told):
            told.leave(one)


def _is_taken(one: Event, told: _Telling) -> bool:
    """Whether a word may stand there though it tells nothing: how an animal looks, "spray" at a product."""
    near = {told.told.of(at) for at in range(one.start - 3, one.end + 3)}
    word = told.told.words[one.start]
    if one.what == "strange":
        return "pest" in near and word.endswith(("y", "ish"))
    if one.what == "bugs":
        start, end = told.sentence(one.start)
        return any(start <= each.start < end for each in told.of("seen"))
    is_tool = word in _BESIDE_A_PRODUCT
    return one.value in _SEEING or (is_tool and "product" in near)


def _set_place(name: str, facets: Iterable[Lit], situation: Situation) -> SetPlace:
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
        has_lamp=A_LAMP in looks,
    )


def read_town(text: str, situation: Situation) -> SetTown | None:
    """Read "I live in Ghent", and no more, at any time."""
    words = words_of(plain(text[:_LONGEST_MOVE]))
    begun = (at for at, word in enumerate(words) if word in _LEADING_IN)
    if not any(words[at : at + size] in LIVES for at in begun for size in range(1, _LONGEST_LEAD + 1)):
        return None
    home = read_home(text, situation if situation.lacks_town else replace(situation, lacks_town=True))
    is_else = home.plants or home.places or home.lines or home.unplaced or home.named or home.unread
    return SetTown(home.town) if home.is_led and home.town and not is_else else None


_HALVES = listed("morning morning. afternoon afternoon. evening evening. sun sun.")


def read_places(text: str, situation: Situation) -> tuple[SetPlace, ...] | None:
    """Read "the living room faces south, bedroom is north": all of it, or None."""
    said = re.sub(r"([^\W\d_])\1{2,}", r"\1", tidy(text).lower())
    if "?" in text or not (_OF_LIGHT.search(said) or UNKNOWN.search(said)):
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
    rf"|(?<!')(?<![^\W\d_])(?:[ns]?[ew]|{'|'.join(WAYS)})(?![^\W\d_])"
)
"""Without any of these nothing is told of a place's light."""
_OPENING = re.compile(r"(?:(?:add|new) (?:a |an )?(?:place|room)|place) *:? *", re.IGNORECASE)
_TOLD_OF_IT = re.compile(r",| (?:is|has|gets|faces|facing|looks)\b")
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


def read_facets(text: str, situation: Situation) -> SetPlace | None:
    """Read "west", "it faces kinda north east" or "no idea" in answer to which way a window looks."""
    if ("?" in text and _ASKS_BACK.match(plain(text))) or _ASKS_HOW.match(plain(text)):
        return None  # "is north ok?"
    home = read_home(text, situation)
    is_else = bool(home.town or home.plants or home.lines or home.unplaced or home.named)
    unknown = UNKNOWN.search(plain(text))
    if unknown and not home.places:
        is_more = _ELSE_UNKNOWN.match(plain(text)[unknown.end() :]) is not None
        return None if is_else or is_more else SetPlace(name="", facing=Facing.UNKNOWN)
    is_alone = len(home.places) == 1 and not home.places[0].name
    if not is_alone or is_else or len(home.unread) > _MOST_UNREAD:
        return None
    told = home.places[0]
    words = words_of(plain(text))
    sun = facets_in(words) if told.outdoors is not None or (_OPEN_AIR | _OUTSIDE) & frozenset(words) else None
    return told if sun is None else replace(told, facing=sun[0], outdoors=sun[1])


_ASKS_BACK = re.compile(r"(?:is|are|what|would|can|could|should|does|do)\b(?! it\b)(?! that\b)")
_ASKS_HOW = re.compile(r"\W*(?:\w+ )?how (?:do|can|could|does|to) ?(?:i|we|you|one|it)?\b")
_ELSE_UNKNOWN = re.compile(r"\W*(?:it\b\W*)?(?:how|what|when|whether|why|who|if|any\w*)\b")
"""“I don't know how I managed” is of no window."""


_MOVED = listed("moved move took carried shifted relocated brought")
_STANDING = listed(
    "put puts is are stands stand standing lives live living sits sit sitting was were hangs goes kept stay"
)
_LONGEST_MOVE = 200
_TO_A_PLACE = listed("to into onto")
_THEM = listed("it they them these those both")
_APART = listed("apart alone isolated separated quarantined")
_OF_A_MOVE = (Word.MOVE, Word.PUT, Word.ISOLATE, Word.AWAY)


def read_standing(text: str, situation: Situation) -> tuple[Isolate | MovePlant | SetPlace, ...] | None:
    """Read where plants of the home are said to stand, in a room that is known or new."""
    return read_move(text, situation, is_new=False)


def read_move(
    text: str, situation: Situation, *, is_new: bool = True
) -> tuple[Isolate | MovePlant | SetPlace, ...] | None:
    """Read plants of the home that were taken to, or now stand in, a room which is new: it is to be made."""
    words = frozenset(words_of(plain(text[:_LONGEST_MOVE])))
    may_stand = words & _STANDING and (words & ROOMS or not is_new)
    if len(text) > _LONGEST_MOVE or not (words & _MOVED or may_stand) or words & {"?", "\n", "not"}:
        return None
    typed = frozenset(words_of(re.sub(r"([^\W\d_])\1{2,}", r"\1", plain(text))))
    if not typed & (_THEM | names_of(situation).begin_plants):
        return None
    items = items_of(words_of(plain(text)), situation)
    is_named = any(isinstance(one.meaning, Plants) and not one.meaning.slip for one in items)
    if not (is_named or (situation.spoken and _THEM & words)):
        return None
    told = _Telling(situation, kept(words_at, (text, None), situation))
    told.spans = _spans(told)
    own = {one.start: one.value.ids for one in told.told.events if isinstance(one.value, Plants)}
    here = {one.id for one in situation.plants if one.place is not None}
    moved, standing = list[MovePlant](), list[PlantId]()
    rooms = {
        one.start: one
        for one in told.of("place")
        if (_TO_A_PLACE | PREPOSITIONS) & frozenset(told.told.before(one.start, 2))
    }
    for at in sorted((*own, *rooms)):
        standing += own.get(at, ())
        if at in rooms:
            them = tuple(dict.fromkeys(standing)) or (situation.spoken if _THEM & words else ())
            place = _event_of(rooms[at], told, "place")
            known = place.value.id if place is not None and isinstance(place.value, Place) else None
            moved.append(MovePlant(them, known or PlaceId(0), room="" if known else told.text(rooms[at])))
            standing = []
    if len(moved) == 1 and not moved[0].plants:
        moved, standing = [replace(moved[0], plants=tuple(dict.fromkeys(standing)))], []
    ids = tuple(plant for one in moved for plant in one.plants)
    events = told.told.events
    else_told = any(one.what == "telling" and one.value not in _OF_A_MOVE for one in events)
    is_told = bool(words & _MOVED) or not (else_told or (is_new and set(ids) - here))
    counted = {one.value for one in events if one.what == "count"} - {len(ids)}
    others = {one.start for one in told.of("plant")} - set(own)
    is_else = counted or standing or others or told.of("seen", "product", "town")
    is_whole = all(one.plants for one in moved) and (not is_new or any(one.room for one in moved))
    if is_else or not (ids and is_told and is_whole):
        return None
    apart: tuple[Isolate, ...] = (Isolate(ids),) if words & _APART else ()
    facets = facets_in(words_of(plain(text))) if told.of("side") else None
    if facets is None:
        return (*apart, *moved)
    if len(moved) > 1 or not moved[0].room:
        return None
    there = SetPlace(name=moved[0].room, facing=facets[0], outdoors=facets[1])
    return (*apart, *moved, there)


_LITTLE = listed(
    "baby babies kid kids child children toddler boy girl son daughter nephew niece grandson granddaughter he"
    " she him her cat cats dog dogs kitten puppy rabbit bunny hamster bird parrot pet pets hurt pain eye eyes"
)
