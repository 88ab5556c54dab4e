"""How a thing is done to a plant, by the pest and by what the plant bears; and what a word means."""

from collections.abc import Collection, Mapping
from enum import Enum

from bot.domain.campaign import Evidence
from bot.domain.plant_kind import PlantKind
from bot.domain.value import Value


class Bears(Enum):
    """What a plant has that changes how a thing is done to it."""

    HAIRY = "hairy"
    WAXY = "waxy"
    SPINED = "spined"
    WET_CROWN = "wet_crown"
    """Water left in its crown rots it."""
    FINE = "fine"
    """Its leaves bear no wipe and no rinse."""
    EATEN = "eaten"


class Variant(Value, kw_only=True):
    """The steps for some pests and plants, for all where none are named."""

    title: str
    pests: frozenset[str] = frozenset()
    plants: frozenset[Bears] = frozenset()
    steps: tuple[str, ...]
    evidence: Evidence | None
    """Where it was read; None where it is common practice without a source."""


class Way(Value):
    """Something done to a plant, or a way of looking at it."""

    key: str
    words: tuple[str, ...]
    variants: tuple[Variant, ...]
    after: tuple[str, ...] = ()
    """What comes after it."""

    def for_plant(self, pest: str | None, bears: Collection[Bears]) -> Variant:
        """Choose the first variant that fits; the last fits everything."""
        return next(one for one in self.variants if _fits(one, pest, bears))


class Term(Value):
    name: str
    words: tuple[str, ...]
    text: str
    about: tuple[str, ...] = ()
    """Patterns of what is asked in many words."""


class HowTo(Value):
    """All ways and terms, each by its key and by every word it goes by."""

    ways: Mapping[str, Way]
    terms: Mapping[str, Term]
    way_by_word: Mapping[str, Way]
    term_by_word: Mapping[str, Term]


def bears_of(kind: PlantKind | None, traits: Collection[str]) -> frozenset[Bears]:
    """Give what a plant bears: by its kind, and as told of this one ("hairy", "not-hairy", "edible")."""
    by_kind = {
        Bears.HAIRY: kind is not None and kind.is_hairy,
        Bears.WAXY: kind is not None and kind.has_bloom,
        Bears.SPINED: kind is not None and kind.is_spined,
        Bears.WET_CROWN: kind is not None and kind.no_wet_crown,
        Bears.FINE: kind is not None and kind.is_not_washed,
        Bears.EATEN: kind is not None and kind.is_edible,
    }
    told = {"edible": Bears.EATEN, "hairy": Bears.HAIRY, "waxy": Bears.WAXY}
    for trait in traits:
        bears = told.get(trait.removeprefix("not-"))
        if bears is not None:
            by_kind[bears] = not trait.startswith("not-")
    return frozenset(bears for bears, holds in by_kind.items() if holds)


def _fits(variant: Variant, pest: str | None, bears: Collection[Bears]) -> bool:
    return (not variant.pests or pest in variant.pests) and (
        not variant.plants or bool(variant.plants & set(bears))
    )
