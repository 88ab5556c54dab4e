"""Plans that are refused: bleach on a plant, twice the dose, two products in one tank."""

from bot.actions.refuse_plan import ConsiderPlan
from bot.actions.situation import Situation
from bot.domain.caution import Danger
from bot.phrases.asking import Meant
from bot.phrases.items import items_of
from bot.phrases.lexicon import listed, worded
from bot.phrases.names import OneOf, Pest, Plants, Product

_Words = tuple[str, ...]
_BLEACHES = listed("bleach clorox domestos javel")
_DOSES = listed("dose doses amount rate strength concentration strong much")
_STRONGER = worded(
    "twice the | twice as | double the | double dose | double strength | triple the | triple dose"
    " | stronger than | more than the label | extra strong | make it stronger | higher dose"
    " | bigger dose"
)
_FIRST = frozenset(phrase[0] for phrase in _STRONGER)
_ALWAYS_STRONGER = frozenset({"stronger", "more", "extra", "make"})
_KITCHEN = listed(
    "vinegar garlic tobacco nicotine petrol gasoline kerosene ammonia windex listerine mouthwash"
)
_PUTTING = listed("spray spraying use using put putting pour pouring wipe wiping soak water dip bleach")
_ON_A_PLANT = listed(
    "plant plants leaf leaves root roots soil stem stems bugs bug pest pests mites gnats mealybugs thrips"
    " scale aphids them flowers houseplant houseplants"
)
_ELSEWHERE = listed(
    "pot pots saucer scissors tools tool knife shelf windowsill pruners secateurs blades table"
)
_BARE = 5
"""So few words name no other thing that it is put on: "can i put bleach". Judgement."""
_TOLD = listed("sprayed used did drenched poured wiped dipped soaked")
"""What is done is written down, not refused."""
_INDOORS = listed("inside indoors indoor house home room kitchen bedroom plant plants houseplant houseplants")
_TOGETHER = listed("mix mixing combine together")


_SHOPS = listed("centre center centres centers shop store")


def read_danger(words: _Words, situation: Situation) -> Meant | None:
    """Read a dangerous plan, told or asked about; None where nothing is dangerous."""
    danger = _danger(words, frozenset(words), situation)
    return None if danger is None else (ConsiderPlan(danger),)


def _danger(words: _Words, said: frozenset[str], situation: Situation) -> Danger | None:
    if said & _TOLD and "if" not in said:
        return None
    if _is_stronger(words):
        return Danger.DOUBLE_DOSE
    is_of_the_garden = "garden" in said and not said & _SHOPS  # "from the garden centre"
    if ("outdoor" in said or is_of_the_garden) and said & {"spray", "product", "insecticide", "pesticide"}:
        return Danger.OUTDOOR_PRODUCT if said & _INDOORS and said & _PUTTING else None
    if said & (_BLEACHES | _KITCHEN) and said & _PUTTING and not said & _ELSEWHERE:
        is_bleach = bool(said & _BLEACHES)
        danger = Danger.BLEACH_ON_PLANTS if is_bleach else Danger.KITCHEN_SPRAY
        return danger if _is_on_a_plant(words, situation) or len(words) <= _BARE else None
    return Danger.TWO_PRODUCTS if said & _TOGETHER and _are_two_products(words, situation) else None


def _is_stronger(words: _Words) -> bool:
    if not _FIRST & frozenset(words):
        return False
    spoken = next(
        (
            phrase
            for phrase in _STRONGER
            for at in range(len(words))
            if words[at : at + len(phrase)] == phrase
        ),
        None,
    )
    return spoken is not None and (spoken[0] in _ALWAYS_STRONGER or bool(frozenset(words) & _DOSES))


def _are_two_products(words: _Words, situation: Situation) -> bool:
    """Whether two kinds are named; neem is held together by a little soap."""
    named = {item.meaning for item in items_of(words, situation) if isinstance(item.meaning, Product)}
    return len(named) > 1 and not {"neem", "soap"} <= frozenset(words)


def _is_on_a_plant(words: _Words, situation: Situation) -> bool:
    return bool(frozenset(words) & _ON_A_PLANT) or any(
        isinstance(item.meaning, Plants | OneOf | Pest) for item in items_of(words, situation)
    )
