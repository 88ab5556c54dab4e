"""
What forbids a product on a plant today, as the label of its kind usually has it; a told label overrides.

Too soon after the last use is not here: the gap is planned around it. A use against a rule can be written
down, it is never suggested.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum

from bot.domain.climate import temperature_on
from bot.domain.development import development_days, held
from bot.domain.household import Household, Plant, Product
from bot.domain.identity import ProductId
from bot.domain.knowledge import Knowledge
from bot.domain.pest import Pest
from bot.domain.product import ProductKind

YEAR_DAYS = 365
CAUTION_FROM_C = 27.0
"""From here on heat is worth a word, though not forbidden. [degC]"""
ASSUMED_C = 24.0
"""Where nobody told how warm it is, a generation is taken as short as at this. [degC]"""
ANIMALS_AT_RISK = frozenset({"cat", "fish"})


class Refusal(Enum):
    """Why a product is not suggested."""

    USED_UP = "used-up"
    WRONG_PEST = "wrong-pest"
    NOT_INDOORS = "not-indoors"
    NOT_EDIBLE = "not-edible"
    USES_SPENT = "uses-spent"
    SENSITIVE = "sensitive"
    TOO_HOT = "too-hot"
    TOO_COLD = "too-cold"
    NEAR_ANOTHER = "near-another"
    ANIMALS = "animals"
    BEES = "bees"
    SAME_GROUP = "same-group"


def refusals(  # noqa: PLR0913, PLR0917 - one fact each
    household: Household, knowledge: Knowledge, plant: Plant, product: Product, pest: Pest | None, today: date
) -> tuple[Refusal, ...]:
    """Give every rule that forbids a product on a plant today; none means it may be suggested."""
    kind = knowledge.products.get(product.ingredient)
    if kind is None:
        return (Refusal.WRONG_PEST,)
    checks = (
        (Refusal.USED_UP, product.stock_ml == 0),
        (Refusal.WRONG_PEST, pest is not None and pest.key not in kind.reaches),
        (Refusal.NOT_INDOORS, not _is_outdoors(household, plant) and not _is_for_indoors(kind, product)),
        (Refusal.NOT_EDIBLE, is_edible(knowledge, plant) and harvest_days(kind, product) is None),
        (Refusal.USES_SPENT, _is_spent(kind, plant, product, today)),
        (Refusal.SENSITIVE, is_sensitive(knowledge, plant, kind)),
        (Refusal.TOO_HOT, _degrees(household, plant, today, kind.hottest) > kind.hottest),
        (Refusal.TOO_COLD, _degrees(household, plant, today, kind.coldest) < kind.coldest),
        (Refusal.NEAR_ANOTHER, _is_near_another(household, plant, kind, today)),
        (Refusal.ANIMALS, kind.harms_cats_and_fish and bool(ANIMALS_AT_RISK & household.animals)),
        (Refusal.BEES, kind.harms_bees and _is_outdoors(household, plant)),
        (Refusal.SAME_GROUP, _is_next_generation(household, knowledge, plant, kind, pest, today)),
    )
    return tuple(refusal for refusal, holds in checks if holds)


def harvest_days(kind: ProductKind, product: Product) -> int | None:
    """Days before what was treated may be eaten: as told, else as usual; None is never. [d]."""
    if product.harvest_days is not None:
        return product.harvest_days
    return None if product.is_for_edibles is False else kind.harvest_days


def eat_from(knowledge: Knowledge, plant: Plant, product: Product, used_on: date) -> date | None:
    """Give the first day an edible plant may be eaten from after a use; None where it is none, or never."""
    kind = knowledge.products.get(product.ingredient)
    days = None if kind is None else harvest_days(kind, product)
    if days is None or not is_edible(knowledge, plant):
        return None
    return used_on + timedelta(days=days)


@dataclass(frozen=True, slots=True)
class Wait:
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
    return max(uses, key=lambda use: (use.free_on is None, use.free_on or use.used_on), default=None)


def is_sensitive(knowledge: Knowledge, plant: Plant, kind: ProductKind) -> bool:
    """Whether a source says that the plant's kind is hurt by the product."""
    known = knowledge.kind_of(plant)
    return known is not None and kind.key in known.sensitive


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
    celsius = temperature_on(household, plant, today)
    return celsius is not None and celsius >= CAUTION_FROM_C


def _is_outdoors(household: Household, plant: Plant) -> bool:
    place = household.places.get(plant.place) if plant.place is not None else None
    return place is not None and place.outdoors is not None


def _is_for_indoors(kind: ProductKind, product: Product) -> bool:
    return kind.is_for_indoors if product.is_for_indoors is None else product.is_for_indoors


def _is_spent(kind: ProductKind, plant: Plant, product: Product, today: date) -> bool:
    most = kind.uses_a_year if product.uses_a_year is None else product.uses_a_year
    if most is None:
        return False
    since = today - timedelta(days=YEAR_DAYS)
    uses = {one.on for one in plant.treatments if one.product == product.id and since < one.on <= today}
    return len(uses) >= most


def _degrees(household: Household, plant: Plant, today: date, otherwise: float) -> float:
    celsius = temperature_on(household, plant, today)
    return otherwise if celsius is None else celsius


def _is_near_another(household: Household, plant: Plant, kind: ProductKind, today: date) -> bool:
    apart = dict(kind.not_within_days_of)
    for one in plant.treatments:
        other = None if one.product is None else household.products.get(one.product)
        if other is not None and 0 <= (today - one.on).days < apart.get(other.ingredient, 0):
            return True
    return False


def _is_next_generation(  # noqa: PLR0913, PLR0917 - one fact each, named at the only call
    household: Household,
    knowledge: Knowledge,
    plant: Plant,
    kind: ProductKind,
    pest: Pest | None,
    today: date,
) -> bool:
    """
    Whether the same mode of action met the pest's last generation already.

    Uses within one generation are fine; the next one gets another number (wsu_rotation). A generation is
    egg and young at the place's temperature, the fast side.
    """
    if kind.group is None or pest is None:
        return False
    uses = _uses_of_group(household, knowledge, plant, kind.group, today)
    if not uses:
        return False
    celsius = _degrees(household, plant, today, ASSUMED_C)
    days = sum(development_days(stage, held(pest, celsius)) for stage in (pest.egg_lo, *pest.instars))
    return (today - min(uses)).days >= days and (today - max(uses)).days < 2 * days


def _uses_of_group(
    household: Household, knowledge: Knowledge, plant: Plant, group: str, today: date
) -> Sequence[date]:
    """Give the days of the last uninterrupted run of one mode of action on a plant."""
    run: list[date] = []
    for one in sorted(plant.treatments, key=lambda treatment: treatment.on, reverse=True):
        product = None if one.product is None else household.products.get(one.product)
        kind = None if product is None else knowledge.products.get(product.ingredient)
        if kind is None or kind.group is None or one.on >= today:
            continue  # what has no number neither goes on with a mode of action nor breaks with it
        if kind.group != group:
            break
        run.append(one.on)
    return run
