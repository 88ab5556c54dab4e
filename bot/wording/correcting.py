"""Entries of any day, shown, put right and taken back."""

from datetime import date

from bot.actions.correct_entry import EntryAsked, EntryChanged, Line, NoSuchEntry
from bot.wording.days import day, near_day
from bot.wording.history import told_words
from bot.wording.saying import says
from bot.wording.voice import Voice


@says
def _entry_asked(told: EntryAsked, voice: Voice) -> str:
    if len(told.lines) == 1:
        becomes = f"\nIt would say: {_words(told.becomes, voice)}." if told.becomes is not None else ""
        return f"Written is: {_words(told.lines[0], voice)}.{becomes}\nNothing is changed yet."
    if told.is_of_each:
        return "\n".join(
            ["Written is:", *(_words(line, voice) for line in told.lines), "Nothing is changed yet."]
        )
    lines = [f"{number}. {_words(line, voice)}" for number, line in enumerate(told.lines, 1)]
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
        + [_words(line, voice) for line in told.instead]
    )


@says
def _entry_changed(told: EntryChanged, voice: Voice) -> str:
    before, after = (
        ", ".join([*(_words(one, voice) for one in lines[:1]), *map(_what, lines[1:])])
        for lines in (told.before, told.after)
    )
    head = f"Changed: {after}.\nBefore it said: {before}." if after else f"Deleted: {before}."
    moves = [f"{plant}: next treatment {_day(new)}, not {_day(old)}." for plant, old, new in told.moved]
    return "\n".join([head, *(moves or ["No evening moves by it."])])


def _day(on: date | None) -> str:
    return "none" if on is None else day(on)


def _words(line: Line, voice: Voice) -> str:
    plant, by = f"{line.plant or ''} ".lstrip(), f" by {line.by}" if line.by is not None else ""
    return f"{near_day(line.on, voice.today)}: {plant}{_what(line)}{by}"


def _what(line: Line) -> str:
    count = f"{line.count} " if line.count is not None else ""
    product = f" ({line.product})" if line.product is not None else ""
    return f"{count}{told_words(line.what)}{product}"
