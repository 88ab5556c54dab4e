"""Whether plants are poisonous: "is the ivy toxic to cats", "which plants are safe for dogs"."""

from bot.actions.situation import Situation
from bot.actions.tell_poison import AskPoison
from bot.catalogue.load import load
from bot.domain.identity import PlantId
from bot.domain.poison import Eater
from bot.phrases.asking import Meant
from bot.phrases.items import LOOKS_ALONE, Item, items_of
from bot.phrases.lexicon import Tool, each_of, listed
from bot.phrases.names import OneOf, Pest, Plants, Product

_Words = tuple[str, ...]
_POISONOUS = listed("poisonous toxic venomous")
_UNSAFE = listed("dangerous harmful harm hurt hurts safe bad okay ok kill kills away")
_BITING = listed("eat eats eating nibble nibbles chew chews bite bites lick licks")
_EATERS: dict[str, tuple[Eater, ...]] = each_of(
    ("cat | cats | kitten | kittens | kitty", (Eater.CATS,)),
    ("dog | dogs | puppy | puppies", (Eater.DOGS,)),
    ("pet | pets | animal | animals", (Eater.CATS, Eater.DOGS)),
    ("people | humans | human | us | child | children | kid | kids | toddler | toddlers", (Eater.PEOPLE,)),
    ("baby | babies", (Eater.PEOPLE,)),
)
_OTHERS = {
    **{one: one for one in listed("rabbits birds parrots budgies hamsters tortoises horses fish lizards")},
    "rabbit": "rabbits",
    "bunny": "rabbits",
    "bird": "birds",
    "parrot": "parrots",
    "budgie": "budgies",
    "hamster": "hamsters",
    "tortoise": "tortoises",
    "horse": "horses",
    "lizard": "lizards",
    "gecko": "geckos",
}
"""Animals that no list was read for."""
_OF_PRODUCTS = listed(
    "spray sprays sprayed spraying product products shelf stuff fumes bottle label mist soap oil bleach"
    " vinegar perlite mix mixture pesticide insecticide treatment treated"
)
_OPENERS = listed("is are can could may will would which does do what should")
_ALL = listed("plant plants houseplant houseplants")
_AROUND = listed(
    "is are was a an the my our your any of to for which what who if does do can could may might will would"
    " should i we it they he she there have has got that this these those all them around near with when keep"
    " kept not and or be tell me about some one ones home here at in house know please thing things leaf"
    " leaves kind kinds from really very actually still how too ? , . !"
)
_MOST_WORDS = 3
"""No kind's name asked for is longer; more words are another sentence. Judgement. [1]"""


def read_poison(words: _Words, situation: Situation) -> Meant | None:
    """Read which plants are poisonous to whom; a product that is asked about is not meant here."""
    said = frozenset(words)
    eaters = tuple(dict.fromkeys(eater for word in words for eater in _EATERS.get(word, ())))
    others = tuple(dict.fromkeys(_OTHERS[word] for word in words if word in _OTHERS))
    is_question = "?" in words or words[0] in _OPENERS
    is_for_some = bool(eaters or others) and bool(said & (_UNSAFE | _BITING)) and is_question
    if not (said & _POISONOUS or is_for_some) or said & _OF_PRODUCTS:
        return None
    kinds, rest = _kinds_in(words)
    items = items_of(rest, situation) if rest else ()
    if any(isinstance(item.meaning, Product | Pest | Tool) for item in items):
        return None
    plants = _plants_of(items) or _plants_called(kinds, situation)
    unknown = _unknown_in(items) if said & _POISONOUS and not plants and not kinds else ()
    if not plants and not kinds and not unknown and not said & _ALL:
        return None
    return (AskPoison(plants=plants, names=kinds or unknown, eaters=eaters, others=others),)


def _kinds_in(words: _Words) -> tuple[tuple[str, ...], _Words]:
    """Give the kinds of plant that are named, the longest names first, and the other words."""
    kinds: list[str] = []
    rest = words
    for size in range(min(len(words), _MOST_WORDS + 1), 0, -1):
        for at in range(len(rest) - size, -1, -1):
            name = " ".join(rest[at : at + size])
            if load().knowledge.is_kind(name):
                kinds.append(name)
                rest = rest[:at] + rest[at + size :]
    return tuple(kinds), rest


def _plants_of(items: tuple[Item, ...]) -> tuple[PlantId, ...]:
    ids = (one for item in items if isinstance(item.meaning, Plants | OneOf) for one in item.meaning.ids)
    return tuple(dict.fromkeys(ids))


def _plants_called(kinds: tuple[str, ...], situation: Situation) -> tuple[PlantId, ...]:
    """Give the plants at home that bear just such a name: a peace lily is no lily."""
    found = (item for kind in kinds for item in items_of(tuple(kind.split()), situation))
    return _plants_of(
        tuple(item for item in found if isinstance(item.meaning, Plants) and not item.meaning.loose)
    )


def _unknown_in(items: tuple[Item, ...]) -> tuple[str, ...]:
    """Give the one name that is left when all other words are known; it may be a plant nobody has listed."""
    known = _AROUND | LOOKS_ALONE | _ALL | _POISONOUS | _UNSAFE | _BITING | _EATERS.keys() | _OTHERS.keys()
    names = [item.text for item in items if not frozenset(item.text.split()) <= known]
    return (" ".join(names),) if 0 < len(names) <= _MOST_WORDS else ()
