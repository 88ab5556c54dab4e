"""The evening comes: compose the nudge from the state at this moment, or find that nothing is due."""

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from bot.actions.announced import Part
from bot.actions.ask import Ask, Topic
from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.desk import Desk
from bot.actions.hold import Hold
from bot.actions.log_check import LogCheck
from bot.actions.log_round import LogRound
from bot.actions.mix_batch import Mixed, tonights_mixes
from bot.actions.outcome import Asking, Outcome
from bot.actions.ports import Store
from bot.actions.postpone import Postpone
from bot.actions.show_due import DueLine, due_lines
from bot.actions.situation import Expecting
from bot.actions.walk_through import BeginWalk
from bot.domain.agenda import Task
from bot.domain.care import Care, care_of
from bot.domain.course import Step
from bot.domain.gap import Lateness
from bot.domain.identity import HouseholdId
from bot.domain.journal import (
    Draft,
    Nudged,
    NudgedTask,
    SilenceAsked,
)
from bot.domain.knowledge import Knowledge
from bot.domain.label import is_warm
from bot.domain.nudging import Placement, is_long_silent, needs_shade, next_nudge_at, placements
from bot.domain.slot import SlotKind
from bot.domain.tonight import Kind, Line
from bot.domain.trade import Level, Method


@dataclass(frozen=True, slots=True, kw_only=True)
class NudgeText(Outcome):
    """Tonight's nudge."""

    on: date
    count: int
    lines: tuple[DueLine, ...]
    placements: tuple[Placement, ...]
    names: tuple[tuple[int, str], ...]
    ready: tuple[str, ...]
    late: tuple[tuple[str, Step], ...]
    mixes: tuple[Mixed, ...] = ()
    care: tuple[tuple[Care, tuple[str, ...]], ...] = ()
    first_uses: tuple[tuple[str, str], ...] = ()
    """Plants and products that meet for the first time tonight."""
    standing: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """Where all plants stand, so that many looks can be told place by place."""
    announced: tuple[tuple[str, Method, str | None], ...] = ()
    """Plants and what is done to them tomorrow: by 17:00 what takes no product, so that leaves are dry."""
    looks: tuple[tuple[str, Level, str], ...] = ()
    """Plants to look at, each with the way that is asked for and where."""
    lift: tuple[str, ...] = ()
    """Plants whose roots nobody has looked at, though pests of their kind sit there."""
    warm: tuple[str, ...] = ()
    """Plants to be sprayed where it is warm enough for a word of caution."""


@dataclass(frozen=True, slots=True)
class StillThere(Outcome):
    """Nobody has said a word for a week: asked whether to go on."""

    on: date
    count: int
    since: date


LOOK_AGAIN = timedelta(hours=6)
"""Where an hour was asked for and everything is done by then, look again after this long. Judgement."""

USUAL_SPOTS = "axils, undersides, crown"
"""Where to look for whatever there may be."""
WALKED_FROM = 3
"""So many plants to look at are worth a walk. Judgement. [1]"""


def send_evening(
    household: HouseholdId, store: Store, knowledge: Knowledge, now: datetime
) -> tuple[Desk, NudgeText | StillThere] | None:
    """
    Compose tonight's nudge if this household is owed one now, and write it into the journal.

    Two runs never send two: the journal says what was sent, and the store's transaction is exclusive.
    """
    members = store.members(household)
    if not members:
        store.set_next_evening(household, None)
        return None
    desk = Desk(store, members[0], knowledge, now, "evening")
    due_at = next_nudge_at(desk.household, knowledge, now, desk.agenda_on)
    if due_at is None or due_at > now:
        store.set_next_evening(household, due_at)
        return None
    if is_long_silent(desk.household, desk.today):
        return desk, _ask_whether_to_go_on(desk)
    nudge = _compose(desk)
    if nudge is None:
        store.set_next_evening(household, now + LOOK_AGAIN)
        return None
    _write(desk, nudge)
    refresh_evening(desk)
    return desk, nudge


def _ask_whether_to_go_on(desk: Desk) -> StillThere:
    """Ask once after a week of silence, and be quiet then until anything is heard."""
    since = desk.household.unheard_since
    assert since is not None
    count = _count_tonight(desk)
    asked = Draft(payload=SilenceAsked(), happened_at=desk.now, happened_on=desk.today)
    desk.write([asked])
    refresh_evening(desk)
    choices = (
        Choice(ButtonText.GO_ON, (Ask(topic=Topic.DUE),)),
        Choice(ButtonText.QUIET_TILL_HEARD, (Hold(),)),
    )
    return StillThere(desk.today, count, since, asking=Asking(choices))


def _count_tonight(desk: Desk) -> int:
    """Count this evening's message: its key must be another than that of one sent before."""
    nudge = desk.household.nudge
    return nudge.count + 1 if nudge is not None and nudge.on == desk.today else 1


def refresh_evening(desk: Desk) -> datetime | None:
    """Derive the next evening anew after anything was written, and give it."""
    at = next_nudge_at(desk.household, desk.knowledge, desk.now, desk.agenda_on)
    desk.store.set_next_evening(desk.member.household, at)
    return at


def derive_evening(household: HouseholdId, store: Store, knowledge: Knowledge, now: datetime) -> None:
    """Derive a household's next evening anew from its journal alone."""
    members = store.members(household)
    if members:
        refresh_evening(Desk(store, members[0], knowledge, now, "evening"))
    else:
        store.set_next_evening(household, None)


def _compose(desk: Desk) -> NudgeText | None:
    tasks = desk.tonight()
    count = _count_tonight(desk)
    evening = desk.evening
    announced = [line for line in evening.tomorrow if line.step is not None and line.is_announced]
    if not tasks and (not announced or count > 1):
        return None
    steps = [(desk.plant(task.plant).name, task.step) for task in tasks if task.step is not None]
    nudge = NudgeText(
        on=desk.today,
        count=count,
        lines=due_lines(desk, tasks),
        placements=placements(desk.household, desk.knowledge, tasks, desk.today, desk.now),
        names=tuple((plant.id, plant.name) for plant in desk.household.living),
        standing=tuple(
            (place.name, desk.names(one.id for one in desk.household.living if one.place == place.id))
            for place in desk.household.places.values()
        ),
        mixes=tonights_mixes(desk),
        ready=desk.names(desk.agenda.ready),
        late=tuple((name, step) for name, step in steps if _is_late(step)),
        care=_care(desk, tasks),
        first_uses=tuple(
            (desk.plant(task.plant).name, desk.product_name(task.product) or "")
            for task in tasks
            if desk.plant(task.plant).is_first_use(task.method, task.product)
        ),
        looks=tuple(
            (desk.plant(line.plant).name, *_way(line, desk))
            for line in evening.looks
            if line.plant is not None
        ),
        lift=desk.names(
            line.plant
            for line in evening.looks
            if line.kind is Kind.LIFT and line.plant and _way(line, desk)[0] is not Level.ROOTS
        ),
        announced=tuple(
            (desk.plant(line.plant).name, part.method, desk.product_name(part.product))
            for line in announced
            for part in line.parts
            if line.plant is not None and part.method is not None
        ),
        warm=desk.names(
            task.plant
            for task in tasks
            if needs_shade(desk.household, desk.knowledge, task)
            and is_warm(desk.household, desk.plant(task.plant), desk.today)
        ),
    )
    return replace(nudge, asking=Asking(_choices(nudge), Expecting.LINES))


def _choices(nudge: NudgeText) -> tuple[Choice, ...]:
    """Give the nudge's buttons: what saves typing most."""
    mornings = {
        plant for one in nudge.placements if one.slot.kind is SlotKind.MORNING for plant in one.plants
    }
    parts = tuple(
        (line.task.plant, line.task.method, line.task.product)
        for line in nudge.lines
        if line.task.method is not None
    )
    asked = tuple(dict.fromkeys(plant for plant, _, _ in parts))
    out = tuple(plant for plant, method, _ in parts if method is Method.CLEAN_OUT)
    waiting = tuple(part for part in parts if part[0] in mornings and part[2] is not None)
    tonight, late = _by_time(tuple(part for part in parts if part not in waiting), nudge.placements)
    treated = tuple(part for part in tonight if part[1] is not Method.CLEAN_OUT)
    looked = tuple(dict.fromkeys(line.task.plant for line in nudge.lines if line.task.method is None))
    everything = tuple(dict.fromkeys((*asked, *looked)))
    choices = []
    if treated:
        choices.append(Choice(ButtonText.ALL_DONE, (_as_named(treated, nudge.on),)))
    choices += _sprayed_already(late, nudge.on)
    if out:
        choices.append(
            Choice(ButtonText.CLEANED_OUT, (LogRound(plants=out, method=Method.CLEAN_OUT, on=nudge.on),))
        )
    if waiting:
        choices.append(Choice(ButtonText.MORNING_DONE, (_as_named(waiting, nudge.on + timedelta(days=1)),)))
    if looked:
        choices.append(Choice(ButtonText.NONE_SEEN, (LogCheck(plants=looked, on=nudge.on),)))
    if len(looked) >= WALKED_FROM:
        choices.append(Choice(ButtonText.ONE_BY_ONE, (BeginWalk(plants=looked),)))
    tomorrow = nudge.on + timedelta(days=1)
    if everything:
        choices.append(Choice(ButtonText.NOT_TONIGHT, (Postpone(plants=everything, on=tomorrow),)))
    choices.append(Choice(ButtonText.WHY, (Ask(topic=Topic.WHY),)))
    return tuple(choices)


def choices_left(desk: Desk) -> tuple[Choice, ...]:
    """Give the buttons for what the evening's message still has open; none where all is settled."""
    nudge = desk.household.nudge
    if nudge is None or nudge.on != desk.today:
        return ()
    left = [task for task in nudge.tasks if desk.is_left(task, nudge.on)]
    parts = tuple((one.plant, one.method, one.product) for one in left if one.method and one.from_at is None)
    out = tuple(plant for plant, method, _ in parts if method is Method.CLEAN_OUT)
    at_its_hour = placements(desk.household, desk.knowledge, desk.tonight(), nudge.on, nudge.at)
    tonight, late = _by_time(tuple(part for part in parts if part[0] not in out), at_its_hour)
    looks = tuple(dict.fromkeys(one.plant for one in left if one.method is None))
    choices = []
    if tonight:
        choices.append(Choice(ButtonText.ALL_DONE, (_as_named(tonight, nudge.on),)))
    choices += _sprayed_already(late, nudge.on)
    if out:
        cleaned = LogRound(plants=out, method=Method.CLEAN_OUT, on=nudge.on)
        choices.append(Choice(ButtonText.CLEANED_OUT, (cleaned,)))
    if looks:
        choices.append(Choice(ButtonText.NONE_SEEN, (LogCheck(plants=looks, on=nudge.on),)))
    if not choices:
        return ()
    plants = tuple(dict.fromkeys((*(plant for plant, _, _ in parts), *looks)))
    later = Postpone(plants=plants, on=nudge.on + timedelta(days=1))
    return (*choices, Choice(ButtonText.NOT_TONIGHT, (later,)))


def _by_time(
    parts: tuple[Part, ...], placed: tuple[Placement, ...]
) -> tuple[tuple[Part, ...], tuple[Part, ...]]:
    """Part what can still be done tonight from what the message says is too late: "all" is not that."""
    over = {plant for one in placed if one.slot.kind is SlotKind.LATE for plant in one.plants}
    late = tuple(part for part in parts if part[0] in over and part[2] is not None)
    return tuple(part for part in parts if part not in late), late


def _sprayed_already(late: tuple[Part, ...], on: date) -> list[Choice]:
    """Give the button for what may have been done before it was too late: for spraying alone."""
    sprayed = tuple(part for part in late if part[1] is Method.SPRAY)
    return [Choice(ButtonText.SPRAYED, (_as_named(sprayed, on),))] if sprayed else []


def _as_named(parts: tuple[Part, ...], on: date) -> LogRound:
    """Mean just what the message names, whatever becomes of the plan until the button is pressed."""
    return LogRound(plants=tuple(dict.fromkeys(plant for plant, _, _ in parts)), on=on, parts=parts)


def _care(desk: Desk, tasks: tuple[Task, ...]) -> tuple[tuple[Care, tuple[str, ...]], ...]:
    """Give what to mind tonight, each with its plants."""
    minded: dict[Care, list[str]] = {}
    for task in tasks:
        plant = desk.plant(task.plant)
        for care in care_of(desk.household, desk.knowledge, plant, task.method, task.product):
            minded.setdefault(care, []).append(plant.name)
    return tuple((care, tuple(dict.fromkeys(names))) for care, names in minded.items())


def _way(line: Line, desk: Desk) -> tuple[Level, str]:
    """Give how and where a plant is looked at: leaves above, where the roots are looked at besides."""
    if line.pest is None:
        return Level.PLAIN, USUAL_SPOTS
    looking = desk.knowledge.pests[line.pest].looking
    return looking.ask, looking.where


def _is_late(step: Step) -> bool:
    return step.lateness is not Lateness.ON_TIME


def _write(desk: Desk, nudge: NudgeText) -> None:
    mornings = {
        plant: placement.slot.start_at
        for placement in nudge.placements
        if placement.slot.kind is SlotKind.MORNING
        for plant in placement.plants
    }
    tasks = tuple(
        NudgedTask(
            plant=line.task.plant,
            method=line.task.method,
            product=line.task.product,
            from_at=mornings.get(line.task.plant) if line.task.product is not None else None,
        )
        for line in nudge.lines
    )
    draft = Draft(payload=Nudged(count=nudge.count, tasks=tasks), happened_at=desk.now, happened_on=nudge.on)
    desk.write([draft])
