"""Kinds of plant: what their leaves bear, whether they are eaten, where pests hide on them."""

from bot.domain.campaign import Evidence
from bot.domain.value import Value, names_of

HABITS = (
    *("bush", "climber", "trailing", "rosette", "tree", "palm"),
    *("fern", "succulent", "bulb", "herb", "orchid"),
)
"""Growth habits."""


class PlantKind(Value, kw_only=True):
    """A catalogue entry; sensitive names the products, by key, that a source says hurt it."""

    key: str
    name: str
    words: tuple[str, ...]
    shared: tuple[str, ...] = ()
    """Words that other kinds bear too."""
    habit: str
    is_edible: bool
    has_bloom: bool
    """A waxy bluish bloom, which soap and oil take off for good."""
    is_hairy: bool
    is_spined: bool
    no_wet_crown: bool
    """Whether water left in its crown rots it."""
    is_rot_prone: bool
    """Whether it rots where it stays wet."""
    is_not_washed: bool
    """Whether its leaves are too fine, brittle or quick to spot for a wipe or a rinse."""
    needs_moist: bool
    """Whether it suffers where its mix dries on top."""
    is_root_prone: bool
    """Whether mealybugs live at its roots more often than at others'."""
    sensitive: frozenset[str] = frozenset()
    evidence: Evidence
    one_of: tuple["PlantKind", ...] = ()
    """The kinds that a shared name may mean; empty where the name is one kind's own."""

    @property
    def is_washable(self) -> bool:
        """Whether its leaves bear a wipe or a rinse; hair holds water, but what is eaten is rinsed anyway."""
        held = self.has_bloom or self.is_spined or self.is_not_washed
        return not held and (self.is_edible or not self.is_hairy)


TRAITS = tuple(name for name in names_of(PlantKind) if PlantKind.__annotations__[name] is bool)
"""What is so of a kind, or not."""


def either(name: str, kinds: tuple[PlantKind, ...]) -> PlantKind:
    """Give the kind that a shared name stands for: what any of its bearers asks for is minded."""
    return PlantKind(
        key="|".join(kind.key for kind in kinds),
        name=name,
        words=(name,),
        shared=(),
        habit=kinds[0].habit,
        **{trait: any(getattr(kind, trait) for kind in kinds) for trait in TRAITS},
        sensitive=frozenset[str]().union(*(kind.sensitive for kind in kinds)),
        evidence=kinds[0].evidence,
        one_of=kinds,
    )
