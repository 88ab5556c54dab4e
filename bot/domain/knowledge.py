"""What the rules need from the catalogue: pests and product kinds by key."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from bot.domain.pest import Pest
from bot.domain.product import ProductKind


@dataclass(frozen=True, slots=True)
class Knowledge:
    """The catalogue's facts in the domain's own types."""

    pests: Mapping[str, Pest]
    products: Mapping[str, ProductKind]
    cited: Mapping[str, str] = field(default_factory=dict)
    """Sources by key as they are quoted: author, year, title."""
