"""A product onto the shelf, or more about its label."""

from dataclasses import dataclass
from decimal import Decimal

from bot.actions.answer_safety import minded_on
from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.domain.caution import Occasion
from bot.domain.household import Product
from bot.domain.journal import ProductSet
from bot.domain.trade import Form


@dataclass(frozen=True, slots=True, kw_only=True)
class StockProduct(Command):
    """A product onto the shelf, or more about it."""

    ingredient: str
    form: Form | None = None
    gap_days: int | None = None
    stock_ml: float | None = None
    rate_ml_per_l: Decimal | None = None
    most_ml_per_l: Decimal | None = None
    strength_percent: Decimal | None = None
    uses_a_year: int | None = None
    harvest_days: int | None = None
    is_for_indoors: bool | None = None
    is_for_edibles: bool | None = None


@dataclass(frozen=True, slots=True)
class Stocked(Outcome):
    """A product as it stands on the shelf."""

    product: Product
    name: str
    gap_days: int
    caution: str
    """Said once, with the first word of a product."""
    minded: tuple[str, ...] = ()
    """What else is said with the first product of a home."""


@dataclass(frozen=True, slots=True)
class BadGap(Outcome):
    """A label gap outside 1 to 365 days."""

    days: int


GAP_DAYS = range(1, 366)


@performs
def stock(command: StockProduct, desk: Desk) -> Stocked | BadGap:
    """Put a product on the shelf or tell more of its label; what is not told is assumed, and marked so."""
    if command.gap_days is not None and command.gap_days not in GAP_DAYS:
        return BadGap(command.gap_days)
    kind = desk.knowledge.products[command.ingredient]
    known = next(
        (one for one in desk.household.products.values() if one.ingredient == command.ingredient), None
    )
    product = known.id if known else desk.store.new_product(desk.member.household)
    assumed = set(known.assumed if known else ("form", "gap_days"))
    assumed -= {"form"} if command.form else set()
    assumed -= {"gap_days"} if command.gap_days else set()
    told = ProductSet(
        product=product,
        ingredient=command.ingredient,
        form=command.form,
        gap_days=command.gap_days,
        stock_ml=command.stock_ml,
        rate_ml_per_l=command.rate_ml_per_l,
        most_ml_per_l=command.most_ml_per_l or command.rate_ml_per_l,
        strength_percent=command.strength_percent,
        uses_a_year=command.uses_a_year,
        harvest_days=command.harvest_days,
        is_for_indoors=command.is_for_indoors,
        is_for_edibles=command.is_for_edibles,
        assumed=tuple(sorted(assumed)),
    )
    desk.write([desk.draft(told)])
    kept = desk.household.products[product]
    return Stocked(
        product=kept,
        name=kind.name,
        gap_days=kept.gap_days if kept.gap_days is not None else kind.gap_days,
        caution="" if known else kind.caution,
        minded=() if len(desk.household.products) > 1 else minded_on((Occasion.USE,), (kind.key,), desk),
    )
