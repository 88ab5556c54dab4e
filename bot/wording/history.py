"""What was told, in words, and entries of any day put right."""

from collections.abc import Iterable
from datetime import date

from bot.actions.correct_entry import EntryAsked, EntryChanged, Line, NoSuchEntry
from bot.actions.deny import LastTold
from bot.actions.say_anew import SaidAnew
from bot.actions.show_history import DidOn, History, LastTreated, OfEntries, ToldAlready
from bot.actions.undo import BehindTheReturn, OldToUndo, ToldSince, Undone
from bot.domain.trade import Method
from bot.wording.acts import DONE
from bot.wording.days import day, near_day
from bot.wording.lines import AFTER
from bot.wording.saying import says, says_at_length, says_shortly
from bot.wording.voice import Voice

TOLD = {
    "LineTaken": "taken on for the evening",
    "HouseholdSet": "settings",
    "PlaceSet": "a place",
    "PlaceGone": "a place removed",
    "PlantRenamed": "another name",
    "Described": "what it is like",
    "Potted": "a pot",
    "PlantSet": "new",
    "Moved": "a change of place",
    "ProductSet": "a product on the shelf",
    "SignSeen": "a sign",
    "CheckedClean": "none seen",
    "Postponed": "put off",
    "IsolatedNow": "kept apart",
    "ReleasedNow": "back with the others",
    "LostNow": "gone",
    "PestCorrected": "another pest",
    "TemperatureRead": "a temperature",
    "RoutineSet": "a habit",
    "HeldUntil": "a pause",
    "WalkBegun": "a walk",
    "WalkPassed": "passed by",
    "WalkEnded": "the end of the walk",
    "PhotoTaken": "a photo",
    "Watered": "watered",
    "CalendarGiven": "a calendar file",
    "SprayUsed": "spray used",
    "LeafCounted": "a leaf counted",
    "UsualByMonth": "a usual temperature",
    "WorkBegun": "a work day",
    "WorkTicked": "a stage of the work day",
    "WorkEnded": "the end of the work day",
}


def told_words(key: str) -> str:
    kind, _, detail = key.partition(":")
    if kind == "Treated":
        return DONE[Method(detail)]
    if kind == "Found":
        return detail.replace("_", " ")
    return TOLD.get(kind, kind)


def _lines(
    told: Iterable[tuple[date, str | None, str, str | None]], voice: Voice, *, is_dated: bool = True
) -> list[str]:
    """Word entries in their order, plants of which the same was told together."""
    alike: dict[tuple[date, str, str | None], list[str]] = {}
    for on, plant, key, who in told:
        names = alike.setdefault((on, key, who), [])
        names += [plant] if plant and plant not in names else []
    return [
        f"{_dated(on, voice) if is_dated else ''}{voice.plants(names) + ' ' if names else ''}{told_words(key)}"
        + (f" ({who})" if who else "")
        for (on, key, who), names in alike.items()
    ]


def _dated(on: date, voice: Voice) -> str:
    return f"{'today' if on == voice.today else day(on)}: "


def _what(told: Iterable[tuple[str, str | None, date]], voice: Voice) -> str:
    return "; ".join(_lines([(on, plant, key, None) for key, plant, on in told], voice))


@says_shortly
def _undone(told: Undone, voice: Voice) -> str:
    return f"Taken back: {_what(told.what, voice)}."


_OF_ENTRIES: dict[type[OfEntries], str] = {
    SaidAnew: "Instead of what that message said before ({}):",
    LastTold: "The last you told me: {}. Take that back? Nothing is changed yet.",
    OldToUndo: "The last you told is from an earlier day: {}. Take that back? Nothing is changed yet.",
    ToldAlready: "That stood there already ({}): nothing is written twice.",
    BehindTheReturn: "You are back, and that stays; “stop” rests again. Before it you told: {}. Take that back? Nothing is changed yet.",
    ToldSince: "You told more since, so nothing is taken back. The last now is {}; “undo” takes that.",
}


@says
def _of_entries(
    told: SaidAnew | LastTold | OldToUndo | ToldAlready | BehindTheReturn | ToldSince, voice: Voice
) -> str:
    return _OF_ENTRIES[type(told)].format(_what(told.what, voice))


@says_at_length
def _history(told: History, voice: Voice) -> str:
    return "\n".join(_lines(reversed(told.lines), voice)) or "Nothing is written for that time."


@says
def _last_treated(told: LastTreated, voice: Voice) -> str:
    if not told.lines:
        whom = f" {voice.plants(told.plants)} was not" if told.plants else " nothing was"
        return f"By my notes{whom} treated yet."
    return "Last treated:\n" + "\n".join(_lines(reversed(told.lines), voice))


@says_shortly
def _did_on(told: DidOn, voice: Voice) -> str:
    is_one = told.since == told.until
    when = near_day(told.until, voice.today) if is_one else f"{day(told.since)} to {day(told.until)}"
    if not told.lines:
        return f"Nothing is written{f' of {told.who}' if told.who else ''} for {when}."
    head = f"{told.who}, {when}:" if told.who else f"{when[:1].upper()}{when[1:]}:"
    return "\n".join([head, AFTER, *_lines(reversed(told.lines), voice, is_dated=not is_one)])


@says
def _entry_asked(told: EntryAsked, voice: Voice) -> str:
    if len(told.lines) == 1:
        becomes = f"\nIt would say: {_line(told.becomes, voice)}." if told.becomes is not None else ""
        return f"Written is: {_line(told.lines[0], voice)}.{becomes}\nNothing is changed yet."
    if told.is_of_each:
        return "\n".join(
            ["Written is:", *(_line(line, voice) for line in told.lines), "Nothing is changed yet."]
        )
    lines = [f"{number}. {_line(line, voice)}" for number, line in enumerate(told.lines, 1)]
    more = f"\nAnd {told.more} older; say the day to get at them." if told.more else ""
    return "\n".join(["Which one? Nothing is changed yet.", *lines]) + more


@says
def _no_such_entry(told: NoSuchEntry, voice: Voice) -> str:
    of = f" of {told.plant}" if told.plant is not None else ""
    on = f" for {near_day(told.on, voice.today)}" if told.on is not None else ""
    if not told.instead:
        return f"Nothing is written{of}{on}, so nothing is changed."
    return "\n".join(
        [f"I find nothing like that{of}{on}, so nothing is changed. Written is:"]
        + [_line(line, voice) for line in told.instead]
    )


@says
def _entry_changed(told: EntryChanged, voice: Voice) -> str:
    before, after = (
        ", ".join([*(_line(one, voice) for one in lines[:1]), *map(_of_line, lines[1:])])
        for lines in (told.before, told.after)
    )
    head = f"Changed: {after}.\nBefore it said: {before}." if after else f"Deleted: {before}."
    moves = [f"{plant}: next treatment {_on(new)}, not {_on(old)}." for plant, old, new in told.moved]
    return "\n".join([head, *(moves or ["No evening moves by it."])])


def _on(on: date | None) -> str:
    return "none" if on is None else day(on)


def _line(line: Line, voice: Voice) -> str:
    plant, by = f"{line.plant or ''} ".lstrip(), f" by {line.by}" if line.by is not None else ""
    return f"{near_day(line.on, voice.today)}: {plant}{_of_line(line)}{by}"


def _of_line(line: Line) -> str:
    count = f"{line.count} " if line.count is not None else ""
    product = f" ({line.product})" if line.product is not None else ""
    return f"{count}{told_words(line.what)}{product}"
