"""Plants told of outside the setting-up: a list that nobody asked for, and news of one in passing."""

import re

from bot.actions.action import Command, Expecting
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.set_place import SetPlace
from bot.actions.situation import Situation
from bot.domain.trade import Method
from bot.domain.value import Value, replace
from bot.phrases.home_words import names_a_kind
from bot.phrases.homes import MOST_PLANTS, read_home
from bot.phrases.items import items_of
from bot.phrases.kept import kept
from bot.phrases.lexicon import listed, words_of_class
from bot.phrases.names import OneOf, Place, Plants, names_of
from bot.phrases.text import plain, tidy, words_of

_ASKED_TO_ADD = re.compile(
    r"^(?:please )?(?:register|adding|add|(?:a )?new (?:plants?|one)\b|(?:my )?plants\s*:)"
    r"(?!.*\bplace\b)(?: (?:a )?(?:new )?plants?)?(?: (?:called|named))?\s*[:,-]?\s*",
    re.IGNORECASE,
)
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
    words = sum(len(one) > 1 for one in left)  # a letter alone says nothing
    if not plants or len(plants) >= MOST_PLANTS or 2 * words > len(plants) + 1:
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
    if situation.expecting is Expecting.PLANTS or not _FIELD_MARKS & frozenset(text):
        return None
    words = words_of(plain(text))
    named = {*map(type, _named(words, situation))}
    if not named.isdisjoint(_OWN):
        return None
    if Place not in named and not _WIDTH.search(plain(text)):
        return None  # neither a place that is known nor a pot
    told = read_list(tidy(text), situation, is_expected=True)
    if told is None or told.then:
        return None
    known = {place.name.casefold() for place in situation.places}
    lines = [line.strip(" -*\u2022").casefold() for line in tidy(text).split("\n")]
    names = [line for line in lines if not _NO_NAME & frozenset(words_of(line.partition(",")[0]))]
    first = [one for one in told.plants if any(one.name.casefold() in line for line in names)]
    placed = [one for one in first if one.pot_cm is not None or (one.place or "").casefold() in known]
    if 2 * len(placed) <= len(lines) or len(first) < len(told.plants):
        return None
    others = [line for line in lines if not any(one.name.casefold() in line for one in placed)]
    return replace(told, plants=tuple(placed), left_out=tuple(others) or told.left_out)


_FIELD_MARKS = frozenset(",;|(-")
_WIDTH = re.compile(r"\d ?(?:cm|in|['\"])")
_OWN = frozenset({Plants, OneOf})
_NO_NAME = words_of_class("lists", "no-name")


def read_news(text: str, situation: Situation) -> Listed | None:
    """Read plants told of in passing, "we bought a calathea", where nothing else is understood."""
    words = words_of(plain(text))
    is_news = bool(frozenset(words) & _NEWS)
    named = {*map(type, _named(words, situation))}
    is_known = not named.isdisjoint(_OWN)
    is_possible = "?" not in words and (is_news or not is_known or Place in named)
    is_report = any(isinstance(one.meaning, Method) for one in items_of(words, situation))
    is_possible = is_possible and not is_report and kept(names_a_kind, words, situation)
    told = read_list(text, situation, is_expected=False) if is_possible else None
    if told is None:
        return None
    is_news = is_news or any(one.place for one in told.plants)
    is_told = is_news or len(told.plants) > 1 or bool(told.then and frozenset(words) & _BEARING)
    return told if is_told and (is_news or not is_known) else None


def _named(words: tuple[str, ...], situation: Situation) -> list[object]:
    names = names_of(situation)
    return [one[0] for at in range(len(words)) if (one := names.exact_at(words, at)) is not None]
