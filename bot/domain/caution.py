"""What to mind with products, and which plans are refused."""

from collections.abc import Collection, Mapping
from enum import Enum

from bot.domain.campaign import Evidence
from bot.domain.value import Value


class Occasion(Enum):
    """When a caution is told."""

    USE = "use"
    """With the first word of a product."""
    CLEAN_OUT = "clean-out"
    ASKED = "asked"
    """Only to who asks."""
    WASTE = "waste"
    """To who asks, and with what becomes of rests."""


class Danger(Enum):
    """A plan that is refused, with its reason."""

    BLEACH_ON_PLANTS = "bleach_on_plants"
    BLEACH_MIXED = "bleach_mixed"
    TWO_PRODUCTS = "two_products"
    DOUBLE_DOSE = "double_dose"
    OUTDOOR_PRODUCT = "outdoor_product"
    KITCHEN_SPRAY = "kitchen_spray"


class Caution(Value, kw_only=True):
    """One sentence, and for whom it is; no products or animals named means for all."""

    text: str
    occasion: Occasion
    products: frozenset[str] = frozenset()
    animals: frozenset[str] = frozenset()
    is_of_eating: bool
    evidence: Evidence | None
    """Where it was read; None where it is common practice without a source."""


class Refused(Value):
    """The answer to a dangerous plan."""

    text: str
    evidence: Evidence | None


class Cautions(Value):
    told: tuple[Caution, ...]
    refused: Mapping[Danger, Refused]

    def on(
        self,
        occasions: Collection[Occasion],
        products: Collection[str],
        animals: Collection[str],
        *,
        is_eaten: bool,
    ) -> tuple[Caution, ...]:
        """
        Choose what a household is told on an occasion.

        An animal nobody told of may live there all the same: where none is told, all are minded.
        """
        return tuple(
            one
            for one in self.told
            if one.occasion in occasions
            and (not one.products or bool(one.products & set(products)))
            and (not one.animals or not animals or bool(one.animals & set(animals)))
            and (is_eaten or not one.is_of_eating)
        )
