"""Write down living pests: what opens a case, or opens it again."""

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from datetime import date
from enum import Enum

from bot.actions.action import ButtonText, Choice, Command, Outcome
from bot.actions.ask import Ask, Topic
from bot.actions.desk import Desk
from bot.actions.isolate import ask_apart
from bot.actions.lose_plant import LosePlant
from bot.actions.stock_product import label_to_ask
from bot.actions.tell_how import offer_how
from bot.domain.course import Step, next_step
from bot.domain.household import Plant
from bot.domain.identity import PlantId
from bot.domain.journal import Found
from bot.domain.outbreak import Outbreak, outbreak_on
from bot.domain.progress import Progress
from bot.domain.refusal import is_edible, is_sensitive
from bot.domain.remedy import (
    Because,
    Hard,
    choose_product,
    is_drenched_besides,
    kinds_to_seek,
    may_dry,
    why_hard,
)
from bot.domain.trade import Grade, Level, Method, grade_of
from bot.domain.value import Value, replace


class LogFind(Command, kw_only=True):
    plants: tuple[PlantId, ...]
    count: int | None = None
    grade: Grade | None = None
    pest: str | None = None
    where: str | None = None
    on: date | None = None
    also: tuple["LogFind", ...] = ()
    """Finds of the same message that wait for the same pest."""


class Need(Enum):
    """What a home with its first find is to get."""

    LENS = "lens"
    CARD = "card"
    SPIRIT = "spirit"
    GOGGLES = "goggles"
    MIX = "mix"


class FindLogged(Outcome, kw_only=True):
    """A find: the case, what to do now, whom it exposes."""

    plant: str
    on: date
    pest: str
    count: int | None
    grade: Grade
    where: str | None
    is_new_case: bool
    is_reopened: bool
    is_isolated: bool
    place: str | None
    neighbours: tuple[str, ...]
    step: Step | None
    product: str | None
    progress: Progress
    tonight: date | None
    stays_moist: bool = False
    """Whether nothing is to be done by hand, for its mix must not dry."""
    seek: tuple[str, ...] = ()
    """Kinds of product that would reach the pest, where the shelf has none."""
    to_read: str | None = None
    hard: Hard | None = None
    """What makes it hard to win."""
    tell: str | None = None
    """What tells apart the pests that a general word may mean."""
    needs: tuple[Need, ...] = ()
    """What to get, at a home's first find."""


class FindsLogged(Outcome):
    """Finds on many plants in one message: told together, with one set of buttons."""

    finds: tuple[FindLogged, ...]


TOGETHER = 3
"""So many finds of one message are told together. Judgement. [1]"""


def together(outcomes: Sequence[Outcome]) -> list[Outcome]:
    """Tell many finds of a message as one; of several each button stands once, for all their plants."""
    finds = tuple(one for one in outcomes if isinstance(one, FindLogged))
    if len(finds) <= 1:
        return list(outcomes)
    offers: dict[tuple[ButtonText, str], Choice] = {}
    for offer in (offer for one in finds for offer in one.offers if offer.text is not ButtonText.DISCARDED):
        before = offers.get((offer.text, offer.of))
        offers[offer.text, offer.of] = offer if before is None else _for_both(before, offer)
    if len(finds) < TOGETHER:
        buttons = {id(one): () for one in finds[:-1]} | {id(finds[-1]): tuple(offers.values())}
        return [replace(one, offers=buttons.get(id(one), one.offers)) for one in outcomes]
    asking = next((one.asking for one in reversed(finds) if one.asking is not None), None)
    told = FindsLogged(finds, asking=asking, offers=tuple(offers.values()))
    first = outcomes.index(finds[0])
    return [*outcomes[:first], told, *(one for one in outcomes[first:] if not isinstance(one, FindLogged))]


def _for_both(some: Choice, more: Choice) -> Choice:
    match some.commands, more.commands:
        case (Ask() as ask,), (Ask() as other,):
            return replace(some, commands=(replace(ask, plants=(*ask.plants, *other.plants)),))
        case _:
            return replace(some, commands=(*some.commands, *more.commands))


class FindInPast(Outcome):
    """A find of a day before its case was closed or corrected: written, and the plan stays."""

    plant: str
    pest: str
    on: date


GRADES = {ButtonText.UP_TO_5: Grade.FEW, ButtonText.UP_TO_30: Grade.SOME, ButtonText.MANY: Grade.MANY}


def grade_choices(
    plants: tuple[PlantId, ...], pest: str | None, on: date | None = None
) -> tuple[Choice, ...]:
    """Offer the grades of a find that lacks its number."""
    return tuple(
        Choice(text, (LogFind(plants=plants, grade=grade, pest=pest, on=on),))
        for text, grade in GRADES.items()
    )


def discard_choice(plant: PlantId, desk: Desk) -> tuple[Choice, ...]:
    """Offer to give a plant up, where a pest of it is ever fought that way."""
    pests = (desk.knowledge.pests[case.pest] for case in desk.plant(plant).open_cases)
    if not any(pest.fight.is_discarded for pest in pests):
        return ()
    return (Choice(ButtonText.DISCARDED, (LosePlant(plants=(plant,)),)),)


class Before(Value):
    """The pests of plants before finds were written, and whether the home ever had a case."""

    pests: Mapping[PlantId, AbstractSet[str]]
    is_first: bool


def log_find(
    command: LogFind, of: Sequence[tuple[PlantId, str]], before: Before, desk: Desk
) -> list[FindLogged | FindInPast]:
    """Write finds on plants; the first of a pest opens a case, after a release it reopens one."""
    seen = Found(pest="", grade=_grade(command), count=command.count, where=command.where)
    desk.write(desk.draft(replace(seen, pest=pest), plant=plant, on=command.on) for plant, pest in of)
    return [_found(command, plant, pest, before, desk) for plant, pest in of]


def _grade(command: LogFind) -> Grade:
    return command.grade or (grade_of(command.count) if command.count is not None else Grade.SOME)


def _found(
    command: LogFind, plant_id: PlantId, pest: str, before: Before, desk: Desk
) -> FindLogged | FindInPast:
    is_known = pest in before.pests[plant_id]
    plant = desk.plant(plant_id)
    case = next((one for one in plant.open_cases if one.pest == pest), None)
    if case is None or plant.lost_on is not None:
        return FindInPast(plant.name, desk.knowledge.pests[pest].name, command.on or desk.today)
    step = next_step(desk.outbreak(plant_id, case))
    state = next(one for one in desk.agenda.progress[plant_id] if one.case.pest == pest)
    task_on = next(
        (e.on for e in desk.agenda.evenings if any(t.plant == plant_id and t.method for t in e.tasks)), None
    )
    place = desk.household.places.get(plant.place) if plant.place is not None else None
    if plant.isolated_on is None and desk.knowledge.pests[pest].fight.is_set_apart:
        desk.to_set_apart.append(plant_id)
    apart = tuple(dict.fromkeys(desk.to_set_apart))
    hard = why_hard(desk.outbreak(plant_id, case))
    read, asking = label_to_ask((plant_id,), desk) or (None, None)
    return FindLogged(
        plant=plant.name,
        on=command.on or desk.today,
        pest=desk.knowledge.pests[pest].name,
        count=command.count,
        grade=_grade(command),
        where=command.where,
        is_new_case=not is_known,
        is_reopened=case.is_reopened and not is_known,
        is_isolated=plant.isolated_on is not None,
        place=place.name if place else None,
        neighbours=neighbours(desk, plant_id),
        step=step,
        product=desk.product_name(step.product.id) if step and step.product else None,
        progress=state,
        tonight=task_on,
        stays_moist=step is None and _stays_moist(desk.outbreak(plant_id, case)),
        seek=_sought(desk, plant, state, step, is_first=before.is_first),
        to_read=read,
        hard=hard,
        needs=_needs(desk, pest, step) if before.is_first else (),
        asking=ask_apart(apart) if apart and plant.isolated_on is None else asking,
        offers=(
            *(discard_choice(plant_id, desk) if hard is not None else ()),
            *(
                offer_how([(act.method, plant_id) for act in step.acts], desk)
                if before.is_first and step
                else ()
            ),
            Choice(ButtonText.WHY, (Ask(topic=Topic.WHY, plants=(plant_id,)),)),
        ),
    )


def _stays_moist(outbreak: Outbreak) -> bool:
    """Whether a pest is dried out, and this plant does not bear that."""
    return Method.DRY in outbreak.pest.fight.with_round and not may_dry(outbreak)


def _needs(desk: Desk, pest: str, step: Step | None) -> tuple[Need, ...]:
    """Give what the first weeks take: to see it, to treat it, to be safe."""
    methods = {act.method for act in step.acts} if step is not None else set()
    needs = {
        Need.LENS: Level.LENS in desk.knowledge.pests[pest].looking.needed,
        Need.CARD: Level.CARD in desk.knowledge.pests[pest].looking.needed,
        Need.SPIRIT: Method.SWAB in methods and not _has_spirit(desk),
        Need.GOGGLES: bool(methods & {Method.SPRAY, Method.DRENCH, Method.SWAB}),
        Need.MIX: bool(methods & {Method.CLEAN_OUT, Method.REPOT}),
    }
    return tuple(need for need, is_wanted in needs.items() if is_wanted)


def _has_spirit(desk: Desk) -> bool:
    return any(one.ingredient == "alcohol" for one in desk.household.products.values())


def _sought(
    desk: Desk, plant: Plant, state: Progress, step: Step | None, *, is_first: bool
) -> tuple[str, ...]:
    """Give what to get: where nothing at hand does good any more, and once where something does better."""
    knowledge, pest = desk.knowledge, state.pest
    unfit = {key for key, kind in knowledge.products.items() if is_sensitive(knowledge, plant, kind)}
    unfit |= {product.ingredient for product in desk.household.products.values()}
    if step is None:
        return () if state.is_finished else kinds_to_seek(knowledge, pest.key, unfit=unfit)
    if step.because is Because.NO_PRODUCT:
        return kinds_to_seek(knowledge, pest.key, unfit=unfit)
    outbreak = outbreak_on(desk.household, knowledge, plant, state.case, desk.today)
    if is_drenched_besides(outbreak) and not is_edible(knowledge, plant):
        is_there = choose_product(outbreak, Method.DRENCH) is not None
        return () if is_there else kinds_to_seek(knowledge, pest.key, by=Method.DRENCH, unfit=unfit)
    used = [act.product.ingredient for act in step.acts if act.product and act.method is pest.fight.round_by]
    if not used or not is_first:
        return ()
    return kinds_to_seek(knowledge, pest.key, better_than=used[-1], unfit=unfit)


def neighbours(desk: Desk, plant_id: PlantId) -> tuple[str, ...]:
    """Give the plants that share the place and have no case of their own."""
    return tuple(
        desk.plant(watch).name
        for watch, why in desk.agenda.watched.items()
        if why.because_of == plant_id and watch != plant_id
    )
