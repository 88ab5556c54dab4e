"""Undo and correct: entries are never deleted, they are voided by later ones."""

from dataclasses import replace
from datetime import date

from bot.actions.button_texts import ButtonText
from bot.actions.commands import Choice, Correct, Decline, Undo
from bot.actions.desk import Desk
from bot.actions.outcomes import CorrectedTo, NothingToUndo, OldToUndo, ToldSince, Undone, WhichOneMeant
from bot.actions.situation import Expecting
from bot.domain.household import effective, valid
from bot.domain.identity import PlantId
from bot.domain.journal import (
    CalendarGiven,
    CheckedClean,
    Draft,
    Entry,
    Found,
    Heard,
    HouseholdSet,
    IsolatedNow,
    LostNow,
    Nudged,
    PestCorrected,
    PhotoTaken,
    PlaceGone,
    PlaceSet,
    PlantSet,
    Postponed,
    ReleasedNow,
    SignSeen,
    SilenceAsked,
    Treated,
    Voided,
    WalkBegun,
    WalkEnded,
    WalkPassed,
    WorkEnded,
    WorkTicked,
    evening_of,
)
from bot.domain.trade import grade_of

OF_A_PLANT = (
    Found,
    PhotoTaken,
    SignSeen,
    CheckedClean,
    Treated,
    Postponed,
    IsolatedNow,
    ReleasedNow,
    LostNow,
)
"""What can have been told of the wrong plant."""


_NO_HISTORY = (
    Heard,
    SilenceAsked,
    CalendarGiven,
    Nudged,
    HouseholdSet,
    PlaceSet,
    PlaceGone,
    WorkTicked,
    WorkEnded,
    WalkBegun,
    WalkPassed,
    WalkEnded,
)


def undo(command: Undo, desk: Desk) -> Undone | OldToUndo | ToldSince | NothingToUndo:
    """
    Take back the last thing this person told, as a group; a correction gives what it corrected.

    What was told on an earlier evening is shown first: whoever says "undo" has the last minutes in mind.
    """
    group = _last_group(desk, with_voids=True)
    if not group:
        return NothingToUndo()
    told = [entry for entry in group if not isinstance(entry.payload, Voided)]
    what = tuple((describe(entry), _plant_name(desk, entry), entry.happened_on) for entry in told)
    if command.shown and command.shown != group[-1].source:
        return ToldSince(what)
    if not command.shown and evening_of(group[-1].recorded_at, desk.household.zone) < desk.today:
        choices = (
            Choice(ButtonText.TAKE_BACK, (Undo(shown=group[-1].source),)),
            Choice(ButtonText.KEEP, (Decline(),)),
        )
        desk.store.ask(desk.member.household, desk.member.chat, Expecting.CHOICE, choices, desk.now)
        return OldToUndo(what)
    desk.write(_voids(desk, group))
    return Undone(what)


def correct(command: Correct, desk: Desk) -> CorrectedTo | NothingToUndo | WhichOneMeant:
    """Say again what was told last, for another plant, another pest or of another number."""
    if command.pest is not None and command.plant is not None:
        return _correct_pest(command.plant, command.pest, desk)
    if command.count is not None:
        return _correct_count(command.count, command.plant, desk)
    group = _last_group(desk)
    moved = [entry for entry in group if isinstance(entry.payload, OF_A_PLANT)]
    if not moved or len(moved) < len(group) or command.plant is None:
        return NothingToUndo()
    plants = {entry.plant for entry in moved}
    if len(plants) > 1:
        return WhichOneMeant(desk.names(plant for plant in plants if plant is not None))
    again = [_again(entry, desk, plant=command.plant) for entry in moved]
    desk.write([*_voids(desk, moved), *again])
    return CorrectedTo(desk.plant(command.plant).name, None)


def _correct_count(
    count: int, plant: PlantId | None, desk: Desk
) -> CorrectedTo | NothingToUndo | WhichOneMeant:
    finds = [entry for entry in _last_group(desk) if isinstance(entry.payload, Found)]
    finds = [entry for entry in finds if plant is None or entry.plant == plant]
    if not finds:
        return NothingToUndo()
    if len(finds) > 1:
        return WhichOneMeant(desk.names(entry.plant for entry in finds if entry.plant is not None))
    (wrong,) = finds
    assert isinstance(wrong.payload, Found)
    assert wrong.plant is not None
    right = replace(wrong.payload, count=count, grade=grade_of(count))
    desk.write([*_voids(desk, finds), replace(_again(wrong, desk, plant=wrong.plant), payload=right)])
    return CorrectedTo(desk.plant(wrong.plant).name, None, count)


def _again(entry: Entry, desk: Desk, *, plant: PlantId) -> Draft:
    return Draft(
        payload=entry.payload,
        happened_at=entry.happened_at,
        happened_on=entry.happened_on,
        member=desk.member.id,
        plant=plant,
    )


def _correct_pest(plant: PlantId, pest: str, desk: Desk) -> CorrectedTo | NothingToUndo:
    if not desk.plant(plant).open_cases:
        return NothingToUndo()
    desk.write([desk.draft(PestCorrected(pest), plant=plant)])
    return CorrectedTo(desk.plant(plant).name, desk.knowledge.pests[pest].name)


def _last_group(desk: Desk, *, with_voids: bool = False) -> list[Entry]:
    """Give what this person told last; what only took something back is nothing told."""
    mine = [
        entry
        for entry in effective(desk.store.entries(desk.member.household))
        if entry.member == desk.member.id and not isinstance(entry.payload, Heard | Nudged | CalendarGiven)
    ]
    told = [entry for entry in mine if not isinstance(entry.payload, Voided)]
    if not told:
        return []
    group = mine if with_voids else told
    return [entry for entry in group if entry.source == told[-1].source]


def _voids(desk: Desk, group: list[Entry]) -> list[Draft]:
    return [replace(desk.draft(Voided()), void_of=entry.id) for entry in group]


def _plant_name(desk: Desk, entry: Entry) -> str | None:
    if entry.plant is None or entry.plant not in desk.household.plants:
        return None
    return desk.household.plants[entry.plant].name


def describe(entry: Entry) -> str:
    """Give the wording's key for what an entry told: its kind, with the method or pest where it has one."""
    kind = type(entry.payload).__name__
    match entry.payload:
        case Found(pest=pest):
            return f"Found:{pest}"
        case PlantSet(name=None, place=None, pot_cm=None):
            return "Described"
        case PlantSet(name=None, place=None):
            return "Potted"
        case PlantSet(name=None):
            return "Moved"
        case payload if hasattr(payload, "method"):
            return f"Treated:{payload.method.value}"
        case _:
            return kind


def history_lines(
    desk: Desk, plant: PlantId | None, since: date
) -> list[tuple[date, str | None, str, str | None]]:
    """
    Give what was told of plants and the shelf since a day, oldest first; settings are no history.

    The last of each line is who told it, where several share the plants.
    """
    members = desk.store.members(desk.member.household)
    names = {one.id: one.name for one in members} if len(members) > 1 else {}
    entries = sorted(
        valid(desk.store.entries(desk.member.household)), key=lambda one: (one.happened_at, one.id)
    )
    return [
        (
            entry.happened_on,
            _plant_name(desk, entry),
            describe(entry),
            names.get(entry.member) if entry.member is not None else None,
        )
        for entry in entries
        if entry.happened_on >= since
        and not isinstance(entry.payload, _NO_HISTORY)
        and (plant is None or entry.plant == plant)
    ]
