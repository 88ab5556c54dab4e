"""Plants in whatever shape people list them: lines, commas, a sentence, headings, numbers."""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache

from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.command import Command
from bot.actions.set_place import SetPlace
from bot.actions.situation import Expecting, Situation
from bot.domain.measure import INCH_CM
from bot.domain.trade import Form
from bot.phrases.lexicon import KNOWN, Spot, Word, phrase_at, words_of_class
from bot.phrases.names import OneOf, Pest, Place, Plants, names_of
from bot.phrases.places import read_places
from bot.phrases.text import plain, tidy, words_of

MOST_PLANTS = 120
_MOST_OF_A_KIND = 40
_LONGEST_NAME = 60
_LONGEST_TOLD = 4
_LONGEST_KIND = 4
_ASKED_TO_ADD = re.compile(
    r"^(?:please )?(?:register|adding|add|(?:a )?new (?:plants?|one)\b|(?:my )?plants\s*:)"
    r"(?!.*\bplace\b)(?: (?:a )?(?:new )?plants?)?(?: (?:called|named))?\s*[:,-]?\s*",
    re.IGNORECASE,
)
_BULLET = re.compile(r"^\s*(?:[-*•·–—>]+|\d{1,3}[.)](?=\s))\s*")
_OPENING = re.compile(
    r"^(?:(?:hi|hey|hello|so|ok|okay|well|yes|yeah|um|uh|and|also|oh|right|good \w+|wait|first|but|now"
    r"|btw|my list"
    r"|here (?:is|are|goes|you go)(?: my| the)?(?: list| plants)?|the list|list|add|adding|new"
    r"|plants?)\b[\s!,.:]*)+",
    re.IGNORECASE,
)
_I_HAVE = re.compile(
    r"\b(?:(?:me )?(?:i|we|my \w+|mum|mom|dad|she|he|they)(?:'ve|'m| have| has| had| own| keep| also| just"
    r"| got| already| now| do)*(?: got| have| own| keep| bought| adopted| been given| growing| standing"
    r"| purchased| picked up"
    r"| brought(?: home| us| me)*| gave (?:us|me))|(?:picked up|bought|adopted|brought home)"
    r"|there(?:'s| is| are|s)(?: also)?|ive(?: got)?|we've|(?:stands?|lives?|sits?)(?= (?:a|an|the|my"
    r"|two|three)\b)"
    r"|(?:my|our|the) plants are|got)\s*:?\s*",
    re.IGNORECASE,
)
_JOINT = re.compile(
    r"\s*(?:[,;\n|•]|\s[-–—]\s|\s\+\s|\s&\s|\band then\b|\band also\b|\band\b|\bplus\b|\bas well as\b"
    r"|\balso\b|[.!]+(?=\s|$))\s*",
    re.IGNORECASE,
)
_ARTICLE = re.compile(
    r"^(?:(?:an?|the|my|our|some|also|another|one more|of|those|these|this|that|also|then|it|is|are|new"
    r"|lovely|nice|"
    r"beautiful|located|just|plus|and|with|called|named|have|has|got|plants?:)\s+)+",
    re.IGNORECASE,
)
_COUNTED = re.compile(
    r"^(?:(?P<n>\d{1,3}|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|a dozen"
    r"|a couple(?: of)?|a pair of|both|"
    r"one|a few)\s*x?\s+|x\s?(?P<x>\d{1,2})\s+)(?P<rest>.+)$",
    re.IGNORECASE,
)
_TIMES = re.compile(r"\s*[(\[]?(?:x\s?(\d{1,2})|(\d{1,2})\s?x)[)\]]?(?=\s|,|$)", re.IGNORECASE)
_RANGE = re.compile(
    r"^(?P<name>.+?)\s*#?(?P<from>\d{1,3})\s*(?:-|–|to|thru|through|\.\.+|till|until)\s*(?P<to>\d{1,3})$",
    re.IGNORECASE,
)
_COUNTING = "one two three four five six seven eight nine ten eleven twelve"
_NUMBERS = {word: number for number, word in enumerate(_COUNTING.split(), start=1)} | {
    "a dozen": 12,
    "a couple": 2,
    "a couple of": 2,
    "a pair of": 2,
    "both": 2,
}
_POT = re.compile(
    r"[\s,(]*(?:in (?:an? |its )?)?(?:about |ca\.? )?(\d{1,3}(?:[.,]\d)?)\s?(cm|inch(?:es)?|in|\"|”"
    r"|'')(?: wide)?(?: pots?)?"
    r"(?: across)?\)?(?=\s|,|\.|$)",
    re.IGNORECASE,
)
_AT = re.compile(
    r"(?:^|\s)(?:,\s*)?(?:(?:which|that|it|they|she|he|both|all)?\s*(?:'s|'re|is|are|stands?|lives?"
    r"|sits?|go(?:es)?)?\s*)?"
    r"(?:all |both )?\b(?:in|on|at|by|from|next to)\s+(?:(?:the|my|our|a|an|her"
    r"|his)\s+)?(?P<place>[^,;.()]{2,40})$",
    re.IGNORECASE,
)
_LEAD = re.compile(
    r"^(?:in|on|at|by|outside on|inside)\s+(?:(?:the|my|our)\s+)?(?P<place>[\w' ]{2,30}?)"
    r"(?:\s*[,:]\s*|\s+(?=(?:i|we|there|is|are|stands?|lives?|a|an|the|my)\b))",
    re.IGNORECASE,
)
_HEADING = re.compile(
    r"^(?:(?:in|on|at)\s+)?(?:(?:the|my|our)\s+)?(?P<place>[^:,]{2,40}?)\s*(?:\([^)]*\))?\s*:\s*(?P<rest>.*)$"
)
_BRACKETS = re.compile(r"\s*[(\[]((?!\d{1,2} ?x|x ?\d)[^()\[\]]{1,60})[)\]]")
_ROOMS = words_of_class("lists", "rooms")
_NO_NAME = words_of_class("lists", "no-name")
_BUGS = words_of_class("lists", "bugs")
_NEWS = words_of_class("lists", "news")
_BY_THE_WAY = re.compile(
    r"(?:\s+(?:today|yesterday|this (?:morning|week)|last week|now|too|as well"
    r"|(?:at|from) (?:the|a) (?:\w+ )?(?:market|shop|store|centre|center|nursery|sale)))+$",
    re.IGNORECASE,
)
_GENERAL = words_of_class("lists", "general")
_FACING = re.compile(
    r"\b(?:(?:the |a |its |with )*(?:windows?|it|that|which|room)?\s*(?:faces?|facing|looks?|points?"
    r"|to the|is|with an?)?\s*)?"
    r"(?P<way>north[\s-]?east|north[\s-]?west|south[\s-]?east|south[\s-]?west|north|south|east|west"
    r"|no window|no windows)"
    r"(?:[\s-]?facing)?(?: (?:windows?|side|facing))?\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Listed:
    """What a message lists."""

    plants: tuple[NewPlant, ...]
    left_out: tuple[str, ...] = ()
    is_known: bool = True
    """Whether every name holds a kind that the catalogue knows."""
    then: str = ""
    """What was seen on one of them, to be read once it is there."""
    places: tuple[SetPlace, ...] = ()
    """Which way the windows of the places look."""

    def commands(self, *, is_sure: bool = False) -> tuple[Command, ...]:
        """Give what it writes."""
        return (AddPlants(self.plants, self.left_out, is_sure, self.then), *self.places)


@dataclass(slots=True)
class _Gathered:
    """What a message lists so far."""

    plants: list[NewPlant] = field(default_factory=list)
    waiting: list[int] = field(default_factory=list)
    """Places in the list of plants whose own place is still to be told."""
    left_out: list[str] = field(default_factory=list)
    is_known: bool = True
    """Whether every name is a kind that the catalogue knows, or stands where only a name can."""
    told_of: str = ""
    """What was seen on a plant of the list, to be read once it is there."""
    facings: dict[str, str] = field(default_factory=dict)


def read_list(text: str, situation: Situation, *, is_expected: bool) -> Listed | None:
    """
    Read the plants a message lists, with their places and pots; None where it lists none.

    What is no plant, as "about ten plants", is left out and said. Where the plants are not asked for, a name
    counts only if it is a kind of plant that is known; a message of which less than half are plants is none.
    """
    if "?" in text:
        return None
    found = _Gathered()
    heading: str | None = None
    for line in tidy(text).split("\n"):
        bare = _BULLET.sub("", line).strip()
        if not bare:
            continue
        headed = _HEADING.match(bare)
        if headed is not None and _is_place(headed["place"], situation):
            heading = _clean_place(headed["place"])
            bare = headed["rest"].strip()
            if not bare:
                continue
        elif _is_place_alone(bare, situation) and "\n" in text:
            heading = _clean_place(bare)
            continue
        _read_line(bare, heading, situation, found, is_expected=is_expected)
    if not found.plants or len(found.plants) > MOST_PLANTS:
        return None
    if 2 * len(found.left_out) > len(found.plants) + 1 or (not is_expected and not found.is_known):
        return None
    places = tuple(
        place
        for name, way in found.facings.items()
        for place in read_places(f"{name} faces {way}", situation) or ()
    )
    return Listed(tuple(found.plants), tuple(found.left_out), found.is_known, found.told_of, places)


def read_told(text: str, situation: Situation) -> Listed | None:
    """
    Read a list that nobody asked for and that is one beyond doubt.

    It is where it opens with "add" or "new plants", or where each line gives a known place or a pot.
    """
    if "?" in text:
        return None
    opening = _ASKED_TO_ADD.match(tidy(text))
    if opening is not None:
        return read_list(tidy(text)[opening.end() :], situation, is_expected=True)
    lines = [line for line in tidy(text).split("\n") if line.strip()]
    explicit = [line for line in lines if _is_explicit(line, situation)]
    likely = [line for line in lines if line in explicit or _read_fields(line, None, situation, _Gathered())]
    others = tuple(line for line in lines if line not in likely)
    if not explicit or 2 * len(likely) <= len(lines) or situation.expecting is Expecting.PLANTS:
        return None  # a line or two may be unreadable; a message of which most is no list is none
    told = read_list("\n".join(likely), situation, is_expected=True)
    return None if told is None else replace(told, left_out=(*told.left_out, *others))


def read_news(text: str, situation: Situation) -> Listed | None:
    """Read plants told of in passing, "we bought a calathea", where nothing else is understood."""
    words = words_of(plain(text))
    if "?" in words or not _holds_a_kind(words, situation.kinds):
        return None
    told = read_list(text, situation, is_expected=False)
    if told is None:
        return None
    known = {name.casefold() for plant in situation.plants for name in plant.names}
    is_news = bool(frozenset(words) & _NEWS) or any(one.place for one in told.plants)
    is_known = any(isinstance(one[0], Plants | OneOf) for one in _found(words, situation))
    is_told = is_news or len(told.plants) > 1 or bool(told.then)
    is_new = is_told and all(one.name.casefold() not in known for one in told.plants)
    return told if is_new and (is_news or not is_known) else None


def _bare_name(name: str) -> str:
    """Take off how a plant is told of: "got a new fern"."""
    return _ARTICLE.sub("", f"{_I_HAVE.sub(' ', name).strip()} ").strip()


def _is_explicit(line: str, situation: Situation) -> bool:
    """Whether a line is a name, its place and pot, set apart by commas, and the place is known."""
    bare = _BRACKETS.sub(r", \1", _BULLET.sub("", line))
    name, *more = [part.strip(" .") for part in re.split(r"\s*[,;|]\s*|\s+-\s+", bare)]
    name = _bare_name(name)
    known = {place.name.casefold() for place in situation.places}
    is_placed = any(one.casefold() in known or _POT.fullmatch(one) for one in more)
    words = words_of(plain(name))
    own = {one.casefold() for plant in situation.plants for one in plant.names}
    is_own = name.casefold() in own
    is_other = not is_own and any(not isinstance(one[0], Place) for one in _found(words, situation))
    is_name = bool(words) and not frozenset(words) & _NO_NAME and not any(_tells(word) for word in words)
    return bool(more) and len(more) < _LONGEST_TOLD and is_placed and is_name and (not is_other or is_own)


def _read_fields(line: str, heading: str | None, situation: Situation, found: _Gathered) -> bool:
    """Read "ivy, study, 12 cm", "ivy (study)", "ivy - study"; whether it is one plant, its place, its pot."""
    bare = _BRACKETS.sub(r", \1", line.rstrip(" ."))
    name, *more = [_without_signs(part) for part in re.split(r"\s*[,;|]\s*|\s+-\s+", bare)]
    name = _bare_name(name)
    known = {place.name.casefold() for place in situation.places}
    pots = [pot for one in more if (pot := _POT.fullmatch(one)) is not None]
    places = [one for one in more if _POT.fullmatch(one) is None]
    is_placed = len(places) <= 1 and all(
        _clean_place(one).casefold() in known
        or (_is_place(one, situation) and not _holds_its_kind(one, situation))
        for one in places
    )
    words = words_of(plain(name))
    is_name = (
        bool(words) and len(name) <= _LONGEST_NAME and not frozenset(words) & _NO_NAME and "and" not in words
    )
    if not more or not is_placed or not is_name or len(pots) > 1 or _AT.search(f" {name}"):
        return False
    place = _clean_place(places[0]) if places else heading
    for one in _names(name, situation.kinds):
        found.plants.append(NewPlant(name=one, place=place, pot_cm=_width(pots[0] if pots else None)))
        found.is_known = found.is_known and _kind_in(one, situation.kinds) is not None
    return True


def _holds_its_kind(text: str, situation: Situation) -> bool:
    return _kind_in(text, situation.kinds) is not None


def _read_line(
    line: str, heading: str | None, situation: Situation, found: _Gathered, *, is_expected: bool
) -> None:
    if is_expected and _read_fields(line, heading, situation, found):
        return
    bare = _I_HAVE.sub(" ", _OPENING.sub("", line), count=1).strip(" ,.!")
    lead = _LEAD.match(f"{_OPENING.sub('', line)} ")
    place = heading
    if lead is not None and _is_place(lead["place"], situation):
        place = _clean_place(lead["place"])
        bare = _I_HAVE.sub(" ", _OPENING.sub("", line)[lead.end() :], count=1).strip(" ,.!")
    pieces = [piece for piece in _JOINT.split(bare) if piece and piece.strip()]
    if place is None:
        found.waiting = []
    for piece in (one for each in pieces for one in _between_articles(each, situation)):
        lead = _LEAD.match(f"{piece.strip()} ")
        if lead is not None and _is_place(lead["place"], situation):
            place = _clean_place(lead["place"])
            piece = _I_HAVE.sub(" ", piece.strip()[lead.end() - 1 :], count=1)  # noqa: PLW2901 - its place is taken off
        _read_piece(piece.strip(" .!:"), place, situation, found, is_expected=is_expected)


def _between_articles(piece: str, situation: Situation) -> list[str]:
    """Cut "a monstera a lemon tree", where the commas are missing."""
    parts = re.split(r"\s+(?=(?:an?|the|my|one|two|three|four)\s)", piece)
    has_kinds = [part for part in parts if _kind_in(part, situation.kinds) is not None]
    return parts if len(has_kinds) == len(parts) else [piece]


def _read_piece(
    piece: str, place: str | None, situation: Situation, found: _Gathered, *, is_expected: bool
) -> None:
    """Read one item: a plant with its number, pot and place, a place for those before, or something else."""
    facing = _FACING.search(piece)
    way = facing["way"].lower() if facing is not None else ""
    if facing is not None:
        piece = (piece[: facing.start()] + piece[facing.end() :]).strip(" ,-")
        piece = re.sub(r"\b(?:with an?|with|window|faces|facing|the)$", "", piece).strip()
    inside = _BRACKETS.search(piece)
    bracket = inside[1] if inside is not None and not _POT.search(inside[0]) else ""
    piece = _BRACKETS.sub("", piece).strip() if bracket else piece
    pot = _POT.search(piece)
    width = _width(pot)
    piece = _POT.sub("", piece).strip(" ,") if pot is not None else piece
    at = _AT.search(f" {piece}")
    own = _clean_place(at["place"]) if at is not None and _is_place(at["place"], situation) else None
    name = f" {piece}"[: at.start()].strip(" ,") if own is not None and at is not None else piece
    own = own or (_clean_place(bracket) if bracket and _is_place(bracket, situation) else None)
    if own is None and _is_place_alone(piece, situation) and (found.plants or place):
        own, name = _clean_place(piece), ""
    name = _BY_THE_WAY.sub("", _without_signs(name))
    if not name and width is not None and found.plants:
        found.plants[-1] = replace(found.plants[-1], pot_cm=width)
    if way:
        _note_facing(way, own or place or _last_place(found), found)
    if own is not None:
        _settle(own, found)
    name = _ARTICLE.sub("", f"{_I_HAVE.sub(' ', name).strip()} ").strip()
    if not name or name.lower() in _ALL_OF_THEM:
        return
    item = NewPlant(name=name, place=own or place, pot_cm=width)
    _take(item, situation, found, is_expected=is_expected)


_ALL_OF_THEM = frozenset(
    {"", "both", "all", "all of them", "both of them", "they", "each", "these", "those", "it", "they all"}
)


def _take(told: NewPlant, situation: Situation, found: _Gathered, *, is_expected: bool) -> None:
    """Take one item for a plant, or for several, with what was seen on it; or leave it out."""
    name, place, width = told.name, told.place, told.pot_cm
    seen = _seen(name, situation)
    if seen is not None:
        name = seen[0]
    names = list(_names(name, situation.kinds))
    for each in names:
        kind = _kind_in(each, situation.kinds)
        base, where = _split_place(each, kind, situation)
        is_kind = kind is not None and _is_mostly(kind, base, situation)
        if not is_kind and (not is_expected or not _could_be_a_name(base)):
            found.left_out += [name] if name not in found.left_out else []
            return
        found.is_known = found.is_known and is_kind
        found.plants.append(NewPlant(name=base[:_LONGEST_NAME], place=where or place, pot_cm=width))
        if (where or place) is None:
            found.waiting.append(len(found.plants) - 1)
    if seen is not None and names:
        found.told_of = f"{seen[1]} on {found.plants[-1].name}"


def _names(name: str, kinds: frozenset[str]) -> Iterator[str]:
    """Give a name for each plant: "two hoyas" is hoya 1 and hoya 2, "AV 1-12" twelve, "aloe x3" three."""
    ranged = _RANGE.match(name)
    if ranged is not None and 0 < int(ranged["to"]) - int(ranged["from"]) < _MOST_OF_A_KIND:
        for number in range(int(ranged["from"]), int(ranged["to"]) + 1):
            yield f"{ranged['name'].strip()} {number}"
        return
    times = _TIMES.search(name)
    if times is not None:
        rest, number = _TIMES.sub("", name).strip(), int(times[1] or times[2])
    else:
        counted = _COUNTED.match(name)
        if counted is None:
            yield name
            return
        said = (counted["n"] or counted["x"]).lower().strip()
        rest, number = counted["rest"].strip(), int(said) if said.isdigit() else _NUMBERS.get(said, 0)
    rest = _ARTICLE.sub("", f"{rest} ").strip()
    if number <= 1 or number > _MOST_OF_A_KIND:
        yield rest if number == 1 else name
        return
    for count in range(1, number + 1):
        is_one = rest.lower() in kinds and _singular(rest.lower()) not in kinds  # "pothos" has no singular
        yield f"{rest if is_one else _singular(rest)} {count}"


def _singular(name: str) -> str:
    *first, last = name.split(" ")
    if last.lower().endswith("ies") and len(last) > len("pies"):
        last = f"{last[:-3]}y"
    elif last.lower() == "cacti":
        last = "cactus"
    elif last.lower().endswith(("ses", "xes", "shes")):
        last = last[:-2]
    elif last.lower().endswith("s") and not last.lower().endswith(("ss", "us", "is", "pearls", "hearts")):
        last = last[:-1]
    return " ".join((*first, last))


@lru_cache(maxsize=1024)
def _kind_in(name: str, kinds: frozenset[str]) -> str | None:
    """Find the longest kind of plant that a name holds, in one or several."""
    words = [word for word in words_of(plain(name)) if word not in {"'", '"', "-"}]
    if not _holds_a_kind(words, kinds):
        return None
    for size in range(min(len(words), _LONGEST_KIND), 0, -1):
        for start in range(len(words) - size + 1):
            run = " ".join(words[start : start + size])
            if run in kinds or _singular(run) in kinds:
                return run
    return None


@lru_cache(maxsize=4)
def _words_of_kinds(kinds: frozenset[str]) -> frozenset[str]:
    return frozenset(word for kind in kinds for word in kind.split())


def _holds_a_kind(words: Iterable[str], kinds: frozenset[str]) -> bool:
    known = _words_of_kinds(kinds)
    return any(word in known or _singular(word) in known for word in words)


def _is_mostly(kind: str, name: str, situation: Situation) -> bool:
    """Whether besides the kind only what a name may hold is there: "white orchid", "fern 2"."""
    rest = [word for word in words_of(plain(name)) if word not in kind.split() and word.isalpha()]
    if any(_tells(word) for word in rest):
        return False
    has_pest = any(isinstance(found[0], Pest) for found in _found(tuple(rest), situation))
    return len(rest) <= _LONGEST_TOLD and not frozenset(rest) & (_NO_NAME - {"few"}) and not has_pest


def _tells(word: str) -> bool:
    """Whether a word does something in a sentence, so that it is no part of a name: "clean", "sprayed"."""
    meant = phrase_at((word,), 0)
    return meant is not None and meant[0] is not Word.FILLER and not isinstance(meant[0], Spot | Form)


def _found(words: tuple[str, ...], situation: Situation) -> list[tuple[object, int]]:
    names = names_of(situation)
    return [one for at in range(len(words)) if (one := names.exact_at(words, at)) is not None]


def _could_be_a_name(name: str) -> bool:
    words = words_of(plain(name))
    told = frozenset(words)
    is_short = 0 < len(words) <= _LONGEST_TOLD and len(name) <= _LONGEST_NAME
    is_wordy = any(word.isalpha() and len(word) > 1 for word in words)
    return is_short and is_wordy and not told & (_NO_NAME | _GENERAL) and not told <= KNOWN


def _split_place(name: str, kind: str | None, situation: Situation) -> tuple[str, str | None]:
    """Cut "bathroom peace lily", "basil balcony" into the plant and where it stands."""
    if kind is None:
        return name, None
    words = name.split(" ")
    for size in range(min(3, len(words) - 1), 0, -1):
        for place, rest in ((words[:size], words[size:]), (words[-size:], words[:-size])):
            told = " ".join(place)
            names_kind = _kind_in(" ".join(rest), situation.kinds)
            if (
                names_kind is not None
                and _is_place_alone(told, situation)
                and _kind_in(told, situation.kinds) is None
            ):
                return " ".join(rest), _clean_place(told)
    return name, None


def _seen(name: str, situation: Situation) -> tuple[str, str] | None:
    """Cut "jade is full of mealybugs", "zz has a dozen aphids" into the plant and what was seen on it."""
    found = re.search(
        r"\s(?:that |which |it )?(?:is|has|have|had|got|with|'s)\s(?:like |about |around )?(?P<seen>.+)$",
        name,
        re.IGNORECASE,
    )
    if found is None:
        return None
    words = words_of(plain(found["seen"]))
    has_pest = any(isinstance(one[0], Pest) for one in _found(words, situation)) or bool(
        frozenset(words) & _BUGS
    )
    return (name[: found.start()], found["seen"].strip()) if has_pest else None


def _without_signs(name: str) -> str:
    """Leave emoji off both ends."""
    signs = {mark for mark in name if unicodedata.category(mark) in {"So", "Sk"} and mark != "\u00b0"}
    return name.strip(" " + "".join(signs))


def _settle(place: str, found: _Gathered) -> None:
    """Give the plants told just before, whose place was open, this one."""
    for at in found.waiting:
        found.plants[at] = replace(found.plants[at], place=place)
    found.waiting = []


def _last_place(found: _Gathered) -> str | None:
    return found.plants[-1].place if found.plants else None


def _note_facing(way: str, place: str | None, found: _Gathered) -> None:
    if place is not None:
        found.facings[place] = way


def _width(pot: "re.Match[str] | None") -> float | None:
    if pot is None:
        return None
    value = float(pot[1].replace(",", "."))
    return value if pot[2].lower() == "cm" else round(value * float(INCH_CM), 1)


def _is_place(text: str, situation: Situation) -> bool:
    """Whether it may be where a plant stands: a known place, or words of which one is a room's."""
    told = _clean_place(text).casefold()
    if told in {place.name.casefold() for place in situation.places}:
        return True
    words = words_of(told)
    return (
        0 < len(words) <= _LONGEST_TOLD
        and not frozenset(words) & (_NO_NAME - {"window", "windows"})
        and (bool(frozenset(words) & _ROOMS) or _kind_in(told, situation.kinds) is None)
    )


def _is_place_alone(text: str, situation: Situation) -> bool:
    """Whether a bare text is a place beyond doubt."""
    told = _clean_place(text).casefold()
    if told in {place.name.casefold() for place in situation.places}:
        return True
    words = words_of(told)
    if (
        re.search(r"[,;:]| - ", text)
        or not 0 < len(words) <= _LONGEST_TOLD
        or _kind_in(told, situation.kinds) is not None
    ):
        return False
    return words[-1 if not words[-1].isdigit() else 0] in _ROOMS and not frozenset(words) & _NO_NAME


def _clean_place(text: str) -> str:
    bare = re.sub(
        r"^(?:(?:located|standing|it is|it's|its|which is|that is|lives?|stands?) )?(?:all "
        r"|both )?(?:(?:in|on|at|by)\s+)?(?:(?:the|my|our|a|an|her|his)\s+)?",
        "",
        text.strip(" .,:!-"),
        flags=re.IGNORECASE,
    )
    bare = _without_signs(bare)
    return re.sub(r"\s+(?:too|also|as well|now|at the moment|right now|today|please)$", "", bare).strip()
