"""What the planner knows of one pest."""

import enum
from collections.abc import Mapping
from dataclasses import dataclass


class Basis(enum.Enum):
    """How a figure came into the catalogue."""

    READ = "read"
    MEMORY = "memory"
    JUDGEMENT = "judgement"


class Level(enum.Enum):
    """How closely a plant was looked at."""

    GLANCE = "glance"
    PLAIN = "plain"
    LENS = "lens"
    ROOTS = "roots"

    # by identity, as members are single: the enum's own hashes the name with every look weighed
    __hash__ = object.__hash__


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A constant K and its threshold T0, fitted together in one study."""

    dd: float  # [degC d]
    t0: float  # [degC]


@dataclass(frozen=True, slots=True)
class Evidence:
    """Where the figures of one block come from."""

    basis: Basis
    sources: tuple[str, ...]
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Pest:
    """One pest: names, development on the fast and on the slow side, and how well a look finds it."""

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
    limits_evidence: Evidence
    gap: Stage
    gap_f: float
    gap_cap_days: int
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
    has_mites_rule: bool
    rooted: bool
    at_roots: bool
    """Whether it may sit at the roots unseen while the leaves look free, beside the leaves or only there."""
    drenched: bool
