"""Plants told of outside the setting-up: a list that nobody asked for, and news of one in passing."""

import re

from bot.actions.action import Command, Expecting
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.set_place import SetPlace
from bot.actions.situation import Situation
from bot.domain.value import Value, replace
from bot.phrases.homes import MOST_PLANTS, holds_a_kind, read_home
from bot.phrases.lexicon import listed, words_of_class
from bot.phrases.names import OneOf, Place, Plants, names_of
from bot.phrases.text import plain, tidy, words_of

_ASKED_TO_ADD = re.compile(
    r"^(?:please )?(?:register|adding|add|(?:a )?new (?:plants?|one)\b|(?:my )?plants\s*:)"
    r"(?!.*\bplace\b)(?: (?:a )?(?:new )?plants?)?(?: (?:called|named))?\s*[:,-]?\s*",
    re.IGNORECASE,
)
_POT = re.compile(r"\d{1,3}(?:[.,]\d)?\s?(?:cm|inch(?:es)?|in|\"|\u201d|'')", re.IGNORECASE)
_BRACKETS = re.compile(r"\s*\(([^()]{1,60})\)")
_LONGEST_TOLD = 4
_NO_NAME = words_of_class("lists", "no-name")
_BEARING = listed("is has have had got with")
_NEWS = words_of_class("lists", "news")


class Listed(Value):
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


def read_list(text: str, situation: Situation, *, is_expected: bool) -> Listed | None:
    """
    Read the plants a message lists, with their places and pots; None where it lists none.

    What could not be read is left out and said; a message of which less than half are plants is none.
    """
    if "?" in text:
        return None
    home = read_home(text, replace(situation, expecting=Expecting.PLANTS) if is_expected else situation)
    plants, left = home.plants, home.unread
    if not plants or len(plants) >= MOST_PLANTS or 2 * len(left) > len(plants) + 1:
        return None
    if not is_expected and not home.is_known:
        return None
    return Listed(plants, left, home.is_known, "\n".join(home.lines), home.places)


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
    if not explicit or 2 * len(explicit) <= len(lines) or situation.expecting is Expecting.PLANTS:
        return None  # a line or two may be unreadable; a message of which most is no list is none
    told = read_list("\n".join(explicit), situation, is_expected=True)
    others = tuple(line for line in lines if line not in explicit)
    return None if told is None else replace(told, left_out=(*told.left_out, *others))


def read_news(text: str, situation: Situation) -> Listed | None:
    """Read plants told of in passing, "we bought a calathea", where nothing else is understood."""
    words = words_of(plain(text))
    is_possible = "?" not in words and holds_a_kind(words, situation.kinds)
    told = read_list(text, situation, is_expected=False) if is_possible else None
    if told is None:
        return None
    is_news = bool(frozenset(words) & _NEWS) or any(one.place for one in told.plants)
    is_known = any(isinstance(one, Plants | OneOf) for one in _named(words, situation))
    is_told = is_news or len(told.plants) > 1 or bool(told.then and frozenset(words) & _BEARING)
    return told if is_told and (is_news or not is_known) else None


def _is_explicit(line: str, situation: Situation) -> bool:
    """Whether a line is a name, its place and pot, set apart by commas, and the place is known."""
    name, *more = _fields(line)
    known = {place.name.casefold() for place in situation.places}
    is_placed = any(one.casefold() in known or _POT.fullmatch(one) for one in more)
    words = words_of(plain(name))
    is_own = name.casefold() in {one.casefold() for plant in situation.plants for one in plant.names}
    is_other = not is_own and any(not isinstance(one, Place) for one in _named(words, situation))
    is_name = bool(words) and not frozenset(words) & _NO_NAME
    return bool(more) and len(more) < _LONGEST_TOLD and is_placed and is_name and not is_other


def _fields(line: str) -> list[str]:
    """Cut "- bay laurel (study), 12 cm" into its fields."""
    bare = _BRACKETS.sub(r", \1", line.strip(" -*\u2022"))
    return [part.strip(" .") for part in re.split(r"\s*[,;|]\s*|\s+-\s+", bare)]


def _named(words: tuple[str, ...], situation: Situation) -> list[object]:
    names = names_of(situation)
    return [one[0] for at in range(len(words)) if (one := names.exact_at(words, at)) is not None]
