"""How one pest is fought: what a round is, how long it goes on, how it is looked for, when it has gone."""

import enum
import math
from collections.abc import Mapping
from typing import Literal

from bot.domain.trade import Grade, Level, Method
from bot.domain.value import Value

FIGURES_AT = (18.0, 21.0, 25.0)
"""Temperatures the three figures of a wait stand for. [degC]"""


class Basis(enum.Enum):
    """How a figure came into the catalogue."""

    READ = "read"
    MEMORY = "memory"
    JUDGEMENT = "judgement"


class Evidence(Value):
    """Where the figures of one block come from."""

    basis: Basis
    sources: tuple[str, ...]
    note: str


class Life(enum.Enum):
    """The stages of an animal's life that a product reaches or not."""

    EGG = "egg"
    YOUNG = "young"
    PUPA = "pupa"
    ADULT = "adult"


class Effect(enum.Enum):
    """How well a product works on a stage."""

    GOOD = "good"
    SOME = "some"
    NONE = "none"
    WORSE = "worse"
    """It brings more of them: by killing what eats them, or by making them lay more."""


class Effects(Value):
    """What one ingredient does to the stages of a pest; a stage not named is not known."""

    on: Mapping[Life, Effect]
    evidence: Evidence


class Wait(Value, kw_only=True):
    """
    Days to wait: so many times an end of the pest's clock (h1, h2, h3), or three figures.

    The three figures stand for 18, 21 and 25 degC.
    """

    clock: Literal["h1", "h2", "h3"] | None = None
    times: float = 1.0
    days: tuple[float, float, float] | None = None

    def share(self, celsius: float) -> float:
        """
        Give the part of three figures that one day at a temperature [degC] gets done. [1/d].

        Between 18 and 25 degC a straight line in 1/days through the figures; below, the line of 18 and 21
        goes on down to nought; above, the figure of 25 stands.
        """
        assert self.days is not None
        cool, middle, warm = (1 / one for one in self.days)
        low, mid, high = FIGURES_AT
        if celsius >= high:
            return warm
        if celsius >= mid:
            return middle + (warm - middle) * (celsius - mid) / (high - mid)
        return max(0.0, cool + (middle - cool) * (celsius - low) / (mid - low))

    def at(self, celsius: float) -> float:
        """Give the days of three figures at one temperature, infinite where it is too cold. [d]."""
        share = self.share(celsius)
        return math.inf if share <= 0 else 1 / share


class Fight(Value, kw_only=True):
    """What is done: the round, the handwork beside it, the first step, the strong one."""

    round_by: Method
    """What a round puts on: a spray on the leaves, or a drench of the mix."""
    handwork: Method | None
    """What goes before it, where the plant bears it: wipe or rinse; None where handwork does no good."""
    handwork_word: str
    """What it is called for this pest: wipe, scrape, wash the undersides."""
    with_round: tuple[Method, ...] = ()
    """What goes with every round besides."""
    start: tuple[Method, ...] = ()
    """What goes with the first round besides, whatever the count."""
    few_by_hand: int = 0
    """Rounds of handwork alone where few were seen. [1]"""
    strong: tuple[Method, ...] = ()
    """The strong step: goes before the spray of its evening; a clean-out is an evening of its own work."""
    strong_from: Grade | None
    """From this grade on the first round takes the strong step; None never does."""
    strong_from_at_roots: Grade | None
    """The same for a plant at whose roots it may sit."""
    strong_most: int = 0
    """Strong steps in one campaign at the most. [1]"""
    strong_apart_days: int = 0
    """Days between two strong steps. [d]"""
    label_sought_days: int | None
    """A label that asks for no more than this is sought. [d]"""
    warm_from_c: float | None
    """From here on it is hard to win at that warmth, and a cooler place is named. [degC]"""
    between_least: int = 0
    """Handwork days between two uses where the label outlasts the pest's own time, at the least. [1]"""
    between_a_week: tuple[tuple[float, int], ...]
    """Handwork days a week between any two uses, each below a temperature; empty: none. [degC, 1]"""
    is_set_apart: bool
    """Whether a plant with it is kept apart from the others."""
    is_discarded: bool
    """Whether discarding a plant is ever advised."""
    is_room_wide: bool
    """Whether all pots of the room are treated with the one it was found in."""
    flies: bool
    """Whether all plants of the home share the last find: it flies from room to room."""
    shares_clock: bool
    """Whether plants of one place share the last find even when set apart: it flies or is carried."""
    evidence: Evidence

    @property
    def unpots(self) -> bool:
        """Whether the strong step takes the plant out of its pot."""
        return Method.CLEAN_OUT in self.strong


class Least(Value, kw_only=True):
    """How long rounds go on at the least."""

    rounds: int | None
    """In all; None is as many as outlast what the first could not reach. [1]"""
    nematodes: int = 1
    """Rounds one use of nematodes stands for. [1]"""
    after_find: int
    """After the day of the last find. [1]"""
    clean_looks: int
    """Looks in a row with none seen. [1]"""
    since_find: Wait | None
    since_start: Wait | None
    evidence: Evidence


class Looking(Value, kw_only=True):
    """How it is looked for, and how many looks with none seen it takes."""

    needed: Mapping[Level, int]
    """Looks of one way that suffice; a way that is not named shows nothing. [1]"""
    apart_days: int
    """Two looks closer than this are one. [d]"""
    late: int = 0
    """So many of them after h2. [1]"""
    first_after_unpotting_days: int = 0
    """No look counts sooner after fresh mix. [d]"""
    has_chance: bool
    """Whether the chance that nothing is left is asked for beside the looks."""
    ask: Level
    """The way that is asked for by name."""
    also: Level | None
    """A way that is asked for besides."""
    where: str
    """Where to look, in a few plain words."""
    evidence: Evidence


class Leaving(Value, kw_only=True):
    """What a plant waits for before it leaves isolation."""

    since_find: Wait
    contact_free: Wait | None
    """Without spray, rinse or wipe."""
    contact_free_strict: Wait | None
    """The same, for a household that wants to be surer."""
    clock_most_c: float | None
    """No day counts on the clock for more than a day at this warmth. [degC]"""
    evidence: Evidence
