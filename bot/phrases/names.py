"""Which plant, place, product or pest a word stands for: exact, plural, prefix, or a small typo."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from rapidfuzz.distance import OSA

from bot.actions.situation import Situation
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.phrases.text import plain, words_of

_SHORTEST_PREFIX = 3
_SHORTEST_TYPO = 4
_TWO_TYPOS_FROM = 8


@dataclass(frozen=True, slots=True)
class Plants:
    """Plants named; `loose` when the name was only begun or misspelt."""

    ids: tuple[PlantId, ...]
    loose: bool = False


@dataclass(frozen=True, slots=True)
class OneOf:
    """A name that several plants answer to."""

    ids: tuple[PlantId, ...]
    text: str


@dataclass(frozen=True, slots=True)
class Place:
    """A place named."""

    id: PlaceId


@dataclass(frozen=True, slots=True)
class Product:
    """A product of the shelf, or an ingredient the shelf may not hold."""

    id: ProductId | None
    ingredient: str | None


@dataclass(frozen=True, slots=True)
class Pest:
    """A pest by its catalogue key."""

    key: str


Named = Plants | OneOf | Place | Product | Pest
_Words = tuple[str, ...]


class Names:
    """The names of one household, ready to be looked up word by word."""

    def __init__(self, situation: Situation) -> None:
        self._plants = [(plant.id, _split(name)) for plant in situation.plants for name in plant.names]
        self._places = [(place.id, _split(place.name)) for place in situation.places]
        self._exact: dict[_Words, Named] = {}
        self._add_products(situation)
        for key, spellings in situation.pests:
            for spelling in spellings:
                self._add_with_plural(_split(spelling), Pest(key))
        for place_id, words in self._places:
            self._exact[words] = Place(place_id)
        self._add_plants()
        self.longest = max((len(words) for words in self._exact), default=1)

    def exact_at(self, words: _Words, start: int) -> tuple[Named, int] | None:
        """Longest full name, or plural of one, that begins here."""
        for size in range(min(self.longest, len(words) - start), 0, -1):
            found = self._exact.get(words[start : start + size])
            if found is not None:
                return found, size
        return None

    def loose_at(self, words: _Words, start: int) -> tuple[Named, int] | None:
        """Find a name begun, in part or misspelt that begins here."""
        for size in range(min(self.longest, len(words) - start), 0, -1):
            window = words[start : start + size]
            found = self._loose(window)
            if found is not None:
                return found, size
        return None

    def _add_products(self, situation: Situation) -> None:
        for key, spellings in situation.ingredients:
            for spelling in spellings:
                self._exact[_split(spelling)] = Product(None, key)
        keys = {words: found.ingredient for words, found in self._exact.items() if isinstance(found, Product)}
        for product in situation.shelf:
            for name in product.names:
                words = _split(name)
                self._exact[words] = Product(product.id, keys.get(words))

    def _add_with_plural(self, words: _Words, found: Named) -> None:
        self._exact.setdefault(words, found)
        for plural in _plurals(words):
            self._exact.setdefault(plural, found)

    def _add_plants(self) -> None:
        singular = {words for _, words in self._plants}
        for words in singular:
            ids = _unique(plant for plant, name in self._plants if name == words)
            self._exact[words] = Plants(ids) if len(ids) == 1 else OneOf(ids, " ".join(words))
        for words in singular:
            for plural in _plurals(words):
                if plural not in singular:
                    self._exact[plural] = Plants(self._sharing_end(words))

    def _sharing_end(self, words: _Words) -> tuple[PlantId, ...]:
        return _unique(plant for plant, name in self._plants if name[-len(words) :] == words)

    def _loose(self, window: _Words) -> Named | None:
        found: tuple[PlantId, ...] = ()
        if len(window) == 1:
            found = self._holding(window[0]) or self._begun(window[0])
        found = found or self._misspelt(window)
        if found:
            return Plants(found, loose=True) if len(found) == 1 else OneOf(found, " ".join(window))
        place = [place for place, name in self._places if _is_close(window, name)]
        return Place(place[0]) if len(set(place)) == 1 else None

    def _holding(self, word: str) -> tuple[PlantId, ...]:
        if len(word) < _SHORTEST_PREFIX:
            return ()
        return _unique(plant for plant, name in self._plants if word in name)

    def _begun(self, word: str) -> tuple[PlantId, ...]:
        if len(word) < _SHORTEST_PREFIX:
            return ()
        return _unique(plant for plant, name in self._plants if any(part.startswith(word) for part in name))

    def _misspelt(self, window: _Words) -> tuple[PlantId, ...]:
        return _unique(plant for plant, name in self._plants if _is_close(window, name))


@lru_cache(maxsize=4096)
def _split(name: str) -> _Words:
    return tuple(word for word in words_of(plain(name)) if word != "-")


def _plurals(words: _Words) -> tuple[_Words, ...]:
    *first, last = words or ("",)
    endings = [last + "s", last + "es"] + ([last[:-1] + "ies"] if last.endswith("y") else [])
    return tuple((*first, ending) for ending in endings)


def _unique(items: Iterable[PlantId]) -> tuple[PlantId, ...]:
    return tuple(dict.fromkeys(items))


def _is_close(window: _Words, name: _Words) -> bool:
    return len(window) == len(name) and all(
        _is_typo(typed, meant) for typed, meant in zip(window, name, strict=True)
    )


def _is_typo(typed: str, meant: str) -> bool:
    if typed == meant or (len(typed) >= _SHORTEST_PREFIX and meant.startswith(typed)):
        return True
    if min(len(typed), len(meant)) < _SHORTEST_TYPO or typed[0] != meant[0]:
        return False
    allowed = 2 if len(meant) >= _TWO_TYPOS_FROM else 1
    return OSA.distance(typed, meant, score_cutoff=allowed) <= allowed
