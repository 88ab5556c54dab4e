"""Files of what is planned and what was told: a calendar, a table, everything."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import date, datetime, time, timedelta
from enum import Enum

from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.actions.outcome import Asking, Outcome
from bot.actions.show_due import DueLine, due_lines
from bot.domain.fold import valid
from bot.domain.journal import CalendarGiven, Entry, Heard, Nudged, Voided


class ExportKind(Enum):
    """What a file is to hold."""

    CALENDAR = "calendar"
    TABLE = "table"
    ALL = "all"


@dataclass(frozen=True, slots=True)
class Export(Command):
    """A file of what is planned or was told; without a kind it is asked."""

    kind: ExportKind | None = None


@dataclass(frozen=True, slots=True)
class PlannedEvening:
    """An evening of a calendar file: what is due, and when it begins; nothing due takes it back."""

    on: date
    at: datetime
    lines: "tuple[DueLine, ...]"


@dataclass(frozen=True, slots=True)
class CalendarMade(Outcome):
    """The coming evenings as a file."""

    household: int
    zone: str
    made_at: datetime
    evenings: tuple[PlannedEvening, ...]


@dataclass(frozen=True, slots=True)
class TableMade(Outcome):
    """The journal as rows: day, time, who, plant, what, details, whether it was taken back."""

    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class AllExported(Outcome):
    """The household as one document."""

    document: Mapping[str, object]
    entries: int


KINDS = (
    (ButtonText.CALENDAR, ExportKind.CALENDAR),
    (ButtonText.TABLE, ExportKind.TABLE),
    (ButtonText.EVERYTHING, ExportKind.ALL),
)


TAKEN_BACK_FOR = timedelta(days=90)
"""Evenings that calendar files named are taken back as long as they lie less far behind. Judgement."""


@performs
def export(command: Export, desk: Desk) -> CalendarMade | TableMade | AllExported | Asks:
    """Make a file, or ask which."""
    match command.kind:
        case None:
            choices = tuple(Choice(text, (Export(kind),)) for text, kind in KINDS)
            return Asks(Missing.EXPORT, asking=Asking(choices))
        case ExportKind.CALENDAR:
            return _calendar(desk)
        case ExportKind.TABLE:
            return TableMade(tuple(_rows(desk)))
        case ExportKind.ALL:
            document = desk.store.exported(desk.member.household)
            return AllExported(document, len(desk.entries))


def _calendar(desk: Desk) -> CalendarMade:
    """Name the coming evenings; those an earlier file named and that moved since are taken back."""
    household = desk.household
    evenings = {evening.on: due_lines(desk, evening.tasks) for evening in desk.agenda.evenings}
    named_before = {on for on in household.calendar if on >= desk.today - TAKEN_BACK_FOR}
    gone = {on: () for on in named_before if on >= desk.today and on not in evenings}
    planned = tuple(
        PlannedEvening(on, _begins_at(on, household.evening, desk), lines)
        for on, lines in sorted({**evenings, **gone}.items())
    )
    desk.write([desk.draft(CalendarGiven(tuple(sorted(evenings))))])
    return CalendarMade(desk.member.household, household.zone_name, desk.now, planned)


def _begins_at(on: date, evening: time, desk: Desk) -> datetime:
    return datetime.combine(on, evening, desk.household.zone)


def _rows(desk: Desk) -> list[tuple[str, ...]]:
    entries = desk.entries
    counted = {entry.id for entry in valid(entries)}
    names = {member.id: member.name for member in desk.store.members(desk.member.household)}
    told = [entry for entry in entries if not isinstance(entry.payload, Heard | Nudged | Voided)]
    zone = desk.household.zone
    return [
        (
            entry.happened_on.isoformat(),
            entry.happened_at.astimezone(zone).strftime("%H:%M"),
            names.get(entry.member, "") if entry.member is not None else "",
            desk.household.plants[entry.plant].name if entry.plant in desk.household.plants else "",
            _kind(entry),
            _details(entry, desk),
            "" if entry.id in counted else "taken back",
        )
        for entry in told
    ]


def _kind(entry: Entry) -> str:
    name = type(entry.payload).__name__
    return "".join(f" {letter.lower()}" if letter.isupper() else letter for letter in name).strip()


def _details(entry: Entry, desk: Desk) -> str:
    told = [(one.name, getattr(entry.payload, one.name)) for one in fields(entry.payload)]
    return "; ".join(f"{name}={_value(name, value, desk)}" for name, value in told if value not in {None, ()})


def _value(name: str, value: object, desk: Desk) -> str:
    """Say a value by the name people gave it, where it is a number of ours."""
    household = desk.household
    match name, value:
        case ("place", int(number)) if number in household.places:
            return household.places[number].name  # type: ignore[index]
        case ("product", int(number)):
            return desk.product_name(number) or str(number)  # type: ignore[arg-type]
        case (("plants" | "cleaned_out"), tuple(numbers)):
            return ", ".join(household.plants[one].name for one in numbers if one in household.plants)
        case (_, Enum() as one):
            return str(one.value)
        case (_, tuple(values)):
            return ", ".join(str(one) for one in values)
        case _:
            return str(value)
