"""What is asked about an evening's work: with what, how, in which order, until when, in what heat."""

from datetime import date, timedelta

from bot.actions.action import ButtonText, Choice, Outcome
from bot.actions.advise import PlaceSun, sun_of
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.explain import passed_over
from bot.actions.postpone import Postpone
from bot.actions.save_time import Turn, turn_of
from bot.actions.tell_how import AskHow, HowTold, tell_how
from bot.catalogue.cautions import load_cautions
from bot.catalogue.howto import load_howto
from bot.domain.caution import Occasion
from bot.domain.climate import span_on
from bot.domain.course import next_step
from bot.domain.effort import chores
from bot.domain.identity import PlantId, ProductId
from bot.domain.outbreak import WITH_PRODUCT
from bot.domain.pest import Pest
from bot.domain.product import ProductKind
from bot.domain.progress import Progress
from bot.domain.refusal import Refusal
from bot.domain.trade import Method
from bot.domain.value import Value


class Work(Value, kw_only=True):
    """What an evening brings to one plant: all of it in order, and between which days it is as good."""

    id: PlantId
    plant: str
    on: date
    acts: tuple[tuple[Method, ProductId | None, str | None], ...]
    pest: Pest | None = None
    opens_on: date | None = None
    closes_on: date | None = None
    warmth: float | None = None
    """What these days rest on. [degC]"""


class NothingToDo(Outcome, kw_only=True):
    """Nothing is to be done to what was asked about; what is looked at, and when."""

    plants: tuple[str, ...]
    look_on: date | None


class WithTold(Outcome, kw_only=True):
    """With what an evening's work is done: the first step of each way, and the products with their labels."""

    works: tuple[Work, ...]
    tools: tuple[tuple[Method, str], ...]
    products: tuple[tuple[str, int, bool], ...]
    """Each by name: the days between two uses [d], and whether its label told them."""


class StepsTold(Outcome, kw_only=True):
    """How all of an evening's work is done to a plant, one way after the other."""

    ways: tuple[HowTold, ...]


class OrderTold(Outcome, kw_only=True):
    """In which order an evening goes, looks at clean plants first, and how long it takes. [min]."""

    turns: tuple[Turn, ...]
    minutes: int


class LateTold(Outcome, kw_only=True):
    """Until when work is as good, and what follows from later."""

    works: tuple[Work, ...]
    sun: tuple[PlaceSun, ...]


class InsteadTold(Outcome, kw_only=True):
    """What handwork does and what a product does; what of the shelf is not used, and why."""

    works: tuple[Work, ...]
    passed_over: tuple[tuple[str, tuple[Refusal, ...]], ...]


class HeatTold(Outcome, kw_only=True):
    """Between which temperatures products may be used, and how warm it is where they are due. [degC]."""

    products: tuple[tuple[str, float, float], ...]
    places: tuple[tuple[str, tuple[float, float] | None, PlaceSun], ...]
    has_town: bool


class AfterTold(Outcome, kw_only=True):
    """What comes after each kind of work: what stays on, when people and light may come back."""

    of: tuple[tuple[Method, tuple[str, ...]], ...]


class WasteTold(Outcome, kw_only=True):
    """How long a mixture keeps [h], and where rests, cloths and leaves go."""

    keeps: tuple[tuple[str, int], ...]
    lines: tuple[str, ...]


class LookingTold(Outcome, kw_only=True):
    """Where pests sit, and how many clean looks there are."""

    pests: tuple[Pest, ...]
    looked: tuple[tuple[str, Progress], ...]


def works_of(command: Ask, desk: Desk) -> tuple[Work, ...]:
    """Give the work that is meant: of the plants named, else of the evening spoken of, else of the next."""
    lines = [line for line in desk.evening.treatments if line.plant and line.parts]
    found: dict[PlantId, Work] = {}
    for line in lines:
        acts = [(part.method, part.product) for part in line.parts]
        _add(found, line.plant, desk.evening.on, acts, desk)
    for evening in desk.agenda.evenings:
        is_wanted = not found or bool(command.plants)
        for task in evening.tasks if is_wanted else ():
            if task.method is not None and (task.plant not in found or found[task.plant].on == evening.on):
                same = [one for one in evening.tasks if one.plant == task.plant]
                _add(found, task.plant, evening.on, [(one.method, one.product) for one in same], desk)
    asked = set(command.plants)
    return tuple(one for one in found.values() if not asked or one.id in asked)


def _add(
    found: dict[PlantId, Work],
    plant: PlantId | None,
    on: date,
    acts: list[tuple[Method | None, ProductId | None]],
    desk: Desk,
) -> None:
    if plant is None or plant in found:
        return
    known = desk.plant(plant)
    steps = (next_step(desk.outbreak(plant, case)) for case in known.open_cases)
    step = next((one for one in steps if one is not None), None)
    pest = next((desk.knowledge.pests[case.pest] for case in known.open_cases), None)
    is_of_step = step is not None and step.closes_on >= on
    found[plant] = Work(
        id=plant,
        plant=known.name,
        on=on,
        acts=tuple((method, product, desk.product_name(product)) for method, product in acts if method),
        pest=pest,
        opens_on=step.opens_on if step is not None and is_of_step else None,
        closes_on=step.closes_on if step is not None and is_of_step else None,
        warmth=step.gap.temperature if step is not None and step.gap is not None else None,
    )


def _no_work(command: Ask, desk: Desk) -> NothingToDo:
    looks = (
        evening.on
        for evening in desk.agenda.evenings
        for task in evening.tasks
        if not command.plants or task.plant in command.plants
    )
    return NothingToDo(plants=desk.names(command.plants), look_on=next(looks, None))


def _kinds(works: tuple[Work, ...], desk: Desk) -> dict[ProductId, ProductKind]:
    """Give the products of works by number, of the shelf where none is due."""
    due = dict.fromkeys(product for one in works for _, product, _ in one.acts if product is not None)
    shelf = desk.household.products
    return {
        number: desk.knowledge.products[shelf[number].ingredient]
        for number in due or shelf
        if number in shelf and shelf[number].ingredient in desk.knowledge.products
    }


@answers(Topic.WITH)
def tell_with_what(command: Ask, desk: Desk) -> WithTold | NothingToDo:
    """Name the product with its label, and what else is needed."""
    works = works_of(command, desk)
    if not works:
        return _no_work(command, desk)
    tools = {
        method: tell_how(AskHow(way=_way(method), plant=one.id), desk).steps[0]
        for one in works
        for method, product, _ in one.acts
        if product is None or method is Method.SWAB
    }
    shelf = desk.household.products
    products = tuple(
        (kind.name, shelf[number].label.gap_days or kind.gap_days, shelf[number].label.gap_days is not None)
        for number, kind in _kinds(works, desk).items()
        if any(product == number for one in works for _, product, _ in one.acts)
    )
    return WithTold(works=works, tools=tuple(tools.items()), products=products)


def _way(method: Method) -> str:
    return method.value.replace("-", "_")


@answers(Topic.STEPS)
def tell_steps(command: Ask, desk: Desk) -> StepsTold | NothingToDo:
    """Give the steps of each of the evening's works on a plant."""
    works = works_of(command, desk)
    if not works:
        return _no_work(command, desk)
    known = load_howto().ways
    first = max(works, key=lambda one: len(one.acts))
    acts = sorted(first.acts, key=lambda act: act[1] is None)  # what is put on is asked about most
    ways = (_way(method) for method, _, _ in acts if _way(method) in known)
    return StepsTold(ways=tuple(tell_how(AskHow(way=way, plant=first.id), desk) for way in ways))


@answers(Topic.ORDER)
def tell_order(command: Ask, desk: Desk) -> OrderTold | NothingToDo:
    """Put the evening's work in order, looks at plants without a case first: hands carry pests."""
    tasks = desk.tonight() or next((one.tasks for one in desk.agenda.evenings), ())
    if not tasks:
        return _no_work(command, desk)
    found = sorted(
        chores(desk.household, desk.knowledge, tasks), key=lambda one: bool(desk.plant(one.plant).open_cases)
    )
    return OrderTold(
        turns=tuple(turn_of(one, desk) for one in found), minutes=sum(one.minutes for one in found)
    )


@answers(Topic.LATE)
def tell_until_when(command: Ask, desk: Desk) -> LateTold | NothingToDo:
    """Give the days on which each work is as good, and offer the next evening."""
    works = works_of(command, desk)
    if not works:
        return _no_work(command, desk)
    tomorrow = desk.today + timedelta(days=1)
    open_ones = tuple(one.id for one in works if one.on <= desk.today and _is_open(one.id, desk))
    put_off = Choice(ButtonText.TOMORROW, (Postpone(plants=open_ones, on=tomorrow),))
    places = {desk.plant(one.id).place: one for one in works if any(name for _, _, name in one.acts)}
    sun = [sun_of(desk.household.places[place], desk) for place in places if place is not None]
    is_known = desk.household.site.is_located
    return LateTold(works=works, sun=tuple(sun) if is_known else (), offers=(put_off,) if open_ones else ())


def _is_open(plant: PlantId, desk: Desk) -> bool:
    return any(task.plant == plant and task.method is not None for task in desk.tonight())


@answers(Topic.INSTEAD)
def tell_instead(command: Ask, desk: Desk) -> InsteadTold | NothingToDo:
    """Say what each part of the work is for."""
    works = works_of(command, desk)
    if not works:
        return _no_work(command, desk)
    over: dict[str, tuple[Refusal, ...]] = {}
    for one in works:
        steps = (next_step(desk.outbreak(one.id, case)) for case in desk.plant(one.id).open_cases)
        over |= dict(passed_over(one.id, next((step for step in steps if step), None), desk))
    return InsteadTold(works=works, passed_over=tuple(over.items()))


@answers(Topic.HEAT)
def tell_heat(command: Ask, desk: Desk) -> HeatTold | NothingToDo:
    """Give the bounds of the products due, and the warmth and sun of the places where they are."""
    works = works_of(command, desk)
    kinds = _kinds(works, desk).values()
    plants = [desk.plant(one.id) for one in works] or [desk.plant(one) for one in command.plants]
    warm = {one.place: span_on(desk.household, one, desk.today) for one in plants if one.place is not None}
    known = desk.household.places
    return HeatTold(
        products=tuple((one.short, one.coldest, one.hottest) for one in kinds),
        places=tuple(
            (known[place].name, warmth, sun_of(known[place], desk)) for place, warmth in warm.items()
        ),
        has_town=desk.household.site.is_located,
    )


@answers(Topic.AFTER)
def tell_after(command: Ask, desk: Desk) -> AfterTold:
    """Say what comes after the work that is due or was done last, after a spray where none is."""
    methods = [act[0] for one in works_of(command, desk) for act in one.acts]
    sprayed = next((one for one in methods if one in WITH_PRODUCT), Method.SPRAY)
    ways = dict.fromkeys((sprayed, *methods[:1]) if methods else (Method.SPRAY,))
    known = load_howto().ways
    after = ((method, known[_way(method)].after) for method in ways if _way(method) in known)
    return AfterTold(of=tuple((method, lines) for method, lines in after if lines))


@answers(Topic.WASTE)
def tell_of_waste(command: Ask, desk: Desk) -> WasteTold:
    """Say how long a mixture keeps, and where the rest goes."""
    kinds = _kinds(works_of(command, desk), desk).values()
    keeps = tuple((one.short, one.mix.keeps_hours) for one in kinds if one.mix is not None)
    return WasteTold(
        keeps=keeps,
        lines=tuple(one.text for one in load_cautions().on([Occasion.WASTE], (), (), is_eaten=False)),
    )


@answers(Topic.LOOKING)
def tell_where_to_look(command: Ask, desk: Desk) -> LookingTold | NothingToDo:
    """Say where the pests of this home sit, and how far the looks are."""
    states = [(plant, state) for plant, of in desk.agenda.progress.items() for state in of]
    own = [one for one in states if one[0] in command.plants]
    pests = dict.fromkeys(state.case.pest for _, state in own or states)
    if not pests:
        return _no_work(command, desk)
    return LookingTold(
        pests=tuple(desk.knowledge.pests[pest] for pest in pests),
        looked=tuple((desk.plant(plant).name, state) for plant, state in own or states),
    )
