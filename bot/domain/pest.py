"""What the planner knows of one pest."""

from collections.abc import Mapping

from bot.domain.campaign import Effect, Effects, Evidence, Fight, Least, Leaving, Looking
from bot.domain.plant_kind import PlantKind
from bot.domain.trade import Level, Method
from bot.domain.value import Value


class Stage(Value, kw_only=True):
    """A constant K and its threshold T0, fitted together in one study."""

    dd: float  # [degC d]
    t0: float  # [degC]


class Mistaken(Value, kw_only=True):
    """Pests, by key, that go by its common word on some plants, and what tells them apart."""

    pests: tuple[str, ...]
    kinds: frozenset[str]
    """Kinds of plant, by key."""
    habits: frozenset[str]
    """Growth habits."""
    tell: str
    evidence: Evidence

    def is_likely_on(self, kind: PlantKind | None) -> bool:
        """Whether a plant of a kind is one they live on."""
        return kind is not None and (kind.key in self.kinds or kind.habit in self.habits)


class Pest(Value, kw_only=True, eq=False):
    """
    One pest: names, development on the fast and on the slow side, and how it is fought and found.

    Each is one value of the catalogue, the same as itself only: what is derived from it is kept by it.
    """

    key: str
    name: str
    latin: str
    hides: str
    spreads: str
    reached: tuple[str, str, str]
    """Stages that a contact treatment hits well, partly, and not at all, in plain words."""
    words: tuple[str, ...]
    t_low: float  # [degC]
    t_high: float  # [degC]
    gap: Stage
    gap_f: float
    gap_cap_days: int
    gap_slack_days: int
    """The window opens this long before its upper end. [d]"""
    gap_steps: tuple[tuple[float, int, int], ...]
    """Fixed windows, each up to a temperature: first and last day; empty where they follow from the line."""
    gap_evidence: Evidence
    protected: Stage
    protected_safety: float
    protected_evidence: Evidence
    egg_lo: Stage
    egg_hi: Stage
    instars: tuple[Stage, Stage, Stage]
    clock_evidence: Evidence
    sight: Mapping[
        Level, tuple[float, float, float]
    ]  # chance that one check finds a light case: low, mid, high
    sight_evidence: Evidence
    at_roots: bool
    """Whether it may sit at the roots unseen while the leaves look free, beside the leaves or only there."""
    mistaken: Mistaken | None
    """Where its common word often means another, by the plant it is on."""
    of: tuple[str, ...] = ()
    """Where the name is a general one: the pests, by key, that it may mean."""
    fight: Fight
    least: Least
    looking: Looking
    leaving: Leaving
    effects: Mapping[str, Effects]
    """What ingredients, by key, do to it; one not named does nothing that is known."""

    def is_reached_by(self, ingredient: str) -> bool:
        """Whether an ingredient works on any of its stages, and brings more of none."""
        known = self.effects.get(ingredient)
        on = known.on.values() if known is not None else ()
        return Effect.WORSE not in on and (Effect.GOOD in on or Effect.SOME in on)

    @property
    def drenched(self) -> bool:
        """Whether a round goes into the mix and not on the leaves."""
        return self.fight.round_by is Method.DRENCH

    @property
    def rooted(self) -> bool:
        """Whether only a look at the roots shows it."""
        return [*self.looking.needed] == [Level.ROOTS]

    @property
    def bears_live_young(self) -> bool:
        """Whether no egg is laid that would have to be waited for."""
        return self.egg_hi.dd == 0
