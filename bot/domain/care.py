"""What a plant's leaves ask of a treatment beyond its label: bloom, hair, a rosette that holds water."""

from datetime import date, timedelta
from enum import Enum

from bot.domain.household import Plant, Product
from bot.domain.knowledge import Knowledge
from bot.domain.trade import Method

_WET = (Method.SPRAY, Method.RINSE)
_SOAKED = (Method.RINSE, Method.DRENCH, Method.NEMATODES)


TAKE_BLOOM = frozenset({"soap", "neem", "raw_neem", "oil", "rapeseed_oil"})
"""Products, by key, that dissolve a waxy bloom."""
PREDATORS_LIVE = timedelta(days=28)
"""So long predators are taken to live on a plant. Judgement."""


class Care(Enum):
    BLOOM = "bloom"
    HAIR = "hair"
    ROSETTE = "rosette"
    ROTS = "rots"
    PREDATORS = "predators"


def care_of(
    knowledge: Knowledge, plant: Plant, method: Method | None, product: Product | None, on: date
) -> tuple[Care, ...]:
    """
    Give what to mind with a method and product on a plant.

    Soap and oil take a waxy bloom off for good; hair holds what is sprayed, so one leaf first and shade; some
    crowns hold water and rot, some roots rot in wet mix. As told, else by the plant's kind. A spray kills
    predators that were let loose there. Common practice, no source.
    """
    kind = knowledge.kind_of(plant)
    used = None if product is None else knowledge.products.get(product.ingredient)
    takes_bloom = method is Method.SPRAY and used is not None and used.key in TAKE_BLOOM
    let = [one.on for one in plant.treatments if one.method is Method.PREDATORS]
    cares = (
        (Care.BLOOM, takes_bloom and _is(plant, "waxy", by_kind=kind is not None and kind.has_bloom)),
        (Care.HAIR, method in _WET and _is(plant, "hairy", by_kind=kind is not None and kind.is_hairy)),
        (Care.ROSETTE, method in _WET and kind is not None and kind.no_wet_crown),
        (Care.ROTS, method in _SOAKED and kind is not None and kind.is_rot_prone),
        (
            Care.PREDATORS,
            method is Method.SPRAY and any(timedelta() <= on - day <= PREDATORS_LIVE for day in let),
        ),
    )
    return tuple(care for care, holds in cares if holds)


def _is(plant: Plant, trait: str, *, by_kind: bool) -> bool:
    if f"not-{trait}" in plant.traits:
        return False
    return trait in plant.traits or by_kind
