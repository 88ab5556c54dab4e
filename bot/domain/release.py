"""When a plant may leave isolation, and what still keeps it there; when its rounds may stop."""

import enum
import math
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import lru_cache

from bot.domain.campaign import Wait
from bot.domain.development import SLOW_DEFAULT, Clock, Warmth, clock
from bot.domain.freedom import BLIND_SPOT, ROOT_BLIND_SPOT, Look, p_free
from bot.domain.pest import Pest
from bot.domain.trade import Level
from bot.domain.value import Value, field, replace

NEVER = date.max  # a day that does not come: too cold to tell
TARGET = 0.90
STRICT_TARGET = 0.95
STRICT_ROUNDS = 6
"""Rounds after the last find that a household asks for which wants to be surer. [1]"""
FRESH_DAYS = 10
"""A plant leaves on a look younger than this. Judgement. [d]"""
UNLIFTED_FACTOR = 1.25
"""So much longer are the waits of a plant whose roots were seen too seldom, or cannot be. Judgement. [1]"""
ROOTS_AGAIN_DAYS = 14
"""
A look at the roots is asked for again so: not done, for the plant waits for it; done, for one look misses
half. Judgement. [d]
"""
FORECAST_DAYS = 400
_HORIZON_DAYS = 1500  # a wait not over by then counts as never
_WEEK = 7  # [d]
_ENOUGH = 1 - 1e-9  # shares of looks are added up as fractions of one


class CleanCheck(Value):
    on: date
    level: Level


class ReleaseRecord(Value, kw_only=True):
    """What the log says of one case, as far as release goes."""

    pest: Pest
    temperature: float | None  # [degC] the cool side; unknown counts as 18
    daily: Mapping[date, float] = field(default_factory=dict)  # [degC] days that differ
    started_on: date
    last_find_on: date
    checks: tuple[CleanCheck, ...]
    treated_on: date | None
    """The last treatment of any method, spray and handwork alike."""
    unpotted_on: date | None = None
    rounds_done: int
    rounds_since_find: int
    """After the day of the last find."""
    rounds_needed: int
    rounds_gap_days: int = _WEEK
    strict: bool = False
    root_prone: bool = False
    cannot_lift: bool = False
    """Whether the roots cannot be looked at: they are left out of the chance, and all waits are longer."""
    root_looks: int = 0
    """Looks at the roots since the last find that are far enough apart. [1]"""
    root_looks_needed: int = 1
    """So many of them spare the plant the longer wait. [1]"""
    last_look_on: date | None = None
    """The last look that counts, where the checks are merged already."""
    is_merged: bool = False
    """Whether checks are merged already, see `merged_looks`."""


class Condition(enum.Enum):
    """A condition of release; members stand in the order in which they are named as binding."""

    ROUNDS = "rounds"
    CONTACT_FREE = "contact-free"
    SPAN = "span"
    PROBABILITY = "probability"
    LATE_CHECKS = "late checks"
    CHECKS = "checks"
    ROOTS = "roots"
    FRESH = "fresh"


class ReleaseState(Value, kw_only=True):
    qualifies: bool
    probability: float  # [1]
    target: float  # [1]
    binding: tuple[Condition, ...]
    h1_on: date
    h3_on: date
    leave_alone_until: date | None
    """Until then no spray, rinse or wipe, where the pest or the household asks for it."""
    days_since_find: int
    counted_checks: int
    looks_share: float
    """Part of the looks it takes that are done. [1]"""
    late_checks: int
    too_cold: bool
    is_finished: bool
    """Whether the rounds may stop."""


class ReleaseForecast(Value, kw_only=True):
    """The earliest day of release if every check from now on finds nothing."""

    earliest_on: date | None
    more_checks: int
    more_rounds: int | None
    """Rounds still to come if nothing more is found; None where no end is in sight."""
    binding: Condition | None


def rounds_after_find(pest: Pest, *, strict: bool) -> int:
    """Give the rounds it takes after the day of the last find. [rounds]."""
    return max(pest.least.after_find, STRICT_ROUNDS) if strict else pest.least.after_find


def release_state(record: ReleaseRecord, today: date) -> ReleaseState:
    """
    Judge one case by the release rule on one day, by the checks until then; every unmet condition is named.

    Degree-days are summed by day where temperatures were measured [degC]; a day within 3 degC of a threshold
    adds nothing. Where all are too cold, the h dates are `NEVER`.

    .. [martin2007] the probability; waits, looks and the fresh look are a judgement on arai1996.
    """
    return _state(record, _ends(record), today)


class _Ends(Value):
    """When the waits since the last find and since the start are over. [d]."""

    hours: Clock
    span: float
    rounds_since_find: float
    rounds_since_start: float


def _ends(record: ReleaseRecord) -> _Ends:
    mean = SLOW_DEFAULT if record.temperature is None else record.temperature
    key = (record.pest, mean, record.cannot_lift)
    if not record.daily:
        return _steady_ends(*key)
    return _ends_of(*key, record.daily, record.last_find_on, record.started_on)


@lru_cache(maxsize=1024)
def _steady_ends(pest: Pest, mean: float, cannot_lift: bool) -> _Ends:  # noqa: FBT001 - a key of the cache
    on = date(2000, 1, 1)
    return _ends_of(pest, mean, cannot_lift, {}, on, on)


def _ends_of(  # noqa: PLR0913, PLR0917 - one fact each, named at the two calls
    pest: Pest,
    mean: float,
    cannot_lift: bool,  # noqa: FBT001
    daily: Mapping[date, float],
    found_on: date,
    started_on: date,
) -> _Ends:
    factor = UNLIFTED_FACTOR if cannot_lift else 1.0
    found = _warmth(pest, found_on, mean, daily)
    hours = clock(pest, found)
    started = found if found_on == started_on else _warmth(pest, started_on, mean, daily)
    least = pest.least
    return _Ends(
        hours,
        _days(pest.leaving.since_find, found, hours, factor),
        0.0 if least.since_find is None else _days(least.since_find, found, hours, 1.0),
        0.0 if least.since_start is None else _days(least.since_start, started, hours, 1.0),
    )


def _warmth(pest: Pest, since: date, mean: float, daily: Mapping[date, float]) -> Warmth:
    """Give the temperatures of a clock, none above what still speeds the pest up."""
    most = pest.leaving.clock_most_c
    if most is None:
        return Warmth(since_on=since, mean=mean, daily=daily)
    return Warmth(
        since_on=since, mean=min(mean, most), daily={day: min(one, most) for day, one in daily.items()}
    )


def _days(wait: Wait, warmth: Warmth, hours: Clock, factor: float) -> float:
    """Give the days a wait takes from the start of its clock. [d]."""
    if wait.days is None:
        end = {"h1": hours.h1, "h2": hours.h2, "h3": hours.h3}[wait.clock or "h3"]
        return end * wait.times * factor
    if not warmth.daily:
        return wait.at(warmth.mean) * factor
    left, gone = factor, 0
    while left > 0 and gone < _HORIZON_DAYS:
        share = wait.share(warmth.on(warmth.since_on + timedelta(days=gone)))
        if share >= left:
            return gone + left / share
        left -= share
        gone += 1
    return math.inf


def _contact_free_until(record: ReleaseRecord, hours: Clock) -> date | None:
    """Give the day until which the plant is left alone, None where nothing asks for it."""
    leaving = record.pest.leaving
    wait = (leaving.contact_free_strict if record.strict else None) or leaving.contact_free
    if wait is None or record.treated_on is None:
        return None
    mean = SLOW_DEFAULT if record.temperature is None else record.temperature
    if wait.days is None or not record.daily:
        warmth = _warmth(record.pest, record.treated_on, mean, {})
        hours = hours if record.daily else _steady_ends(record.pest, mean, record.cannot_lift).hours
    else:
        warmth = _warmth(record.pest, record.treated_on, mean, record.daily)
    return _on(record.treated_on, _days(wait, warmth, hours, 1.0))


def _state(record: ReleaseRecord, ends: _Ends, today: date) -> ReleaseState:
    pest, hours = record.pest, ends.hours
    counted = _counted(record, today)
    days = [(check.on - record.last_find_on).days for check in counted]
    target = STRICT_TARGET if record.strict else TARGET
    # once since the last find, and they were not
    wants_roots = record.root_prone and not record.cannot_lift and not _times_lifted(record, today)
    spot = ROOT_BLIND_SPOT if wants_roots else BLIND_SPOT
    looks = [Look(day, pest.sight[check.level]) for day, check in zip(days, counted, strict=True)]
    probability = p_free(looks, hours, blind_spot=spot)
    gone = (today - record.last_find_on).days
    span = _span(record, ends, today)
    late = sum(day >= hours.h2 for day in days)
    share = _looks_share(pest, counted)
    alone_until = _contact_free_until(record, hours)
    is_finished = _is_finished(record, ends, today, len(days))
    last_look = _last_look_on(record, today)
    treated = record.treated_on
    unmet = (
        (Condition.ROUNDS, not is_finished),
        (Condition.CONTACT_FREE, alone_until is not None and today < alone_until),
        (Condition.SPAN, gone < span),
        (Condition.PROBABILITY, pest.looking.has_chance and probability < target),
        (Condition.LATE_CHECKS, late < pest.looking.late),
        (Condition.CHECKS, share < _ENOUGH),
        (Condition.ROOTS, wants_roots),
        (
            Condition.FRESH,
            last_look is None
            or (today - last_look).days >= FRESH_DAYS
            or (treated is not None and last_look <= treated)
            or (alone_until is not None and last_look < alone_until),
        ),
    )
    binding = tuple(condition for condition, holds in unmet if holds)
    return ReleaseState(
        qualifies=not binding,
        probability=probability,
        target=target,
        binding=binding,
        h1_on=_on(record.last_find_on, hours.h1),
        h3_on=_on(record.last_find_on, hours.h3),
        leave_alone_until=alone_until,
        days_since_find=gone,
        counted_checks=len(days),
        looks_share=min(1.0, share),
        late_checks=late,
        too_cold=math.isinf(ends.span),
        is_finished=is_finished,
    )


def _on(since: date, days: float) -> date:
    return NEVER if math.isinf(days) else since + timedelta(days=math.ceil(days - 1e-9))


def _looks_share(pest: Pest, counted: Sequence[CleanCheck]) -> float:
    """Add up the looks, each as the part of those of its way that suffice."""
    return sum(1 / pest.looking.needed[check.level] for check in counted)


def _counted(record: ReleaseRecord, today: date) -> Sequence[CleanCheck]:
    since = record.last_find_on
    looks = [check for check in record.checks if since < check.on <= today]
    if record.unpotted_on is not None and record.pest.looking.first_after_unpotting_days:
        from_on = record.unpotted_on + timedelta(days=record.pest.looking.first_after_unpotting_days)
        looks = [check for check in looks if check.on >= from_on]
    return looks if record.is_merged else merged_looks(record.pest, looks)


def merged_looks(pest: Pest, looks: Sequence[CleanCheck]) -> tuple[CleanCheck, ...]:
    """
    Merge looks closer than the pest asks for: the day of the first, the closest level of all.

    Merging again changes nothing. A look that cannot show the pest is left out.

    .. [martin2007] looks count as independent; the days between them are a judgement.
    """
    merged: list[CleanCheck] = []
    for check in sorted(looks, key=_day):
        if not can_show(pest, check.level):
            continue
        if merged and (check.on - merged[-1].on).days < pest.looking.apart_days:
            if check.level is not merged[-1].level:
                merged[-1] = CleanCheck(
                    merged[-1].on, max(merged[-1].level, check.level, key=pest.sight.__getitem__)
                )
        else:
            merged.append(check)
    return tuple(merged)


def last_look(pest: Pest, looks: Sequence[CleanCheck]) -> date | None:
    """Give the day of the last look that can show the pest."""
    return max((check.on for check in looks if can_show(pest, check.level)), default=None)


def _day(check: CleanCheck) -> date:
    return check.on


def can_show(pest: Pest, level: Level) -> bool:
    """Whether such a look says anything: leaves do not show a pest of the roots, nor a card a mite."""
    return level in pest.looking.needed


def _last_look_on(record: ReleaseRecord, today: date) -> date | None:
    if record.is_merged and record.last_look_on is not None and record.last_look_on <= today:
        return record.last_look_on if record.last_look_on > record.last_find_on else None
    looks = [check for check in record.checks if record.last_find_on < check.on <= today]
    return last_look(record.pest, looks)


def _span(record: ReleaseRecord, ends: _Ends, today: date) -> float:
    """Give the wait since the last find: longer where it may sit in a mix looked into too seldom. [d]."""
    pest = record.pest
    may_be_there = pest.at_roots and not pest.rooted and not record.cannot_lift
    is_unseen = may_be_there and _times_lifted(record, today) < record.root_looks_needed
    return ends.span * UNLIFTED_FACTOR if is_unseen else ends.span


def _times_lifted(record: ReleaseRecord, today: date) -> int:
    """Count the looks at the roots since the last find, a fortnight apart."""
    return max(record.root_looks, root_looks(record.checks, record.last_find_on, today))


def root_looks(looks: Sequence[CleanCheck], since: date, until: date) -> int:
    """Count the looks at the roots after one day up to another; those closer than a fortnight are one."""
    count, last = 0, date.min
    for look in sorted(looks, key=_day):
        is_apart = last == date.min or (look.on - last).days >= ROOTS_AGAIN_DAYS
        if look.level is Level.ROOTS and since < look.on <= until and is_apart:
            count, last = count + 1, look.on
    return count


def _is_finished(record: ReleaseRecord, ends: _Ends, on: date, clean_in_a_row: int) -> bool:
    """Whether the rounds may stop: all in all, after the last find, looks in a row, and the days."""
    return (
        record.rounds_done >= record.rounds_needed
        and record.rounds_since_find >= rounds_after_find(record.pest, strict=record.strict)
        and clean_in_a_row >= record.pest.least.clean_looks
        and (on - record.last_find_on).days >= ends.rounds_since_find
        and (on - record.started_on).days >= ends.rounds_since_start
    )


def forecast_release(
    record: ReleaseRecord,
    today: date,
    check_every_days: int = _WEEK,
    *,
    level: Level | None = None,
    now: ReleaseState | None = None,
) -> ReleaseForecast:
    """
    Foresee release if every check to come finds nothing and the remaining rounds are done in time.

    Release is foreseen on a day of a check, so that the last proof is fresh; a case that qualifies today
    needs none. Where the roots have to be looked at, they are by the day they are asked for. Checks to come
    are never closer than two that count, at least a day apart (else ValueError) [d], and of the `level` of
    the last one, or the way that is asked for at first; `now` is the state of today, where it is known
    already. Gives the condition met last.
    """
    if check_every_days < 1:
        raise ValueError(f"checks every {check_every_days} d are no rhythm")
    ends = _ends(record)
    kept = _future_level(record, level, today)
    every = max(check_every_days, record.pest.looking.apart_days)
    state = now if now is not None else _state(record, ends, today)
    return _foresee(_first_met(record, ends, state, today, every, kept), ends, state, today)


def _future_level(record: ReleaseRecord, level: Level | None, today: date) -> Level:
    if record.pest.rooted:
        return Level.ROOTS
    if level is not None:
        return level
    past = [
        check
        for check in record.checks
        if check.on <= today and check.level is not Level.ROOTS and can_show(record.pest, check.level)
    ]
    usual = Level.PLAIN if can_show(record.pest, Level.PLAIN) else record.pest.looking.ask
    return max(past, key=_day).level if past else usual


class _Met(Value):
    """The check after which nothing holds the case back, and the one before it."""

    on: date
    more: int
    rounds: int
    record: ReleaseRecord
    earlier: tuple[ReleaseRecord, date]


def _foresee(met: _Met | None, ends: _Ends, now: ReleaseState, today: date) -> ReleaseForecast:
    if now.qualifies:
        return ReleaseForecast(earliest_on=today, more_checks=0, more_rounds=0, binding=None)
    if met is None:
        return ReleaseForecast(
            earliest_on=None,
            more_checks=0,
            more_rounds=0 if now.is_finished else None,
            binding=now.binding[0],
        )
    eve = _state(met.record, ends, met.on - timedelta(days=1)).binding
    held: list[Condition] = [one for one in eve if one is not Condition.FRESH]
    held = held or list(_state(met.earlier[0], ends, met.earlier[1]).binding) or list(now.binding)
    return ReleaseForecast(earliest_on=met.on, more_checks=met.more, more_rounds=met.rounds, binding=held[0])


def _first_met(  # noqa: PLR0913, PLR0917 - one fact each
    record: ReleaseRecord, ends: _Ends, now: ReleaseState, today: date, every: int, level: Level
) -> _Met | None:
    """Go from check to check until one finds the rule met; None where none within the horizon does."""
    if now.qualifies or now.too_cold or not can_show(record.pest, level):
        return None
    first_on = _first_check_on(record, today, every)
    record = _merged(record, today)
    done = record.rounds_done
    earlier = record, today
    for more in range(1, FORECAST_DAYS // every + 1):
        due = first_on + timedelta(days=every * (more - 1))
        asked = (due - record.last_find_on).days - ends.hours.h1  # for the roots: from h1 on, each fortnight
        record = replace(
            record,
            checks=(*record.checks, CleanCheck(due, level)),
            last_look_on=due,
            root_looks=max(record.root_looks, int(asked // ROOTS_AGAIN_DAYS) + 1 if asked >= 0 else 0),
        )
        record = _with_rounds(record, ends, today, due)
        # only where nothing simpler holds it back are the looks weighed
        if _is_near(record, ends, due) and _state(record, ends, due).qualifies:
            return _Met(due, more, record.rounds_done - done, record, earlier)
        earlier = (record, due)
    return None


def _is_near(record: ReleaseRecord, ends: _Ends, on: date) -> bool:
    """Whether all but the probability is met on a day."""
    counted = _counted(record, on)
    days = [(check.on - record.last_find_on).days for check in counted]
    alone_until = _contact_free_until(record, ends.hours)
    return (
        (on - record.last_find_on).days >= _span(record, ends, on)
        and _looks_share(record.pest, counted) >= _ENOUGH
        and sum(day >= ends.hours.h2 for day in days) >= record.pest.looking.late
        and (alone_until is None or on >= alone_until)
        and (record.treated_on is None or on > record.treated_on)
        and _is_finished(record, ends, on, len(days))
    )


def _merged(record: ReleaseRecord, today: date) -> ReleaseRecord:
    """Merge the looks so far once: weighing them again for every day to come gives the same."""
    return replace(
        record,
        checks=tuple(_counted(record, today)),
        last_look_on=_last_look_on(record, today),
        root_looks=_times_lifted(record, today),
        is_merged=True,
    )


def _first_check_on(record: ReleaseRecord, today: date, every: int) -> date:
    past = [check.on for check in record.checks if record.last_find_on < check.on <= today]
    last = max(past, default=record.last_find_on)
    # Today's own look is taken already; an overdue one can still be taken today.
    due = max(last + timedelta(days=every), today if last < today else today + timedelta(days=1))
    wait = record.pest.looking.first_after_unpotting_days
    if record.unpotted_on is not None and wait:
        due = max(due, record.unpotted_on + timedelta(days=wait))
    return due


def _with_rounds(record: ReleaseRecord, ends: _Ends, today: date, until: date) -> ReleaseRecord:
    """Assume the rounds still owed up to a day, each on its gap."""
    gap = timedelta(days=max(1, record.rounds_gap_days))
    due = today if record.treated_on is None else max(today, record.treated_on + gap)
    while due <= until and not _is_finished(record, ends, due, sum(one.on <= due for one in record.checks)):
        record = replace(
            record,
            rounds_done=record.rounds_done + 1,
            rounds_since_find=record.rounds_since_find + (due > record.last_find_on),
            treated_on=due,
        )
        due += gap
    return record
