"""Kinds of product, by active ingredient; the household's own label overrides every default here."""

from dataclasses import dataclass

from bot.domain.trade import Method


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductKind:
    """A catalogue entry by active ingredient. gap_days is the cautious default between two uses [d]."""

    key: str
    name: str
    words: tuple[str, ...]
    methods: tuple[Method, ...]
    gap_days: int
    needs_shade: bool
    caution: str
    basis: str
    sources: tuple[str, ...]
