"""What is asked about safety: may it be eaten, is what is on the shelf dangerous to animals and people."""

from datetime import date

from bot.actions.action import ButtonText, Choice, Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.give_first_aid import GiveFirstAid
from bot.catalogue.cautions import load_cautions
from bot.domain.caution import Occasion
from bot.domain.household import Product
from bot.domain.identity import PlantId, ProductId
from bot.domain.refusal import (
    Wait,
    eat_from,
    harvest_days,
    is_eating_untold,
    is_edible,
    longest_wait,
    wait_before_eating,
)
from bot.domain.value import Value


class CautionsTold(Outcome):
    """What is dangerous about the products on the shelf: name, caution, whether cats and fish are at risk."""

    products: tuple[tuple[str, str, bool], ...]
    knows_animals: bool
    minded: tuple[str, ...] = ()
    """What else is to be minded, where all of it is asked for."""


class Eating(Value):
    """From when one plant may be eaten; free_on is None where nothing was used, or never again."""

    plant: str
    is_edible: bool
    product: str | None = None
    used_on: date | None = None
    free_on: date | None = None
    is_planned: bool = False
    """Whether the use is due this evening and not yet told."""


class Supposed(Value):
    """How long a plant would wait for a product: days is None where it must not be eaten after it. [d]."""

    plant: str
    product: str
    days: int | None
    is_read: bool
    """Whether its label was told."""


class MayEat(Outcome):
    """From when plants may be eaten, by what was used on them, or by a product that is asked about."""

    plants: tuple[Eating, ...]
    today: date
    on: date | None = None
    """The day that was asked about."""
    supposed: tuple[Supposed, ...] = ()


@answers(Topic.SAFETY)
def tell_cautions(command: Ask, desk: Desk) -> CautionsTold:
    """Give the caution of a product or of all on the shelf, who is harmed, and in full all else."""
    kinds = [
        desk.knowledge.products[product.ingredient]
        for product in desk.asked_for(command.product, command.ingredients)
        if product.ingredient in desk.knowledge.products
        and (command.product is not None or command.ingredients or product.stock_ml != 0)
    ]
    occasions = (Occasion.USE, Occasion.ASKED, Occasion.WASTE) if command.in_full else ()
    return CautionsTold(
        tuple((kind.name, kind.caution, kind.harms_cats_and_fish) for kind in kinds),
        knows_animals=bool(desk.household.animals),
        minded=minded_on(occasions, tuple(kind.key for kind in kinds), desk) if kinds else (),
        offers=(Choice(ButtonText.SOMEBODY_HURT, (GiveFirstAid(),)),),
    )


def minded_on(occasions: tuple[Occasion, ...], products: tuple[str, ...], desk: Desk) -> tuple[str, ...]:
    """Give what this household is to mind with some products, by the animals and the food it has."""
    if not occasions:
        return ()
    is_eaten = any(is_edible(desk.knowledge, plant) for plant in desk.household.living)
    told = load_cautions().on(occasions, products, desk.household.animals, is_eaten=is_eaten)
    return tuple(one.text for one in told)


def safety_choice(product: ProductId | None) -> Choice:
    """Offer all that is to be minded with a product, or with the shelf."""
    return Choice(ButtonText.SAFETY, (Ask(topic=Topic.SAFETY, product=product, in_full=True),))


@answers(Topic.EATING)
def tell_whether_to_eat(command: Ask, desk: Desk) -> MayEat:
    """Give from when plants may be eaten by what was used on them; without names of all that are eaten."""
    edible = tuple(one.id for one in desk.household.living if is_edible(desk.knowledge, one))
    waits_for_tonight = command.on is None or command.on > desk.today
    plants = command.plants or edible
    is_named = command.product is not None or bool(command.ingredients)
    products = desk.asked_for(command.product, command.ingredients) if is_named else ()
    supposed = {plant: _supposed(plant, products, desk) for plant in plants}
    return MayEat(
        tuple(_eating(plant, desk, waits_for_tonight) for plant in plants if not supposed[plant]),
        desk.today,
        command.on,
        tuple(each for one in supposed.values() for each in one),
    )


def _supposed(plant: PlantId, products: tuple[Product, ...], desk: Desk) -> tuple[Supposed, ...]:
    """Give how long an edible plant would wait for products that were not used on it."""
    known, kinds = desk.plant(plant), desk.knowledge.products
    used = {one.product for one in known.treatments}
    if not is_edible(desk.knowledge, known):
        return ()
    return tuple(
        Supposed(known.name, kind.short, harvest_days(kind, one), not is_eating_untold(kind, one))
        for one in products
        if one.id not in used and (kind := kinds.get(one.ingredient)) is not None
    )


def _eating(plant: PlantId, desk: Desk, waits_for_tonight: bool) -> Eating:  # noqa: FBT001 - of the day asked about
    known = desk.plant(plant)
    if not is_edible(desk.knowledge, known):
        return Eating(known.name, is_edible=False)
    told = wait_before_eating(desk.household, desk.knowledge, known)
    due = _due_tonight(plant, desk) if waits_for_tonight else []
    latest = longest_wait([*due, told] if told is not None else due)
    if latest is None:
        return Eating(known.name, is_edible=True)
    return Eating(
        known.name,
        is_edible=True,
        product=desk.product_name(latest.product),
        used_on=latest.used_on,
        free_on=latest.free_on,
        is_planned=latest is not told,
    )


def _due_tonight(plant: PlantId, desk: Desk) -> list[Wait]:
    """Give what the products of this evening, or of the morning after, would ask to wait for."""
    return [
        Wait(part.product, on, eat_from(desk.knowledge, desk.plant(plant), product, on))
        for line in desk.evening.treatments
        if line.plant == plant
        for part in line.left
        if part.product is not None and (product := desk.household.products.get(part.product)) is not None
        for on in [
            desk.evening.on if part.from_at is None else part.from_at.astimezone(desk.household.zone).date()
        ]
    ]
