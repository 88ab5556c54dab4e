"""What is asked before anything is done: what may be used, when the sun is off, what to buy."""

from datetime import date, datetime
from decimal import Decimal

from bot.actions.action import ButtonText, Choice, Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.domain.care import Care, care_of
from bot.domain.consumption import left_ml, share_of_product, spray_for
from bot.domain.household import Place, Plant, Product
from bot.domain.identity import ProductId
from bot.domain.outbreak import allowed_on
from bot.domain.refusal import Refusal, Use, refusals
from bot.domain.remedy import kinds_to_seek
from bot.domain.trade import Method
from bot.domain.value import Value
from bot.domain.window import lit_spans


class Fit(Value, kw_only=True):
    """Whether a product may be used on a plant: what forbids it, until when, what to mind."""

    plant: str
    product: str
    method: Method
    refusals: tuple[Refusal, ...]
    allowed_on: date | None
    care: tuple[Care, ...]
    is_first_use: bool
    needs_shade: bool


class Fits(Outcome):
    """What may be used on which plant today."""

    fits: tuple[Fit, ...]
    is_shelf_empty: bool


class PlaceSun(Value, kw_only=True):
    """When direct sun, or a lamp, reaches a place today. [aware UTC]."""

    place: Place
    spans: tuple[tuple[datetime, datetime], ...]


class SunTold(Outcome):
    """The sun of today at places; without a town nothing is known of it."""

    places: tuple[PlaceSun, ...]
    has_town: bool


class Lack(Value):
    """A product of which less is left than the next round takes. [mL]."""

    product: str
    left_ml: Decimal
    takes_ml: Decimal
    plants: tuple[str, ...]


class Shopping(Outcome):
    """What the open cases lack: kinds to look for with their plants, and what runs short."""

    lacking: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...]
    low: tuple[Lack, ...]


@answers(Topic.FIT)
def tell_what_fits(command: Ask, desk: Desk) -> Fits:
    """Say for each plant and product what forbids it today; unnamed: the cases, the whole shelf."""
    asked = command.plants or tuple(plant.id for plant in desk.household.living if plant.open_cases)
    shelf = desk.asked_for(command.product, command.ingredients)
    return Fits(
        tuple(
            _fit(desk.plant(plant), one, desk)
            for plant in asked
            for one in shelf
            if one.ingredient in desk.knowledge.products
        ),
        is_shelf_empty=not shelf,
    )


def _fit(plant: Plant, product: Product, desk: Desk) -> Fit:
    kind = desk.knowledge.products[product.ingredient]
    case = next(iter(plant.open_cases), None)
    pest = None if case is None else desk.knowledge.pests[case.pest]
    method = next(iter(kind.methods), Method.SPRAY)
    day = allowed_on(desk.knowledge, plant, product)
    return Fit(
        plant=plant.name,
        product=kind.name,
        method=method,
        refusals=refusals(Use(desk.household, desk.knowledge, plant, product, desk.today, pest)),
        allowed_on=day if day is not None and day > desk.today else None,
        care=care_of(desk.knowledge, plant, method, product, desk.today),
        is_first_use=plant.is_first_use(method, product.id),
        needs_shade=kind.needs_shade,
    )


@answers(Topic.SUN)
def tell_the_sun(command: Ask, desk: Desk) -> SunTold:
    """Say when direct sun reaches places today: the named, those of named plants, or all. [aware UTC]."""
    numbers = {desk.plant(plant).place for plant in command.plants} | ({command.place} - {None})
    places = [one for one in desk.household.places.values() if not numbers or one.id in numbers]
    return SunTold(tuple(sun_of(place, desk) for place in places), has_town=desk.household.site.is_located)


def sun_of(place: Place, desk: Desk) -> PlaceSun:
    """Give when direct sun, or a lamp, reaches a place today. [aware UTC]."""
    spans = lit_spans(place.exposure, desk.household.site, desk.today, 1)
    return PlaceSun(place=place, spans=tuple((span.start, span.end) for span in spans))


NOTHING_AT_HAND = (Choice(ButtonText.NOTHING_YET, (Ask(topic=Topic.BUY),)),)
"""Who has nothing to treat with is told what to get."""


@answers(Topic.BUY)
def tell_what_to_buy(_: Ask, desk: Desk) -> Shopping:
    """Say what the open cases lack: a kind of product, or more of one, by what the next round takes. [mL]."""
    if not desk.household.products:  # it is not asked again what is at hand
        household, chat = desk.member.household, desk.member.chat
        asked = desk.question
        if asked is None or asked.choices != NOTHING_AT_HAND:
            asked = desk.store.offer(household, chat, NOTHING_AT_HAND, desk.now)
        desk.store.answer_question(asked, 0, desk.now)
    lacking: dict[tuple[str, ...], list[str]] = {}
    needed: dict[ProductId, list[Plant]] = {}
    for number, states in desk.agenda.progress.items():
        if any(not fit.refusals for fit in tell_what_fits(Ask(topic=Topic.FIT, plants=(number,)), desk).fits):
            continue
        for state in states:
            if not state.is_finished:
                kinds = kinds_to_seek(desk.knowledge, state.case.pest)
                lacking.setdefault(kinds, []).append(desk.plant(number).name)
    for evening in desk.agenda.evenings:
        for task in evening.tasks:
            if task.product is not None and task.method in {Method.SPRAY, Method.DRENCH}:
                needed.setdefault(task.product, []).append(desk.plant(task.plant))
    low = [one for product, plants in needed.items() if (one := _low(product, plants, desk)) is not None]
    return Shopping(tuple((kinds, tuple(names)) for kinds, names in lacking.items()), tuple(low))


def _low(number: ProductId, plants: list[Plant], desk: Desk) -> Lack | None:
    """Say how much is left and how much one round takes, where less than that is left."""
    product = desk.household.products[number]
    left, share = left_ml(desk.household, desk.knowledge, product), share_of_product(desk.knowledge, product)
    if left is None or share is None:
        return None
    takes = Decimal(spray_for(desk.household, plants)) * share
    name = desk.product_name(number) or ""
    return Lack(name, left, takes, tuple(plant.name for plant in plants)) if left < takes else None
