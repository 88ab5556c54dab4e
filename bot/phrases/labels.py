"""What a label says beyond its rate, which animals live here, and what a plant is."""

from decimal import Decimal

from bot.actions.commands import ReadTemperature, SetAnimals, SetTraits, StockProduct
from bot.actions.situation import Situation
from bot.phrases.asking import Meant
from bot.phrases.days import MONTHS
from bot.phrases.items import items_of
from bot.phrases.names import Place, Plants, Product, ingredient_of
from bot.phrases.numbers import Warmth, number_at
from bot.phrases.words import Word, listed

_ANIMALS = {
    **dict.fromkeys(("cat", "cats", "kitten", "kittens"), "cat"),
    **dict.fromkeys(("fish", "aquarium", "aquariums", "fishes", "goldfish", "fish tank"), "fish"),
    **dict.fromkeys(("dog", "dogs", "puppy"), "dog"),
    **dict.fromkeys(("bird", "birds", "parrot", "budgie", "budgies"), "bird"),
}
_AROUND_ANIMALS = listed(
    "i we have got there is are a an the two three one some and , . ! in house home at here also pet pets our"
    " my live keep it living room too well as"
)
_TELLS = (("i", "have"), ("we", "have"), ("there", "is"), ("there", "are"), ("we", "keep"), ("i", "keep"))
_TRAITS = {"edible": "edible", "eaten": "edible", "hairy": "hairy", "waxy": "waxy"}
_NEGATIVE = {"edible": "not-edible", "hairy": "not-hairy", "waxy": "not-waxy"}
_SEASONS = {
    "winter": (12, 1, 2),
    "spring": (3, 4, 5),
    "summer": (6, 7, 8),
    "autumn": (9, 10, 11),
    "fall": (9, 10, 11),
}
_AROUND_A_LABEL = listed(
    "the label says say of my our is it s for on and , . ! : a at most max maximum no more than only up to"
    " use uses times year per season days day before harvest eating wait food plants plant edible"
    " edibles indoor indoors outdoor outdoors house houseplants houseplant not allowed ok safe labelled"
    " labeled every product an in"
)


_OF_A_LABEL = listed(
    "every year season harvest eating edible edibles food indoor indoors outdoor outdoors houseplants"
    " houseplant"
)


def read_animals(words: tuple[str, ...]) -> Meant | None:
    """Read "we have a cat", "there is an aquarium", "no cats here"."""
    told = {animal for word, animal in _ANIMALS.items() if word in words}
    rest = frozenset(words) - frozenset(_ANIMALS)
    is_denied = "no" in words and bool(told or "pets" in words)
    if is_denied and rest <= _AROUND_ANIMALS | {"no"}:
        return (SetAnimals((), gone=tuple(sorted(told)) or tuple(sorted(set(_ANIMALS.values())))),)
    is_told = any(words[: len(opening)] == opening for opening in _TELLS)
    return (SetAnimals(tuple(sorted(told))),) if told and is_told and rest <= _AROUND_ANIMALS else None


def read_traits(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "the chilli is not edible", "the fern is hairy"."""
    traits = [_TRAITS[word] for word in words if word in _TRAITS]
    if len(traits) != 1 or "label" in words:
        return None
    items = items_of(tuple(word for word in words if word not in _TRAITS), situation)
    plants = [item.meaning for item in items if isinstance(item.meaning, Plants)]
    is_only_that = all(
        isinstance(item.meaning, Plants) or item.meaning in {Word.FILLER, Word.NOT, Word.BREAK, Word.IT_IS}
        for item in items
    )
    if len(plants) != 1 or not is_only_that:
        return None
    is_denied = any(item.meaning is Word.NOT for item in items)
    return (SetTraits(plants[0].ids, _NEGATIVE[traits[0]] if is_denied else traits[0]),)


def read_months(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "landing is 15 degrees in winter", "the kitchen has 17 degrees in january"."""
    if "in" not in words[:-1]:
        return None
    months = _SEASONS.get(words[-1]) or ((MONTHS[words[-1]],) if words[-1] in MONTHS else None)
    if months is None or words[-2] != "in":
        return None
    items = [item.meaning for item in items_of(words[:-2], situation)]
    places = [meaning for meaning in items if isinstance(meaning, Place)]
    warmths = [meaning for meaning in items if isinstance(meaning, Warmth)]
    rest = [meaning for meaning in items if not isinstance(meaning, Place | Warmth)]
    is_only_that = all(meaning in {Word.FILLER, Word.HAD, Word.IT_IS} for meaning in rest)
    if len(places) != 1 or len(warmths) != 1 or not is_only_that:
        return None
    return (ReadTemperature(places[0].id, float(warmths[0].celsius), months=months),)


def read_label_rule(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "the neem label says max 6 a year", "soap: 3 days before harvest", "oil is not for indoors"."""
    if not _OF_A_LABEL & frozenset(words):
        return None
    product, rest = _product(words, situation)
    if product is None or not all(word in _AROUND_A_LABEL or word.isdigit() for word in rest):
        return None
    said = frozenset(rest)
    told = StockProduct(
        ingredient=product,
        gap_days=_gap(rest),
        uses_a_year=_uses(rest) if said & {"year", "season"} else None,
        harvest_days=_days(rest) if said & {"harvest", "eating"} else None,
        is_for_indoors=_indoors(said),
        is_for_edibles="not" not in said if said & {"edible", "edibles", "food"} else None,
    )
    numbers = [one for one in (told.gap_days, told.uses_a_year, told.harvest_days) if one is not None]
    is_whole = len(numbers) == sum(word.isdigit() for word in rest)  # nothing told may be lost
    return (told,) if is_whole and told != StockProduct(ingredient=product) else None


def _indoors(said: frozenset[str]) -> bool | None:
    if said & {"outdoor", "outdoors"} and "only" in said:
        return False
    return "not" not in said if said & {"indoor", "indoors", "houseplants", "houseplant"} else None


def _product(words: tuple[str, ...], situation: Situation) -> tuple[str | None, tuple[str, ...]]:
    """Find the one product spoken of and the other words."""
    items = items_of(words, situation)
    products = [item for item in items if isinstance(item.meaning, Product)]
    if len(products) != 1:
        return None, ()
    meaning = products[0].meaning
    assert isinstance(meaning, Product)
    spoken = products[0].text.split()
    rest = tuple(word for word in words if word not in spoken)
    return ingredient_of(meaning, situation), rest


def _gap(words: tuple[str, ...]) -> int | None:
    """Read "every 14 days"."""
    for at, word in enumerate(words[:-2]):
        if word == "every" and words[at + 1].isdigit() and words[at + 2] in {"day", "days"}:
            return int(words[at + 1])
    return None


def _uses(words: tuple[str, ...]) -> int | None:
    return _number_before(words, {"uses", "times", "a", "per", "use"})


def _days(words: tuple[str, ...]) -> int | None:
    for at, word in enumerate(words):
        if word == "before" and words[at - 1] in {"day", "days"} and words[at - 2].isdigit():
            return int(words[at - 2])
    return _number_before(words, {"days", "day"}) if "every" not in words else None


def _number_before(words: tuple[str, ...], units: set[str]) -> int | None:
    for at in range(len(words) - 1):
        found = number_at(words, at) if words[at] not in {"a", "an"} else None
        if found is not None and found[0] == int(found[0]) and 0 <= found[0] < Decimal(366):
            following = words[at + found[1] : at + found[1] + 1]
            if following and following[0] in units:
                return int(found[0])
    return None
