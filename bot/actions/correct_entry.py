"""Put right, or take back, anything told on any day: it is shown with its date, and one tap changes it."""

from collections.abc import Callable
from datetime import date, datetime
from enum import Enum

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.decline import Decline
from bot.actions.desk import DATED_AT, Desk
from bot.actions.read_temperature import next_rounds
from bot.actions.show_history import describe, plant_name
from bot.domain.fold import valid
from bot.domain.identity import EntryId, PlantId, ProductId
from bot.domain.journal import (
    CheckedClean,
    Draft,
    Entry,
    Found,
    IsolatedNow,
    LostNow,
    Payload,
    PlantSet,
    ReleasedNow,
    SignSeen,
    Treated,
)
from bot.domain.trade import Level, Method, grade_of
from bot.domain.value import Value, replace


class Kind(Enum):
    TREATED = "treated"
    FOUND = "found"
    SIGN = "sign"
    LOOK = "look"
    MOVED = "moved"
    ISOLATED = "isolated"
    RELEASED = "released"
    LOST = "lost"


class Entered(Value, kw_only=True):
    """What is said of an entry; what is not said leaves it open, or as it is."""

    kind: Kind | None = None
    plant: PlantId | None = None
    plants: tuple[PlantId, ...] = ()
    """Several of which the same is said: the newest such entry of each is meant."""
    on: date | None = None
    method: Method | None = None
    product: ProductId | None = None
    count: int | None = None
    pest: str | None = None
    level: Level | None = None


class CorrectEntry(Command, kw_only=True):
    """What an earlier entry says, and what it should say; entry: the one that was shown."""

    of: Entered
    to: Entered
    entry: EntryId | None = None


class DeleteEntry(Command, kw_only=True):
    """An earlier entry was wrong altogether. entry: the one that was shown."""

    of: Entered
    entry: EntryId | None = None


class Line(Value, kw_only=True):
    """Entries that may be meant, newest first; becomes: what the only one would say."""

    what: str
    plant: str | None
    on: date
    count: int | None = None
    product: str | None = None
    by: str | None = None


class EntryAsked(Outcome):
    """Entries that may be meant, newest first; becomes: what a single one would say."""

    lines: tuple[Line, ...]
    becomes: Line | None
    more: int = 0
    """How many older ones fit too. [1]"""
    is_of_each: bool = False
    """Whether all of them are meant, one a plant."""


class NoSuchEntry(Outcome):
    """Nothing like that is written; what is, of that plant and day."""

    plant: str | None
    on: date | None
    instead: tuple[Line, ...]


class EntryChanged(Outcome, kw_only=True):
    """Entries now say something else, or nothing; what moved by it: plant, evening before, evening now."""

    before: tuple[Line, ...]
    after: tuple[Line, ...]
    moved: tuple[tuple[str, date | None, date | None], ...] = ()


_KINDS: dict[Kind, type] = {
    Kind.TREATED: Treated,
    Kind.FOUND: Found,
    Kind.SIGN: SignSeen,
    Kind.LOOK: CheckedClean,
    Kind.MOVED: PlantSet,
    Kind.ISOLATED: IsolatedNow,
    Kind.RELEASED: ReleasedNow,
    Kind.LOST: LostNow,
}
MOST_SHOWN = 4
"""Entries offered at once. Judgement: two rows of buttons."""
MOST_INSTEAD = 3


@performs
def correct_entry(command: CorrectEntry, desk: Desk) -> EntryAsked | NoSuchEntry | EntryChanged:
    """Show what is meant, and change it on one tap: the old entry is taken back and a new one is written."""
    return put_right(
        command, _meant(command.of, command.entry, desk), desk, is_sure=command.entry is not None
    )


def put_right(
    command: CorrectEntry, entries: list[Entry], desk: Desk, *, is_sure: bool
) -> EntryAsked | NoSuchEntry | EntryChanged:
    """Change entries that say something else; where that is not sure, show them first."""
    right = {one: _right(one, command, desk) for one in entries}
    meant = [one for one, now in right.items() if _told(now) != _told(one)]
    if not meant:
        return _none(command.of, desk)
    if is_sure:
        return _changed(meant, [right[one] for one in meant], desk)
    choices = _numbered(ButtonText.CHANGE_IT, meant, lambda one: replace(command, entry=one))
    becomes = _line(_as(meant[0], right[meant[0]]), desk) if len(meant) == 1 else None
    return _asked(meant, choices, becomes, desk)


@performs
def delete_entry(command: DeleteEntry, desk: Desk) -> EntryAsked | NoSuchEntry | EntryChanged:
    """Show what is meant, and take it back on one tap."""
    meant = _meant(command.of, command.entry, desk)
    if not meant:
        return _none(command.of, desk)
    if command.entry is None:
        several = tuple(replace(command, entry=one.id) for one in meant)
        them = Choice(ButtonText.DELETE_THEM, several), Choice(ButtonText.KEEP, (Decline(),))
        one_by_one = _numbered(ButtonText.DELETE_IT, meant, lambda one: replace(command, entry=one))
        is_of_each = bool(command.of.plants) and len(meant) > 1
        return _asked(meant, them if is_of_each else one_by_one, None, desk, is_of_each=is_of_each)
    return _changed(meant[:1], [], desk)


def is_written(of: Entered, desk: Desk) -> bool:
    """Whether an entry fits what is said of it."""
    return bool(_meant(of, None, desk))


def _meant(of: Entered, shown: EntryId | None, desk: Desk) -> list[Entry]:
    """Give the entries that fit what is said of them, newest first; what two people told alike once."""
    entries = valid(desk.entries)
    if shown is not None:
        return [entry for entry in entries if entry.id == shown]
    fitting = [entry for entry in entries if _fits(entry, of)]
    fitting.sort(key=lambda one: (one.happened_at, one.id), reverse=True)
    if of.plants:
        return list({one.plant: one for one in reversed(fitting)}.values())[::-1]
    return list({(one.plant, one.happened_on, one.payload): one for one in reversed(fitting)}.values())[::-1]


def _fits(entry: Entry, of: Entered) -> bool:
    payload = entry.payload
    if not isinstance(payload, tuple(_KINDS.values()) if of.kind is None else _KINDS[of.kind]):
        return False
    if isinstance(payload, PlantSet) and (payload.place is None or payload.name is not None):
        return False  # a plant told for the first time, or its pot
    said = {name: getattr(of, name) for name in ("method", "product", "count", "pest", "level")}
    return (
        (entry.plant in of.plants if of.plants else of.plant in {None, entry.plant})
        and of.on in {None, entry.happened_on}
        and all(value is None or getattr(payload, name, None) == value for name, value in said.items())
    )


def _right(entry: Entry, command: CorrectEntry, desk: Desk) -> Draft:
    """Make the entry as it should have been told, by whoever puts it right."""
    happened_at, happened_on = entry.happened_at, command.to.on or entry.happened_on
    if happened_on != entry.happened_on:
        happened_at = datetime.combine(happened_on, DATED_AT, desk.household.zone)
    return Draft(
        payload=_payload(entry.payload, command.to),
        happened_at=happened_at,
        happened_on=happened_on,
        member=desk.member.id,
        plant=command.to.plant if command.to.plant is not None else entry.plant,
    )


def _payload(payload: Payload, to: Entered) -> Payload:
    match payload:
        case Treated(method=method, product=product):
            return Treated(method=to.method or method, product=to.product or product)
        case Found(grade=grade, count=count, pest=pest):
            count, grade = (count, grade) if to.count is None else (to.count, grade_of(to.count))
            return replace(payload, count=count, grade=grade, pest=to.pest or pest)
        case CheckedClean(level=level):
            return CheckedClean(to.level or level)
        case _:
            return payload


def _told(one: Entry | Draft) -> tuple[Payload, PlantId | None, date]:
    return one.payload, one.plant, one.happened_on


def _as(entry: Entry, right: Draft) -> Entry:
    return replace(entry, payload=right.payload, plant=right.plant, happened_on=right.happened_on)


def _numbered(
    alone: ButtonText, meant: list[Entry], command: Callable[[EntryId], Command]
) -> tuple[Choice, ...]:
    """Offer the entries by their number in the list shown, one alone by what is done to it."""
    keep = Choice(ButtonText.KEEP, (Decline(),))
    if len(meant) == 1:
        return Choice(alone, (command(meant[0].id),)), keep
    shown = meant[:MOST_SHOWN]
    return (
        *(Choice(ButtonText.NAMED, (command(one.id),), str(number)) for number, one in enumerate(shown, 1)),
        keep,
    )


def _asked(
    meant: list[Entry],
    choices: tuple[Choice, ...],
    becomes: Line | None,
    desk: Desk,
    *,
    is_of_each: bool = False,
) -> EntryAsked:
    lines = tuple(_line(one, desk) for one in (meant if is_of_each else meant[:MOST_SHOWN]))
    return EntryAsked(lines, becomes, len(meant) - len(lines), is_of_each, asking=Asking(choices))


def _none(of: Entered, desk: Desk) -> NoSuchEntry:
    plants = Entered(plant=of.plant, plants=of.plants)
    near = _meant(replace(plants, on=of.on), None, desk) or _meant(plants, None, desk)
    plant = None if of.plant is None else desk.plant(of.plant).name
    return NoSuchEntry(plant, of.on, tuple(_line(one, desk) for one in near[:MOST_INSTEAD]))


def _changed(wrong: list[Entry], right: list[Draft], desk: Desk) -> EntryChanged:
    """Take back entries, and whoever told the same of that day; say which evenings move by it."""
    told = [_told(one) for one in wrong]
    alike = [one for one in valid(desk.entries) if _told(one) in told]
    lines, before = tuple(_line(one, desk) for one in wrong), next_rounds(desk)
    after = tuple(_line(_as(one, now), desk) for one, now in zip(wrong, right, strict=False))
    desk.write([*desk.voids(alike), *right])
    now = next_rounds(desk)
    moved = tuple(
        (desk.plant(plant).name, before.get(plant), now.get(plant))
        for plant in sorted({*before, *now})
        if before.get(plant) != now.get(plant)
    )
    return EntryChanged(before=lines, after=after, moved=moved)


def _line(entry: Entry, desk: Desk) -> Line:
    return Line(
        what=describe(entry),
        plant=plant_name(desk, entry),
        on=entry.happened_on,
        count=getattr(entry.payload, "count", None),
        product=desk.product_name(getattr(entry.payload, "product", None)),
        by=desk.authors.get(entry.member),
    )
