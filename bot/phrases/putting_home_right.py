"""What was said back of a home and is put right by the next message: the rest of it is kept."""

import re

from bot.actions.action import ButtonText
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.log_find import LogFind
from bot.actions.rename import Rename
from bot.actions.set_place import SetPlace
from bot.actions.set_town import SetTown
from bot.actions.situation import Situation
from bot.actions.stock_product import StockProduct
from bot.domain.value import replace
from bot.phrases.home_words import PREPOSITIONS, ROOMS
from bot.phrases.homes import Home
from bot.phrases.saying import say_all

_ON = " on "
_REFUSING = (
    r"\b(?:no(?!,| the\b| my\b)|not|without|isn'?t|forget|drop|scrap|remove|delete|skip)\b"
    r"[^.!?\n]{{0,20}}\b{0}s?\b"
    r"|\b{0}\b is an? (?:place|room)\b"
    r"|\b{0}s?\b[^.!?\n,]{{0,12}}\b(?:is no|is not|isn'?t|does not|doesn'?t)\b"
)
"""How a plant that was offered is said not to be one."""


def put_right(told: Home, text: str, situation: Situation) -> Home:
    """Give what a message tells of a home, with all that was offered before and that it leaves standing."""
    offered = _offered(situation)
    named = () if offered is None else tuple(one.name for one in offered.plants)
    said = {one: re.search(_REFUSING.format(re.escape(one)), text, re.IGNORECASE) for one in named}
    refused = {one: match[0].lower() for one, match in said.items() if match is not None}
    if offered is not None and (renamed := _renamed(offered, told, text)) is not None:
        return renamed
    if refused:
        matched = "no " + " ".join(refused.values())
        unread = tuple(one for one in told.unread if one.lower() not in matched)
        told = replace(told, denied=(*told.denied, *refused), corrects=True, unread=unread)
    if offered is None or not _concerns(told, offered) or _covers(told, offered):
        return told
    denied = {one.casefold() for one in told.denied}
    plants = [
        one
        for one in offered.plants
        if one.name.casefold() not in denied and not _is_beyond(one.name, told, text)
    ]
    for one in told.plants:
        at = next((n for n, each in enumerate(plants) if _is_same(each.name, one.name)), len(plants))
        before = plants[at : at + 1]
        is_short = bool(before) and one.name.casefold() not in situation.kinds  # "Otto" of "yucca Otto"
        name = before[0].name if is_short else one.name
        plants[at : at + 1] = [replace(one, name=name, place=one.place or before[0].place) if before else one]
    names = {one.name.casefold() for one in told.places} | denied
    places = [one for one in offered.places if one.name.casefold() not in names]
    return replace(
        told,
        town=told.town or offered.town,
        plants=tuple(plants),
        places=(*places, *told.places),
        lines=_lines(told, offered),
        unplaced=told.unplaced or offered.unplaced,
        has_kinds=told.has_kinds or bool(offered.plants),
        is_known=False,
    )


_NAME = r"(?P<name>(?!called|named)[^\W\d_][\w' -]{{1,40}}?)"
_WRONG = r"(?:not|no) (?:just )?(?:a |an |the |any )?['\"“]?{0}\b['\"”]?"
_BUT = r"(?:but |only |just |there is |the |it |place |plant |name |room |is |it'?s |called )*"
_RENAMING = tuple(
    one.replace("NAME", _NAME).replace("WRONG", _WRONG)
    for one in (
        r"\b(?:is|are|it'?s|called|named) (?:an? |the |called |named )*NAME[,;.]? (?:and )?WRONG",
        r"(?:^|[.!?,\n] ?)(?:the |an? )?NAME(?: (?:it|that|this) is \w*)?(?:, \w+)?[,;] (?:and )?WRONG",
        rf"WRONG[,.;/ ]+{_BUT}NAME(?=[,.;!\n]|$)",
        r"\brename {0}(?: to| as| into|:) NAME(?=[,.;!\n]|$)",
        r"\b{0} is (?:called|named) (?:an? |the )?NAME(?=[,.;!\n]|$)",
    )
)
"""How an offered place is said to be another: "cold frame it is called, not frame"."""


_NAMED = re.compile(
    r"\b(?:it'?s|it is|this is|called|named|(?:place|room|name)(?: is|'?s)) "
    r"(?:called |named |the |an? |really )*" + _NAME.format() + r"(?: (?:please|pls))?(?=[,.;!\n]|$)",
    re.IGNORECASE,
)
_LONGEST_ROOM = 4


def renamed_place(text: str, situation: Situation) -> tuple[Rename, str] | None:
    """Read what a place is really called, "not hall, back hall", and give the rest of the message."""
    known = {one.name.casefold(): one for one in situation.places}
    bare = text.replace("*", "")
    said = bare.lower()
    found = [
        (one, match)
        for one in known.values()
        if one.name.lower() in said
        for pattern in _RENAMING
        if (match := re.search(pattern.format(re.escape(one.name)), bare, re.IGNORECASE))
    ]
    for match in _NAMED.finditer(bare):
        last = match["name"].casefold().rpartition(" ")[2]
        alike = [one for name, one in known.items() if name.rpartition(" ")[2] == last]
        found += [(alike[0], match)] if len(alike) == 1 else []
    for one, match in found:
        name = re.sub(r"\s+(?:please|pls)$", "", match["name"].strip())
        words = name.casefold().split()
        is_room = words[-1] in ROOMS or words[-1] == one.name.casefold().split()[-1]
        is_room = is_room and not PREPOSITIONS & frozenset(words)
        if is_room and len(words) <= _LONGEST_ROOM and name.casefold() not in known:
            rest = re.split(r"(?<=[.!?\n])\s*", bare)
            left = [each for each in rest if each and match[0].strip(" .!?,\n") not in each]
            return Rename(name, place=one.id), " ".join(left)
    return None


def _renamed(offered: Home, told: Home, text: str) -> Home | None:
    """Give what was offered with the one name that is put right; None where none is."""
    found = (
        (one, match["name"].strip())
        for one in dict.fromkeys(
            [one.name for one in offered.places] + [one.place or "" for one in offered.plants]
        )
        for pattern in _RENAMING
        if one and (match := re.search(pattern.format(re.escape(one)), text, re.IGNORECASE))
    )
    old, new = next(found, ("", ""))
    is_moved = any(f" {one} " in f" {new.casefold()} " for one in ("in", "on", "at"))
    if not old or is_moved or old.casefold() == new.casefold():
        return None
    looks = replace(told.places[0], name=new) if len(told.places) == 1 else None
    return replace(
        offered,
        plants=tuple(
            replace(
                one, name=new if one.name == old else one.name, place=new if one.place == old else one.place
            )
            for one in offered.plants
        ),
        places=tuple((looks or replace(one, name=new)) if one.name == old else one for one in offered.places),
        lines=tuple(re.sub(rf"{_ON}{re.escape(old)}$", f"{_ON}{new}", one) for one in offered.lines),
        has_kinds=True,
        corrects=True,
        is_known=False,
    )


def _lines(told: Home, offered: Home) -> tuple[str, ...]:
    """Keep what was seen, on the plant that was meant, unless it is told anew."""
    denied = {one.casefold() for one in told.denied}
    new = [one for one in told.lines if _ON in one]
    kept: list[str] = []
    for line in offered.lines:
        seen, on, plant = line.rpartition(_ON)
        if on and new:
            continue
        if on and plant.casefold() in denied:
            meant = [one.name for one in told.plants] or [one.name for one in offered.plants]
            meant = [one for one in meant if one.casefold() not in denied]
            kept += [f"{seen}{_ON}{meant[0]}"] if len(meant) == 1 else []
        else:
            kept.append(line)
    return tuple(dict.fromkeys((*kept, *told.lines)))


def _offered(situation: Situation) -> Home | None:
    """Give the home that an open offer says back."""
    first = situation.choices[0] if situation.choices else None
    if first is None or first.text is not ButtonText.YES:
        return None
    town = ""
    plants: tuple[NewPlant, ...] = ()
    places: list[SetPlace] = []
    lines: list[str] = []
    for one in first.commands:
        match one:
            case SetTown(text=town):
                pass
            case AddPlants(plants=plants, then=then):
                lines += then.split("\n") if then else []
            case SetPlace():
                places.append(one)
            case LogFind() | StockProduct():
                lines += say_all((one,), situation) or ()
            case _:
                return None
    is_of_a_home = bool(town or plants or places)
    return Home(town=town, plants=plants, places=tuple(places), lines=tuple(lines)) if is_of_a_home else None


def _concerns(told: Home, offered: Home) -> bool:
    """Whether it says something of what was offered: denies it, puts it right, or tells it again."""
    plants = any(_is_same(each.name, one.name) for each in offered.plants for one in told.plants)
    places = {one.name.casefold() for one in offered.places} & {one.name.casefold() for one in told.places}
    return told.corrects or bool(told.denied) or plants or bool(places)


def _covers(told: Home, offered: Home) -> bool:
    """Whether all of it is told anew."""
    said = {one.casefold() for one in (*_names(told), *told.denied)}
    has_rest = (told.town or not offered.town) and (told.lines or not offered.lines)
    return bool(has_rest) and all(one.casefold() in said for one in _names(offered))


def _names(home: Home) -> list[str]:
    return [*(one.name for one in home.plants), *(one.name for one in home.places)]


def _is_beyond(name: str, told: Home, text: str) -> bool:
    """Whether a numbered plant is one more than there are said to be: "two ferns, not three"."""
    base, _, number = name.casefold().rpartition(" ")
    told_so = [one.name.casefold().rpartition(" ") for one in told.plants]
    counted = [int(last) for first, _, last in told_so if first == base and last.isdigit()]
    is_put_right = told.corrects and re.search(r"\bnot\b|\bmeant\b", text)
    return bool(is_put_right and counted and number.isdigit() and int(number) > max(counted))


def _is_same(before: str, now: str) -> bool:
    """Whether a plant is named again, "verandah cyclamen" as "cyclamen" too."""
    return before.casefold() == now.casefold() or before.casefold().endswith(f" {now.casefold()}")
