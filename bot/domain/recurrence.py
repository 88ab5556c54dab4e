"""Recurring days and wall-clock times, by the recurrence engine of dateutil."""

import functools
from datetime import UTC, date, datetime, time, tzinfo

from dateutil.rrule import DAILY, rrule, rruleset, rrulestr

_SUB_DAILY = ("HOURLY", "MINUTELY", "SECONDLY", "BYHOUR", "BYMINUTE", "BYSECOND")
_CYCLE = 400  # years after which the calendar repeats
_LATE_CYCLE = 9600  # starts the last whole cycle that leaves some years to look into


@functools.lru_cache(maxsize=8192)
def evenings(first: date, last: date, left_out: frozenset[date] = frozenset()) -> tuple[date, ...]:
    """
    List the evenings of a window, ends and all, but those left out; where none is left the first one after.

    One set of RFC 5545: a daily RRULE from the first day on, and an EXDATE for each day that is put off,
    spent away, too hot or without shade.
    """
    days = rruleset()
    days.rrule(rrule(DAILY, dtstart=datetime.combine(first, time())))
    for day in left_out:
        days.exdate(datetime.combine(day, time()))
    end = datetime.combine(last, time())
    found = days.between(datetime.combine(first, time()), end, inc=True)
    return tuple(evening.date() for evening in found or days.xafter(end, count=1))


def on_the_clock(day: date, at: time, zone: tzinfo) -> datetime:
    """
    Give the instant of a wall time on a day. [aware UTC].

    A time that does not exist, on the night clocks go forward, is read with the offset before the gap; one
    that exists twice means the first.

    .. [rfc5545] 3.3.5 form 3.
    """
    return datetime.combine(day, at, zone).replace(fold=0).astimezone(UTC)


def next_on(rule: str, anchor: date, after: date) -> date | None:
    """Give the first day of a rule strictly after a day; none once its COUNT or UNTIL is over."""
    found = _rule(rule, datetime.combine(anchor, time())).after(datetime.combine(after, time()))
    return None if found is None else found.date()


def between(rule: str, anchor: date, first: date, last: date) -> tuple[date, ...]:
    """List the days of a rule from the first to the last, both included."""
    start, end = (datetime.combine(day, time()) for day in (first, last))
    found = _rule(rule, datetime.combine(anchor, time())).between(start, end, inc=True)
    return tuple(moment.date() for moment in found)


@functools.lru_cache(maxsize=256)
def _rule(text: str, start: datetime) -> rrule:
    if _first_match(text, start.date()) is None:
        raise ValueError(f"{text!r} never matches a day")
    parsed = rrulestr(_body(text), dtstart=start)
    assert isinstance(parsed, rrule)
    return parsed


def _body(text: str) -> str:
    """Bring a rule to one form: no prefix, upper case, UNTIL as floating wall time."""
    body = text.strip().upper().removeprefix("RRULE:")
    if not body.startswith("FREQ=") and ";FREQ=" not in body:
        raise ValueError(f"{text!r} names no FREQ")
    if any(word in body for word in _SUB_DAILY) or any(sign in body for sign in "\n\r:"):
        raise ValueError(f"{text!r} is not one rule of whole days")
    if any(
        part.startswith("INTERVAL=") and int(part.removeprefix("INTERVAL=")) < 1 for part in body.split(";")
    ):
        raise ValueError(f"{text!r} never moves on")  # dateutil lets this pass
    parts = [part.removesuffix("Z") if part.startswith("UNTIL=") else part for part in body.split(";")]
    return ";".join(parts)


@functools.lru_cache(maxsize=256)
def _first_match(text: str, start: date) -> datetime | None:
    """Find the first match of a rule without its end, as seen from the last calendar cycle."""
    # dateutil looks for a match up to year 9999, for seconds where there is none. Days and weekdays repeat
    # every 400 years, so the same question is asked where that end is near.
    late = start.replace(year=_LATE_CYCLE + start.year % _CYCLE)
    endless = ";".join(part for part in _body(text).split(";") if not part.startswith(("COUNT=", "UNTIL=")))
    rrulestr(_body(text), dtstart=datetime.combine(start, time()))  # its end must be well-formed too
    return next(iter(rrulestr(endless, dtstart=datetime.combine(late, time()))), None)
