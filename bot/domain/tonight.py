"""One evening as one value: what is done now, what waits for tomorrow, what is looked at, what is asked."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import Enum

from bot.domain.agenda import Agenda, Task
from bot.domain.climate import is_usual_doubted, usual_on
from bot.domain.course import Step
from bot.domain.fold import RINSED_BY
from bot.domain.household import Household, Place, Plant
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.knowledge import Knowledge
from bot.domain.nudging import placements
from bot.domain.outbreak import PAIRED, outbreak_on
from bot.domain.remedy import Act
from bot.domain.roots import wants_root_look
from bot.domain.slot import SlotKind
from bot.domain.trade import Level, Method

APART_ASKED_AFTER_DAYS = 3
APART_ASKED_EVERY_DAYS = 7
"""A plant still to be set apart is asked for again after three evenings, then weekly. Judgement. [d]"""


class Kind(Enum):
    """What a line is."""

    TREAT = "treat"
    LOOK = "look"
    LIFT = "lift"
    TRY = "try"
    MOVE = "move"
    ASK = "ask"


class State(Enum):
    """How far a line is."""

    OPEN = "open"
    PARTLY = "partly"
    SETTLED = "settled"


class Doubt(Enum):
    """What is asked, the most urgent first."""

    EXPOSURE = "exposure"
    LABEL = "label"
    WHICH_PEST = "which-pest"
    RELEASE = "release"
    USUAL_WARMTH = "usual-warmth"
    APART = "apart"


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One question of the evening, and what it is about."""

    about: Doubt
    plant: PlantId | None = None
    place: PlaceId | None = None
    product: ProductId | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One step of a line: one entry of the journal. No method is a look."""

    method: Method | None
    product: ProductId | None = None
    from_at: datetime | None = None
    """The instant from which it may be done; None is any time this evening."""
    by_at: datetime | None = None
    """What is rinsed is done by then, so that the spray finds dry leaves."""
    is_done: bool = False

    def is_due(self, now: datetime) -> bool:
        """Whether its time has come and it is not done."""
        return not self.is_done and (self.from_at is None or self.from_at <= now)


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the evening: a plant, and what is done to it in order."""

    kind: Kind
    plant: PlantId | None
    pest: str | None = None
    parts: tuple[Part, ...] = ()
    step: Step | None = None
    level: Level | None = None
    """The way of looking that is asked for by name."""
    question: Question | None = None

    @property
    def state(self) -> State:
        """How far it is; a question stays open until it is no longer asked."""
        done = sum(part.is_done for part in self.parts)
        if self.parts and done == len(self.parts):
            return State.SETTLED
        return State.PARTLY if done else State.OPEN

    @property
    def is_announced(self) -> bool:
        """Whether it is named the evening before, for its day or because a rinse of tonight dries first."""
        return self.step is not None and (bool(self.step.then) or any(part.by_at for part in self.parts))

    @property
    def left(self) -> tuple[Part, ...]:
        """The parts that are not done."""
        return tuple(part for part in self.parts if not part.is_done)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tonight:
    """An evening: settled lines are among them, so that a message can show what is left."""

    on: date
    now: tuple[Line, ...]
    tomorrow: tuple[Line, ...]
    looks: tuple[Line, ...]
    questions: tuple[Line, ...]

    def due(self, now: datetime) -> tuple[tuple[Line, Part], ...]:
        """Give what a bare "done" settles: treatments whose time has come and that are not done."""
        return tuple(
            (line, part)
            for line in self.now
            if line.kind is Kind.TREAT
            for part in line.parts
            if part.is_due(now)
        )

    def waiting(self, now: datetime) -> tuple[tuple[Line, Part], ...]:
        """Give the treatments of this evening's lines whose time has not come."""
        return tuple(
            (line, part)
            for line in (*self.now, *self.tomorrow)
            for part in line.left
            if line.kind is Kind.TREAT and not part.is_due(now)
        )

    @property
    def is_settled(self) -> bool:
        """Whether nothing of this evening's treatments and looks is left."""
        return all(line.state is State.SETTLED for line in (*self.now, *self.looks) if line.parts)

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to say."""
        return not (self.now or self.tomorrow or self.looks)


def tonight(household: Household, knowledge: Knowledge, agenda: Agenda, on: date, now: datetime) -> Tonight:
    """Make an evening of the plan, of the journal and of what was announced for it."""
    tasks = agenda.on(on)
    mornings = {
        plant: one.slot.start_at
        for one in placements(household, knowledge, tasks, on, now)
        if one.slot.kind is SlotKind.MORNING
        for plant in one.plants
    }
    lines = list(_treatments(household, tasks, mornings, on))
    return Tonight(
        on=on,
        now=tuple(line for line in lines if any(part.from_at is None for part in line.parts)),
        tomorrow=(
            *(line for line in lines if all(part.from_at is not None for part in line.parts)),
            *_then(household, tasks, on),
            *_announced(household, agenda, on),
        ),
        looks=tuple(_looks(household, knowledge, agenda, tasks, on)),
        questions=tuple(_questions(household, knowledge, agenda, tasks, on)[:1]),
    )


def _treatments(
    household: Household, tasks: Sequence[Task], mornings: dict[PlantId, datetime], on: date
) -> Iterable[Line]:
    """Give a line a plant: what the journal has of tonight's nudge, then what is still open."""
    done, left = _done(household, on), _by_plant(tasks)
    for plant in dict.fromkeys((*left, *done)):
        parts = left.get(plant, [])
        yield Line(
            kind=Kind.TREAT,
            plant=plant,
            pest=_pest_of(parts),
            parts=(
                *done.get(plant, ()),
                *(
                    Part(
                        method=task.method,
                        product=task.product,
                        from_at=mornings.get(plant) if task.product is not None else None,
                    )
                    for task in parts
                ),
            ),
            step=parts[-1].step if parts else None,
        )


def _by_plant(tasks: Sequence[Task]) -> dict[PlantId, list[Task]]:
    found: dict[PlantId, list[Task]] = {}
    for task in tasks:
        if task.method is not None:
            found.setdefault(task.plant, []).append(task)
    return found


def _pest_of(tasks: Sequence[Task]) -> str | None:
    return next((task.step.pest for task in tasks if task.step is not None), None)


def _done(household: Household, on: date) -> dict[PlantId, list[Part]]:
    """Give what tonight's nudge asked for and the journal has."""
    nudge, found = household.nudge, dict[PlantId, list[Part]]()
    for task in nudge.tasks if nudge is not None and nudge.on == on else ():
        plant = household.plants.get(task.plant)
        if plant is not None and task.method is not None and _is_done(plant, task.method, on):
            part = Part(method=task.method, product=task.product, is_done=True)
            found.setdefault(task.plant, []).append(part)
    return found


def _is_done(plant: Plant, method: Method, on: date) -> bool:
    return any(one.method is method and timedelta() <= on - one.on <= PAIRED for one in plant.treatments)


def _then(household: Household, tasks: Sequence[Task], on: date) -> Iterable[Line]:
    """Give the sprays of tomorrow evening that follow tonight's rinse."""
    for task in tasks:
        if task.step is not None and task.step.then:
            yield _tomorrow(household, task.plant, task.step, task.step.then, on)


def _announced(household: Household, agenda: Agenda, on: date) -> Iterable[Line]:
    """Give what has to be rinsed by 17:00 tomorrow, with the spray that follows."""
    for task in agenda.rinsed_on(on + timedelta(days=1)):
        assert task.step is not None
        yield _tomorrow(household, task.plant, task.step, task.step.acts, on)


def _tomorrow(household: Household, plant: PlantId, step: Step, acts: tuple[Act, ...], on: date) -> Line:
    day = on + timedelta(days=1)
    evening = datetime.combine(day, household.evening, household.zone)
    by_at = datetime.combine(day, RINSED_BY, household.zone)
    midnight = datetime.combine(day, datetime.min.time(), household.zone)
    return Line(
        kind=Kind.TREAT,
        plant=plant,
        pest=step.pest,
        parts=tuple(
            Part(
                method=act.method,
                product=act.product.id if act.product else None,
                from_at=midnight if act.product is None else evening,
                by_at=by_at if act.method is Method.RINSE else None,
            )
            for act in acts
        ),
        step=step,
    )


def _looks(
    household: Household, knowledge: Knowledge, agenda: Agenda, tasks: Sequence[Task], on: date
) -> Iterable[Line]:
    """Give the looks, each in the way of the pest that is on the plant, or that it is on watch for."""
    for task in tasks:
        if task.method is not None:
            continue
        plant = household.plants[task.plant]
        watch = agenda.watched.get(task.plant)
        looked_for = [*(case.pest for case in plant.open_cases), *([watch.pest] if watch else [])]
        pest = knowledge.pests[looked_for[0]] if looked_for else None
        is_lifted = any(
            knowledge.pests[one.pest].rooted
            or wants_root_look(outbreak_on(household, knowledge, plant, one, on))
            for one in plant.open_cases
        )
        yield Line(
            kind=Kind.LIFT if is_lifted else Kind.LOOK,
            plant=task.plant,
            pest=None if pest is None else pest.key,
            parts=(Part(method=None),),
            level=Level.ROOTS if is_lifted else None if pest is None else pest.looking.ask,
        )


def _questions(
    household: Household, knowledge: Knowledge, agenda: Agenda, tasks: Sequence[Task], on: date
) -> list[Line]:
    """Give what is in doubt, the most urgent first."""
    found = [
        *_about_treatments(household, knowledge, tasks),
        *(
            Question(about=Doubt.WHICH_PEST, plant=plant.id)
            for plant in household.living
            if any(knowledge.pests[case.pest].of for case in plant.open_cases)
        ),
        *(Question(about=Doubt.RELEASE, plant=plant) for plant in agenda.ready),
        *(
            Question(about=Doubt.USUAL_WARMTH, place=place.id)
            for place in household.places.values()
            if _is_warmth_in_doubt(place, on)
        ),
        *(
            Question(about=Doubt.APART, plant=plant.id)
            for plant in household.living
            if _is_asked_apart(knowledge, plant, on)
        ),
    ]
    order = list(Doubt)
    found.sort(key=lambda one: order.index(one.about))
    return [Line(kind=Kind.ASK, plant=one.plant, question=one) for one in found]


def _about_treatments(
    household: Household, knowledge: Knowledge, tasks: Sequence[Task]
) -> Iterable[Question]:
    for task in tasks:
        if task.product is None:
            continue
        product, plant = household.products[task.product], household.plants[task.plant]
        kind = knowledge.products.get(product.ingredient)
        place = household.places.get(plant.place) if plant.place is not None else None
        if kind is not None and kind.needs_shade and place is not None and place.exposure.is_unknown:
            yield Question(about=Doubt.EXPOSURE, plant=plant.id, place=place.id)
        if "gap_days" in product.assumed:
            yield Question(about=Doubt.LABEL, product=product.id)


def _is_warmth_in_doubt(place: Place, on: date) -> bool:
    """Whether a reading was told and nobody said what is usual, or the last ones keep off what is."""
    return bool(place.readings) and (usual_on(place, on) is None or is_usual_doubted(place))


def _is_asked_apart(knowledge: Knowledge, plant: Plant, on: date) -> bool:
    """Whether a plant is still to be set apart, and this is an evening to ask again."""
    opened = [case.opened_on for case in plant.open_cases if knowledge.pests[case.pest].fight.is_set_apart]
    if plant.isolated_on is not None or not opened:
        return False
    days = (on - min(opened)).days - APART_ASKED_AFTER_DAYS
    return days >= 0 and days % APART_ASKED_EVERY_DAYS == 0
