"""Kinds of plant: what their leaves bear, whether they are eaten, where pests hide on them."""

from dataclasses import dataclass

from bot.domain.pest import Evidence

HABITS = (
    "bush",
    "climber",
    "trailing",
    "rosette",
    "tree",
    "palm",
    "fern",
    "succulent",
    "bulb",
    "herb",
    "orchid",
)
"""Growth habits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantKind:
    """A catalogue entry; sensitive names the products, by key, that a source says hurt it."""

    key: str
    name: str
    words: tuple[str, ...]
    habit: str
    is_edible: bool
    has_bloom: bool
    """A waxy bluish bloom, which soap and oil take off for good."""
    is_hairy: bool
    is_rosette: bool
    is_root_prone: bool
    """Whether mealybugs live at its roots more often than at others'."""
    sensitive: frozenset[str]
    evidence: Evidence
