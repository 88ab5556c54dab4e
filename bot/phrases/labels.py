"""Which animals live here, what a plant is, and what is usual in some months."""

import re

from bot.actions.read_temperature import ReadTemperature
from bot.actions.set_animals import SetAnimals
from bot.actions.set_traits import LAST_USED, SetTraits
from bot.actions.situation import Situation
from bot.domain.refusal import BURNT_BY
from bot.phrases.asking import Meant
from bot.phrases.days import MONTHS
from bot.phrases.items import items_of
from bot.phrases.lexicon import Word, listed
from bot.phrases.names import Place, Plants, Product, ingredient_of
from bot.phrases.numbers import Warmth
from bot.phrases.setting import unique

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
_CANNOT = frozenset({"cannot", "can't", "cant", "can’t"})
_UNBORNE = {
    **dict.fromkeys(("wash", "washed", "rinse", "rinsed", "wet"), "cannot-wash"),
    **dict.fromkeys(("wipe", "wiped", "touched"), "cannot-wipe"),
    **dict.fromkeys(("lift", "lifted", "unpot", "unpotted", "repotted"), "cannot-lift"),
}
_KEPT_IN_ITS_POT = re.compile(
    r"\b(?:(?:stays?|remains?) in (?:it is|its|the) pot|no (?:clean ?-? ?out|unpotting|repotting)"
    r"|(?:will not|is not to|must not) be (?:unpotted|repotted|lifted))\b"
)
_BESIDE_A_PLANT = (
    _CANNOT
    | frozenset(_UNBORNE)
    | listed("can not i we be it the out of pot its to get is too big heavy for on , . ! full stop ever")
)
USUALLY = listed("usually normally typically generally")
ALL_YEAR = tuple(range(1, 13))
_SEASONS = {
    "winter": (12, 1, 2),
    "spring": (3, 4, 5),
    "summer": (6, 7, 8),
    "autumn": (9, 10, 11),
    "fall": (9, 10, 11),
}


def animals_named(words: frozenset[str]) -> tuple[str, ...]:
    """Give the kinds of animals named."""
    return tuple(sorted({animal for word, animal in _ANIMALS.items() if word in words}))


def traits_named(words: frozenset[str]) -> tuple[str, ...]:
    """Give the traits named."""
    return tuple(sorted({_TRAITS[word] for word in words if word in _TRAITS}))


def read_animals(words: tuple[str, ...]) -> Meant | None:
    """Read "we have a cat", "there is an aquarium", "no cats here"."""
    told, rest = animals_named(frozenset(words)), frozenset(words) - frozenset(_ANIMALS)
    if "no" in words and (told or "pets" in words) and rest <= _AROUND_ANIMALS | {"no"}:
        return (SetAnimals((), gone=told or animals_named(frozenset(_ANIMALS))),)
    is_told = any(words[: len(opening)] == opening for opening in _TELLS)
    return (SetAnimals(told),) if told and is_told and rest <= _AROUND_ANIMALS else None


def is_said_burnt(words: tuple[str, ...]) -> bool:
    """Whether it is said as the bot says it back, which is written at once."""
    return " is burnt by " in " ".join(words)


def read_burnt(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "the oil burnt the fern", "brown tips on the fern since i sprayed it": named, or used last."""
    said = set(words)
    if not (_BURNT & said or (_SPOILT & said and _FROM_IT & said)) or {"?", "not", "no"} & said:
        return None
    bare = tuple(word for word in words if word not in _AROUND_BURNT)
    told = [item.meaning for item in items_of(bare, situation)]
    plants = unique(plant for one in told if isinstance(one, Plants) for plant in one.ids)
    products = [one for one in told if isinstance(one, Product)]
    is_of_a_spray = bool(products or _SPRAYED & said)
    is_more = len(products) > 1 or not all(isinstance(one, Plants | Product) for one in told)
    by = ingredient_of(products[0], situation) if products else LAST_USED
    return (SetTraits(plants, BURNT_BY + by),) if plants and by and is_of_a_spray and not is_more else None


_BURNT = listed("burnt burned burns scorched singed scalded damaged hurt harmed bleached crispy crisped")
_SPOILT = listed("brown browned yellow yellowed yellowing spots blotches")
_FROM_IT = listed("since after from")
_SPRAYED = listed("spray sprayed spraying treatment treated")
_AROUND_BURNT = (_BURNT | _SPOILT | _FROM_IT | _SPRAYED) | listed(
    "the a my our has have had is was were got gets went by with of on in all some bit its it leaf leaves"
    " tips tip and edges edge marks patches oops badly that this last i we what think looks look , . !"
)


def read_traits(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "the chilli is not edible", "the fern is hairy", "the ivy cannot be washed"."""
    said = _KEPT_IN_ITS_POT.sub("cannot unpot", " ".join(words)).split()
    unborne = {_UNBORNE[word] for word in said if word in _UNBORNE}
    if len(unborne) == 1 and (_CANNOT & set(said) or {"can", "not"} <= set(said)):
        bare = tuple(word for word in said if word not in _BESIDE_A_PLANT)
        named = [item.meaning for item in items_of(bare, situation)]
        if len(named) == 1 and isinstance(named[0], Plants):
            return (SetTraits(named[0].ids, unborne.pop()),)
    traits = [_TRAITS[word] for word in words if word in _TRAITS]
    if len(traits) != 1 or "label" in words:
        return None
    told = [item.meaning for item in items_of(tuple(one for one in words if one not in _TRAITS), situation)]
    plants = [one for one in told if isinstance(one, Plants)]
    beside = [one for one in told if not isinstance(one, Plants)]
    if len(plants) != 1 or not all(one in {Word.FILLER, Word.NOT, Word.BREAK, Word.IT_IS} for one in beside):
        return None
    return (SetTraits(plants[0].ids, f"not-{traits[0]}" if Word.NOT in beside else traits[0]),)


def read_months(words: tuple[str, ...], situation: Situation) -> Meant | None:
    """Read "landing is 15 degrees in winter", "the kitchen has 17 degrees in january", "it is usually 19"."""
    said = tuple(word for word in words if word not in USUALLY)
    months = ALL_YEAR if len(said) < len(words) else None
    if said[-2:-1] == ("in",) and (said[-1] in _SEASONS or said[-1] in MONTHS):
        months = _SEASONS.get(said[-1]) or (MONTHS[said[-1]],)
        said = said[:-2]
    if months is None:
        return None
    items = [item.meaning for item in items_of(said, situation)]
    places = [meaning for meaning in items if isinstance(meaning, Place)]
    warmths = [meaning for meaning in items if isinstance(meaning, Warmth)]
    rest = [meaning for meaning in items if not isinstance(meaning, Place | Warmth)]
    is_more = any(meaning not in {Word.FILLER, Word.HAD, Word.IT_IS} for meaning in rest)
    if len(places) != 1 or len(warmths) != 1 or is_more:
        return None
    return (ReadTemperature(places[0].id, float(warmths[0].celsius), months=months),)
