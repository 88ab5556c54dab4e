"""How much spray plants take, by their pots and by what was used before; and what is left in the bottle."""

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from bot.domain.household import Household, Plant, Product
from bot.domain.knowledge import Knowledge
from bot.domain.mixture import rate_at_strength, spray_ml
from bot.domain.trade import Form, Method

FACTOR = (Decimal("0.25"), Decimal(4))
"""What use may teach at most: beyond it something else was meant. Judgement. [1]"""
_SPRAYED = (Method.SPRAY, Method.DRENCH)


def spray_factor(household: Household) -> Decimal:
    """
    Give what this household takes for each millilitre reckoned: the median of its logged evenings. [1].

    Without a log it is 1; it stays within 0.25 to 4. Judgement.
    """
    ratios = [ml / reckoned for on, ml in household.used.items() if (reckoned := usual_ml(household, on)) > 0]
    if not ratios:
        return Decimal(1)
    from statistics import median  # noqa: PLC0415 - fractions and random with it, for who has logged a spray

    return min(max(median(ratios), FACTOR[0]), FACTOR[1])


def spray_for(household: Household, plants: Iterable[Plant]) -> Decimal:
    """Spray for plants, by pot and by what was used before, to the next 5 mL. [mL]."""
    reckoned = sum((spray_ml(plant.pot_cm) for plant in plants), Decimal(0)) * spray_factor(household)
    return Decimal(5) * (-(-reckoned // 5))


def sprayed_on(household: Household, on: date) -> list[Plant]:
    """Plants that were sprayed or drenched on a day."""
    return [
        plant
        for plant in household.plants.values()
        if any(one.on == on and one.method in _SPRAYED for one in plant.treatments)
    ]


def usual_ml(household: Household, on: date) -> Decimal:
    """Spray that the plants of a day take by their pots alone. [mL]."""
    return sum((spray_ml(plant.pot_cm) for plant in sprayed_on(household, on)), Decimal(0))


def share_of_product(knowledge: Knowledge, product: Product) -> Decimal | None:
    """Product in the finished spray; ready to use is all of it, None where no rate is known. [1]."""
    if product.label.form is Form.READY:
        return Decimal(1)
    if product.label.rate_ml_per_l is not None:
        return product.label.rate_ml_per_l / 1000
    kind = knowledge.products.get(product.ingredient)
    if kind is None or kind.mix is None:
        return None
    rate = rate_at_strength(kind.mix.rate_ml_per_l, kind.mix.strength_percent, product.label.strength_percent)
    return rate / 1000


def left_ml(household: Household, knowledge: Knowledge, product: Product) -> Decimal | None:
    """
    Give what is left of a product: what was told, less what the sprays since then took. [mL].

    None where nobody told how much there is, or no rate is known. Each evening counts with what was logged as
    used, else with what its plants usually take; the day of telling counts too (the cautious side).
    """
    share = share_of_product(knowledge, product)
    if product.stock_ml is None or share is None or product.stocked_on is None:
        return None
    taken = Decimal(0)
    for plant in household.plants.values():
        for one in plant.treatments:
            if one.product == product.id and one.method in _SPRAYED and one.on >= product.stocked_on:
                taken += spray_ml(plant.pot_cm) * _factor_on(household, one.on)
    return max(Decimal(0), Decimal(str(product.stock_ml)) - taken * share)


def _factor_on(household: Household, on: date) -> Decimal:
    reckoned = usual_ml(household, on)
    used = household.used.get(on)
    return spray_factor(household) if used is None or not reckoned else used / reckoned
