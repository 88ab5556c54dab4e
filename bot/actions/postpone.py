"""Put off what was asked tonight."""

from datetime import date, datetime, timedelta

from bot.actions.action import Command, Outcome, performs
from bot.actions.correct_entry import (
    DeleteEntry,
    Entered,
    EntryAsked,
    EntryChanged,
    NoSuchEntry,
    delete_entry,
    is_written,
)
from bot.actions.desk import Desk
from bot.actions.log_round import NothingDue, nothing_due
from bot.domain.course import Step, next_step
from bot.domain.gap import Lateness
from bot.domain.household import Plant
from bot.domain.identity import PlantId
from bot.domain.journal import Postponed
from bot.domain.value import replace


class Postpone(Command, kw_only=True):
    """Not tonight: another day, or later this evening (at)."""

    plants: tuple[PlantId, ...]
    on: date | None = None
    at: datetime | None = None
    denied: Entered | None = None
    """The treatment that was said not to be done: where it is written, that is shown instead."""


class PutOff(Outcome, kw_only=True):
    """Due on another day, or later this evening; costs names plants that run late by it."""

    moved: tuple[tuple[date, tuple[str, ...]], ...]
    """Plants by the evening they are asked for again."""
    at: datetime | None
    costs: tuple[tuple[str, Step], ...]


@performs
def postpone(command: Postpone, desk: Desk) -> PutOff | NothingDue | EntryAsked | NoSuchEntry | EntryChanged:
    """Write the day or hour it moves to, and say who runs late by it."""
    if command.denied is not None and is_written(command.denied, desk):
        return delete_entry(DeleteEntry(of=command.denied), desk)
    if command.denied is not None and not any(desk.evening.is_named(plant) for plant in command.plants):
        before = replace(command.denied, on=None)  # nothing was asked of it tonight
        if is_written(before, desk):
            return delete_entry(DeleteEntry(of=before), desk)
    on = command.on or desk.today
    if on < desk.today:
        on = desk.today + timedelta(days=1)  # an old evening's words, said of tonight
    plants = [plant for plant in dict.fromkeys(command.plants) if _is_open(plant, on, desk)]
    if not plants:
        return nothing_due(desk)
    desk.write(desk.draft(Postponed(on=on, at=command.at), plant=plant) for plant in plants)
    costs = [(desk.plant(plant).name, _late_step(desk, desk.plant(plant), on)) for plant in plants]
    evenings: dict[date, list[PlantId]] = {}
    for plant in plants:
        evenings.setdefault(on if command.at else _next_on(plant, on, desk), []).append(plant)
    return PutOff(
        moved=tuple((evening, desk.names(names)) for evening, names in sorted(evenings.items())),
        at=command.at,
        costs=tuple((name, step) for name, step in costs if step is not None),
    )


def _next_on(plant: PlantId, on: date, desk: Desk) -> date:
    """Give the evening it is asked for again, as "what's due" says it."""
    return next(
        (one.on for one in desk.agenda.evenings if any(task.plant == plant for task in one.tasks)), on
    )


def _is_open(plant: PlantId, on: date, desk: Desk) -> bool:
    """Whether anything of the plant is due before, or put off already: what is done cannot be put off."""
    until = desk.plant(plant).postponed_to
    return (until is not None and until >= desk.today) or any(
        task.plant == plant
        for evening in desk.agenda.evenings
        if evening.on < on or evening.on == desk.today
        for task in evening.tasks
    )


def _late_step(desk: Desk, plant: Plant, day: date) -> Step | None:
    """Give the step that would be late on the day it is put off to."""
    for case in plant.open_cases:
        step = next_step(desk.outbreak(plant.id, case, day))
        if step is not None and step.lateness is not Lateness.ON_TIME:
            return step
    return None
