"""What was seen in a home that is open to a yes, and how many plants of a name there are, put right."""

import re

from bot.actions.add_plants import NewPlant
from bot.actions.situation import Situation
from bot.domain.identity import PlaceId
from bot.domain.value import replace
from bot.phrases.home_words import Event, singular, words_at
from bot.phrases.homes import COUNTING, Home, how_many
from bot.phrases.kept import kept
from bot.phrases.lexicon import listed
from bot.phrases.names import Pest, Place, Plants
from bot.phrases.offered_homes import ON

_TURNS = listed("no nope nah not wait sorry meant mean oops actually rather was wrong should make")
_DENIES = listed("not never neither than instead")
_BESIDE = _TURNS | listed(
    "oh ah er um i it that this the a my on is be it's that's just only to of them than instead but , . !"
)


def with_find_put_right(text: str, offered: Home, known: Situation) -> Home | None:
    """Give an offered home with its last find as it is put right: "no, 50", "I meant jade"."""
    finds = [one for one in offered.lines if ON in one]
    if not finds:
        return None
    said = kept(words_at, (text, None), known)
    number, named, denied, is_denied = "", list[str](), list[str](), False
    for one in said.events:
        word = said.words[one.start]
        if one.what in {"count", "grade"} and not is_denied:
            number = how_many(one)
        elif one.what == "own" and (name := _name_of(one, known)):
            (denied if is_denied else named).append(name)
        elif one.what not in {"count", "grade"} and not (
            word in _BESIDE or (isinstance(one.value, Pest) and said.text(one.start, one.end) in finds[-1])
        ):
            return None
        is_denied = word in _DENIES or (is_denied and one.what in {"around", "telling"})
    of_it = [one for one in finds if not denied or set(_plants_of(one)) & set(denied)]
    is_turned = bool(_TURNS.intersection(said.words))
    if not of_it or len(named) > 1 or not (number or named) or not (is_turned or not named):
        return None
    line = of_it[-1]
    what, _, plants = line.rpartition(ON)
    seen = what.split(" ", 1)[1] if what.startswith(COUNTING) and " " in what else what
    if named == [plants] and not number:
        return None
    right = f"{f'{number} {seen}' if number else what}{ON}{named[0] if named else plants}"
    return replace(offered, lines=tuple(right if one == line else one for one in offered.lines), unread=())


def _name_of(one: Event, known: Situation) -> str:
    """Give the one plant that an event names."""
    ids = one.value.ids if isinstance(one.value, Plants) else ()
    named = [each.names[0] for each in known.plants if each.id in ids]
    return named[0] if len(named) == 1 else ""


def _plants_of(line: str) -> list[str]:
    return line.rpartition(ON)[2].replace(" and ", ", ").split(", ")


_MORE = listed("another more also too plus extra new besides ? other others")
_ONE = listed("one single")
_NUMBERED = re.compile(r"(?P<base>.+) \d+")
_MOST = 40


def with_number_put_right(text: str, offered: Home, known: Situation) -> Home | None:
    """Give an offered home with as many plants of a name as are said to be there: "one fern, not two"."""
    numbered = {one.name: found["base"] for one in offered.plants if (found := _NUMBERED.fullmatch(one.name))}
    said = kept(words_at, (text, None), known)
    numbers, bases, is_denied = set[object](), set[str](), False
    for one in said.events:
        word = said.words[one.start]
        name = singular(said.text(one.start, one.end)).casefold()
        if one.what == "count" or word in _ONE:
            numbers |= set() if is_denied else {1 if word in _ONE else one.value}
        elif one.what == "kind" and (base := _base(name, numbered)):
            bases.add(base)
        elif word in _MORE or one.what not in {
            "own",
            "place",
            "again",
            "around",
            "comma",
            "stop",
            "and",
            "telling",
        }:
            return None
        is_denied = word in _DENIES or (is_denied and one.what not in {"kind", "comma", "stop"})
    number = next(iter(numbers), None)
    own = [one for one in offered.plants if bases == {numbered.get(one.name)}]
    stands = {one.place for one in own}
    rooms = {each.name for one in said.events for each in known.places if _is_at(one, each.id)}
    if len(numbers) != 1 or not isinstance(number, int) or not 0 < number <= _MOST or not own:
        return None
    if len(stands) != 1 or not rooms <= stands:
        return None
    base = numbered[own[0].name]
    names = [base] if number == 1 else [f"{base} {n}" for n in range(1, number + 1)]
    right = [NewPlant(name=name, place=own[0].place) for name in names]
    at = offered.plants.index(own[0])
    plants = [one for one in offered.plants if one not in own]
    gone = {one.name for one in own} - {*names}
    alone = [
        f"{one.rpartition(ON)[0]}{ON}{base}" if number == 1 and gone.issuperset(_plants_of(one)) else one
        for one in offered.lines
    ]
    lines = tuple(one for one in alone if gone.isdisjoint(_plants_of(one)))
    return replace(offered, plants=(*plants[:at], *right, *plants[at:]), lines=lines, unread=())


def _base(name: str, numbered: dict[str, str]) -> str:
    return next((one for one in numbered.values() if singular(one).casefold() == name), "")


def _is_at(one: Event, place: PlaceId) -> bool:
    return isinstance(one.value, Place) and one.value.id == place
