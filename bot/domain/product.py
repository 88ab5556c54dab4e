"""Kinds of product, by active ingredient; the household's own label overrides every default here."""

from decimal import Decimal

from bot.domain.campaign import Evidence
from bot.domain.trade import Method
from bot.domain.value import Value


class MixDefault(Value, kw_only=True):
    """How a concentrate of this kind is usually mixed: volume of product per volume of spray [mL/L]."""

    rate_ml_per_l: Decimal
    most_ml_per_l: Decimal
    strength_percent: Decimal
    """Active ingredient in the concentrate. [%]"""
    needs_emulsifier: bool
    keeps_hours: int
    """How long the mixture may be used. [h]"""
    evidence: Evidence


class ProductKind(Value, kw_only=True):
    """
    A catalogue entry by active ingredient, with what common labels say.

    gap_days is the cautious default between two uses [d], harvest_days the wait before eating [d], None where
    nothing treated may be eaten; coldest and hottest are the temperatures it may be used between [degC].
    """

    key: str
    name: str
    short: str
    """What it is called beside a plant: soap."""
    words: tuple[str, ...]
    methods: tuple[Method, ...]
    gap_days: int
    uses_a_year: int | None
    harvest_days: int | None
    is_for_indoors: bool
    coldest: float
    hottest: float
    group: str | None
    """Mode-of-action number; None where none is given or no rotation is needed."""
    harms_cats_and_fish: bool
    harms_bees: bool
    not_within_days_of: tuple[tuple[str, int], ...]
    """Other products, by key, and the days that must lie between. [d]"""
    needs_shade: bool
    mix: MixDefault | None
    caution: str
    evidence: Evidence

    @property
    def is_alive(self) -> bool:
        """Whether it is animals that eat the pest: no label of uses binds them."""
        return Method.PREDATORS in self.methods
