"""The products at hand, and what is left of them."""

from decimal import Decimal

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.domain.consumption import left_ml
from bot.domain.household import Product
from bot.domain.outbreak import label_days


class Shelf(Outcome):
    products: tuple[tuple[Product, str, int], ...]
    left: tuple[Decimal | None, ...] = ()
    """What is left of each by what was sprayed since. [mL]"""


@answers(Topic.STOCK)
def show_shelf(_: Ask, desk: Desk) -> Shelf:
    """Give the products at hand with their gaps and what is left."""
    return Shelf(
        tuple(
            (
                product,
                desk.product_name(product.id, in_full=True) or "",
                label_days(desk.knowledge, product) or 0,
            )
            for product in desk.household.products.values()
        ),
        tuple(
            left_ml(desk.household, desk.knowledge, product) for product in desk.household.products.values()
        ),
    )
