"""Recurring days and wall-clock times, by the recurrence engine of dateutil."""

import functools
from datetime import UTC, date, datetime, time, timedelta

from dateutil.rrule import DAILY, rrule, rrulestr

_SUB_DAILY = ("HOURLY", "MINUTELY", "SECONDLY", "BYHOUR", "BYMINUTE", "BYSECOND")
_CYCLE = 400  # years after which the calendar repeats
_LATE_CYCLE = 9600  # starts the last whole cycle that leaves some years to look into
_PROBE_ON = date(2024, 1, 1)
_WIDEST_JUMP = timedelta(days=1)  # no zone has moved its clocks further


def candidate_evenings(completed_on: date, opens_days: int, closes_days: int) -> tuple[date, ...]:
    """
    List the evenings a round may fall on, from a daily rule bounded by the window.

    Parameters
    ----------
    completed_on
        Local date the last round was completed.
    opens_days, closes_days
        The window of the gap plan, both ends in it. [d]
    """
    first = datetime.combine(completed_on + timedelta(days=opens_days), time())
    last = datetime.combine(completed_on + timedelta(days=closes_days), time())
    return tuple(evening.date() for evening in rrule(DAILY, dtstart=first, until=last))


def is_valid_rule(text: str) -> bool:
    """Whether a text is one RFC 5545 rule of whole days that matches some day."""
    try:
        return _first_match(text, _PROBE_ON) is not None
    except ValueError:
        return False


def next_on(rule: str, anchor: date, after: date) -> date | None:
    """Give the first day of a rule strictly after a day; none once its COUNT or UNTIL is over."""
    found = _rule(rule, datetime.combine(anchor, time())).after(datetime.combine(after, time()))
    return None if found is None else found.date()


def between(rule: str, anchor: date, first: date, last: date) -> tuple[date, ...]:
    """List the days of a rule from the first to the last, both included."""
    start, end = (datetime.combine(day, time()) for day in (first, last))
    found = _rule(rule, datetime.combine(anchor, time())).between(start, end, inc=True)
    return tuple(moment.date() for moment in found)


def next_at(rule: str, anchor: datetime, after: datetime) -> datetime | None:
    """
    Give the first moment of a rule strictly after another, by the wall clock of the anchor's zone.

    A wall time that does not exist, on the night clocks go forward, is read with the offset before the
    gap; one that exists twice means the first.

    Parameters
    ----------
    rule
        RFC 5545 RRULE text.
    anchor
        First moment of the rule; aware, in the zone whose wall clock counts.
    after
        Aware, in any zone.

    Returns
    -------
    datetime or None
        Aware, in the anchor's zone; none once the rule is over.

    Raises
    ------
    ValueError
        If a moment has no zone, or the rule is none.

    References
    ----------
    .. [rfc5545] 3.3.5 form 3, and 3.8.5.3.
    """
    if anchor.tzinfo is None or after.tzinfo is None:
        raise ValueError(f"{anchor} and {after} must both have a zone")
    wall_rule = _rule(rule, anchor.replace(tzinfo=None))
    wall = after.astimezone(anchor.tzinfo).replace(tzinfo=None) - _WIDEST_JUMP
    while (found := wall_rule.after(wall)) is not None:
        resolved = found.replace(tzinfo=anchor.tzinfo, fold=0).astimezone(UTC).astimezone(anchor.tzinfo)
        # Two datetimes of one zone compare by their wall clock, so the comparison goes through UTC.
        if resolved.astimezone(UTC) > after.astimezone(UTC):
            return resolved
        wall = found
    return None


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
