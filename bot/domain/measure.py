"""
Volumes as people measure them, in exact millilitres.

The US gallon is 231 cubic inches and the inch 2.54 cm; the imperial gallon is 4.54609 L. All others follow.
"""

from decimal import Decimal
from enum import Enum

INCH_CM = Decimal("2.54")
"""Exact: NIST Handbook 44, appendix C. [cm]"""
US_ML = {
    "gallon": Decimal("3785.411784"),
    "quart": Decimal("946.352946"),
    "pint": Decimal("473.176473"),
    "cup": Decimal("236.5882365"),
    "ounce": Decimal("29.5735295625"),
    "tablespoon": Decimal("14.78676478125"),
    "teaspoon": Decimal("4.92892159375"),
}
"""US measures. [mL]"""
IMPERIAL_ML = {
    "gallon": Decimal("4546.09"),
    "quart": Decimal("1136.5225"),
    "pint": Decimal("568.26125"),
    "cup": Decimal("284.130625"),
    "ounce": Decimal("28.4130625"),
}
METRIC_ML = {
    "ml": Decimal(1),
    "millilitre": Decimal(1),
    "milliliter": Decimal(1),
    "cc": Decimal(1),
    "cl": Decimal(10),
    "dl": Decimal(100),
    "l": Decimal(1000),
    "litre": Decimal(1000),
    "liter": Decimal(1000),
    "lt": Decimal(1000),
    "ltr": Decimal(1000),
}
SPOON_ML = {"teaspoon": Decimal(5), "tablespoon": Decimal(15)}
"""Metric spoons; the US ones differ by 1.4 %. [mL]"""
DROP_ML = Decimal("0.05")
"""Twenty drops a millilitre: common practice, no source. [mL]"""


class Units(Enum):
    """The measures a household is used to."""

    METRIC = "metric"
    US = "us"
    IMPERIAL = "imperial"


TEASPOON_ML = {
    Units.METRIC: SPOON_ML["teaspoon"],
    Units.US: US_ML["teaspoon"],
    Units.IMPERIAL: SPOON_ML["teaspoon"],
}
"""A teaspoon where these measures are used; British kitchens have the metric one. [mL]"""


class Tool(Enum):
    """What small amounts are measured with."""

    SYRINGE = "syringe"
    SPOON = "spoon"
    US_SPOON = "us-spoon"
    DROPPER = "dropper"


def step_ml(tool: Tool, amount: Decimal) -> Decimal:
    """
    Give the finest step a tool measures an amount by. [mL].

    A syringe to 0.1 mL up to 5 mL, to 0.5 mL up to 20 mL, to 1 mL up to 100 mL, to 5 mL above; a spoon to a
    quarter of its teaspoon; a dropper to a drop. Common practice, no source.
    """
    if tool is Tool.DROPPER:
        return DROP_ML
    if tool is Tool.SPOON:
        return SPOON_ML["teaspoon"] / 4
    if tool is Tool.US_SPOON:
        return US_ML["teaspoon"] / 4
    steps = ((5, "0.1"), (20, "0.5"), (100, "1"))
    return next((Decimal(step) for most, step in steps if amount <= most), Decimal(5))


def rounded(amount: Decimal, tool: Tool, at_most: Decimal | None = None) -> Decimal:
    """
    Round an amount to what a tool measures, and never past what a label allows. [mL].

    Parameters
    ----------
    amount
        What the rate asks for, not negative. [mL]
    at_most
        What must not be passed. [mL]

    Raises
    ------
    ValueError
        For a negative amount.
    """
    if amount < 0:
        raise ValueError(f"an amount cannot be {amount} mL")
    step = step_ml(tool, amount)
    nearest = (amount / step).quantize(Decimal(1)) * step
    if at_most is not None and nearest > at_most:
        nearest = at_most // step * step
    return nearest
