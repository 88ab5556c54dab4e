"""When the next nudge goes out: one a household an evening, one repeat, never in quiet hours."""

from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta
from functools import lru_cache, partial

from bot.domain.agenda import Agenda, Task, needs_shade, plan
from bot.domain.household import Household, Nudge, Plant, Treatment
from bot.domain.identity import PlantId
from bot.domain.journal import NIGHT_ENDS_AT, NudgedTask, evening_of
from bot.domain.knowledge import Knowledge
from bot.domain.outbreak import BY_HAND
from bot.domain.recurrence import evenings, on_the_clock
from bot.domain.slot import Slot, SlotKind, slots
from bot.domain.trade import Method
from bot.domain.value import Value

SILENT_DAYS = 5
"""Evenings without a word after which it is asked whether to go on. Judgement. [d]"""
ASKED_EVERY_DAYS = 7
"""Then it is asked so seldom. Judgement. [d]"""
REPEAT_AFTER = timedelta(minutes=60)
"""Least time between a nudge and its repeat, and between the person's last word and a nudge. Judgement."""
LEAD = timedelta(minutes=15)
"""A nudge comes this long before a slot that begins after the preferred time. Judgement."""
TOLD_LATE = timedelta(days=2)
"""A treatment told under a message for so many days before is what it asks for. Judgement."""
LATEST = timedelta(hours=3)
"""A nudge or its repeat that missed its time by more is not sent: the next evening it is. Judgement."""
GRID_MINUTES = 5
"""Slots begin on this grid; a nudge composed within a step may still name its start. [min]"""
LOOK_AHEAD_EVENINGS = 3
"""Evenings tried for a slot before giving up until the next change. Judgement."""


# The time of a nudge and its words ask for the same evening, and so do the homes of one town.
_slots = lru_cache(maxsize=256)(slots)


class Placement(Value):
    """A slot and the plants it holds for."""

    slot: Slot
    plants: tuple[PlantId, ...]
    sunless: tuple[PlantId, ...] = ()
    """Those of them that no sun and no lamp reaches at any hour."""


def placements(
    household: Household,
    knowledge: Knowledge,
    tasks: Sequence[Task | NudgedTask],
    day: date,
    now: datetime,
) -> tuple[Placement, ...]:
    """Give the slots of one evening for the tasks that need shade, each with its plants."""
    shaded = [task.plant for task in tasks if needs_shade(household, knowledge, task)]
    if not shaded:
        return ()
    stands = {plant: household.plants[plant].place for plant in shaded}
    exposures = {
        place: household.places[place].exposure
        for place in dict.fromkeys(stands.values())
        if place is not None
    }
    wanted = tuple(dict.fromkeys(exposures.values()))
    if not wanted:
        return ()
    past = timedelta(minutes=now.minute % GRID_MINUTES, seconds=now.second, microseconds=now.microsecond)
    on_grid = now - past
    found = _slots(day, wanted, household.site, household.habits, on_grid)
    sunless = {place for place, one in exposures.items() if not one.sees_sun and one.lamp_until is None}
    placed = []
    for slot in found:
        places = {place for place, one in exposures.items() if one in slot.exposures}
        plants = tuple([plant for plant in shaded if stands[plant] in places])
        placed.append(Placement(slot, plants, tuple([one for one in plants if stands[one] in sunless])))
    return tuple(placed)


def nudge_at(
    household: Household, knowledge: Knowledge, tasks: tuple[Task, ...], day: date, now: datetime
) -> datetime | None:
    """Give the time the nudge of an evening goes out; None when it is too late for that evening."""
    zone = household.zone
    after_midnight = timedelta(days=1) if household.evening < NIGHT_ENDS_AT else timedelta()
    preferred = on_the_clock(day + after_midnight, household.evening, zone)
    owed_at = preferred
    if household.told_at is not None and household.told_at <= now:
        owed_at = max(owed_at, household.told_at + REPEAT_AFTER)
    at = max(now, owed_at)
    tonight = [
        one.slot.start_at
        for one in placements(household, knowledge, tasks, day, at)
        if one.slot.kind is SlotKind.EVENING
    ]
    at = max(at, min(tonight, default=at) - LEAD)
    is_over = at == now and at - owed_at > LATEST
    return None if is_over or household.is_quiet(at) or evening_of(at, zone) != day else at


def is_long_silent(household: Household, today: date) -> bool:
    """Whether nobody has said a word for evenings, so that one question takes their place."""
    since = household.unheard_since
    return since is not None and (today - since).days >= SILENT_DAYS


def next_nudge_at(
    household: Household,
    knowledge: Knowledge,
    now: datetime,
    planned: Callable[[date], Agenda] | None = None,
) -> datetime | None:
    """
    Give the next instant at which the household is owed a message, None for not in sight.

    planned gives the plan from a day on where somebody already has it.
    """
    if not household.is_zone_told:
        return None
    today = evening_of(now, household.zone)
    if household.is_held(today) and household.held_until is None:
        return None
    nudge = household.nudge  # one from a clock that was ahead does not count
    from_day = planned or partial(plan, household, knowledge)
    if household.is_silent and nudge is not None:
        return _first_evening(
            household, knowledge, from_day, max(today, nudge.on + timedelta(days=ASKED_EVERY_DAYS)), now
        )
    soon = (
        ()
        if household.is_held(today)
        else (_again_tonight(household, today, now), morning_at(household, now))
    )
    again = min((at for at in soon if at is not None), default=None)
    if again is not None:
        return again
    is_nudged = nudge is not None and nudge.on >= today and nudge.at <= now
    # Who moved westwards may have had the nudge of a date that begins anew: a date is nudged once.
    first = nudge.on + timedelta(days=1) if nudge is not None and is_nudged else today
    return _first_evening(household, knowledge, from_day, first, now)


def is_looked_at(plant: Plant, on: date) -> bool:
    """Whether a plant was looked at since a day, with or without a find."""
    return any(day >= on for day in plant.looked_on)


def done_as(household: Household, plant: Plant, method: Method, on: date) -> Treatment | None:
    """
    Give what the journal has of it since the evening it was asked for, whichever way it was wiped off or cut.

    What is told under the message of a day just before is what the message would not have asked for.
    """
    alike = BY_HAND | {Method.SWAB} if method in BY_HAND else {method}
    if method in {*BY_HAND, Method.SWAB, Method.PRUNE}:
        alike = alike | {Method.CLEAN_OUT}
    if household.nudge is not None and plant.id in household.nudge.told_late:
        on -= TOLD_LATE
    since = [one for one in plant.treatments if one.on >= on and one.method in alike]
    return next((one for one in since if one.method is method), next(iter(since), None))


def is_left(household: Household, task: NudgedTask, on: date) -> bool:
    """Whether what an evening's message named is neither done nor put off, and its plant still there."""
    plant = household.plants.get(task.plant)
    if plant is None or plant.lost_on is not None or (plant.postponed_to and plant.postponed_to > on):
        return False
    if task.method is None:
        return not is_looked_at(plant, on)
    return done_as(household, plant, task.method, on) is None


def morning_at(household: Household, now: datetime) -> datetime | None:
    """Give when what waits for the morning is named, as its slot opens; None where all of it is answered."""
    nudge = household.nudge
    if nudge is None or nudge.is_morning:
        return None
    owed = [
        task.from_at
        for task in nudge.tasks
        if task.from_at is not None and is_left(household, task, nudge.on)
    ]
    at = max(min(owed, default=now), now)
    is_over = not owed or at - min(owed) > LATEST or (household.told_at and household.told_at > min(owed))
    return None if is_over or household.is_quiet(at) else at


def _first_evening(
    household: Household,
    knowledge: Knowledge,
    planned: Callable[[date], Agenda],
    first: date,
    now: datetime,
) -> datetime | None:
    last = first + timedelta(days=LOOK_AHEAD_EVENINGS - 1)
    for day in evenings(first, last, household.days_away(first)):
        agenda = planned(day)
        for evening in agenda.evenings:
            eve = evening.on - timedelta(days=1)
            if eve >= day and agenda.rinsed_on(evening.on):
                # what is rinsed by 17:00 is named the evening before
                at = nudge_at(household, knowledge, (), eve, now)
                if at is not None:
                    return at
            at = nudge_at(household, knowledge, evening.tasks, evening.on, now)
            if at is not None:
                return at
            if evening.on == day:
                break
        if not agenda.evenings:
            return None
    return None


def _again_tonight(household: Household, today: date, now: datetime) -> datetime | None:
    """Give the time of the repeat, or the later hour the person asked for."""
    nudge = household.nudge
    asked = [
        plant.postponed_at
        for plant in household.living
        if plant.postponed_at is not None
        and evening_of(plant.postponed_at, household.zone) == today
        and (nudge is None or plant.postponed_at > nudge.at)
    ]
    if asked:
        owed_at = min(asked)
    elif nudge is not None and nudge.on == today and household.repeats and _wants_repeat(household, nudge):
        owed_at = nudge.at + REPEAT_AFTER
    else:
        return None
    at = max(owed_at, now)
    is_over = at - owed_at > LATEST or evening_of(at, household.zone) != today
    return None if is_over or household.is_quiet(at) else at


def _wants_repeat(household: Household, nudge: Nudge) -> bool:
    """Whether nobody answered, but did the evening before, and something of it can still be done tonight."""
    if nudge.is_heard or nudge.count != 1 or household.unheard_since not in {None, nudge.on}:
        return False
    open_now = (task for task in nudge.tasks if task.from_at is None and not task.is_over)
    return any(is_left(household, task, nudge.on) for task in open_now)
