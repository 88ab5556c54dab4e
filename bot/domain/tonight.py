"""One evening as one value: what is done now, what waits for tomorrow, what is looked at, what is asked."""

from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from datetime import date, datetime, timedelta
from enum import Enum
from operator import attrgetter

from bot.domain.agenda import Agenda, Task
from bot.domain.climate import is_usual_doubted, usual_on
from bot.domain.course import Step
from bot.domain.gathering import gathered
from bot.domain.household import Case, Household, Nudge, Place, Plant
from bot.domain.identity import PlaceId, PlantId, ProductId
from bot.domain.journal import Entry, Found, Nudged, NudgedTask, PestCorrected, ProductSet, evening_of
from bot.domain.knowledge import Knowledge
from bot.domain.nudging import done_as, is_looked_at, placements
from bot.domain.outbreak import WITH_PRODUCT, Outbreak, outbreak_on
from bot.domain.progress import wants_root_look
from bot.domain.remedy import Act, handwork_of, label_to_read
from bot.domain.slot import SlotKind
from bot.domain.trade import Level, Method
from bot.domain.value import Value, cached_property, replace

APART_ASKED_AFTER_DAYS = 3
PEST_ASKED_AFTER_DAYS = 1
ASKED_EVERY_DAYS = 7
EATING_ASKED_EVERY_DAYS = 3
"""Apart is asked after three evenings, a kind after one, then weekly, eating every third. Judgement. [d]"""
_DEED = attrgetter("method", "product")


class Kind(Enum):
    TREAT = "treat"
    LOOK = "look"
    LIFT = "lift"
    TRY = "try"


class Doubt(Enum):
    """What is asked, the most urgent first."""

    EXPOSURE = "exposure"
    EATING = "eating"
    LABEL = "label"
    WHICH_PEST = "which-pest"
    RELEASE = "release"
    USUAL_WARMTH = "usual-warmth"
    APART = "apart"


class Question(Value, kw_only=True):
    """One question of the evening, and what it is about."""

    about: Doubt
    plant: PlantId | None = None
    place: PlaceId | None = None
    product: ProductId | None = None


class Part(Value, kw_only=True):
    """One step of a line: one entry of the journal. No method is a look."""

    method: Method | None
    product: ProductId | None = None
    from_at: datetime | None = None
    """The instant from which it may be done; None is any time this evening."""
    is_done: bool = False
    is_over: bool = False
    """Whether the message says that it is too late for it this evening."""

    def has_come(self, now: datetime) -> bool:
        return self.from_at is None or self.from_at <= now

    def is_due(self, now: datetime) -> bool:
        """Whether it can be done now, and is not done."""
        return self.has_come(now) and not (self.is_done or self.is_over)


class Line(Value, kw_only=True):
    """One line of the evening: a plant, and what is done to it in order."""

    kind: Kind
    plant: PlantId | None
    pest: str | None = None
    parts: tuple[Part, ...] = ()
    step: Step | None = None
    level: Level | None = None
    """The way of looking that is asked for by name."""
    otherwise: tuple[Part, ...] = ()
    """What a bare "done" may mean instead: the handwork alone, or what a find told since has made of it."""
    is_since: bool = False
    """Whether it was told of under the evening's message, and does not stand in it."""
    is_put_off: bool = False
    is_announced: bool = False
    """Whether it is of tomorrow: named the evening before, or because a rinse of tonight dries first."""

    @property
    def left(self) -> tuple[Part, ...]:
        """The parts that are neither done nor put off."""
        return () if self.is_put_off else tuple([part for part in self.parts if not part.is_done])


class Tonight(Value, kw_only=True):
    """An evening: settled lines are among them, so that a message can show what is left."""

    on: date
    now: tuple[Line, ...]
    tomorrow: tuple[Line, ...]
    looks: tuple[Line, ...]
    question: Question | None
    """The most urgent of what is in doubt."""
    is_past: bool = False
    """Whether it is of the evening before: what is done there is not spoken of any more."""
    is_said: bool = False
    """Whether it is as a message named it, and not only planned."""

    @property
    def treatments(self) -> tuple[Line, ...]:
        """Treatments of this evening and of the morning after; what is only announced is not among them."""
        lines = (*self.now, *self.tomorrow)
        return tuple(line for line in lines if line.kind is Kind.TREAT and not line.is_announced)

    def open(self, now: datetime) -> tuple[Line, ...]:
        """Give treatments and looks of which something can be done now and is left."""
        lines = (*self.treatments, *self.looks)
        return tuple(line for line in lines if any(part.is_due(now) for part in line.left))

    def named(self, now: datetime) -> tuple[tuple[Line, Part], ...]:
        """Give what an answer may speak of, done or not: treatments and looks whose time has come."""
        lines = (*self.treatments, *self.looks)
        return tuple((line, part) for line in lines for part in self._spoken_of(line, now))

    def _spoken_of(self, line: Line, now: datetime) -> tuple[Part, ...]:
        return tuple(
            part for part in line.parts if part.has_come(now) and not (part.is_done and self.is_past)
        )

    def ways(self, plant: PlantId, now: datetime) -> tuple[tuple[Part, ...], ...]:
        """Give what a bare "done" may mean of a plant: one thing, or one or the other."""
        lines = [line for line in self.treatments if line.plant == plant]
        # told twice it is said to stand there already, so what is done is among it
        said = tuple(part for line in lines for part in self._spoken_of(line, now) if not part.is_over)
        return tuple(way for way in (said, *(line.otherwise for line in lines)) if way)

    def is_named(self, plant: PlantId) -> bool:
        """Whether the evening's message names a treatment of a plant."""
        return self.is_said and any(one.plant == plant and not one.is_since for one in self.treatments)

    def waiting(self, now: datetime) -> tuple[PlantId, ...]:
        """Give plants of which a treatment waits for the morning."""
        return tuple(
            line.plant
            for line in self.treatments
            if line.plant is not None and any(not part.has_come(now) for part in line.left)
        )

    def is_beside(self, line: Line, now: datetime) -> bool:
        """
        Whether a bare "done" does not speak of a line.

        It was put off, and not all was; or it was told of since, while treatments of the message are open.
        """
        if line.is_put_off:
            return not all(one.is_put_off for one in (*self.treatments, *self.looks))
        message = [one for one in self.treatments if not one.is_since]
        if not line.is_since or any(one.plant == line.plant for one in message):
            return False
        return any(part.is_due(now) for one in message for part in one.left)


def tonight(household: Household, knowledge: Knowledge, agenda: Agenda, now: datetime) -> Tonight:
    """
    Give the evening that a bare answer speaks of: as its message named it, else as the plan has it.

    Until the next evening's message that is the last one, while anything of it is left.
    """
    today, nudge = evening_of(now, household.zone), household.nudge
    days = None if nudge is None else (today - nudge.on).days
    if nudge is not None and nudge.tasks and days in {0, 1}:
        told = replace(
            _Plan(household, knowledge, agenda, nudge.on).told(nudge), is_past=days == 1, is_said=True
        )
        if days == 0 or told.named(now):
            return told
    return _Plan(household, knowledge, agenda, today).evening({}, frozenset())


def is_changed(
    entries: Sequence[Entry], plant: PlantId, products: AbstractSet[ProductId | None], on: date
) -> bool:
    """
    Whether no message has said what is to be done with a plant on an evening, as it stands now.

    The answer to a find says it for its own evening, an evening's message until the next. What takes
    something back, names the pest anew or brings the product is answered without it.
    """
    by_id = {entry.id: entry for entry in entries}
    put_right = {entry.source for entry in entries if entry.void_of is not None}
    for entry in reversed(entries):
        payload = entry.payload
        if isinstance(payload, Nudged) and any(task.plant == plant for task in payload.tasks):
            return False
        if isinstance(payload, ProductSet) and payload.product in products and _is_new(entry, entries):
            return True
        if entry.void_of is not None and by_id[entry.void_of].plant == plant:
            return True
        if entry.plant == plant and isinstance(payload, PestCorrected):
            return True
        if entry.plant == plant and isinstance(payload, Found) and entry.source not in put_right:
            return entry.happened_on != on
    return False


def _is_new(stocked: Entry, entries: Sequence[Entry]) -> bool:
    """Whether a product came onto the shelf by an entry, and not only more of its label."""
    product = getattr(stocked.payload, "product", None)
    told = (one for one in entries if isinstance(one.payload, ProductSet) and one.payload.product == product)
    return next(told) is stocked


def planned(household: Household, knowledge: Knowledge, agenda: Agenda, on: date, now: datetime) -> Tonight:
    """Make an evening of the plan, at its hour: what its message is to say."""
    mornings: dict[PlantId, datetime] = {}
    over: set[PlantId] = set()
    for one in placements(household, knowledge, agenda.on(on), on, now):
        if one.slot.kind is SlotKind.MORNING:
            mornings |= dict.fromkeys(one.plants, one.slot.start_at)
        elif one.slot.kind is SlotKind.LATE:
            over |= {*one.plants}
    return _Plan(household, knowledge, agenda, on).evening(mornings, over)


class _Plan(Value, dict=True):
    """One evening of the agenda, and what lines are made of."""

    household: Household
    knowledge: Knowledge
    agenda: Agenda
    on: date

    @cached_property
    def tasks(self) -> tuple[Task, ...]:
        return self.agenda.on(self.on)

    @cached_property
    def steps(self) -> dict[PlantId, Step]:
        return {one.plant: one.step for one in reversed(self.tasks) if one.step is not None}

    def evening(self, mornings: Mapping[PlantId, datetime], over: AbstractSet[PlantId]) -> Tonight:
        lines = []
        treated = self.treated()
        looked_first = [
            plant for plant in treated if self.household.looks_first(self.household.plants[plant], self.on)
        ]
        for plant, tasks in treated.items():
            if plant in looked_first:
                continue
            sprayed = {task.product for task in tasks if task.method is Method.SPRAY}
            parts = (
                Part(
                    method=task.method,
                    product=task.product,
                    from_at=mornings.get(plant) if task.product in sprayed else None,
                    is_over=task.method is Method.SPRAY and plant in over,
                )
                for task in tasks
            )
            lines.append(self.line(plant, tuple(parts)))
        asked = (task.plant for task in self.tasks if task.method is None)
        looked = dict.fromkeys((*asked, *looked_first))
        return self.of(lines, [self.look(plant) for plant in looked])

    def told(self, nudge: Nudge) -> Tonight:
        """Make the evening as its message named it, with what became of it and what was told of since."""
        tasks = [task for task in nudge.tasks if self.is_askable(task)]
        looks = {
            task.plant: replace(self.look(task.plant), parts=(self.part(task),))
            for task in tasks
            if task.method is None
        }
        parts = gathered((task.plant, self.part(task)) for task in tasks if task.method is not None)
        lines = {plant: self.line(plant, tuple(told)) for plant, told in parts.items()}
        for plant, planned_since in self.treated().items():
            if plant not in nudge.found_since:
                continue
            since = tuple(Part(method=task.method, product=task.product) for task in planned_since)
            if plant not in lines:
                lines[plant] = replace(self.line(plant, since), is_since=True)
            elif [*map(_DEED, lines[plant].parts)] != [*map(_DEED, since)]:
                lines[plant] = replace(lines[plant], otherwise=since)
        asked_since = {one.plant for one in self.tasks if one.method is None} & nudge.found_since
        for plant in asked_since - looks.keys():
            looks[plant] = replace(self.look(plant), is_since=True)
        return self.of(list(lines.values()), list(looks.values()))

    def part(self, task: NudgedTask) -> Part:
        """Give what a message named of a plant, as it was done where it was."""
        plant = self.household.plants[task.plant]
        part = Part(method=task.method, product=task.product, from_at=task.from_at, is_over=task.is_over)
        if task.method is None:
            return replace(part, is_done=is_looked_at(plant, self.on))
        done = done_as(self.household, plant, task.method, self.on)
        return part if done is None else replace(part, method=done.method, product=done.product, is_done=True)

    def of(self, lines: Sequence[Line], looks: Sequence[Line]) -> Tonight:
        """Put lines into the evening, each at its time."""
        waiting = [line for line in lines if all(part.from_at is not None for part in line.parts)]
        new = [
            Line(kind=Kind.TRY, plant=line.plant, parts=(part,))
            for line in lines
            for part in line.left
            if line.plant and self.household.plants[line.plant].is_first_use(part.method, part.product)
        ]
        return Tonight(
            on=self.on,
            now=(*(line for line in lines if line not in waiting), *new),
            tomorrow=(
                *waiting,
                *self.announced(),
            ),
            looks=tuple(looks),
            question=self.question(),
        )

    def announced(self) -> Iterable[Line]:
        """Give the sprays that follow tonight's rinse, and what is rinsed by 17:00 tomorrow."""
        rinsed = self.agenda.rinsed_on(self.on + timedelta(days=1))
        for tasks, is_whole in ((self.tasks, False), (rinsed, True)):
            for task in tasks:
                acts = () if task.step is None else task.step.acts if is_whole else task.step.then
                if task.step is not None and acts:
                    yield _tomorrow(self.household, task.plant, task.step, acts, self.on)

    def treated(self) -> dict[PlantId, list[Task]]:
        return gathered((task.plant, task) for task in self.tasks if task.method is not None)

    def line(self, plant: PlantId, parts: tuple[Part, ...]) -> Line:
        step = self.steps.get(plant)
        return Line(
            kind=Kind.TREAT,
            plant=plant,
            pest=None if step is None else step.pest,
            parts=parts,
            step=step,
            otherwise=self.by_hand(plant)
            if any(one.method is Method.CLEAN_OUT and not one.is_done for one in parts)
            else (),
            is_put_off=self.is_put_off(plant),
        )

    def look(self, number: PlantId) -> Line:
        """Ask for a look in the way of the pest that is on the plant, or that it is on watch for."""
        plant, watch = self.household.plants[number], self.agenda.watched.get(number)
        looked_for = [*(case.pest for case in plant.open_cases), *([watch.pest] if watch else [])]
        pest = self.knowledge.pests[looked_for[0]] if looked_for else None
        is_lifted = any(
            self.knowledge.pests[one.pest].rooted or wants_root_look(self.outbreak(plant, one))
            for one in plant.open_cases
        )
        return Line(
            kind=Kind.LIFT if is_lifted else Kind.LOOK,
            plant=number,
            pest=None if pest is None else pest.key,
            parts=(Part(method=None),),
            level=Level.ROOTS if is_lifted else None if pest is None else pest.looking.ask,
            is_put_off=self.is_put_off(number),
        )

    def by_hand(self, number: PlantId) -> tuple[Part, ...]:
        """Give the handwork that "done" may mean of a clean-out: that is more than the word says."""
        plant = self.household.plants[number]
        hands = (handwork_of(self.outbreak(plant, case)) for case in plant.open_cases)
        return tuple(Part(method=hand) for hand in hands if hand is not None)[:1]

    def outbreak(self, plant: Plant, case: Case) -> Outbreak:
        return outbreak_on(self.household, self.knowledge, plant, case, self.on)

    def is_askable(self, task: NudgedTask) -> bool:
        """Whether the plant is still there, and still has the case a treatment was for."""
        plant = self.household.plants.get(task.plant)
        if plant is None or plant.lost_on is not None:
            return False
        done = None if task.method is None else done_as(self.household, plant, task.method, self.on)
        if done is not None and done.on < self.on:
            return False  # told late: a "done" of this evening is not of it
        return (
            task.method is None
            or bool(plant.open_cases)
            or any(
                self.knowledge.pests[case.pest].fight.is_room_wide
                for other in self.household.living
                if other.place == plant.place
                for case in other.open_cases
            )
        )

    def is_put_off(self, plant: PlantId) -> bool:
        until = self.household.plants[plant].postponed_to
        return until is not None and until > self.on

    def question(self) -> Question | None:
        household, knowledge = self.household, self.knowledge
        sick = [plant for plant in household.living if plant.open_cases]
        found = [
            *_about_treatments(household, knowledge, self.tasks),
            *(
                Question(about=Doubt.WHICH_PEST, plant=plant.id)
                for plant in sick
                if _is_asked(
                    (case.opened_on for case in plant.open_cases if knowledge.pests[case.pest].of),
                    PEST_ASKED_AFTER_DAYS,
                    self.on,
                )
            ),
            *(
                Question(about=Doubt.EATING, plant=plant.id, product=product.id)
                for plant in sick
                for case in plant.open_cases
                if (self.on - case.opened_on).days % EATING_ASKED_EVERY_DAYS == 0
                and (product := label_to_read(self.outbreak(plant, case))) is not None
            ),
            *(Question(about=Doubt.RELEASE, plant=plant) for plant in self.agenda.ready),
            *(
                Question(about=Doubt.USUAL_WARMTH, place=place.id)
                for place in household.places.values()
                if _is_warmth_in_doubt(place, self.on)
            ),
            *(
                Question(about=Doubt.APART, plant=plant.id)
                for plant in sick
                if _is_asked_apart(knowledge, plant, self.on)
            ),
        ]
        order = list(Doubt)
        return min(found, key=lambda one: order.index(one.about), default=None)


def _tomorrow(household: Household, plant: PlantId, step: Step, acts: tuple[Act, ...], on: date) -> Line:
    day = on + timedelta(days=1)
    evening = datetime.combine(day, household.evening, household.zone)
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
            )
            for act in acts
        ),
        step=step,
        is_announced=True,
    )


def _about_treatments(
    household: Household, knowledge: Knowledge, tasks: Sequence[Task]
) -> Iterable[Question]:
    for task in tasks:
        if task.product is None or task.method not in WITH_PRODUCT:
            continue  # what a swab is dipped in has no label for pests
        product, plant = household.products[task.product], household.plants[task.plant]
        kind = knowledge.products.get(product.ingredient)
        place = household.places.get(plant.place) if plant.place is not None else None
        is_untold = place is not None and place.facing is None and place.exposure.is_unknown
        if kind is not None and kind.needs_shade and place is not None and is_untold:
            yield Question(about=Doubt.EXPOSURE, plant=plant.id, place=place.id)
        is_used = any(one.product == product.id for each in household.living for one in each.treatments)
        if product.label.gap_days is None and not is_used:
            yield Question(about=Doubt.LABEL, product=product.id)


def _is_warmth_in_doubt(place: Place, on: date) -> bool:
    """Whether yesterday's reading left it open what is usual, or the last readings keep off it."""
    is_left_open = bool(place.readings) and (on - max(place.readings)).days == 1
    return is_left_open and (usual_on(place, on) is None or is_usual_doubted(place))


def _is_asked_apart(knowledge: Knowledge, plant: Plant, on: date) -> bool:
    """Whether a plant is still to be set apart, and this is an evening to ask again."""
    opened = (case.opened_on for case in plant.open_cases if knowledge.pests[case.pest].fight.is_set_apart)
    return plant.isolated_on is None and _is_asked(opened, APART_ASKED_AFTER_DAYS, on)


def _is_asked(since: Iterable[date], after_days: int, on: date) -> bool:
    """Whether something that is open is asked this evening: so many days after it began, then weekly."""
    days = (on - min(since, default=date.max)).days - after_days
    return days >= 0 and days % ASKED_EVERY_DAYS == 0
