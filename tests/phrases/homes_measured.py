"""How much of what marked messages tell a reader of homes reads: each thing told is right, not read, or wrong."""

import re
from collections import Counter
from collections.abc import Callable

from bot.actions.action import Expecting
from bot.actions.situation import Situation
from bot.domain.value import replace
from bot.phrases.home_words import singular
from bot.phrases.homes import Home
from tests.phrases.marked import Marked
from tests.phrases.situation import EVENING

NEW = replace(
    EVENING, plants=(), places=(), shelf=(), tonight=(), expecting=Expecting.PLANTS, lacks_town=False
)
TOWNLESS = replace(NEW, expecting=Expecting.TOWN, lacks_town=True)
_LIGHT = {
    "north": "N",
    "south": "S",
    "east": "E",
    "west": "W",
    "north-east": "NE",
    "south-west": "SW",
    "south-east": "SE",
    "north-west": "NW",
    "no window at all (only a lamp)": "none",
    "morning sun outdoors": "morning",
    "afternoon sun outdoors": "afternoon",
    "full sun all day outdoors": "all-day",
    "shade outdoors": "shade",
    "does not know which way": "unknown",
}
KINDS = ("town", "plant", "side", "find", "shelf")
_Found = tuple[str, ...]


def situation_of(told: Marked) -> Situation:
    """Give a new home's situation; its town is asked where the message tells one."""
    return TOWNLESS if told.of("T") else NEW


def measured(told: Marked, home: Home) -> Counter[str]:
    """Count what is right, missing and wrong in one message, by kinds; "whole" where nothing is either."""
    counts: Counter[str] = Counter()
    for kind, matches in _MATCHES.items():
        right, missing, wrong = matches(told, home)
        counts.update({f"{kind} right": right, f"{kind} missing": missing, f"{kind} wrong": wrong})
    is_whole = not sum(counts[f"{kind} {how}"] for kind in KINDS for how in ("missing", "wrong"))
    counts["whole"] = int(is_whole)
    counts["whole and sure"] = int(is_whole and home.is_known and not home.unread)
    counts["sure though not whole"] = int(not is_whole and home.is_known and not home.unread)
    counts["messages"] = 1
    return counts


def _name(typed: str) -> str:
    return singular(" ".join(re.sub(r"['’]", "", typed.casefold()).replace("-", " ").split()))


def _is_place(typed: str, named: set[str]) -> bool:
    """Whether a place is named so, or by a longer or shorter span of the same words."""
    words = _name(typed).split()
    return any(
        words[-len(one) :] == one or one[-len(words) :] == words
        for one in (_name(each).split() for each in named)
    )


def _towns(told: Marked, home: Home) -> tuple[int, int, int]:
    meant = {one.casefold() for one in told.said("T", 0)}
    is_right = bool(home.town) and any(
        one.startswith(home.town.casefold()) or home.town.casefold().startswith(one) for one in meant
    )
    return int(is_right), int(bool(meant) and not is_right), int(bool(home.town) and not is_right)


def _plants(told: Marked, home: Home) -> tuple[int, int, int]:
    numbered = re.compile(r"(.*) \d+$")
    read: Counter[tuple[str, str]] = Counter()
    for one in home.plants:
        match = numbered.match(one.name)
        read[_name(match[1] if match else one.name), one.place or ""] += 1
    right = 0
    meant = sorted({one.number for one in told.of("P")})
    for number in meant:
        names = {_name(one) for one in told.said("P", number)}
        names |= {f"{one} {other}" for one in names for other in names}  # "fern Bertha"
        rooms = set(told.said("L", told.stands.get(number, 0)))
        count = told.counts[number] if told.of("N", number) else 1
        found = next(
            (
                one
                for one, times in read.items()
                if one[0] in names
                and times == count
                and (_is_place(one[1], rooms) if rooms and one[1] else not rooms and not one[1])
            ),
            None,
        )
        if found is not None:
            right += 1
            del read[found]
    return right, len(meant) - right, len(read)


def _sides(told: Marked, home: Home) -> tuple[int, int, int]:
    read = [one for one in home.places if one.facing or one.outdoors or one.lamp_until]
    right, meant = 0, sorted({one.number for one in told.of("S")})
    for number in meant:
        rooms, light = set(told.said("L", number)), _LIGHT[told.light[number]]
        found = [one for one in read if _is_place(one.name, rooms) or not rooms]
        looks = {look.value for one in found[:1] for look in (one.facing, one.outdoors) if look}
        if light in looks or (light == "none" and found and found[0].lamp_until):
            right += 1
            read.remove(found[0])
    return right, len(meant) - right, len(read)


def _finds(told: Marked, home: Home) -> tuple[int, int, int]:
    read = [one for one in home.lines if not one.startswith("got ")]
    read += [home.unplaced] if home.unplaced else []
    right, meant = 0, sorted({one.number for one in told.of("F")})
    for number in meant:
        seen = {word for one in told.said("F", number) for word in one.casefold().split() if len(word) > 3}
        names = {_name(one) for one in told.said("P", number)}
        found = next((one for one in read if seen & set(re.findall(r"[\w']+", one.casefold()))), None)
        plant = "" if found is None else _name(re.sub(r" \d+$", "", found.rpartition(" on ")[2]))
        if found is not None and (any(one in plant or plant in one for one in names) or not names):
            right += 1
            read.remove(found)
    return right, len(meant) - right, len(read)


def _shelf(told: Marked, home: Home) -> tuple[int, int, int]:
    read = [one.removeprefix("got ").casefold() for one in home.lines if one.startswith("got ")]
    said = [one.casefold() for one in told.said("B", 0)]
    empty = [one for one in said if one.startswith(("no", "not"))]
    right, meant = 0, [one for one in said if one not in empty]
    for one in meant:
        found = next((each for each in read if one in each or each in one), None)
        if found is not None:
            right += 1
            read.remove(found)
    right += int(bool(empty) and home.has_nothing)
    return right, len(meant) + bool(empty) - right, len(read)


_MATCHES: dict[str, Callable[[Marked, Home], tuple[int, int, int]]] = {
    "town": _towns,
    "plant": _plants,
    "side": _sides,
    "find": _finds,
    "shelf": _shelf,
}
