"""
Volumes as people measure them, in exact millilitres.

The US gallon is 231 cubic inches and the inch 2.54 cm; the imperial gallon is 4.54609 L. All others follow.
"""

from collections.abc import Collection
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
    """What small amounts are measured with, the finest first."""

    SYRINGE_1 = "syringe-1"
    DROPPER = "dropper"
    SYRINGE_3 = "syringe-3"
    SYRINGE_5 = "syringe-5"
    SYRINGE = "syringe"
    SYRINGE_10 = "syringe-10"
    EIGHTH_SPOON = "eighth-spoon"
    US_EIGHTH_SPOON = "us-eighth-spoon"
    SPOON = "spoon"
    US_SPOON = "us-spoon"
    JUG = "jug"


_FILLS = 4
"""A tool is filled no oftener than this where a larger one is at hand. Judgement. [1]"""
_STEPS = {
    Tool.SYRINGE_1: (Decimal("0.02"), Decimal(1)),
    Tool.DROPPER: (DROP_ML, Decimal("0.5")),
    Tool.SYRINGE_3: (Decimal("0.1"), Decimal(3)),
    Tool.SYRINGE_5: (Decimal("0.2"), Decimal(5)),
    Tool.SYRINGE_10: (Decimal("0.5"), Decimal(10)),
    Tool.EIGHTH_SPOON: (SPOON_ML["teaspoon"] / 8, SPOON_ML["tablespoon"]),
    Tool.US_EIGHTH_SPOON: (US_ML["teaspoon"] / 8, US_ML["tablespoon"]),
    Tool.SPOON: (SPOON_ML["teaspoon"] / 4, SPOON_ML["tablespoon"]),
    Tool.US_SPOON: (US_ML["teaspoon"] / 4, US_ML["tablespoon"]),
    Tool.JUG: (Decimal(10), Decimal(1000)),
}
"""Finest step, and what one filling holds. Common practice, no source. [mL]"""


def step_ml(tool: Tool, amount: Decimal) -> Decimal:
    """
    Give the finest step a tool measures an amount by. [mL].

    Syringes by their marks; one of no told size to 0.1 mL up to 5 mL, to 0.5 up to 20, to 1 up to 100, to 5
    above; spoons to a quarter or an eighth of a teaspoon; a dropper to a drop; a jug to 10 mL. Common
    practice, no source.
    """
    if tool is not Tool.SYRINGE:
        return _STEPS[tool][0]
    steps = ((5, "0.1"), (20, "0.5"), (100, "1"))
    return next((Decimal(step) for most, step in steps if amount <= most), Decimal(5))


def finest(tools: Collection[Tool], amount: Decimal) -> Tool | None:
    """Give the finest of some tools that measures an amount [mL] in a few fillings, else the largest."""
    told = [tool for tool in Tool if tool in tools]
    fits = (tool for tool in told if tool is Tool.SYRINGE or amount <= _FILLS * _STEPS[tool][1])
    return next(fits, told[-1] if told else None)


_EXACT = Decimal("1e-9")


def rounded(amount: Decimal, tool: Tool, at_most: Decimal | None = None) -> Decimal:
    """
    Round an amount to what a tool measures, and never past what a label allows. [mL].

    ValueError for a negative amount.

    A rate of so much per gallon has no end of decimals, so a millionth of a microlitre is no passing.
    """
    if amount < 0:
        raise ValueError(f"an amount cannot be {amount} mL")
    step = step_ml(tool, amount)
    nearest = (amount / step).quantize(Decimal(1)) * step
    if at_most is not None and nearest > at_most + _EXACT:
        nearest = (at_most + _EXACT) // step * step
    return nearest
