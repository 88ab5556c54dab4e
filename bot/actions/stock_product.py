"""A product onto the shelf, or more about its label."""

from collections.abc import Iterable
from decimal import Decimal

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.answer_safety import minded_on
from bot.actions.desk import Desk
from bot.actions.leave_label import LeaveLabel
from bot.domain.caution import Occasion
from bot.domain.household import Product
from bot.domain.identity import PlantId, ProductId
from bot.domain.journal import ProductSet
from bot.domain.label import Label, contradiction, impossible
from bot.domain.outbreak import label_days
from bot.domain.refusal import is_eating_untold, is_edible
from bot.domain.remedy import label_to_read
from bot.domain.value import replace

EATEN_AFTER_DAYS = (0, 1, 3, 7)
"""Days before eating that labels of the kinds we know ask for. From memory. [d]"""


class StockProduct(Command, kw_only=True):
    ingredient: str
    stock_ml: float | None = None
    label: Label = Label()
    is_sure: bool = False
    """Whether it answers which of two facts holds."""


class Stocked(Outcome):
    product: Product
    name: str
    gap_days: int | None
    """Days between two uses; animals have none. [d]"""
    caution: str
    """Said once, with the first word of a product."""
    minded: tuple[str, ...] = ()
    """What else is said with the first product of a home."""
    to_read: str | None = None


class BadLabel(Outcome):
    """A fact, by its name, that no label can say."""

    fact: str
    value: Decimal | int


class LabelDoubted(Outcome):
    """Two facts of a label of which only one can hold: nothing is written before it is known which."""

    name: str
    first: Label
    second: Label


@performs
def stock(command: StockProduct, desk: Desk) -> Stocked | BadLabel | LabelDoubted:
    """Put a product on the shelf or tell more of its label, which changes what is told and no more."""
    wrong = impossible(command.label)
    if wrong is not None:
        return BadLabel(wrong, getattr(command.label, wrong))
    kind = desk.knowledge.products[command.ingredient]
    known = next(
        (one for one in desk.household.products.values() if one.ingredient == command.ingredient), None
    )
    either = contradiction(known.label if known else Label(), command.label)
    if either is not None and not command.is_sure:
        return _ask_which(command, kind.name, either)
    product = known.id if known else desk.store.new_product(desk.member.household)
    told = ProductSet(
        product=product, ingredient=command.ingredient, stock_ml=command.stock_ml, label=command.label
    )
    desk.write([desk.draft(told)])
    kept = desk.household.products[product]
    is_answer = command.label.is_for_edibles is not None
    others = _told_with(product, desk) if is_answer else ()
    asked = next((one for one in (kept, *others) if _is_eating_unasked(one, desk)), None)
    return Stocked(
        product=kept,
        name=kind.name,
        gap_days=label_days(desk.knowledge, kept),
        caution="" if known else kind.caution,
        minded=() if len(desk.household.products) > 1 else minded_on((Occasion.USE,), (kind.key,), desk),
        to_read=desk.product_name(asked.id, in_full=True) if asked else None,
        asking=ask_of_eating(asked) if asked else None,
    )


def _ask_which(command: StockProduct, name: str, either: tuple[Label, Label]) -> LabelDoubted:
    texts = (ButtonText.THE_FIRST, ButtonText.THE_SECOND)
    choices = tuple(
        Choice(text, (replace(command, label=label, is_sure=True),))
        for text, label in zip(texts, either, strict=True)
    )
    return LabelDoubted(name, *either, asking=Asking(choices))


def _is_eating_unasked(product: Product, desk: Desk) -> bool:
    """Whether plants are eaten here, and nobody told whether a product's label allows them."""
    kind = desk.knowledge.products.get(product.ingredient)
    if kind is None or not is_eating_untold(kind, product) or product.stock_ml == 0:
        return False
    return any(is_edible(desk.knowledge, plant) for plant in desk.household.living)


def _told_with(product: ProductId, desk: Desk) -> list[Product]:
    """Give the products that came to the shelf in one message with this: one label is asked at a time."""
    told = [(one.source, one.payload.product) for one in desk.entries if isinstance(one.payload, ProductSet)]
    source = next(source for source, one in told if one == product)
    return [
        desk.household.products[one] for _, one in dict.fromkeys(each for each in told if each[0] == source)
    ]


def label_to_ask(plants: Iterable[PlantId], desk: Desk) -> tuple[str, Asking] | None:
    """Ask for the label that would be used next on plants that are eaten, were it known to allow that."""
    for plant in plants:
        for case in desk.plant(plant).open_cases:
            product = label_to_read(desk.outbreak(plant, case))
            if product is not None:
                return desk.product_name(product.id) or "", ask_of_eating(product)
    return None


def ask_of_eating(product: Product) -> Asking:
    """Ask what a label says of plants that are eaten, and of the days before eating."""
    forbidden = StockProduct(ingredient=product.ingredient, label=Label(is_for_edibles=False))
    allowed = (
        Choice(
            ButtonText.EATEN_AFTER,
            (
                StockProduct(
                    ingredient=product.ingredient, label=Label(is_for_edibles=True, harvest_days=days)
                ),
            ),
            str(days),
        )
        for days in EATEN_AFTER_DAYS
    )
    unread = Choice(ButtonText.DONT_KNOW, (LeaveLabel(product.ingredient),))
    return Asking((Choice(ButtonText.NOT_EATEN, (forbidden,)), *allowed, unread))
