"""What the words of a message name, read more freely than for what is sure."""

import re
from datetime import UTC, timedelta
from decimal import Decimal
from functools import lru_cache
from itertools import takewhile

from bot.actions.situation import KnownPlace, KnownPlant, KnownProduct, Situation
from bot.domain.identity import PlantId
from bot.domain.trade import Form as Shape
from bot.domain.trade import Grade, Method, Sign
from bot.domain.value import replace
from bot.phrases.days import (
    DAYS_OF_THE_WEEK,
    MONTHS,
    ORDINALS,
    WEEKDAYS,
    Day,
    Moment,
    MonthDay,
    Weekday,
    begins_a_time,
    spelt_alone,
)
from bot.phrases.items import (
    LOOKS_ALONE,
    Item,
    OfMonth,
    Percent,
    Span,
    Unknown,
    alone_at,
    is_group,
    next_at,
)
from bot.phrases.kept import kept, kept_of_all
from bot.phrases.lexicon import FREE, KNOWN, PHRASES, Tool, Word, common_words, free_at, listed, sayings
from bot.phrases.names import Names, OneOf, Pest, Place, Plants, Product, names_of
from bot.phrases.numbers import Count, number_at
from bot.phrases.slips import slips_between
from bot.phrases.text import LONGEST, plain, words_of

TICKS = re.compile("[\u2713\u2714\u2705\u2611\U0001f44d]\ufe0f?")
_SHOWER = re.compile("[\U0001f6bf\U0001f6c1]")
_SHORTEST_SLIP = 4
_SHORTEST_OWN = 6
_LONG = 9
_DAYS = dict.fromkeys(listed("day days night nights d evening evenings"), 1) | {"week": 7, "weeks": 7}
_MINUTES = dict.fromkeys(listed("minute minutes min mins"), 1) | dict.fromkeys(
    listed("hour hours hr hrs h"), 60
)
_BEHIND = listed("ago back before earlier past prior gone")
_AHEAD = listed("in over after by within another for")
_BEYOND = listed("later more hence on from time")
_SINCE = listed("is makes since been was")
_ORDINALS = listed("st nd rd th")
_NUMBER = listed("number no nr nos numbers # num")
_OUT = listed(
    "except excepted but without not leaving skipped excluding less minus bar save apart left"
    " excluded skip omit leave exc excl"
)
_LONGEST_MONTH = 31
_PAIR, _SHORT = 2, 3
_MOST_DAYS, _MOST_MINUTES = 400, 1000
_CARRYING = (Method, Tool, Grade)
_Words = tuple[str, ...]
_Listed = tuple[tuple[str, tuple[str, ...]], ...]


def spotted(text: str, situation: Situation) -> tuple[Item, ...]:
    """Read a text into items, slips mended."""
    return kept_of_all(_spotted_here, text, situation)


def _spotted_here(text: str, situation: Situation) -> tuple[Item, ...]:
    items = kept(_spotted, TICKS.sub(" done ", _SHOWER.sub(" shower ", text[:LONGEST])), situation)
    return _of_numbers_alone(items, situation) if names_of(situation).are_numbered else items


def _of_numbers_alone(items: tuple[Item, ...], situation: Situation) -> tuple[Item, ...]:
    """Read "all done except four and nine": plants of tonight or of a place told, by their numbers alone."""
    is_named = any(isinstance(one.meaning, Plants) for one in items)
    for at, item in enumerate(items):
        is_out = item.meaning in _LEAVING
        is_verb = isinstance(item.meaning, Method) or item.meaning is Word.DONE
        run = _numbers_behind(items, at) if is_out or (is_verb and not is_named) else []
        meant = _numbered_here(run, items, situation) if len(run) > (not is_out) else None
        if meant is not None:
            text = " ".join(one.text for one in run)
            return (
                *items[: at + 1],
                Item(meant if is_out else replace(meant, slip=True), text),
                *items[at + 1 + len(run) :],
            )
    return items


def _numbers_behind(items: tuple[Item, ...], at: int) -> list[Item]:
    """Give the numbers behind an item and what joins them; none where they count something."""
    run = list(
        takewhile(lambda one: isinstance(one.meaning, Count) or one.text in _NUMBERED, items[at + 1 :])
    )
    while run and not isinstance(run[-1].meaning, Count):
        run.pop()
    behind = items[at + 1 + len(run) :]
    return run if not behind or behind[0].text in _BEHIND_NUMBERS else []


def _numbered_here(run: list[Item], items: tuple[Item, ...], situation: Situation) -> Plants | None:
    """Give the plants of the places told, or of tonight, that have these numbers; a slip where others may."""
    names = names_of(situation)
    numbers = [int(one.meaning.value) for one in run if isinstance(one.meaning, Count)]
    places = {one.meaning.id for one in items if isinstance(one.meaning, Place)}
    open_now = {one.plant for one in situation.tonight}
    here = {one.id for one in situation.plants if (one.place in places if places else one.id in open_now)}
    named = [ids for ids in names.numbered_alike(numbers) if here.issuperset(ids)]
    alone = [ids for one in numbers for ids in names.numbered_alike([one]) if here.issuperset(ids)]
    is_count = len(numbers) == 1 and numbers[0] <= len(here)
    return Plants(named[0], slip=is_count or len(alone) > len(numbers)) if len(named) == 1 else None


_LEAVING = frozenset({Word.EXCEPT, Word.NOT})
_NUMBERED = listed(", and & + or nor number # the")
_BEHIND_NUMBERS = listed(", . ; ! because cause since as so and but too")


def with_names(text: str, situation: Situation) -> str:
    """Put whole names where plants were begun, misspelt or numbered on, so that they are known for plants."""
    return kept_of_all(_with_names, text, situation)


def _with_names(text: str, situation: Situation) -> str:
    words = words_of(plain(text[:LONGEST]))
    told = kept(_mended, words, situation)
    slips = {
        item.text: item.meaning.ids[0]
        for item in spotted(text, situation)
        if isinstance(item.meaning, Plants) and (item.meaning.slip or _is_numbered_on(item, situation))
    }
    if not slips:
        return text if told == words else " ".join(told)
    said = " ".join(told)
    for typed, plant in slips.items():
        name = next(one.names[0] for one in situation.plants if one.id == plant)
        said = re.sub(rf"\b{re.escape(typed)}\b", name, said)
    return said


def _is_numbered_on(item: Item, situation: Situation) -> bool:
    """Whether plants are told by numbers that stand without their name: "AV 2 4 and 9", "nine"."""
    words = tuple(item.text.split())
    named = names_of(situation).exact_at(words, 0)
    return number_at(words, len(words) - 1) is not None and (named is None or named[1] < len(words))


def has_slip(text: str, situation: Situation) -> bool:
    """Whether a name was read into a word that is not quite it, or a picture that is not read tells more."""
    words = words_of(plain(text[:LONGEST]))
    vocabulary, joined = _vocabulary(situation.plants, situation.places, situation.shelf)
    strange = frozenset(kept(_mended, words, situation)) - frozenset(words)
    if strange and sum(word[0].isalnum() for word in words) <= _SHORT:
        return True
    if any(len(word) <= _SHORTEST_SLIP + 1 and word in _STEERING_LONG for word in strange):
        return True  # "stubborn as goats" is no gnat
    whole = frozenset(part for word in words if word in joined for part in joined[word])
    return bool((strange & vocabulary) - whole) or bool(_PICTURES.search(text) or _GLUED.search(text))


_GLUED = re.compile(r"[^\W\d]\d{1,2}/\d|\d/\d{1,2}[^\W\d]")
"""A name or a verb and what might be a day, with nothing between."""


_PICTURES = re.compile("[\U0001f480\u2620\u26b0\U0001faa6\U0001f5d1\u2702\U0001f9fc\U0001f9fd\\\\]")


def _spotted(text: str, situation: Situation) -> tuple[Item, ...]:
    words = kept(_mended, words_of(plain(text)), situation)
    items = _by_ordinal(_settled(_numbered_on(_read(words, situation), situation)), situation)
    items = _standing(items, situation)
    items = _misted(items) if "water" in text else items
    if any(item.text in _JUST_NOW for item in items) and any(
        isinstance(item.meaning, _DAYS_TOLD) for item in items
    ):
        today = Day(situation.today)  # "the hoya yesterday, the orchid just now"
        items = [Item(today, item.text) if item.text in _JUST_NOW else item for item in items]
    return tuple(items)


def _misted(items: list[Item]) -> list[Item]:
    """Take "misted the jade with tap water" for nothing done: it treats no pest."""
    if any(isinstance(one.meaning, Product) for one in items):
        return items
    return [Item(Unknown(one.text), one.text) if one.text.startswith("mist") else one for one in items]


_NOT_TODAY = frozenset({"not today", "not tonight", "not this evening"})
_JUST_NOW = frozenset({"just now", "right now"})
_DAYS_TOLD = (Day, Weekday, MonthDay)


def _read(words: _Words, situation: Situation) -> list[Item]:
    names = names_of(situation)
    items: list[Item] = []
    base: _Words | None = None
    last: int | None = None
    at = 0
    while at < len(words):
        if base is None and words[at] not in names.begin:
            alone = _alone(words[at], words[at + 1] if at + 1 < len(words) else ".")
            if alone is not None:
                items.append(alone)
                at += 1
                continue
        found = names.base_at(words, at) if names.are_numbered else None
        if found is not None and found[0] != base:
            base, last = found[0], None
        ranged = _ranged(words, at, situation, base, last)
        if ranged is not None:
            item, size, last = ranged
        else:
            item, size = _next(words, at, situation, base)
            last = _last_number(words, at, size, item, last)
        items.append(item)
        at += size
    return items


def _by_ordinal(items: list[Item], situation: Situation) -> list[Item]:
    """Take "the second hoya" most likely for hoya 2; where there is none it is one of them."""
    kept: list[Item] = []
    names = names_of(situation)
    for item in items:
        number = ORDINALS.get(kept[-1].text) if kept and isinstance(item.meaning, OneOf) else None
        base = names.base_at(tuple(item.text.split()), 0) if number is not None else None
        plant = None if base is None or number is None else names.numbered(base[0], number)
        if base is None:
            kept.append(item)
        elif plant is None:
            kept[-1:] = [item]
        else:
            kept[-1:] = [Item(Plants((plant,), slip=True), f"{kept[-1].text} {item.text}")]
    return kept


def _standing(items: list[Item], situation: Situation) -> list[Item]:
    """Take "the hoyas in the den" for those that stand there, where nothing is moved."""
    is_placed = any(isinstance(item.meaning, Place) for item in items)
    if not is_placed or any(item.meaning in _MOVING for item in items):
        return items
    return [_of_its_place(item, items[at + 1 : at + 4], situation) for at, item in enumerate(items)]


def _of_its_place(item: Item, behind: list[Item], situation: Situation) -> Item:
    """Narrow a group to a place that stands behind it."""
    place = next((at for at, one in enumerate(behind) if isinstance(one.meaning, Place)), 0)
    where, meaning = behind[place].meaning if place else None, item.meaning
    is_led = bool(place) and behind[0].text.split()[0] in {"in", "at", "on"}
    is_led = is_led and all(one.meaning is Word.FILLER for one in behind[:place])
    if not (is_led and isinstance(meaning, Plants) and isinstance(where, Place) and is_group(item)):
        return item
    there = {one.id for one in situation.plants if one.place == where.id}
    ids = tuple(one for one in meaning.ids if one in there)
    return Item(replace(meaning, ids=ids), item.text) if ids else item


_MOVING = frozenset({Word.MOVE, Word.PUT, Word.ISOLATE, Word.RELEASE, Word.BACK, Word.AWAY})


def _numbered_on(items: list[Item], situation: Situation) -> list[Item]:
    """Take "phals, the 3 up to the 8" for those six: a range goes on, a group is what is named of it."""
    names = names_of(situation)
    kept: list[Item] = []
    for at, each in enumerate(items):
        item = each
        number = number_at(tuple(each.text.split()), 0) if isinstance(each.meaning, Plants) else None
        if number and at + 1 < len(items) and isinstance(items[at + 1].meaning, Pest):
            item = Item(Count(number[0]), each.text)  # "there was 6 spider mites"
        first = _first_of_range(kept) if names.are_numbered else None
        begun = None if first is None else kept[first].meaning
        more = _up_to(begun, item.meaning, names) if isinstance(begun, Plants) else ()
        is_last = at + 1 == len(items) or items[at + 1].meaning is Word.BREAK
        if more and isinstance(begun, Plants):
            text = " ".join(one.text for one in (*kept[first:], item))
            kept[first:] = [Item(Plants((*begun.ids, *more)), text)]
        elif item.text == "one" and is_last and kept and _is_counted(kept[-1]) and not _is_any_counted(kept):
            kept.append(Item(Count(Decimal(1)), "one"))
        else:
            kept.append(item)
    return _narrowed(kept, situation) if names.are_numbered else kept


def _up_to(begun: Plants, meaning: object, names: Names) -> tuple[PlantId, ...]:
    """Give the numbered plants behind the one begun with, as far as a number or another of them."""
    first = names.number_of(begun.ids[-1])
    if first is None:
        return ()
    match meaning:
        case Count(value=value) if value == int(value):
            end = int(value)
        case Plants(ids=ids) if (told := names.number_of(ids[-1])) is not None and told[0] == first[0]:
            end = told[1]
        case _:
            return ()
    plants = [names.numbered(first[0], number) for number in range(first[1] + 1, end + 1)]
    known = tuple(plant for plant in plants if plant is not None)
    return known if len(known) == len(plants) else ()


def _is_any_counted(items: list[Item]) -> bool:
    """Whether numbers stand before their plants here: "five on the mint one"."""
    return any(isinstance(one.meaning, Count) for one in items)


def _is_counted(item: Item) -> bool:
    return isinstance(item.meaning, Plants) or item.text in _COUNTED


_COUNTED = listed("has is had only just got : -")


def _first_of_range(items: list[Item]) -> int | None:
    """Find the numbered plant that "to", "up to", ".." goes on from."""
    at = len(items) - 1
    while at >= 0 and (items[at].text in _BETWEEN or isinstance(items[at].meaning, OneOf)):
        at -= 1
    between = "".join(
        item.text.replace(" ", "") for item in items[at + 1 :] if not isinstance(item.meaning, OneOf)
    )
    is_plant = at >= 0 and isinstance(items[at].meaning, Plants)
    return at if is_plant and between.removeprefix("on") in _RANGES else None


_BETWEEN = listed("to on up up-to until till through thru . / t m - .. the number no # onto") | {
    *sayings("up to | on up to | to the")
}
_RANGES = listed("to upto until till through thru .. t/m - tothe upthrough upuntil tonumber uptonumber")


def _narrowed(items: list[Item], situation: Situation) -> list[Item]:
    """Drop a group's name where numbers behind it say which of it: "the phals, from 3 to 8"."""
    names = names_of(situation)
    kept: list[Item] = []
    for at, each in enumerate(items):
        is_whole = _is_whole(each, items[:at], items[at + 1 :], names)
        one_of = each.meaning if is_whole and isinstance(each.meaning, OneOf) else None
        item = each if one_of is None else Item(Plants(one_of.ids), each.text)
        ids = item.meaning.ids if isinstance(item.meaning, Plants | OneOf) else ()
        named = tuple(item.text.split())
        base = names.base_at(named, 0)
        is_group = not is_whole and len(ids) > 1 and base is not None and base[1] == len(named)
        if is_group and not (at and _is_all_of(items[:at])):
            bare = [
                one
                for one in items[at + 1 :]
                if isinstance(one.meaning, Plants)
                and set(one.meaning.ids) < set(ids)
                and names.number_of(one.meaning.ids[0]) is not None
                and not one.text.startswith(item.text.removesuffix("s"))
            ]
            if bare:
                kept.append(Item(Word.FILLER, item.text))
                continue
        kept.append(item)
    return kept


def _is_whole(item: Item, before: list[Item], behind: list[Item], names: Names) -> bool:
    """Whether a name that numbers belong to means all of them: "every" or "all of them" stands beside it."""
    named = tuple(item.text.split()) if isinstance(item.meaning, OneOf | Plants) else ()
    base = names.base_at(named, 0) if named else None
    if base is None or base[1] != len(named):
        return False
    behind = behind[1:] if behind and behind[0].text in {",", ":"} else behind
    near = [*_until_a_mark(before[::-1])[:_NEAR_BEFORE], *_until_a_mark(behind)[:_NEAR_BEHIND]]
    return any(one.meaning is Word.ALL for one in near) and not any(
        isinstance(one.meaning, Plants | OneOf | Count) for one in near
    )


_NEAR_BEFORE, _NEAR_BEHIND = 3, 5
"""So many words may stand between "all" and the name it belongs to. Judgement. [1]"""


def _until_a_mark(items: list[Item]) -> list[Item]:
    marked = next((at for at, one in enumerate(items) if one.meaning is Word.BREAK), len(items))
    return items[:marked]


def _is_all_of(before: list[Item]) -> bool:
    """Whether "all", "each of the" or a number stands before."""
    near = [
        one for one in before[-3:] if one.meaning is not Word.FILLER or one.text not in {"the", "of", "my"}
    ]
    is_each = any(one.text.startswith(("every", "each")) for one in before[-4:])
    return is_each or (bool(near) and (near[-1].meaning is Word.ALL or isinstance(near[-1].meaning, Count)))


def _last_number(words: _Words, at: int, size: int, item: Item, last: int | None) -> int | None:
    """Give the number of the plant named last, from which a range may go on."""
    if isinstance(item.meaning, Plants):
        told = number_at(words, at + size - 1)
        return int(told[0]) if told is not None and told[0] == int(told[0]) else None
    return (
        last if item.meaning in {Word.FILLER, Word.AND, Word.BREAK, Word.EXCEPT, Word.BUT, Word.NOT} else None
    )


def _ranged(
    words: _Words, at: int, situation: Situation, base: _Words | None, last: int | None
) -> tuple[Item, int, int] | None:
    """Read "to the 5" behind a numbered plant, "from the 3 to the 8" behind a name with numbers."""
    if base is None:
        return None
    begin = at
    start = last
    if words[at] in {"from", "between", "the"} or (words[at].isdecimal() and last is None):
        first = at + (words[at] in {"from", "between"})
        first += words[first : first + 1] == ("the",)
        told = number_at(words, first) if first < len(words) else None
        if told is None or words[first + told[1] : first + told[1] + 1] not in _TO_WORDS:
            return None
        start, begin = int(told[0]), first + told[1]
    joint = words[begin : begin + 1]
    if start is None or joint not in _TO_WORDS or (joint == ("and",) and words[at] != "between"):
        return None
    end = begin + 1
    end += words[end : end + 1] == ("the",)
    end += words[end : end + 1] in {("number",), ("no",), ("#",)}
    told = number_at(words, end) if end < len(words) else None
    if told is None or told[0] != int(told[0]) or int(told[0]) <= start:
        return None
    if joint == ("-",) and (words[end].isalpha() or words[end + told[1] : end + told[1] + 1] in _PIECES):
        return None  # "number 8 - eleven" counts what is on it
    names = names_of(situation)
    plants = tuple(names.numbered(base, n) for n in range(start, int(told[0]) + 1))
    if None in plants:
        return None
    size = end + told[1] - at
    return (
        Item(Plants(tuple(p for p in plants if p is not None)), " ".join(words[at : at + size])),
        size,
        int(told[0]),
    )


_PIECES = frozenset({("pcs",), ("pc",), ("pieces",)})
_TO_WORDS = frozenset({("to",), ("-",), ("until",), ("till",), ("thru",), ("through",), ("and",)})


def _next(words: _Words, at: int, situation: Situation, base: _Words | None) -> tuple[Item, int]:
    soil = _new_soil(words, at)
    if soil:
        return Item(Method.REPOT, " ".join(words[at : at + soil])), soil
    as_told = _as_told(words, at)
    if as_told:
        return Item(Word.FILLER, " ".join(words[at : at + as_told])), as_told
    own = _numbered(words, at, situation, base) or _dated(words, at, situation)
    if own is not None:
        return own
    meaning, size = next_at(words, at, situation)
    free = free_at(words, at)
    if free is not None and (free[1] > size or (free[1] == size and _gives_way(meaning))):
        meaning, size = free
    return Item(meaning, " ".join(words[at : at + size])), size


@lru_cache(maxsize=4096)
def _alone(word: str, behind: str) -> Item | None:
    """Read a word that begins neither a number or a day nor, with the one behind, a phrase or new soil."""
    is_dated = (word in _AHEAD or word == "the") and (begins_a_time(behind) or behind in _BARE_UNITS)
    meaning = None if is_dated or word in _FRESH else alone_at(word, behind)
    free = None if meaning is None else free_at((word,), 0)
    return None if meaning is None else Item(free[0] if free and _gives_way(meaning) else meaning, word)


def _gives_way(meaning: object) -> bool:
    """Whether what is heard for an offer only is meant rather: a name gives way where it was only begun."""
    is_name = isinstance(meaning, (Plants, OneOf)) and not getattr(meaning, "loose", False)
    return not is_name and isinstance(meaning, (Unknown, Word, *_CARRYING, Plants, OneOf))


def _as_told(words: _Words, at: int) -> int:
    """Count the words of "like you want", "the way you told me": it was done so, and wishes nothing."""
    if words[at] not in _AS or words[at + 1 : at + 2] != ("you",) or words[at + 2 : at + 3] == ():
        return 0
    return 0 if words[at + 2] not in _WISHED else 4 if words[at + 3 : at + 4] in {("me",), ("it",)} else 3


_AS = listed("as like how way")
_WISHED = listed(
    "said say asked want wanted wish wished told tell suggested recommended instructed advised like liked"
)


def _new_soil(words: _Words, at: int) -> int:
    """Count the words of "fresh potting mix", "a new pot"."""
    if words[at] not in _FRESH:
        return 0
    return next((n + 1 for n in (1, 2) if words[at + n : at + n + 1] and words[at + n] in _SOIL), 0)


_FRESH = listed("new fresh changed bigger larger")
_SOIL = listed("soil earth compost dirt mix substrate medium pot potting ground mould loam")


def _numbered(words: _Words, at: int, situation: Situation, base: _Words | None) -> tuple[Item, int] | None:
    """Read "number 8", "#3", "no. 5" behind the name that numbers belong to."""
    if base is None:
        return None
    begin = at + (words[at] in _NUMBER or (words[at] == "the" and _is_out(words, at)))
    begin += words[begin : begin + 1] == (".",) and begin > at
    is_beside = names_of(situation).base_at(words[at - 1 : at], 0) is not None if at else False
    is_having = words[at].isdecimal() and words[at + 1 : at + 2] in _HAVING
    if begin == at and not (is_beside or is_having or _is_out(words, at)):
        return None
    told = number_at(words, begin) if begin < len(words) else None
    if told is None or told[0] != int(told[0]) or words[begin] == "a":
        return None
    plant = names_of(situation).numbered(base, int(told[0]))
    if plant is None:
        return None
    size = begin + told[1] - at
    return Item(Plants((plant,)), " ".join(words[at : at + size])), size


_HAVING = frozenset({(word,) for word in listed(": = has have had got s carries")})


def _is_out(words: _Words, at: int) -> bool:
    """Whether a bare number stands beside a word that leaves out."""
    return bool(_OUT & {*words[max(0, at - 3) : at], *words[at + 1 : at + 4]})


def _dated(  # noqa: C901 - one arm a unit
    words: _Words, at: int, situation: Situation
) -> tuple[Item, int] | None:
    """Read "8 days back", "over 6 days", "an hour back", "the 12th", "june the ninth", "70 %"."""
    word = words[at]
    if not (begins_a_time(word) or word in _AHEAD or word in _BARE_UNITS or word == "the"):
        return None
    ordinal = _of_month(words, at)
    if ordinal is not None:
        return Item(ordinal[0], " ".join(words[at : at + ordinal[1]])), ordinal[1]
    begin = at + (words[at] in _AHEAD)
    if words[begin : begin + 2] in {("day", "before"), ("day", "after")}:
        return None  # "day before yesterday"
    told = number_at(words, begin) if begin < len(words) else None
    if told is None and words[begin : begin + 1] in {(unit,) for unit in _BARE_UNITS}:
        told = Decimal(1), 0
    if told is None:
        return None
    behind = begin + told[1]
    behind += words[behind : behind + 1] in {("full",), ("whole",), ("more",)}
    unit, after = (*words[behind : behind + 2], "", "")[:2]
    text = " ".join(words[at : behind + 1])
    if unit in {"%", "percent"}:
        return Item(Percent(float(told[0])), text), behind + 1 - at
    if unit in _DAYS and told[0] == int(told[0]) and 0 < told[0] < _MOST_DAYS:
        days = int(told[0]) * _DAYS[unit]
        if after in _BEHIND:
            return Item(Day(situation.today - timedelta(days=days)), f"{text} {after}"), behind + 2 - at
        if at and words[at - 1] in _SINCE and words[max(0, at - 2) : at - 1] in {("there",), ("it",), ()}:
            return Item(Day(situation.today - timedelta(days=days)), text), behind + 1 - at
        if begin > at or after in _BEYOND:
            return Item(Day(situation.today + timedelta(days=days)), text), behind + 1 + (
                after in _BEYOND
            ) - at
        return (Item(Span(days), text), behind + 1 - at) if told[1] else None  # "a spa day"
    is_since = bool(at) and words[at - 1] in _SINCE
    is_span = unit in _MINUTES and len(unit) > 1 and after not in _BEHIND and begin == at and not is_since
    if is_span and words[at] not in {"a", "an"} and told[1]:
        return Item(Unknown(text), text), behind + 1 - at  # "cleaned out, 2 hours"
    if unit in _MINUTES and 0 < told[0] < _MOST_MINUTES and (after in _BEHIND or begin > at or is_since):
        minutes = float(told[0]) * _MINUTES[unit] * (-1 if after in _BEHIND or is_since else 1)
        return Item(Moment(situation.now.astimezone(UTC) + timedelta(minutes=minutes)), text), behind + 1 + (
            after in _BEHIND
        ) - at
    return None


_BARE_UNITS = frozenset({"hour", "week", "day"})


def _is_of_a_week(words: _Words, at: int, end: int) -> bool:
    """Whether a day in words is told with its weekday, and nothing is counted: "monday the third."."""
    is_told = words[at] == "the" and at > 0 and words[at - 1] in WEEKDAYS
    return is_told and not (end < len(words) and words[end].isalnum())


def _of_month(words: _Words, at: int) -> tuple[OfMonth | MonthDay, int] | None:
    month, begin = (MONTHS[words[at]], at + 1) if words[at] in MONTHS else (None, at)
    begin += words[begin : begin + 1] == ("the",)
    word = words[begin] if begin < len(words) else ""
    if word.isdecimal() and words[begin + 1 : begin + 2] and words[begin + 1] in _ORDINALS:
        day, end = int(word), begin + 2
    else:
        spelt = spelt_alone(words, begin)
        if spelt is None or (month is None and not _is_of_a_week(words, at, begin + spelt[1])):
            return None
        day, end = spelt[0], begin + spelt[1]
    if not 1 <= day <= _LONGEST_MONTH or "month" in words[end : end + _SHORT]:
        return None  # "the 15th of each month" is a habit
    if month is not None:
        return MonthDay(month, day), end - at
    behind = end + (words[end : end + 1] in {("of",), ("(",)})
    named = words[behind] if behind < len(words) else ""
    return (MonthDay(MONTHS[named], day), behind + 1 - at) if named in MONTHS else (OfMonth(day), end - at)


_STICKS = listed("stick sticks bud buds pad pads ball balls swab swabs wool wipe wipes cloth")
_FILLING = frozenset({Word.FILLER, Word.AND, Word.BREAK})
_UNSETTLED = _NOT_TODAY | {"sat", "lot", "rest", "all over"}


def _settled(  # noqa: C901, PLR0912, PLR0915 - one arm a kind of meaning
    items: list[Item],
) -> list[Item]:
    """Take counts of a group, denied pests and numbers set right at once for what they are."""
    kept: list[Item] = []
    group = 0
    is_of_one = sum(isinstance(one.meaning, Plants) for one in items) == 1
    grades = sum(isinstance(one.meaning, Grade) for one in items)
    for at, read in enumerate(items):
        item = read
        if item.meaning in _FILLING and item.text not in _UNSETTLED:
            kept.append(item)
            continue
        meaning, before = item.meaning, kept[-1] if kept else None
        behind = items[at + 1].meaning if at + 1 < len(items) else None
        if isinstance(meaning, Unknown) and item.text in WEEKDAYS:
            item = Item(Weekday(WEEKDAYS[item.text]), item.text)
        is_led = before is not None and before.text.endswith("there")  # "there sat a few"
        if item.text == "sat" and behind and (is_led or _is_no_saturday(items[at + 1])):
            item = Item(Unknown("sat"), "sat")
        if meaning is Sign.FLUFF and behind and items[at + 1].text in _STICKS:
            item = Item(Word.FILLER, item.text)  # "swabbed with a cotton stick"
        if item.text == "lot" and before is not None and before.meaning is Word.ALL:
            item = Item(Word.FILLER, item.text)
        if item.text == "rest" and behind and items[at + 1].text in _RESTING:
            item = Item(Unknown("rest"), "rest")
        if item.meaning is Word.REST and before is not None and before.text.split()[-1] in _FROM:
            item = Item(Word.FILLER, item.text)
        if item.text in _NOT_TODAY and before is not None and isinstance(before.meaning, _DAYS_TOLD):
            item = Item(Word.FILLER, item.text)  # "on sunday, not today"
        is_said_again = is_of_one and grades > 1 and isinstance(behind, Pest)
        if meaning is Grade.SOME and (is_said_again or isinstance(behind, Product | Shape | Sign)):
            item = Item(Word.FILLER, item.text)  # "some scale on it, a few"
        if item.text == "all over" and (before is None or not isinstance(before.meaning, Pest)):
            item = Item(Word.FILLER, item.text)  # "mites all over the ivy", and not "sprayed all over"
        if isinstance(meaning, Count):
            size = len(behind.ids) if isinstance(behind, Plants) else group
            is_all = before is not None and (
                before.meaning in {Word.ALL, Word.BOTH} or before.text in {"all", "the"}
            )
            if size > 1 and meaning.value == size and (isinstance(behind, Plants) or is_all):
                item = Item(Word.ALL, item.text)
            elif before is not None and before.meaning is Word.ALL and not _is_of_them(behind):
                kept[-1] = Item(Word.ALL, f"{before.text} {item.text}")  # "all four"
                continue
        if isinstance(meaning, OneOf) and len(kept) > 0 and _is_all(kept, len(meaning.ids)):
            if isinstance(kept[-1].meaning, Count):
                kept[-1] = Item(Word.ALL, kept[-1].text)
            meaning = Plants(meaning.ids)
            item = Item(meaning, item.text)
        if isinstance(meaning, Plants) and meaning.loose and item.text in LOOKS_ALONE:
            item = Item(Unknown(item.text), item.text)
            meaning = item.meaning
        if isinstance(meaning, Plants):
            group = len(meaning.ids)
        if isinstance(meaning, Pest) or meaning is Word.BUGS:
            denied = [one for one in kept[-3:] if _denies_pests(one)]
            if (
                before is not None
                and denied
                and not any(
                    one.text in _MARKS or isinstance(one.meaning, Plants)
                    for one in kept[kept.index(denied[0]) :]
                )
            ):
                for at_denied, one in enumerate(kept):
                    if one is denied[0]:
                        kept[at_denied] = Item(Word.NOTHING, one.text)
                        if at_denied and kept[at_denied - 1].text in _HELPING:
                            kept[at_denied - 1] = Item(Word.FILLER, kept[at_denied - 1].text)
                if meaning is Word.BUGS:
                    continue
                item = Item(Word.NOTHING, item.text)
        kept.append(item)
    return kept


def _is_no_saturday(behind: Item) -> bool:
    """Whether "sat" stands before a number, a place or a word of what it did: "sat apart"."""
    is_steering = isinstance(behind.meaning, Word) and behind.meaning not in _BESIDE_A_DAY
    return is_steering or isinstance(behind.meaning, Count) or behind.text in _SAT_ON


def _is_of_them(meaning: object) -> bool:
    """Whether what stands behind a number may be what it counts."""
    return isinstance(meaning, Plants | OneOf | Pest | Place | Unknown | Grade) or meaning is Word.BUGS


_HELPING = listed("did do does")
"""“The ivy did not have any”: nothing was done."""
_BESIDE_A_DAY = frozenset(
    {Word.BREAK, Word.FILLER, Word.AND, Word.DONE, Word.ALL, Word.CLEAN, Word.NONE, Word.NOTHING}
)
_RESTING = listed("it him her them in up well easy peacefully")
_FROM = listed("from frm than")
_SAT_ON = listed("on in at under there with by around still snugly happily")


def _denies_pests(item: Item) -> bool:
    return (
        item.meaning in {Word.NOT, Word.NONE, Word.NOTHING}
        or item.text in {"without", "any", "neither"}
        or (isinstance(item.meaning, Count) and item.meaning.value == 0)
    )


def _is_all(before: list[Item], size: int) -> bool:
    """Whether "all", "every" or their number stands before a name that several plants answer to."""
    last = before[-1]
    return last.meaning is Word.ALL or (isinstance(last.meaning, Count) and last.meaning.value == size)


_MARKS = frozenset({",", ".", "!", "?", "\n", ";"})
_SMALL, _BIG = listed("small little wee tiny mini baby smol"), listed("big large bigger larger tall")


def _mended(words: _Words, situation: Situation) -> _Words:
    """Put known words where a slip stands for one, and part joined names."""
    vocabulary, joined = _vocabulary(situation.plants, situation.places, situation.shelf)
    kept: list[str] = []
    for at, word in enumerate(words):
        alike = _alike_look(words, at, situation)
        if alike is not None:
            kept += alike
        elif word in joined:
            kept += joined[word]
        elif word == "/" and kept[-1:] == ["with"] and words[at + 1 : at + 2] == ("o",):
            kept[-1] = "without"
        elif word == "o" and words[at - 1] == "/" and kept[-1:] == ["without"]:
            continue
        elif (
            len(word) < _SHORTEST_SLIP
            or not word.isalpha()
            or word in vocabulary
            or word in _ALL_KNOWN
            or word in situation.kinds
            or (word in common_words() and word.removesuffix("s") not in _STEERING)
        ):
            kept.append(word)
        else:
            kept += _nearest(word, vocabulary, situation) or _parted(word, vocabulary) or (word,)
    return _spelt(tuple(kept), situation)


def _alike_look(words: _Words, at: int, situation: Situation) -> _Words | None:
    """Put "small" for "little" where a small one is known, and nothing for "big" beside the small one."""
    word, behind = words[at], words[at + 1 : at + 2]
    looks = _SMALL if word in _SMALL else _BIG if word in _BIG else None
    if looks is None or not behind:
        return None
    names = names_of(situation)
    own = names.exact_at((word, *behind), 0)
    if own is not None and own[1] > 1:
        return None
    for look in looks:
        found = names.exact_at((look, *behind), 0)
        if found is not None and found[1] == _PAIR and isinstance(found[0], Plants):
            return (look,)
    return None


def _parted(word: str, vocabulary: frozenset[str]) -> _Words | None:
    """Part a word that is two written as one: "alldone", "onzz"."""
    for at in range(2, len(word) - 1):
        left, right = word[:at], word[at:]
        if (left in _LITTLE or (len(left) > _PAIR and (left in vocabulary or left in _STEERING))) and (
            right in vocabulary or (len(right) > _PAIR and right in _STEERING | {"done"})
        ):
            return (left, right)
    return None


_LITTLE = listed("on in at the my all on of is no")


def _spelt(words: _Words, situation: Situation) -> _Words:
    """Join letters said one by one where they make a name: "a v 12"."""
    names = names_of(situation)
    if not names.are_numbered or not any(len(word) == 1 and word.isalpha() for word in words):
        return words
    kept: list[str] = []
    at = 0
    while at < len(words):
        pair = "".join(words[at : at + 2])
        if (
            len(words[at]) == 1
            and len(pair) == _PAIR
            and pair.isalpha()
            and names.base_at((pair,), 0) is not None
        ):
            kept.append(pair)
            at += 2
        else:
            kept.append(words[at])
            at += 1
    return tuple(kept)


@lru_cache(maxsize=256)
def _vocabulary(
    plants: tuple[KnownPlant, ...], places: tuple[KnownPlace, ...], shelf: tuple[KnownProduct, ...]
) -> tuple[frozenset[str], dict[str, _Words]]:
    split = [words_of(plain(name)) for plant in plants for name in plant.names]
    split += [words_of(plain(place.name)) for place in places]
    split += [words_of(plain(name)) for product in shelf for name in product.names]
    words = {word for name in split for word in name if len(word) > 1 and word.isalpha()}
    joined = {"".join(name): name for name in split if len(name) > 1 and all(one.isalpha() for one in name)}
    joined |= {f"{one}s": (*name[:-1], f"{name[-1]}s") for one, name in joined.items()}
    return frozenset(words), joined


_STEERING = frozenset(
    {
        *(
            f"{word}"
            for phrase, value in {**PHRASES, **FREE}.items()
            if isinstance(value, Method | Tool)
            for word in phrase
        ),
        *DAYS_OF_THE_WEEK,
        *(month for month in MONTHS if len(month) > _SHORT),
        *listed(
            "yesterday tomorrow tonight today treated checked except everything nothing isolated aphids"
            " thrips mealybugs whitefly whiteflies mites spider scale gnats fungus"
        ),
    }
)
_STEERING_LONG = frozenset(word for word in _STEERING if len(word) > _SHORTEST_SLIP)
_ALL_KNOWN = KNOWN | frozenset(word for phrase in FREE for word in phrase) | _STEERING
_ALL_KNOWN |= {"month", *(f"{day}s" for day in DAYS_OF_THE_WEEK)}  # "on mondays" is no slip of a day


@lru_cache(maxsize=4096)
def slip_of(word: str, known: frozenset[str], *, is_own: bool = False) -> str | None:
    """Give the known word that a word is most likely a slip of, or short for."""
    allowed = min(3 if is_own else 2, max(1, (len(word) - 1) // 3 if is_own else (len(word) >= _LONG) + 1))
    if len(word) < _SHORTEST_OWN:
        allowed = 1
    near, shortened, heard = [], [], _sounds(word)
    for one in known:
        if len(one) < _SHORTEST_SLIP or one[0] != word[0]:
            continue
        if heard == _sounds(one):
            shortened.append((len(one), one))
        elif abs(len(one) - len(word)) <= allowed:
            near.append((slips_between(word, one, allowed), one))
    if shortened:
        return max(shortened)[1]
    best = min(near, default=(9, ""))
    return best[1] if best[0] <= allowed else None


def _sounds(word: str) -> tuple[str, str]:
    """Give a word's bones and its end as they are heard: "sope" is soap."""
    heard = word.removesuffix("e") if len(word) == _SHORTEST_SLIP else word
    return heard[-1], _bones(heard)


@lru_cache(maxsize=4096)
def _bones(word: str) -> str:
    """Give a word as it is shortened: "spryd"."""
    return word[0] + "".join(letter for letter in word[1:] if letter not in "aeiou")


def _nearest(word: str, vocabulary: frozenset[str], situation: Situation) -> _Words | None:
    if word.endswith("s") and word[:-1] in vocabulary:
        return None
    if word in _of_catalogue(situation.pests, situation.ingredients):
        return None  # "green peach aphids" beside a peace lily
    own = slip_of(word, vocabulary, is_own=True)
    if own is not None:
        return (own,)
    steering = slip_of(word, _STEERING_LONG)
    return None if steering is None else (steering,)


@lru_cache(maxsize=8)
def _of_catalogue(pests: _Listed, ingredients: _Listed) -> frozenset[str]:
    return frozenset(
        word for _, spellings in (*pests, *ingredients) for one in spellings for word in words_of(plain(one))
    ) | frozenset(f"{word}s" for _, spellings in pests for one in spellings for word in words_of(plain(one)))
