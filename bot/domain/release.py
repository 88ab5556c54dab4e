"""When a plant may leave isolation, and what still keeps it there."""

import enum
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from bot.domain.development import SLOW_DEFAULT, Clock, Warmth, clock
from bot.domain.freedom import BLIND_SPOT, ROOT_BLIND_SPOT, Look, ceiling, p_free, plateau
from bot.domain.pest import Level, Pest

__all__ = [
    "NEVER",
    "CleanCheck",
    "Condition",
    "Level",
    "ReleaseForecast",
    "ReleaseRecord",
    "ReleaseState",
    "forecast_release",
    "release_state",
    "rounds_finished",
]

NEVER = date.max  # a day that does not come: too cold to tell
TARGET = 0.90
STRICT_TARGET = 0.95
MERGED_WITHIN_DAYS = 5  # two looks closer than this are one
CHECKS_NEEDED = 4
LATE_CHECKS_NEEDED = 2
ROUNDS_SINCE_FIND_NEEDED = 4
CLEAN_IN_A_ROW_NEEDED = 2
FORECAST_DAYS = 400
_WEEK = 7  # [d]


@dataclass(frozen=True, slots=True)
class CleanCheck:
    """A check with nothing found."""

    on: date
    level: Level


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseRecord:
    """What the log says of one case, as far as release goes."""

    pest: Pest
    temperature: float | None  # [degC] mean; unknown counts as 18
    daily: Mapping[date, float] = field(default_factory=dict)  # [degC] measured days
    last_find_on: date
    checks: tuple[CleanCheck, ...]
    last_spray_on: date | None
    rounds_done: int
    rounds_since_find: int
    rounds_needed: int
    rounds_gap_days: int = _WEEK
    strict: bool = False
    root_prone: bool = False
    roots_checked: bool = False
    weekly_reintroduction: float = 0.0  # [1]
    is_merged: bool = False
    """Whether checks are merged already, see `merged_looks`."""


class Condition(enum.Enum):
    """A condition of release; members stand in the order in which they are named as binding."""

    UNREACHABLE = "unreachable"
    ROUNDS = "rounds"
    SPRAY_FREE = "spray-free"
    SPAN = "span"
    PROBABILITY = "probability"
    LATE_CHECKS = "late checks"
    CHECKS = "checks"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseState:
    """Where a case stands on one day."""

    qualifies: bool
    probability: float  # [1]
    ceiling: float  # [1]
    target: float  # [1]
    binding: tuple[Condition, ...]
    h1_on: date
    h2_on: date
    h3_on: date
    days_since_find: int
    counted_checks: int
    late_checks: int
    clean_in_a_row: int
    too_cold: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseForecast:
    """The earliest day of release if every check from now on finds nothing."""

    earliest_on: date | None
    more_checks: int
    binding: Condition | None
    with_lens_on: date | None


def rounds_finished(  # noqa: PLR0913, PLR0917 - six counts of the log, one rule
    minimum: int,
    rounds_done: int,
    days_since_find: int,
    h1_days: float,
    rounds_since_find: int,
    clean_in_a_row: int,
) -> bool:
    """
    Whether the rounds may stop.

    Parameters
    ----------
    minimum
        Least rounds for this pest at this rhythm. [rounds]
    rounds_done, rounds_since_find
        Of this case, and since anything living was found. [rounds]
    days_since_find, h1_days
        Days gone by, and until an egg left behind would show at the earliest. [d]
    clean_in_a_row
        Checks since the last find. [checks]
    """
    return (
        rounds_done >= minimum
        and days_since_find >= h1_days
        and rounds_since_find >= ROUNDS_SINCE_FIND_NEEDED
        and clean_in_a_row >= CLEAN_IN_A_ROW_NEEDED
    )


def release_state(record: ReleaseRecord, today: date) -> ReleaseState:
    """
    Judge one case by the release rule on one day.

    Parameters
    ----------
    record
        The case; degree-days are summed by day where temperatures were measured. [degC]
    today
        Local date; checks after it are left aside.

    Returns
    -------
    ReleaseState
        Every unmet condition is named. A day within 3 degC of a threshold adds nothing; where all are too
        cold, the h dates are `NEVER`.

    References
    ----------
    .. [martin2007] the probability; span, checks and spray-free time are a judgement on arai1996.
    """
    return _state(record, _clock(record), today)


def _clock(record: ReleaseRecord) -> Clock:
    mean = SLOW_DEFAULT if record.temperature is None else record.temperature
    return clock(record.pest, Warmth(since_on=record.last_find_on, mean=mean, daily=record.daily))


def _state(record: ReleaseRecord, hours: Clock, today: date) -> ReleaseState:
    counted = _counted(record, today)
    days = [(check.on - record.last_find_on).days for check in counted]
    looks = [Look(day, record.pest.sight[check.level]) for day, check in zip(days, counted, strict=True)]
    spot = _blind_spot(record, today)
    probability = p_free(looks, hours, blind_spot=spot, weekly_reintroduction=record.weekly_reintroduction)
    gone = (today - record.last_find_on).days
    late = sum(day >= hours.h2 for day in days)
    top = _top(record, spot, looks)
    sprayed = record.last_spray_on
    unmet = (
        (Condition.UNREACHABLE, _target(record) > top),
        (Condition.ROUNDS, not _is_finished(record, hours, today, len(days))),
        (Condition.SPRAY_FREE, sprayed is not None and (today - sprayed).days < hours.h1),
        (Condition.SPAN, gone < hours.h3),
        (Condition.PROBABILITY, probability < _target(record)),
        (Condition.LATE_CHECKS, late < LATE_CHECKS_NEEDED),
        (Condition.CHECKS, len(days) < CHECKS_NEEDED),
    )
    binding = tuple(condition for condition, holds in unmet if holds)
    return ReleaseState(
        qualifies=not binding,
        probability=probability,
        ceiling=top,
        target=_target(record),
        binding=binding,
        h1_on=_on(record, hours.h1),
        h2_on=_on(record, hours.h2),
        h3_on=_on(record, hours.h3),
        days_since_find=gone,
        counted_checks=len(days),
        late_checks=late,
        clean_in_a_row=len(days),
        too_cold=math.isinf(hours.h3),
    )


def _target(record: ReleaseRecord) -> float:
    return STRICT_TARGET if record.strict else TARGET


def _on(record: ReleaseRecord, days: float) -> date:
    return NEVER if math.isinf(days) else record.last_find_on + timedelta(days=math.ceil(days))


def _counted(record: ReleaseRecord, today: date) -> Sequence[CleanCheck]:
    looks = [check for check in record.checks if record.last_find_on < check.on <= today]
    return looks if record.is_merged else merged_looks(record.pest, looks)


def merged_looks(pest: Pest, looks: Sequence[CleanCheck]) -> tuple[CleanCheck, ...]:
    """
    Merge looks closer than five days: the day of the first, the closest level of all.

    Merging again changes nothing. A look that cannot show the pest is left out.

    References
    ----------
    .. [martin2007] looks count as independent; five days apart is a judgement.
    """
    merged: list[CleanCheck] = []
    for check in sorted(looks, key=_day):
        if _is_blind(pest, check.level):
            continue
        if merged and (check.on - merged[-1].on).days < MERGED_WITHIN_DAYS:
            if check.level is not merged[-1].level:
                merged[-1] = CleanCheck(merged[-1].on, _closer(pest, merged[-1].level, check.level))
        else:
            merged.append(check)
    return tuple(merged)


def _day(check: CleanCheck) -> date:
    return check.on


def _is_blind(pest: Pest, level: Level) -> bool:
    """Whether such a look says nothing: leaves do not show a pest of the roots."""
    return pest.rooted and level is not Level.ROOTS


def _closer(pest: Pest, one: Level, other: Level) -> Level:
    return other if pest.sight[other] > pest.sight[one] else one


def _blind_spot(record: ReleaseRecord, today: date) -> float:
    return ROOT_BLIND_SPOT if record.root_prone and not _was_lifted(record, today) else BLIND_SPOT


def _was_lifted(record: ReleaseRecord, today: date) -> bool:
    """Whether the roots were looked at since the last find."""
    return record.roots_checked or any(
        check.level is Level.ROOTS and record.last_find_on < check.on <= today for check in record.checks
    )


def _top(record: ReleaseRecord, spot: float, looks: Sequence[Look]) -> float:
    unseen = ceiling(spot)
    if not record.weekly_reintroduction:
        return unseen
    best = max((look.chances[1] for look in looks), default=record.pest.sight[Level.LENS][1])
    return min(unseen, plateau(best, record.weekly_reintroduction))


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
    needs none.

    Parameters
    ----------
    record
        The case so far.
    today
        Local date.
    check_every_days
        Rhythm of the checks to come. [d]
    level
        Of the checks to come; without one, as the last one, plain at first.
    now
        The state on that day, where it is known already.

    Returns
    -------
    ReleaseForecast
        The condition met last, and the day it would be if a lens were used from now on, where sooner.

    Raises
    ------
    ValueError
        If the rhythm is less than a day.

    References
    ----------
    .. [martin2007] see `release_state`.
    """
    if check_every_days < 1:
        raise ValueError(f"checks every {check_every_days} d are no rhythm")
    hours = _clock(record)
    kept = _future_level(record, level, today)
    state = now if now is not None else _state(record, hours, today)
    met = _first_met(record, hours, state, today, check_every_days, kept)
    plain = _foresee(met, hours, state, today)
    is_sure = met is not None and not met.was_doubted
    if plain.earliest_on == today or is_sure or kept in {Level.LENS, Level.ROOTS}:
        return plain
    lens = _first_met(record, hours, state, today, check_every_days, Level.LENS)
    lens_on = None if lens is None else lens.on
    is_sooner = lens_on is not None and (plain.earliest_on is None or lens_on < plain.earliest_on)
    return replace(plain, with_lens_on=lens_on if is_sooner else None)


def _future_level(record: ReleaseRecord, level: Level | None, today: date) -> Level:
    if record.pest.rooted:
        return Level.ROOTS
    if level is not None:
        return level
    past = [check for check in record.checks if check.on <= today and check.level is not Level.ROOTS]
    return max(past, key=lambda check: check.on).level if past else Level.PLAIN


@dataclass(frozen=True, slots=True)
class _Met:
    """The check after which nothing holds the case back, and the one before it."""

    on: date
    more: int
    record: ReleaseRecord
    earlier: tuple[ReleaseRecord, date]
    was_doubted: bool
    """Whether at some earlier check only the probability was missing: only there closer looks gain days."""


def _foresee(met: _Met | None, hours: Clock, now: ReleaseState, today: date) -> ReleaseForecast:
    if now.qualifies:
        return ReleaseForecast(earliest_on=today, more_checks=0, binding=None, with_lens_on=None)
    if met is None:
        return ReleaseForecast(earliest_on=None, more_checks=0, binding=now.binding[0], with_lens_on=None)
    eve = _state(met.record, hours, met.on - timedelta(days=1)).binding
    held = eve or _state(met.earlier[0], hours, met.earlier[1]).binding or now.binding
    return ReleaseForecast(earliest_on=met.on, more_checks=met.more, binding=held[0], with_lens_on=None)


def _first_met(  # noqa: PLR0913, PLR0917 - one fact each
    record: ReleaseRecord, hours: Clock, now: ReleaseState, today: date, every: int, level: Level
) -> _Met | None:
    """Go from check to check until one finds the rule met; None where none within the horizon does."""
    if now.qualifies or now.too_cold or _target(record) > ceiling(_blind_spot(record, today)):
        return None
    first_on = _first_check_on(record, today, every)
    record = _merged(record, today)
    earlier, was_doubted = (record, today), False
    for more in range(1, FORECAST_DAYS // every + 1):
        due = first_on + timedelta(days=every * (more - 1))
        record = replace(record, checks=(*record.checks, CleanCheck(due, level)))
        record = _with_rounds(record, hours, today, due)
        # only where nothing simpler holds it back are the looks weighed
        if _is_near(record, hours, due):
            if _state(record, hours, due).qualifies:
                return _Met(due, more, record, earlier, was_doubted)
            was_doubted = True
        earlier = (record, due)
    return None


def _is_near(record: ReleaseRecord, hours: Clock, on: date) -> bool:
    """Whether all but the probability is met on a day."""
    days = [(check.on - record.last_find_on).days for check in _counted(record, on)]
    last = record.last_spray_on
    return (
        (on - record.last_find_on).days >= hours.h3
        and len(days) >= CHECKS_NEEDED
        and sum(day >= hours.h2 for day in days) >= LATE_CHECKS_NEEDED
        and (last is None or (on - last).days >= hours.h1)
        and _is_finished(record, hours, on, len(days))
    )


def _merged(record: ReleaseRecord, today: date) -> ReleaseRecord:
    """Merge the looks so far once: weighing them again for every day to come gives the same."""
    return replace(
        record,
        checks=tuple(_counted(record, today)),
        roots_checked=_was_lifted(record, today),
        is_merged=True,
    )


def _first_check_on(record: ReleaseRecord, today: date, every: int) -> date:
    past = [check.on for check in record.checks if record.last_find_on < check.on <= today]
    last = max(past, default=record.last_find_on)
    # Today's own look is taken already; an overdue one can still be taken today.
    return max(last + timedelta(days=every), today if last < today else today + timedelta(days=1))


def _with_rounds(record: ReleaseRecord, hours: Clock, today: date, until: date) -> ReleaseRecord:
    """Assume the rounds still owed up to a day, each on its gap; they count as sprays, the cautious side."""
    gap = timedelta(days=max(1, record.rounds_gap_days))
    due = today if record.last_spray_on is None else max(today, record.last_spray_on + gap)
    while due <= until and not _is_finished(record, hours, due, len(_counted(record, due))):
        record = replace(
            record,
            rounds_done=record.rounds_done + 1,
            rounds_since_find=record.rounds_since_find + 1,
            last_spray_on=due,
        )
        due += gap
    return record


def _is_finished(record: ReleaseRecord, hours: Clock, on: date, clean_in_a_row: int) -> bool:
    return rounds_finished(
        record.rounds_needed,
        record.rounds_done,
        (on - record.last_find_on).days,
        hours.h1,
        record.rounds_since_find,
        clean_in_a_row,
    )
