"""Which plant, place, product or pest a word stands for: exact, plural, prefix, or a small typo."""

import threading
from collections import Counter, defaultdict
from collections.abc import Iterable
from functools import lru_cache

from bot.actions.situation import KnownPlace, KnownPlant, KnownProduct, Situation
from bot.catalogue.load import load
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.value import Value
from bot.phrases.lexicon import KNOWN, common_words
from bot.phrases.numbers import number_at
from bot.phrases.slips import slips_between
from bot.phrases.text import plain, words_of

_SHORTEST_PREFIX = 3
_SHORTEST_TYPO = 4
_TWO_TYPOS_FROM = 8
_MOST_DIGITS = 4
_TO = frozenset({"-", "to", "thru", "through", "till", "til", "until", ".."})
_AND = frozenset({",", "and", "&", "+", "/"})
_ONE = frozenset({"a", "an", "one", "half", "couple"})
"""Words that may count, and number no plant."""
_ALSO_CALLED = {("spirit",): ("surgical", "spirit")}
_OTHER_SPIRITS = frozenset({"white", "mineral", "motor", "methylated", "team", "free", "good", "true"})
"""“White spirit” is no alcohol for plants."""
_OF_A_COUNT = frozenset({(word,) for word in ("on", "more", "left", "bugs", "of", "each")})
"""Words that a number stands before where it counts."""


class Plants(Value):
    """Plants named; `loose` when the name stands there in part, `slip` when it was only begun or misspelt."""

    ids: tuple[PlantId, ...]
    loose: bool = False
    slip: bool = False


class OneOf(Value):
    """A name that several plants answer to."""

    ids: tuple[PlantId, ...]
    text: str


class Place(Value):
    """A place named."""

    id: PlaceId


class Product(Value):
    """A product of the shelf, or an ingredient the shelf may not hold."""

    id: ProductId | None
    ingredient: str | None


class Pest(Value):
    """A pest by its catalogue key."""

    key: str


Named = Plants | OneOf | Place | Product | Pest
_Words = tuple[str, ...]
_Listed = tuple[tuple[str, tuple[str, ...]], ...]


class Names:
    """The names of one household, ready to be looked up word by word."""

    def __init__(
        self,
        plants: tuple[KnownPlant, ...],
        places: tuple[KnownPlace, ...],
        shelf: tuple[KnownProduct, ...],
        pests: _Listed,
        ingredients: _Listed,
    ) -> None:
        named = [(plant.id, _split(name)) for plant in plants for name in plant.names]
        self._plants = [(plant, words) for plant, words in named if words]
        self._places = [(place.id, _split(place.name)) for place in places]
        catalogue, longest, begins = _of_the_catalogue(pests, ingredients)
        self._exact = dict(catalogue)
        self._by_word: dict[str, list[PlantId]] = defaultdict(list)
        self._by_initial: dict[str, list[tuple[PlantId, str]]] = defaultdict(list)
        self._alike: dict[tuple[int, str], list[tuple[PlantId, _Words]]] = defaultdict(list)
        kept = [(one.id, tuple(map(_split, one.names))) for one in shelf]
        for own_id, names in kept:
            bare = names[0][-1:]  # "the oil" is the one oil at hand
            is_one = sum(bare == others[0][-1:] for _, others in kept) == 1 and min(map(len, names)) > 1
            known = catalogue.get(names[0])
            product = Product(own_id, known.ingredient if isinstance(known, Product) else None)
            also = {bare} & catalogue.keys() if is_one else ()
            self._exact |= dict.fromkeys((*names, *also), product)
        for place_id, words in self._places:
            self._exact[words] = Place(place_id)
        self._numbered: dict[_Words, dict[int, PlantId]] = defaultdict(dict)
        self._numbered_plurals: dict[_Words, _Words] = {}
        self._numbers: dict[PlantId, tuple[_Words, int]] = {}
        self._add_plants()
        self._add_numbered()
        self._index()
        self._begin_several = {words[0] for _, words in self._plants if len(words) > 1}
        own = [(words, found) for words, found in self._exact.items() if catalogue.get(words) is not found]
        self.longest = max([longest, *(len(words) for words, _ in own)])
        self.begin_plants = frozenset(
            words[0] for words, found in own if words and isinstance(found, Plants | OneOf)
        )
        """First words of whatever names plants."""
        self.are_numbered = bool(self._numbered)
        self.begin = begins.union(words[0] for words, _ in own if words)
        """First words of whatever has a name."""
        self._numbers_begin = frozenset(words[0] for words in (*self._numbered, *self._numbered_plurals))

    def exact_at(self, words: _Words, start: int) -> tuple[Named, int] | None:
        """Longest full name, or plural of one, that begins here."""
        if start >= len(words) or words[start] not in self.begin:
            return None
        if words[start] == "spirit" and start and words[start - 1] in _OTHER_SPIRITS:
            return None
        for size in range(min(self.longest, len(words) - start), 0, -1):
            found = self._exact.get(words[start : start + size])
            if found is not None:
                return found, size
        return None

    def is_begun_by(self, word: str) -> bool:
        """Whether plants' names of several words begin with it: "spider", which is a word of a pest too."""
        return word in self._begin_several

    def loose_at(self, words: _Words, start: int) -> tuple[Named, int] | None:
        """Find a name begun, in part or misspelt that begins here; its first letter is never mistyped."""
        for size in self._sizes.get(words[start][0], ()):
            found = self._loose(words[start : start + size]) if size <= len(words) - start else None
            if found is not None:
                return found, size
        return None

    def _add_plants(self) -> None:
        ends: dict[_Words, list[PlantId]] = defaultdict(list)
        whole: dict[_Words, list[PlantId]] = defaultdict(list)
        for plant, words in self._plants:
            whole[words].append(plant)
            for start in range(len(words)):
                ends[words[start:]].append(plant)
        for words, sharing in ends.items():
            if words not in whole and words[-1] in KNOWN:
                continue  # "coffee plant" does not make "plants" its plural
            for plural in _plurals(words):
                self._exact[plural] = Plants(_unique(sharing))
        for words, plants in whole.items():
            ids = _unique(plants)
            self._exact[words] = Plants(ids) if len(ids) == 1 else OneOf(ids, " ".join(words))

    def _add_numbered(self) -> None:
        """Let "hoyas" mean hoya 1, hoya 2 and the others, and "hoya" one of them."""
        for plant, words in self._plants:
            if len(words) > 1 and words[-1].isdigit():
                self._numbered[words[:-1]][int(words[-1])] = plant
                self._numbers.setdefault(plant, (words[:-1], int(words[-1])))
        for base, numbers in self._numbered.items():
            ids = tuple(numbers[number] for number in sorted(numbers))
            for plural in _plurals(base):
                self._exact[plural] = Plants(ids)
                self._numbered_plurals[plural] = base
            if len(ids) > 1:
                self._exact.setdefault(base, OneOf(ids, " ".join(base)))
        self._add_kinds()
        self._add_initials()

    def _add_kinds(self) -> None:
        """Let "hoya carnosa" mean the carnosa, and "hoyas", "violets", "cacti" all that are of that kind."""
        knowledge = load().knowledge
        groups: dict[str, list[tuple[PlantId, _Words]]] = defaultdict(list)
        for plant, words in self._plants:
            kind = knowledge.kind_named(" ".join(words))
            if kind is None:
                continue
            if kind.name.isalpha() and kind.name not in words:
                self._exact.setdefault((kind.name, *words), Plants((plant,)))
            for name in {one.split()[-1].lower() for one in (kind.name, *kind.words)} - KNOWN:
                groups[name].append((plant, words))
        own = {words for _, words in self._plants}
        for name, plants in groups.items():
            ids = _unique(plant for plant, _ in plants)
            apart = [words for _, words in plants if name not in words]
            is_sure = all(" ".join((name, *words)) in knowledge.kind_by_word for words in apart)
            for plural in {*_plurals((name,))} - own if len(ids) > 1 else ():
                before = self._exact.get(plural, OneOf((), name))
                if isinstance(before, Plants | OneOf) and {*before.ids} < {*ids}:
                    self._exact[plural] = Plants(ids, slip=not is_sure)

    def _add_initials(self) -> None:
        """Let "H3" mean hoya 3 where no other name with numbers begins with that letter."""
        bases = [base for base, numbers in self._numbered.items() if len(numbers) > 1]
        initials = Counter(base[0][0] for base in bases)
        for base in bases:
            initial = (base[0][0],)
            if initials[initial[0]] > 1 or initial in self._numbered:
                continue
            for number, plant in self._numbered[base].items():
                self._exact.setdefault((*initial, str(number)), Plants((plant,)))

    def base_at(self, words: _Words, start: int) -> tuple[_Words, int] | None:
        """Find the name that numbers belong to: "av", "hoyas"."""
        if start >= len(words) or words[start] not in self._numbers_begin:
            return None
        for size in range(min(self.longest, len(words) - start), 0, -1):
            run = words[start : start + size]
            if run in self._numbered or run in self._numbered_plurals:
                return self._numbered_plurals.get(run, run), size
        return None

    def number_of(self, plant: PlantId) -> tuple[_Words, int] | None:
        """Give the name and number of a plant that has one."""
        return self._numbers.get(plant)

    def numbered(self, base: _Words, number: int) -> PlantId | None:
        """Give the plant of a name and number."""
        return self._numbered[base].get(number) if base in self._numbered else None

    def numbered_alike(self, numbers: Iterable[int]) -> list[tuple[PlantId, ...]]:
        """Give, for each name that has plants of all these numbers, those plants."""
        told = list(numbers)
        return [
            tuple(known[one] for one in told) for known in self._numbered.values() if known.keys() >= {*told}
        ]

    def range_at(self, words: _Words, start: int) -> tuple[Plants, int] | None:
        """Read "av 1-6", "av 5 thru 8", "hoyas 1, 3 and 4", "av 1 to av 6": two numbers at least."""
        found = self.base_at(words, start)
        if found is None:
            return None
        base, size = found
        at = start + size
        at += words[at : at + 1] in {("number",), ("numbers",), ("no",), ("nos",), ("#",), (":",)}
        ids, end = self._numbers_from(base, words, at)
        return (Plants(_unique(ids)), end - start) if len(ids) > 1 else None

    def _numbers_from(self, base: _Words, words: _Words, at: int) -> tuple[list[PlantId], int]:
        ids: list[PlantId] = []
        last, joint, end = 0, "", at
        is_listed = False
        while (found := self._numbered_at(base, words, at)) is not None:
            plant, number, size = found
            behind = at + size
            is_listed = is_listed or (bool(ids) and self._is_listed(base, words, behind))
            if ids and not (joint or words[at].startswith("-") or (is_listed and number > last)):
                break  # "hoya 4 3" tells of three on it
            if ids and (words[behind : behind + 1] in _OF_A_COUNT or self._is_pest_at(words, behind)):
                break  # "6 on hoya 4, 3 on hoya 7", "hoya 4 and 3 mites"
            is_range = joint in _TO or (words[at].startswith("-") and bool(ids))
            between = range(last + 1, number) if is_range and ids else ()
            ids += [one for n in between if (one := self.numbered(base, n)) is not None]
            ids.append(plant)
            last, end = number, behind
            joint = words[behind] if words[behind : behind + 1] and words[behind] in _TO | _AND else ""
            at = behind + bool(joint)
            again = self.base_at(words, at) if joint else None
            at += again[1] if again is not None and again[0] == base else 0
        return ids, end

    def _numbered_at(self, base: _Words, words: _Words, at: int) -> tuple[PlantId, int, int] | None:
        """Read a number of one of a name's plants, in digits or words, and how many words it took."""
        word = words[at].removeprefix("-") if at < len(words) else ""
        told = number_at((word, *words[at + 1 : at + 2]), 0) if word and word not in _ONE else None
        if told is None or told[0] != int(told[0]) or (len(word) >= _MOST_DIGITS and word.isdecimal()):
            return None
        plant = self.numbered(base, int(told[0]))
        return None if plant is None else (plant, int(told[0]), told[1])

    def _is_listed(self, base: _Words, words: _Words, at: int) -> bool:
        """Whether more numbers of the same name stand there: "2 4 5", "4 and 9"."""
        behind = at + (words[at : at + 1] in {("and",), ("&",)})
        found = self._numbered_at(base, words, behind)
        return found is not None and not self._is_pest_at(words, behind + found[2])

    def _is_pest_at(self, words: _Words, at: int) -> bool:
        found = self.exact_at(words, at)
        return found is not None and isinstance(found[0], Pest)

    def _index(self) -> None:
        for plant, words in self._plants:
            self._alike[len(words), words[0][0]].append((plant, words))
            for word in words:
                self._by_word[word].append(plant)
                self._by_initial[word[0]].append((plant, word))
        sizes = {initial: {1} for initial in self._by_initial}
        for _, words in (*self._plants, *self._places):
            sizes.setdefault(words[0][0] if words else "", set()).add(len(words))
        self._sizes = {initial: sorted(found, reverse=True) for initial, found in sizes.items()}

    def _loose(self, window: _Words) -> Named | None:
        found: tuple[PlantId, ...] = ()
        is_part = False
        if len(window) == 1 and len(window[0]) >= _SHORTEST_PREFIX:
            found = _unique(self._by_word.get(window[0], ()))
            is_part = bool(found)
            found = found or (() if window[0] in common_words() else self._begun(window[0]))
        found = found or self._misspelt(window)
        if found:
            return (
                Plants(found, loose=True, slip=not is_part)
                if len(found) == 1
                else OneOf(found, " ".join(window))
            )
        places = {place for place, name in self._places if _is_close(window, name)}
        return Place(places.pop()) if len(places) == 1 else None

    def _begun(self, word: str) -> tuple[PlantId, ...]:
        alike = self._by_initial.get(word[0], ())
        return _unique(plant for plant, part in alike if part.startswith(word))

    def _misspelt(self, window: _Words) -> tuple[PlantId, ...]:
        # A typo never changes the first letter, so only names that share it are compared.
        alike = self._alike.get((len(window), window[0][0]), ())
        return _unique(plant for plant, name in alike if _is_close(window, name))


@lru_cache(maxsize=4)
def _of_the_catalogue(
    pests: _Listed, ingredients: _Listed
) -> tuple[dict[_Words, Named], int, frozenset[str]]:
    """Give the names every home knows, the words of the longest, and the first words of all."""
    exact: dict[_Words, Named] = {
        _split(name): Product(None, key) for key, names in ingredients for name in names
    }
    exact |= {also: exact[name] for also, name in _ALSO_CALLED.items() if name in exact}
    for words, pest in [(_split(name), Pest(key)) for key, names in pests for name in names]:
        for name in (words, *_plurals(words)):
            exact.setdefault(name, pest)
    return exact, max(map(len, exact), default=1), frozenset(words[0] for words in exact if words)


_ready = lru_cache(maxsize=256)(Names)


class _Last(threading.local):
    """The names made ready last in this thread, and for which situation."""

    made: tuple[Situation, Names] | None = None


_LAST = _Last()


def names_of(situation: Situation) -> Names:
    """Make the names of a household ready, or take them from the messages before."""
    last = _LAST.made
    if (
        last is not None
        and last[0].plants is situation.plants
        and last[0].places is situation.places
        and last[0].shelf is situation.shelf
        and last[0].pests is situation.pests
        and last[0].ingredients is situation.ingredients
    ):
        return last[1]  # to look a home up by all its names takes longer than to read a word
    names = _ready(
        situation.plants, situation.places, situation.shelf, situation.pests, situation.ingredients
    )
    _LAST.made = (situation, names)
    return names


def ingredient_of(product: Product, situation: Situation) -> str | None:
    """Give the catalogue key of a product named: its own, or that of the shelf's entry it stands for."""
    if product.ingredient is not None:
        return product.ingredient
    names = {name.lower() for known in situation.shelf if known.id == product.id for name in known.names}
    for key, spellings in situation.ingredients:
        if names & {key, *(spelling.lower() for spelling in spellings)}:
            return key
    return None


@lru_cache(maxsize=4096)
def _split(name: str) -> _Words:
    return tuple(word for word in words_of(plain(name)) if word != "-")


@lru_cache(maxsize=1024)
def _plurals(words: _Words) -> tuple[_Words, ...]:
    *first, last = words or ("",)
    endings = [last + "s", last + "es"] + ([last[:-1] + "ies"] if last.endswith("y") else [])
    endings += [last[:-2] + "i"] if last.endswith("us") else []
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
    return slips_between(typed, meant, allowed) <= allowed
