"""The time of an evening in which no direct sun reaches the plants due, and what to do without one."""

import enum
import math
from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache

from bot.domain.sun import Site, instant, local
from bot.domain.value import Value
from bot.domain.window import Exposure, Span, lit_spans

_DAY = timedelta(days=1)
_GRID_SECONDS = 300
_MINUTE = 60.0
_MARGIN = 15 * _MINUTE  # the leaf cools, and the bearing was only asked
_GUARD = _MINUTE  # the error of the low-accuracy position before the sun comes
_EVENING_ENDS = time(4)  # what is finished before counts for the evening before
_MORNING_STARTS = time(5)
_MORNING_ENDS = time(13)

_Steps = frozenset[int]  # numbers of 5-minute grid points since 1970


class SlotKind(enum.Enum):
    """
    What a slot asks for.

    EVENING and MORNING are clear of sun until dry; MOVE means out of the sun first, back once dry and the sun
    is off; LATE means that this day has no start left: plan another.
    """

    EVENING = "evening"
    MORNING = "morning"
    MOVE = "move"
    LATE = "late"


class Habits(Value, kw_only=True):
    """
    When a household likes to treat: local clock times, and lengths [min].

    Nobody is busy from `quiet_from` to `quiet_until`; the two are equal where nothing is quiet.
    """

    preferred: time
    quiet_from: time
    quiet_until: time
    earliest: time = time(16)
    length_minutes: int = 30
    dry_minutes: int = 180


class Slot(Value, kw_only=True):
    """
    One start for the plants of some exposures, in aware UTC.

    For EVENING and MORNING `sun_back_at` is when the next sun comes, as far as the day after next; for MOVE
    when the sun that is in the way comes.  For LATE the start only says when the next day's round could be;
    its sun was not looked at.
    """

    kind: SlotKind
    exposures: tuple[Exposure, ...]
    start_at: datetime
    sun_back_at: datetime | None


class _Side(Value, kw_only=True):
    exposure: Exposure
    lit: tuple[Span, ...]
    lit_steps: tuple[range, ...]


class _Hours(Value, kw_only=True):
    site: Site
    habits: Habits
    day: date
    evening: _Steps
    morning: _Steps
    has_passed: bool


def slots(
    day: date, exposures: Sequence[Exposure], site: Site, habits: Habits, now: datetime
) -> tuple[Slot, ...]:
    """
    When to treat the plants due on a day so that no direct sun meets them wet, whole groups first.

    A start is free if no sun (nor a lamp) falls on the plant from then until it is treated and dry, nor in
    the 15 minutes before. The start nearest the preferred time that is free for all serves all. Otherwise the
    exposure whose sun ends last waits for the next morning, until the rest agree; who has no free morning is
    moved out of the sun. Quiet hours are never broken, and nothing starts before `now`.

    Without coordinates there is no sun to compute: the evening is given with `sun_back_at` None, and asking
    for the town is the caller's; a morning is then given only to places that no sun reaches.

    Each distinct exposure is in exactly one slot, in order of start. ValueError for a naive `now`.

    .. [mcardles_oil] evening, when the sun is off the plant; next best early morning, before it is on it.
    """
    if now.tzinfo is None:
        raise ValueError(f"an aware instant is needed, not the naive {now}")
    hours = _hours(day, site, habits, now)
    sides = [_side(exposure, hours) for exposure in dict.fromkeys(exposures)]
    if not sides:
        return ()
    if hours.has_passed:
        return (_late(sides, hours),)
    together = _together(sides, hours)
    found = [_evening(together, hours)] if together else []
    waiting = [side for side in sides if side not in together]
    found += _later(waiting, hours)
    return tuple(sorted(found, key=lambda slot: slot.start_at))


@lru_cache(maxsize=4096)
def is_shadeless(day: date, exposure: Exposure, site: Site, habits: Habits) -> bool:
    """Whether sun or lamp leave a place neither that evening nor the morning after to spray in."""
    begins = local(site, day, _EVENING_ENDS)
    return any(slot.kind is SlotKind.MOVE for slot in slots(day, (exposure,), site, habits, begins))


def _hours(day: date, site: Site, habits: Habits, now: datetime) -> _Hours:
    evening, morning = _evening_steps(day, site, habits), _morning_steps(day + _DAY, site, habits)
    to_come = math.ceil(now.astimezone(UTC).timestamp() / _GRID_SECONDS)
    left = frozenset(step for step in evening if step >= to_come)
    return _Hours(
        site=site,
        habits=habits,
        day=day,
        evening=left,
        morning=frozenset(step for step in morning if step >= to_come),
        has_passed=bool(evening) and not left,
    )


@lru_cache(maxsize=4096)
def _evening_steps(day: date, site: Site, habits: Habits) -> _Steps:
    last = local(site, day + _DAY, _EVENING_ENDS)
    whole = _between(local(site, day, habits.earliest), last)
    allowed = _without(whole, _quiet_steps(day, site, habits))
    # only up to the first quiet hour: who sleeps from 22:00 to 02:00 is not asked to treat at 02:00
    first = min(allowed, default=0)
    return frozenset(step for offset, step in enumerate(sorted(allowed)) if step == first + offset)


@lru_cache(maxsize=4096)
def _morning_steps(day: date, site: Site, habits: Habits) -> _Steps:
    whole = _between(local(site, day, _MORNING_STARTS), local(site, day, _MORNING_ENDS))
    return _without(whole, _quiet_steps(day, site, habits))


def _quiet_steps(day: date, site: Site, habits: Habits) -> list[range]:
    if habits.quiet_from == habits.quiet_until:
        return []
    over_midnight = _DAY if habits.quiet_until < habits.quiet_from else 0 * _DAY
    nights = (
        Span(local(site, on, habits.quiet_from), local(site, on + over_midnight, habits.quiet_until))
        for on in (day - _DAY, day, day + _DAY)
    )
    length = habits.length_minutes * _MINUTE
    return [_meeting(night, length, 0.0) for night in nights]


def _without(steps: Iterable[int], blocked: Sequence[range]) -> _Steps:
    return frozenset(steps).difference(*blocked)


def _between(first: datetime, last: datetime) -> range:
    start = math.ceil(first.timestamp() / _GRID_SECONDS)
    return range(start, math.floor(last.timestamp() / _GRID_SECONDS) + 1)


def _meeting(span: Span, before: float, after: float) -> range:
    # the starts whose `before` seconds of work would meet the span, or that come within `after` seconds of it
    first = math.floor((span.start.timestamp() - before) / _GRID_SECONDS) + 1
    return range(first, math.ceil((span.end.timestamp() + after) / _GRID_SECONDS))


def _side(exposure: Exposure, hours: _Hours) -> _Side:
    lit = lit_spans(exposure, hours.site, hours.day, 3)
    need = _need_seconds(hours.habits) + _GUARD
    return _Side(exposure=exposure, lit=lit, lit_steps=tuple(_meeting(span, need, _MARGIN) for span in lit))


def _need_seconds(habits: Habits) -> float:
    return (habits.length_minutes + habits.dry_minutes) * _MINUTE


def _free(sides: Iterable[_Side], steps: _Steps) -> _Steps:
    return _without(steps, [met for side in sides for met in side.lit_steps])


def _together(sides: Sequence[_Side], hours: _Hours) -> list[_Side]:
    good = [side for side in sides if _free([side], hours.evening)]
    while good and not _free(good, hours.evening):
        good.remove(max(good, key=lambda side: _sun_ends(side, hours)))
    return good


def _sun_ends(side: _Side, hours: _Hours) -> datetime:
    dry = instant(max(hours.evening) * _GRID_SECONDS + _need_seconds(hours.habits))
    return max((span.end for span in side.lit if span.start < dry), default=dry - 2 * _DAY)


def _evening(sides: Sequence[_Side], hours: _Hours) -> Slot:
    start = _nearest(_free(sides, hours.evening), hours.site, hours.day, hours.habits)
    return _clear(SlotKind.EVENING, sides, start)


def _later(sides: Sequence[_Side], hours: _Hours) -> list[Slot]:
    by_start: dict[int, list[_Side]] = {}
    stuck: list[_Side] = []
    for side in sides:
        free = _free([side], _morning_of(side, hours))
        (by_start.setdefault(min(free), []) if free else stuck).append(side)
    found = [_clear(SlotKind.MORNING, group, start) for start, group in by_start.items()]
    if stuck:
        found.append(_move(stuck, hours))
    return found


def _morning_of(side: _Side, hours: _Hours) -> _Steps:
    if side.exposure.sees_sun and not hours.site.is_located:
        return frozenset()
    return hours.morning


def _move(sides: Sequence[_Side], hours: _Hours) -> Slot:
    if not hours.evening and not hours.morning:
        return _late(sides, hours)
    habits = hours.habits
    start = _nearest(hours.evening or hours.morning, hours.site, hours.day, habits)
    dry = instant(start * _GRID_SECONDS + _need_seconds(habits) + _GUARD)
    margin = timedelta(seconds=_MARGIN)
    begin = instant(start * _GRID_SECONDS)
    lit = [span for span in _lit(sides) if span.start < dry and span.end + margin > begin]
    return _slot(SlotKind.MOVE, sides, start, min((span.start for span in lit), default=None))


def _late(sides: Sequence[_Side], hours: _Hours) -> Slot:
    tomorrow = hours.day + _DAY
    steps = _evening_steps(tomorrow, hours.site, hours.habits) or _morning_steps(
        tomorrow + _DAY, hours.site, hours.habits
    )
    start = _nearest(steps, hours.site, tomorrow, hours.habits)
    return _slot(SlotKind.LATE, sides, start, None)


def _nearest(steps: _Steps, site: Site, day: date, habits: Habits) -> int:
    after_midnight = _DAY if habits.preferred < _EVENING_ENDS else 0 * _DAY
    wish = local(site, day + after_midnight, habits.preferred).timestamp() / _GRID_SECONDS
    return min(steps, key=lambda step: (abs(step - wish), step), default=math.ceil(wish))


def _clear(kind: SlotKind, sides: Sequence[_Side], start: int) -> Slot:
    at = instant(start * _GRID_SECONDS)
    back = min((span.start for span in _lit(sides) if span.start > at), default=None)
    return _slot(kind, sides, start, back)


def _slot(kind: SlotKind, sides: Sequence[_Side], start: int, sun_back_at: datetime | None) -> Slot:
    return Slot(
        kind=kind,
        exposures=tuple(side.exposure for side in sides),
        start_at=instant(start * _GRID_SECONDS),
        sun_back_at=sun_back_at,
    )


def _lit(sides: Iterable[_Side]) -> list[Span]:
    return [span for side in sides for span in side.lit]
