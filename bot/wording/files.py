"""Files to take away: a calendar by RFC 5545, a table by RFC 4180, everything as JSON."""

import csv
import io
import json
from collections.abc import Iterable
from datetime import timedelta

from bot.actions.export import AllExported, CalendarMade, TableMade
from bot.actions.show_due import DueLine
from bot.wording.answer import Attachment
from bot.wording.days import counted, listed
from bot.wording.saying import says

HEAD = ("day", "time", "who", "plant", "what", "details", "note")
_DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A table program takes a cell that begins so for a formula."""
_LASTS = timedelta(minutes=30)


@says
def calendar_made(told: CalendarMade) -> str:
    """Say what the file holds."""
    coming = [one for one in told.evenings if one.lines]
    if not coming:
        return "No evening is planned, so the calendar file holds none."
    return (
        f"{counted(len(coming), 'evening')} for your calendar. Opening a newer file moves them along; it does not "
        "double them."
    )


def calendar_file(told: CalendarMade) -> Attachment:
    """Write one event an evening, with an alarm, in the household's zone; evenings that moved are cancelled."""
    from icalendar import Alarm, Calendar, Event, Timezone  # noqa: PLC0415 - on demand

    calendar = Calendar()
    calendar.add("prodid", "-//Duskround//evenings//EN")
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    if told.evenings:
        first, last = told.evenings[0].on, told.evenings[-1].on
        zone = Timezone.from_tzid(
            told.zone, first_date=first - timedelta(days=1), last_date=last + timedelta(days=366)
        )
        calendar.add_component(zone)
    for one in told.evenings:
        event = Event()
        event.add("uid", f"{one.on.isoformat()}.home{told.household}@duskround")
        event.add("dtstamp", told.made_at)
        event.add("last-modified", told.made_at)
        event.add("sequence", int(told.made_at.timestamp()) // 60)
        event.add("dtstart", one.at)
        event.add("dtend", one.at + _LASTS)
        event.add("summary", _summary(one.lines) if one.lines else "Plants: moved to another evening")
        event.add("status", "CONFIRMED" if one.lines else "CANCELLED")
        if one.lines:
            alarm = Alarm()
            alarm.add("action", "DISPLAY")
            alarm.add("description", _summary(one.lines))
            alarm.add("trigger", timedelta(0))
            event.add_component(alarm)
        calendar.add_component(event)
    return Attachment("evenings.ics", calendar.to_ical())


def _summary(lines: Iterable[DueLine]) -> str:
    groups: dict[str, list[str]] = {}
    for line in lines:
        what = line.task.method.value if line.task.method is not None else "look at"
        groups.setdefault(what, []).append(line.name)
    return "Plants: " + "; ".join(f"{what} {listed(names)}" for what, names in groups.items())


def table_file(told: TableMade) -> Attachment:
    """Write the journal as a table; no cell can act as a formula."""
    held = io.StringIO()
    writer = csv.writer(held)
    writer.writerow(HEAD)
    writer.writerows([harmless(cell) for cell in row] for row in told.rows)
    return Attachment("journal.csv", held.getvalue().encode("utf-8-sig"))


def harmless(cell: str) -> str:
    """Put an apostrophe before what a table program would take for a formula."""
    return f"'{cell}" if cell.startswith(_DANGEROUS) else cell


def everything_file(told: AllExported) -> Attachment:
    """Write the household as one document, which `python -m bot import` reads."""
    text = json.dumps(told.document, ensure_ascii=False, indent=1)
    return Attachment("household.json", text.encode())


@says
def _table_made(told: TableMade) -> str:
    return f"The journal as a table, {counted(len(told.rows), 'line')}. Lines taken back are marked."


@says
def _all_exported(told: AllExported) -> str:
    return f"Everything told of this home, {counted(told.entries, 'entry', 'entries')}, without anybody's account and without the photos."
