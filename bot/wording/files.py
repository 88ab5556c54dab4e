"""Files to take away: a calendar by RFC 5545, the journal as a table by RFC 4180, everything as JSON."""

import csv
import io
import json
from collections.abc import Callable, Iterator, Mapping
from datetime import timedelta
from decimal import Decimal
from typing import Any

from bot.actions.export import AllExported, CalendarMade, PlannedEvening, TableMade
from bot.actions.show_history import describe
from bot.domain.journal import Entry, Found, RoutineSet
from bot.domain.measure import Tool, Units
from bot.domain.value import names_of
from bot.domain.workday import Stage
from bot.wording.answer import Attachment
from bot.wording.asking import due_words
from bot.wording.days import counted, day, listed, month
from bot.wording.describing import ANIMALS, TRAITS, rule_words
from bot.wording.history import told_words
from bot.wording.labels import label_facts
from bot.wording.looks import GRADES, LEVELS
from bot.wording.mixing import TOOLS
from bot.wording.saying import says
from bot.wording.setting_up import FACINGS, OUTDOORS
from bot.wording.setting_up import UNITS as MEASURES
from bot.wording.voice import Voice
from bot.wording.walking import HEADS

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


HEAD = ("day", "time", "who", "plant", "what", "details", "note")
_DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A table program takes a cell that begins so for a formula."""

UNSAID = {"method", "ingredient", "photo", "zone", "latitude", "longitude"}
"""What other words say already, or is no word of anybody's."""
_Says = Callable[[Any, Voice], str]
FIELDS: Mapping[str, _Says] = {
    "after": lambda number, _: f"{number} after",
    "animals": lambda keys, _: listed(ANIMALS[key] for key in keys) or "no animals",
    "apart": lambda is_apart, _: "" if is_apart else "cannot be moved",
    "at": lambda at, voice: voice.clock(at),
    "before": lambda number, _: f"{number} before",
    "by_rule": lambda is_ruled, _: "all-clear" if is_ruled else "before the all-clear",
    "celsius": lambda celsius, voice: voice.warmth(celsius),
    "clock_hours": lambda hours, _: f"a clock of {hours} hours",
    "count": lambda number, _: str(number),
    "evening": lambda at, voice: f"evening at {voice.clock(at)}",
    "evenings": lambda days, _: listed(map(day, days)),
    "facing": lambda facing, _: FACINGS[facing],
    "grade": lambda grade, _: GRADES[grade],
    "high": lambda celsius, voice: f"at most {voice.warmth(celsius)}",
    "is_left_out": lambda is_left_out, _: "left out" if is_left_out else "done",
    "is_own": lambda is_own, _: "for one alone" if is_own else "",
    "kind": lambda key, _: _words(key),
    "label": lambda label, voice: listed(label_facts(label, voice)),
    "lamp_from": lambda at, voice: f"grow light from {voice.clock(at)}",
    "lamp_until": lambda at, voice: f"grow light until {voice.clock(at)}",
    "low": lambda celsius, voice: f"at least {voice.warmth(celsius)}",
    "level": lambda level, _: LEVELS[level],
    "ml": lambda ml, voice: voice.volume(ml),
    "months": lambda numbers, _: listed(month(one) for one in numbers) if numbers[11:] == () else "all year",
    "name": lambda name, _: f"called {name}",
    "on": lambda on, _: f"to {day(on)}",
    "pest": lambda key, _: _words(key),
    "outdoors": lambda outdoors, _: OUTDOORS[outdoors],
    "pot_cm": lambda cm, voice: f"a pot of {voice.length(cm)}",
    "quarantine_days": lambda days, _: f"for {counted(days, 'day')}",
    "quiet_from": lambda at, voice: f"quiet from {voice.clock(at)}",
    "quiet_until": lambda at, voice: f"quiet until {voice.clock(at)}",
    "repeats": lambda is_wanted, _: "a second message" if is_wanted else "one message an evening",
    "rule": lambda rule, _: rule_words(rule) if rule else "none any more",
    "sign": lambda sign, _: sign.value.replace("-", " "),
    "stage": lambda stage, _: HEADS[Stage(stage)],
    "status": lambda is_wanted, _: "a pinned message" if is_wanted else "no pinned message",
    "stock_ml": lambda ml, voice: voice.volume(Decimal(str(ml))) if ml else "none left",
    "strict": lambda is_strict, _: "the strict rule" if is_strict else "the usual rule",
    "tools": lambda keys, _: listed(TOOLS[Tool(key)] for key in keys),
    "town": lambda town, _: town,
    "traits": lambda keys, _: listed(TRAITS.get(key, _words(key)) for key in keys),
    "units": lambda units, _: MEASURES[Units(units)],
    "until": lambda until, _: f"until {day(until)}",
    "usual_c": lambda celsius, voice: f"usually {voice.warmth(celsius)}",
    "where": lambda where, _: f"in the {where}",
}
"""Each field of an entry in words; places, plants and products by their names."""


def table_file(told: TableMade, voice: Voice) -> Attachment:
    """Write the journal as a table; no cell can act as a formula. Days come as a table program sorts and shows them."""
    held = io.StringIO()
    writer = csv.writer(held)
    writer.writerow(HEAD)
    home = told.household
    unsaid = {
        "",
        *(FIELDS["name"](one.name, voice) for one in home.places.values()),
        *(FIELDS["name"](one.name, voice) for one in home.plants.values()),
    }
    for entry, is_counted in told.rows:
        plant = home.plants.get(entry.plant) if entry.plant is not None else None
        row = (
            entry.happened_on.isoformat(),
            voice.clock(entry.happened_at),
            told.members.get(entry.member, ""),
            "" if plant is None else plant.name,
            told_words(describe(entry)),
            voice.local("; ".join(one for one in _details(entry, told, voice) if one not in unsaid)),
            "" if is_counted else "taken back",
        )
        writer.writerow([harmless(cell) for cell in row])
    return Attachment("journal.csv", held.getvalue().encode("utf-8-sig"))


def harmless(cell: str) -> str:
    """Put an apostrophe before what a table program would take for a formula."""
    return f"'{cell}" if cell.startswith(_DANGEROUS) else cell


def _details(entry: Entry, told: TableMade, voice: Voice) -> Iterator[str]:
    places, plants = told.household.places, told.household.plants
    for name in names_of(entry.payload):
        value = getattr(entry.payload, name)
        match name, value:
            case _, None | ():
                pass
            case "place", number:
                yield places[number].name if number in places else "a place that is gone"
            case "product", number:
                yield told.products.get(number, "")
            case (("plants" | "cleaned_out"), numbers):
                yield voice.plants([plants[number].name for number in numbers if number in plants])
            case "name", _ if isinstance(entry.payload, RoutineSet):
                pass
            case "pest", _ if isinstance(entry.payload, Found):
                pass
            case "grade", _ if isinstance(entry.payload, Found) and entry.payload.count is not None:
                pass
            case _ if name not in UNSAID:
                yield FIELDS[name](value, voice)
            case _:
                pass


def _words(key: str) -> str:
    return key.replace("_", " ")
