"""
Mixing a spray: how much of a product goes into how much water.

All by exact decimals; amounts are rounded last, to what can be measured, and never past the label's maximum.
A rate counts for the finished spray: "5 mL per litre" is 5 mL in a litre made.
"""

from decimal import ROUND_CEILING, Decimal
from enum import Enum

from bot.domain.measure import Tool, rounded, step_ml
from bot.domain.value import Value

_HUNDRED, _THOUSAND = Decimal(100), Decimal(1000)
SHOWN_ERROR = Decimal("0.05")
"""A rounding error above this share is said. [1]"""


class Share(Enum):
    PRODUCT = "product"
    ACTIVE = "active"


class Recipe(Value, kw_only=True):
    """A mixture in amounts that can be measured. [mL]."""

    volume: Decimal
    product: Decimal
    exact_product: Decimal
    water: Decimal
    emulsifier: Decimal
    rate_ml_per_l: Decimal
    most_ml_per_l: Decimal | None
    is_capped: bool
    """Whether more was asked for than the label allows, so that the label's most was taken."""

    @property
    def error(self) -> Decimal:
        """Rounding error of the product, as a share of what was asked for. [1]."""
        if self.exact_product == 0:
            return Decimal(0)
        return (self.product - self.exact_product) / self.exact_product

    def percent_active(self, strength_percent: Decimal) -> Decimal:
        """Active ingredient in the finished spray, from a concentrate of a strength [%]. [%]."""
        return self.product * strength_percent / self.volume


def rate_of_volume(amount: Decimal, per: Decimal) -> Decimal:
    """Rate of "so much per so much", both positive [mL], else ValueError. [mL/L]."""
    if amount <= 0 or per <= 0:
        raise ValueError(f"no rate of {amount} mL per {per} mL")
    return amount * _THOUSAND / per


def rate_of_percent(percent: Decimal, share: Share, strength_percent: Decimal) -> Decimal:
    """
    Rate for a percentage of product, or of active ingredient, in the finished spray. [mL/L].

    Both percentages are above 0 to 100, the strength is used for `ACTIVE` only [%]; ValueError outside, or
    where more is wanted than the product holds.
    """
    if not 0 < percent <= _HUNDRED or not 0 < strength_percent <= _HUNDRED:
        raise ValueError(f"no mixture of {percent} % from {strength_percent} %")
    if share is Share.PRODUCT:
        return percent * 10
    if percent > strength_percent:
        raise ValueError(f"{percent} % cannot be made from {strength_percent} %")
    return percent * _THOUSAND / strength_percent


def rate_of_parts(water_parts: Decimal) -> Decimal:
    """Rate of one part of product in N parts of water, above 0 (else ValueError). [mL/L]."""
    if water_parts <= 0:
        raise ValueError(f"one part in {water_parts} parts of water is no mixture")
    return _THOUSAND / (1 + water_parts)


def rate_at_strength(rate_ml_per_l: Decimal, usual_percent: Decimal, strength: Decimal | None) -> Decimal:
    """
    Turn a rate [mL/L] for a usual strength into one for the bottle: as much active ingredient in a litre.

    Strengths are above 0 [%], an unknown one is the usual; at most the undiluted product comes out.
    """
    return rate_ml_per_l if strength is None else min(rate_ml_per_l * usual_percent / strength, _THOUSAND)


def mix(
    volume: Decimal,
    rate_ml_per_l: Decimal,
    tool: Tool,
    *,
    most_ml_per_l: Decimal | None = None,
    needs_emulsifier: bool = False,
) -> Recipe:
    """
    Give the amounts for a volume of finished spray [mL] at a rate of product in a finished litre [mL/L].

    Neither rate nor rounding passes the label's most [mL/L]. Plain oil needs an emulsifier: as much mild soap
    as oil goes in. ValueError for a volume that is not positive, or a rate outside 0 to 1000.

    .. [anoka_houseplants] a teaspoon of soap to a teaspoon of plain neem oil.
    """
    if volume <= 0 or not 0 < rate_ml_per_l <= _THOUSAND:
        raise ValueError(f"no mixture of {volume} mL at {rate_ml_per_l} mL/L")
    is_capped = most_ml_per_l is not None and rate_ml_per_l > most_ml_per_l
    rate = most_ml_per_l if most_ml_per_l is not None and is_capped else rate_ml_per_l
    exact = volume * rate / _THOUSAND
    most = None if most_ml_per_l is None else volume * most_ml_per_l / _THOUSAND
    product = min(rounded(exact, tool, most), volume)
    emulsifier = min(product, volume - product) if needs_emulsifier else Decimal(0)
    return Recipe(
        volume=volume,
        product=product,
        exact_product=exact,
        water=volume - product - emulsifier,
        emulsifier=emulsifier,
        rate_ml_per_l=rate,
        most_ml_per_l=most_ml_per_l,
        is_capped=is_capped,
    )


def mix_at_least(
    volume: Decimal,
    rate_ml_per_l: Decimal,
    tool: Tool,
    *,
    most_ml_per_l: Decimal | None = None,
    needs_emulsifier: bool = False,
) -> Recipe:
    """
    Give the amounts for a volume that is ours to choose: a little more spray rather than a weak one.

    Where what the tool measures would be off by more than 5 %, the next measure of product is taken and as
    much water as it is for. Parameters, errors and units as for `mix`.
    """
    recipe = mix(volume, rate_ml_per_l, tool, most_ml_per_l=most_ml_per_l, needs_emulsifier=needs_emulsifier)
    if abs(recipe.error) <= SHOWN_ERROR:
        return recipe
    step = step_ml(tool, recipe.exact_product)
    product = (recipe.exact_product / step).to_integral_value(ROUND_CEILING) * step
    larger = (product * _THOUSAND / recipe.rate_ml_per_l).to_integral_value(ROUND_CEILING)
    return mix(larger, rate_ml_per_l, tool, most_ml_per_l=most_ml_per_l, needs_emulsifier=needs_emulsifier)


SPRAY_ML = ((12, Decimal(25)), (17, Decimal(60)), (27, Decimal(180)))
SPRAY_ABOVE_ML = Decimal(600)
"""Spray by pots of up to so many [cm], and by larger ones [mL]; no publication found, our estimate."""


def spray_ml(pot_cm: float | None) -> Decimal:
    """
    Spray that one plant takes to run-off, by its pot. [mL].

    An unknown pot counts as 15 cm.
    """
    if pot_cm is None:
        return Decimal(60)
    return next((ml for most_cm, ml in SPRAY_ML if pot_cm <= most_cm), SPRAY_ABOVE_ML)


def rounds_left(stock_ml: Decimal, product_ml: Decimal) -> int | None:
    """Whole rounds a stock lasts for at so much product a round [mL]; None where it takes none. [1]."""
    return None if product_ml <= 0 else int(stock_ml // product_ml)
