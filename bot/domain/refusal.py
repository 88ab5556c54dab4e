"""
What forbids a product on a plant today, as the label of its kind usually has it; a told label overrides.

Too soon after the last use is not here: the gap is planned around it. A use against a rule can be written
down, it is never suggested.
"""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from enum import Enum

from bot.domain.campaign import Effect
from bot.domain.climate import place_on, reach_on, span_on, usual_on, warm_side
from bot.domain.development import FAST_DEFAULT, development_days, held
from bot.domain.household import Household, Plant, Product
from bot.domain.identity import ProductId
from bot.domain.knowledge import Knowledge
from bot.domain.pest import Pest
from bot.domain.product import ProductKind
from bot.domain.value import Value

YEAR_DAYS = 365
CAUTION_FROM_C = 27.0
"""From here on heat is worth a word, though not forbidden. [degC]"""
UNSEEN_USES = 3
"""The same soap or oil so many times in a row, and then a look for damage. Labels; from memory. [1]"""
ANIMALS_AT_RISK = frozenset({"cat", "fish"})


class Refusal(Enum):
    USED_UP = "used-up"
    WRONG_PEST = "wrong-pest"
    NOT_INDOORS = "not-indoors"
    NOT_EDIBLE = "not-edible"
    EATING_UNTOLD = "eating-untold"
    USES_SPENT = "uses-spent"
    SENSITIVE = "sensitive"
    TOO_HOT = "too-hot"
    TOO_COLD = "too-cold"
    NEAR_ANOTHER = "near-another"
    ANIMALS = "animals"
    BEES = "bees"
    SAME_GROUP = "same-group"
    MAKES_WORSE = "makes-worse"
    UNSEEN_DAMAGE = "unseen-damage"


class Use(Value):
    """A product put on a plant on a day, against a pest or, without one, whatever for."""

    household: Household
    knowledge: Knowledge
    plant: Plant
    product: Product
    today: date
    pest: Pest | None = None

    @property
    def kind(self) -> ProductKind | None:
        return self.knowledge.products.get(self.product.ingredient)


def refusals(use: Use) -> tuple[Refusal, ...]:
    """Give every rule that forbids a product on a plant today; none means it may be suggested."""
    kind, plant, product = use.kind, use.plant, use.product
    if kind is None:
        return (Refusal.WRONG_PEST,)
    place = use.household.places.get(plant.place) if plant.place is not None else None
    is_outdoors = place is not None and place.outdoors is not None
    told = product.label.is_for_indoors
    is_eaten = is_edible(use.knowledge, plant)
    span = span_on(use.household, plant, use.today)
    checks = (
        (Refusal.USED_UP, product.stock_ml == 0),
        (Refusal.WRONG_PEST, use.pest is not None and not does_good(use.pest, kind)),
        (Refusal.MAKES_WORSE, use.pest is not None and makes_worse(use.pest, kind)),
        (Refusal.NOT_INDOORS, not is_outdoors and not (kind.is_for_indoors if told is None else told)),
        (Refusal.NOT_EDIBLE, is_eaten and harvest_days(kind, product) is None),
        (Refusal.EATING_UNTOLD, is_eaten and is_eating_untold(kind, product)),
        (Refusal.USES_SPENT, _is_spent(use, kind)),
        (Refusal.SENSITIVE, is_sensitive(use.knowledge, plant, kind)),
        (Refusal.TOO_HOT, span is not None and span[1] > kind.hottest),
        (Refusal.TOO_COLD, span is not None and span[0] < kind.coldest),
        (Refusal.NEAR_ANOTHER, _is_near_another(use, kind)),
        (Refusal.ANIMALS, kind.harms_cats_and_fish and bool(ANIMALS_AT_RISK & use.household.animals)),
        (Refusal.BEES, kind.harms_bees and is_outdoors),
        (Refusal.SAME_GROUP, _is_next_generation(use, kind)),
        (Refusal.UNSEEN_DAMAGE, is_damage_unseen(use)),
    )
    return tuple(refusal for refusal, holds in checks if holds)


def does_good(pest: Pest, kind: ProductKind) -> bool:
    """Whether an ingredient does anything to a pest, be it harm to us: that is another refusal."""
    known = pest.effects.get(kind.key)
    return known is not None and any(one is not Effect.NONE for one in known.on.values())


def makes_worse(pest: Pest, kind: ProductKind) -> bool:
    """Whether an ingredient brings more of a pest."""
    known = pest.effects.get(kind.key)
    return known is not None and Effect.WORSE in known.on.values()


def is_damage_unseen(use: Use) -> bool:
    """Whether the same soap or oil met it three times and nobody looked since: labels, from memory."""
    kind = use.kind
    if kind is None or not kind.needs_shade:
        return False
    sprays = sorted(
        (one.on, one.product)
        for one in use.plant.treatments
        if one.product is not None and one.on < use.today
    )[-UNSEEN_USES:]
    if len(sprays) < UNSEEN_USES or any(product != use.product.id for _, product in sprays):
        return False
    return not any(look > sprays[0][0] for look in use.plant.looked_on)


def harvest_days(kind: ProductKind, product: Product) -> int | None:
    """Days before what was treated may be eaten: as told, else as usual; None is never. [d]."""
    if product.label.is_for_edibles is False:
        return None
    return kind.harvest_days if product.label.harvest_days is None else product.label.harvest_days


def is_eating_untold(kind: ProductKind, product: Product) -> bool:
    """Whether a label may allow what is eaten, as its kind usually does, and nobody read it yet."""
    is_allowed = harvest_days(kind, product) is not None
    return is_allowed and not kind.is_alive and not product.label.says_of_eating


def eat_from(knowledge: Knowledge, plant: Plant, product: Product, used_on: date) -> date | None:
    """Give the first day an edible plant may be eaten from after a use; None where it is none, or never."""
    kind = knowledge.products.get(product.ingredient)
    days = None if kind is None else harvest_days(kind, product)
    if days is None or not is_edible(knowledge, plant):
        return None
    return used_on + timedelta(days=days)


class Wait(Value):
    """The use that decides from when a plant may be eaten; free_on is None where it never may again."""

    product: ProductId
    used_on: date
    free_on: date | None


def wait_before_eating(household: Household, knowledge: Knowledge, plant: Plant) -> Wait | None:
    """Give the use an edible plant waits for: one after which nothing is eaten, else the latest day."""
    uses = [
        Wait(one.product, one.on, eat_from(knowledge, plant, household.products[one.product], one.on))
        for one in plant.treatments
        if one.product in household.products
    ]
    if not is_edible(knowledge, plant):
        return None
    return longest_wait(uses)


def longest_wait(uses: Iterable[Wait]) -> Wait | None:
    """Give the use that counts: one after which nothing is eaten, else the one of the latest day."""
    return max(uses, key=lambda use: (use.free_on is None, use.free_on or use.used_on), default=None)


BURNT_BY = "burnt-by-"
"""Begins the trait of a plant that was told to be burnt by a product, whose key follows."""


def is_sensitive(knowledge: Knowledge, plant: Plant, kind: ProductKind) -> bool:
    """Whether a source says that the plant's kind is hurt by the product, or it was told of the plant."""
    known = knowledge.kind_of(plant)
    return (known is not None and kind.key in known.sensitive) or BURNT_BY + kind.key in plant.traits


def is_edible(knowledge: Knowledge, plant: Plant) -> bool:
    """Whether anything of it is eaten: as told, else by its kind."""
    if "edible" in plant.traits:
        return True
    if "not-edible" in plant.traits:
        return False
    known = knowledge.kind_of(plant)
    return known is not None and known.is_edible


def is_warm(household: Household, plant: Plant, today: date) -> bool:
    """Whether heat there is worth a word before oil or soap, though not forbidden."""
    span = span_on(household, plant, today)
    return span is not None and span[1] >= CAUTION_FROM_C


def _is_spent(use: Use, kind: ProductKind) -> bool:
    """Whether a year around this day, before or after, holds all uses that the label allows."""
    told = use.product.label.uses_a_year
    most = kind.uses_a_year if told is None else told
    if most is None:
        return False
    uses = {one.on for one in use.plant.treatments if one.product == use.product.id}
    year = timedelta(days=YEAR_DAYS)
    return any(
        sum(first <= on < first + year for on in uses) >= most
        for first in uses | {use.today}
        if first <= use.today < first + year
    )


def is_off_today(use: Use) -> bool:
    """
    Whether only what was read today keeps a product off: the next evening will do.

    Where yesterday was too hot or cold too, or it usually is, another product or handwork takes its place.
    """
    kind, place = use.kind, place_on(use.household, use.plant, use.today)
    if kind is None or place is None or _is_borne(kind, reach_on(place, use.today)):
        return False
    usual = usual_on(place, use.today)
    yesterday = reach_on(place, use.today - timedelta(days=1))
    return _is_borne(kind, None if usual is None else (usual, usual)) and _is_borne(kind, yesterday)


def _is_borne(kind: ProductKind, span: tuple[float, float] | None) -> bool:
    return span is None or (kind.coldest <= span[0] and span[1] <= kind.hottest)


def _is_near_another(use: Use, kind: ProductKind) -> bool:
    apart = dict(kind.not_within_days_of)
    for one in use.plant.treatments:
        other = None if one.product is None else use.household.products.get(one.product)
        if other is not None and 0 <= (use.today - one.on).days < apart.get(other.ingredient, 0):
            return True
    return False


def _is_next_generation(use: Use, kind: ProductKind) -> bool:
    """
    Whether the same mode of action met the pest's last generation already.

    Uses within one generation are fine; the next one gets another number (wsu_rotation).
    """
    pest = use.pest
    if kind.group is None or pest is None:
        return False
    uses = _uses_of_group(use, kind.group)
    if not uses:
        return False
    days = generation_days(pest, warm_side(use.household, use.plant, use.today))
    return (use.today - min(uses)).days >= days and (use.today - max(uses)).days < 2 * days


def generation_days(pest: Pest, celsius: float | None) -> float:
    """Give how long egg and young take at a temperature, the fast side; unknown counts as 24. [d]."""
    warm = held(pest, FAST_DEFAULT if celsius is None else celsius)
    return sum(development_days(stage, warm) for stage in (pest.egg_lo, *pest.instars))


def _uses_of_group(use: Use, group: str) -> Sequence[date]:
    """Give the days of the last uninterrupted run of one mode of action on a plant."""
    run: list[date] = []
    for one in sorted(use.plant.treatments, key=lambda treatment: treatment.on, reverse=True):
        product = None if one.product is None else use.household.products.get(one.product)
        kind = None if product is None else use.knowledge.products.get(product.ingredient)
        if kind is None or kind.group is None or one.on >= use.today:
            continue  # what has no number neither goes on with a mode of action nor breaks with it
        if kind.group != group:
            break
        run.append(one.on)
    return run
