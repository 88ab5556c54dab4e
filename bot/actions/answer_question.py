"""Answer what is asked; nothing here writes."""

from datetime import date, timedelta

from bot.actions.advise import tell_the_sun, tell_what_fits, tell_what_to_buy
from bot.actions.answer_safety import tell_cautions, tell_whether_to_eat
from bot.actions.commands import Ask, Topic
from bot.actions.desk import Desk
from bot.actions.keep_photo import show_photos
from bot.actions.outcomes import (
    AntsFirst,
    Cautions,
    DueLine,
    DueList,
    Fits,
    Habits,
    History,
    IsolatedList,
    MayEat,
    MemberList,
    NoDishSoap,
    NoPhotos,
    NoPlants,
    NoTrend,
    PhotosShown,
    PlacesTold,
    PlantList,
    ReasonOf,
    Reasons,
    ReleaseInfo,
    Settings,
    Shelf,
    Shopping,
    SunTold,
    TrendShown,
)
from bot.actions.rearrange import tell_places
from bot.actions.share import list_members
from bot.actions.show_trend import show_trend
from bot.actions.take_back import history_lines
from bot.domain.agenda import Task
from bot.domain.consumption import left_ml
from bot.domain.course import Step, label_days, next_step
from bot.domain.household import Product
from bot.domain.identity import PlantId
from bot.domain.label import Refusal, refusals
from bot.domain.nudging import Placement, placements
from bot.domain.pest import Evidence
from bot.domain.recurrence import next_on
from bot.domain.watch import hatch_to_adult_days

HISTORY_DAYS = 60

Answered = (
    IsolatedList
    | DueList
    | Reasons
    | ReleaseInfo
    | History
    | PlantList
    | Shelf
    | Settings
    | NoPlants
    | TrendShown
    | NoTrend
    | AntsFirst
    | NoDishSoap
    | Cautions
    | Fits
    | SunTold
    | Shopping
    | MayEat
    | Habits
    | PhotosShown
    | NoPhotos
    | MemberList
    | PlacesTold
)


def answer(command: Ask, desk: Desk) -> Answered:  # noqa: C901, PLR0912 - one arm a topic
    """Give the values an answer is made of."""
    match command.topic:
        case Topic.ANTS:
            return AntsFirst()
        case Topic.DISH_SOAP:
            return NoDishSoap()
        case Topic.SAFETY:
            return tell_cautions(command.product, desk)
        case Topic.EATING:
            return tell_whether_to_eat(command.plants, desk)
        case Topic.BUY:
            return tell_what_to_buy(desk)
        case Topic.SETTINGS:
            return _settings(desk)
        case Topic.STOCK:
            return _shelf(desk)
        case Topic.MEMBERS:
            return list_members(desk)
        case Topic.ROUTINES:
            return _habits(desk)
        case _ if not desk.household.plants:
            return NoPlants()
        case Topic.FIT:
            return tell_what_fits(command.plants, command.product, desk)
        case Topic.SUN:
            return tell_the_sun(command.plants, command.place, desk)
        case Topic.PLACES:
            return tell_places(command.plants, desk)
        case Topic.ISOLATED:
            return _isolated(desk)
        case Topic.DUE:
            return _due(desk, is_week=command.when == "week")
        case Topic.WHY:
            return _why(command, desk)
        case Topic.RELEASE:
            return _release(command.plants, desk)
        case Topic.LOG:
            return _history(command, desk)
        case Topic.PLANTS:
            return _plants(desk)
        case Topic.PHOTOS:
            return show_photos(command.plants, desk)
        case Topic.TREND:
            return show_trend(command.plants, desk)


def _isolated(desk: Desk) -> IsolatedList:
    plants = tuple(
        (plant, _place(desk, plant.id), desk.agenda.progress.get(plant.id, ()))
        for plant in desk.household.living
        if plant.is_isolated
    )
    watched = tuple(
        (desk.plant(plant).name, watch, desk.plant(watch.because_of).name)
        for plant, watch in desk.agenda.watched.items()
    )
    return IsolatedList(plants, watched)


def _place(desk: Desk, plant: PlantId) -> str | None:
    place = desk.plant(plant).place
    return desk.household.places[place].name if place is not None else None


def due_lines(desk: Desk, tasks: tuple[Task, ...]) -> tuple[DueLine, ...]:
    """Give tasks with their names."""
    return tuple(
        DueLine(name=desk.plant(task.plant).name, task=task, product=desk.product_name(task.product))
        for task in tasks
    )


def _due(desk: Desk, *, is_week: bool) -> DueList:
    evenings = tuple((evening.on, due_lines(desk, evening.tasks)) for evening in desk.agenda.evenings)
    return DueList(today=desk.today, evenings=evenings, is_week=is_week)


def _why(command: Ask, desk: Desk) -> Reasons:
    asked = command.plants or tuple(desk.agenda.progress)
    return Reasons(tuple(_reason(plant, desk) for plant in asked), command.in_full)


def _reason(plant: PlantId, desk: Desk) -> ReasonOf:
    steps = [
        next_step(desk.household, desk.knowledge, desk.plant(plant), case, desk.today)
        for case in desk.plant(plant).open_cases
    ]
    step = min((one for one in steps if one), key=lambda one: one.aim_on, default=None)
    known = desk.plant(plant)
    return ReasonOf(
        plant=desk.plant(plant).name,
        step=step,
        product=desk.product_name(step.product.id) if step and step.product else None,
        progress=desk.agenda.progress.get(plant, ()),
        cited=desk.knowledge.cited,
        placement=_placement(plant, desk),
        place=desk.household.places.get(known.place) if known.place is not None else None,
        watch=_watch(plant, desk),
        quarantine_until=known.quarantine_until,
        product_evidence=_usual_label(step.product, desk) if step and step.product else None,
        passed_over=_passed_over(plant, step, desk),
    )


def _placement(plant: PlantId, desk: Desk) -> Placement | None:
    """Give the slot that the sun leaves for a plant on its next evening."""
    for evening in desk.agenda.evenings:
        if any(task.plant == plant and task.method is not None for task in evening.tasks):
            found = placements(desk.household, desk.knowledge, evening.tasks, evening.on, desk.now)
            return next((one for one in found if plant in one.plants), None)
    return None


def _watch(plant: PlantId, desk: Desk) -> tuple[str, date | None, int] | None:
    watch = desk.agenda.watched.get(plant)
    if watch is None:
        return None
    days = hatch_to_adult_days(desk.household, desk.knowledge, desk.plant(plant), watch.pest, desk.today)
    return desk.plant(watch.because_of).name, watch.until, days


def _usual_label(product: Product, desk: Desk) -> Evidence | None:
    kind = desk.knowledge.products.get(product.ingredient)
    return kind.evidence if kind is not None and product.gap_days is None else None


def _passed_over(
    plant: PlantId, step: Step | None, desk: Desk
) -> tuple[tuple[str, tuple[Refusal, ...]], ...]:
    """Give the products that could do the same but are not suggested, with the rules that forbid them."""
    known = desk.plant(plant)
    if step is None or not known.open_cases:
        return ()
    pest = desk.knowledge.pests[known.open_cases[0].pest]
    found = []
    for product in desk.household.products.values():
        broken = refusals(desk.household, desk.knowledge, known, product, pest, desk.today)
        if broken:
            found.append((desk.product_name(product.id) or "", broken))
    return tuple(found)


def _release(plants: tuple[PlantId, ...], desk: Desk) -> ReleaseInfo:
    asked = plants or tuple(plant.id for plant in desk.household.living if plant.is_isolated)
    held = [plant for plant in asked if desk.plant(plant).is_isolated]
    return ReleaseInfo(
        tuple(
            (desk.plant(plant).name, desk.agenda.progress.get(plant, ()), desk.plant(plant).isolated_on)
            for plant in held
            if desk.plant(plant).quarantine_until is None
        ),
        tuple(_free(plant, desk) for plant in asked if plant not in held),
        tuple(
            (desk.plant(plant).name, until)
            for plant in held
            if (until := desk.plant(plant).quarantine_until) is not None
        ),
    )


def _free(plant: PlantId, desk: Desk) -> tuple[str, date | None, str | None]:
    """Give the name of a plant that is not isolated; where it is watched, until when and because of which."""
    watch = desk.agenda.watched.get(plant)
    because = None if watch is None else desk.plant(watch.because_of).name
    return desk.plant(plant).name, None if watch is None else watch.until, because


def _history(command: Ask, desk: Desk) -> History:
    since = desk.today - timedelta(days=HISTORY_DAYS)
    until = date.max
    if command.when == "week":
        since = desk.today - timedelta(days=desk.today.weekday())
    if command.when == "last-week":
        since = desk.today - timedelta(days=desk.today.weekday() + 7)
        until = since + timedelta(days=6)
    plant = command.plants[0] if command.plants else None
    lines = [line for line in history_lines(desk, plant, since) if line[0] <= until]
    return History(tuple(lines), desk.plant(plant).name if plant is not None else None)


def _plants(desk: Desk) -> PlantList:
    by_place: dict[str | None, list[str]] = {}
    for plant in desk.household.living:
        by_place.setdefault(_place(desk, plant.id), []).append(plant.name)
    return PlantList(tuple((place, tuple(names)) for place, names in by_place.items()))


def _shelf(desk: Desk) -> Shelf:
    return Shelf(
        tuple(
            (product, desk.product_name(product.id) or "", label_days(desk.knowledge, product) or 0)
            for product in desk.household.products.values()
        ),
        tuple(
            left_ml(desk.household, desk.knowledge, product) for product in desk.household.products.values()
        ),
    )


def _habits(desk: Desk) -> Habits:
    routines = desk.household.routines.values()
    return Habits(tuple((rule, next_on(rule, since, desk.today)) for rule, since in routines))


def _settings(desk: Desk) -> Settings:
    household = desk.household
    return Settings(
        town=household.town,
        zone=household.zone_name if household.is_zone_told else None,
        evening=household.evening,
        quiet_from=household.quiet_from,
        quiet_until=household.quiet_until,
        places=len(household.places),
        plants=len(household.living),
    )
