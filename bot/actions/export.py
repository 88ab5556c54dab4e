"""Files of what is planned and what was told: a calendar, a table, everything."""

from collections.abc import Mapping
from datetime import date, datetime, timedelta
from enum import Enum

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.actions.show_due import DueLine, due_lines
from bot.domain.ahead import ahead
from bot.domain.fold import fold_on, valid
from bot.domain.household import Household
from bot.domain.identity import MemberId, ProductId
from bot.domain.journal import CalendarGiven, Entry, Heard, Nudged, Voided
from bot.domain.value import Value


class ExportKind(Enum):
    """What a file is to hold."""

    CALENDAR = "calendar"
    TABLE = "table"
    ALL = "all"


class Export(Command):
    """A file of what is planned or was told; without a kind it is asked."""

    kind: ExportKind | None = None


class PlannedEvening(Value):
    """An evening of a calendar file: what is due, and when it begins; nothing due takes it back."""

    on: date
    at: datetime
    lines: tuple[DueLine, ...]


class CalendarMade(Outcome):
    """The coming evenings as a file."""

    household: int
    zone: str
    made_at: datetime
    evenings: tuple[PlannedEvening, ...]


class TableMade(Outcome):
    """The journal line by line, each with whether it still counts, and by what names it is told."""

    rows: tuple[tuple[Entry, bool], ...]
    household: Household
    members: Mapping[MemberId | None, str]
    products: Mapping[ProductId, str]


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
            return _table(desk)
        case ExportKind.ALL:
            document = desk.store.exported(desk.member.household)
            return AllExported(document, len(desk.entries))


def _calendar(desk: Desk) -> CalendarMade:
    """Name the coming evenings; those an earlier file named and that moved since are taken back."""
    household = desk.household
    coming = ahead(fold_on(desk.entries), desk.knowledge, desk.today)
    evenings = {evening.on: due_lines(desk, evening.tasks) for evening in coming}
    named_before = {on for on in household.calendar if on >= desk.today - TAKEN_BACK_FOR}
    gone = {on: () for on in named_before if on >= desk.today and on not in evenings}
    planned = tuple(
        PlannedEvening(on, datetime.combine(on, household.evening, household.zone), lines)
        for on, lines in sorted({**evenings, **gone}.items())
    )
    desk.write([desk.draft(CalendarGiven(tuple(sorted(evenings))))])
    return CalendarMade(desk.member.household, household.zone_name, desk.now, planned)


def _table(desk: Desk) -> TableMade:
    entries = desk.entries
    counted = {entry.id for entry in valid(entries)}
    return TableMade(
        tuple(
            (entry, entry.id in counted)
            for entry in entries
            if not isinstance(entry.payload, Heard | Nudged | Voided)
        ),
        desk.household,
        {member.id: member.name for member in desk.members},
        {product: desk.product_name(product) or "" for product in desk.household.products},
    )
