"""What the rules need from the catalogue: pests and product kinds by key."""

from collections.abc import Mapping
from dataclasses import dataclass

from bot.domain.pest import Pest
from bot.domain.product import ProductKind


@dataclass(frozen=True, slots=True)
class Knowledge:
    """The catalogue's facts in the domain's own types."""

    pests: Mapping[str, Pest]
    products: Mapping[str, ProductKind]
