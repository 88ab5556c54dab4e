"""Files to take away: a calendar by RFC 5545, everything as JSON."""

import json
from datetime import timedelta

from bot.actions.export import AllExported, CalendarMade, PlannedEvening
from bot.wording.answer import Attachment
from bot.wording.asking import due_words
from bot.wording.days import counted
from bot.wording.saying import says
from bot.wording.voice import Voice

_LASTS = timedelta(minutes=30)
_TITLE = 60
"""As much of a title as a calendar shows of a day. Judgement. [1]"""


@says
def _calendar_made(told: CalendarMade) -> str:
    coming = [one for one in told.evenings if one.lines]
    if not coming:
        return "No evening is planned, so the calendar file holds none."
    return (
        f"{counted(len(coming), 'evening')} for your calendar, as it goes if all is done and no look finds any. A newer "
        "file moves them, and doubles none."
    )


def calendar_file(told: CalendarMade, voice: Voice) -> Attachment:
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
        words = [voice.local(line) for line in due_words(one.lines, voice)]
        title = _title(one, words)
        event.add("summary", title)
        event.add("status", "CONFIRMED" if one.lines else "CANCELLED")
        if words:
            event.add("description", "\n".join(line[:1].upper() + line[1:] for line in words))
            alarm = Alarm()
            alarm.add("action", "DISPLAY")
            alarm.add("description", title)
            alarm.add("trigger", timedelta(0))
            event.add_component(alarm)
        calendar.add_component(event)
    return Attachment("evenings.ics", calendar.to_ical())


def _title(evening: PlannedEvening, words: list[str]) -> str:
    """Say in short what an evening brings: in words, of many plants in numbers."""
    title = f"Plants: {' '.join(words)}" if words else "Plants: moved to another evening"
    if len(title) <= _TITLE:
        return title
    treated = {line.name for line in evening.lines if line.task.method is not None}
    looked = {line.name for line in evening.lines if line.task.method is None}
    parts = [f"treat {len(treated)}"] * bool(treated) + [f"look at {len(looked)}"] * bool(looked)
    return f"Plants: {', '.join(parts)}"


def everything_file(told: AllExported, _: Voice) -> Attachment:
    """Write the household as one document, which `python -m bot import` reads."""
    text = json.dumps(told.document, ensure_ascii=False, indent=1)
    return Attachment("household.json", text.encode())
