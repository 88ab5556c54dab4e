"""
The agenda: what is due on which evening, over all plants, on the fewest evenings.

A pure function of the household, the catalogue and the day. Overdue work is due tonight.
"""

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet
from datetime import date, timedelta
from functools import lru_cache

from bot.domain.course import Step, due_step
from bot.domain.evenings import Need, fewest_evenings
from bot.domain.household import Household, Plant
from bot.domain.identity import PlantId, ProductId
from bot.domain.journal import NudgedTask
from bot.domain.knowledge import Knowledge
from bot.domain.outbreak import Outbreak, allowed_on, outbreak_on
from bot.domain.pest import Pest
from bot.domain.progress import Progress, progress
from bot.domain.recurrence import evenings, next_on
from bot.domain.refusal import Use, is_off_today
from bot.domain.release import FRESH_DAYS
from bot.domain.remedy import Act, bears, choose_product
from bot.domain.slot import is_shadeless
from bot.domain.trade import Level, Method
from bot.domain.value import Value, replace
from bot.domain.watch import Watch, hatch_to_adult_days, watched

CHECK_ROUTINE = "check"
DEFAULT_CHECK_RULE = "FREQ=WEEKLY;BYDAY=SU"
"""The weekly look while a case or a watch is open. Weekly: common practice, no source; Sunday is ours."""
SLOW_WATCH_DAYS = 14
"""The longest between two looks at a plant that has no case near it any more. Judgement. [d]"""
LOOKS_BEFORE_GROWN = 3
"""So many of them in the time an egg takes to be a visible adult, weekly at the most. Judgement. [1]"""
CHECKS_APART_DAYS = 3
"""A look this short before the weekly one stands for it. Judgement. [d]"""
LOOK_EARLY_DAYS, LOOK_LATE_DAYS = 2, 3
"""So far from its Sunday a weekly look joins the evening of a treatment. Judgement. [d]"""
TOLD_LOOK_LATE_DAYS = 1
"""The same where the person set the day, or a sign was seen: later only. Judgement. [d]"""
LOOKED_AT_ONCE = 20
"""More healthy plants than these are looked at in turns. [1]"""
THIRDS = 3
"""As many turns as it takes. Judgement. [1]"""
SIGN_CHECK_WITHIN_DAYS = 2
_WEEK = 7  # [d]
QUARANTINE_DAYS = 42
"""Six weeks, the longest of what extension services advise (three to six). [d]"""
SHORT_QUARANTINE_DAYS = 21
"""Three weeks, only where the person chooses it. [d]"""


# Households of one evening ask the recurrence engine for the same few days, over and over.
_next_on = lru_cache(maxsize=8192)(next_on)


class Task(Value, kw_only=True):
    """One thing to do to one plant; no method is a check; the step stands with an evening's last."""

    plant: PlantId
    method: Method | None
    product: ProductId | None
    step: Step | None
    opens_on: date
    closes_on: date


def needs_shade(household: Household, knowledge: Knowledge, task: Task | NudgedTask) -> bool:
    """Whether a task puts oil, soap or neem on leaves, which sun would burn."""
    if task.method is not Method.SPRAY or task.product is None:
        return False
    kind = knowledge.products.get(household.products[task.product].ingredient)
    return kind is not None and kind.needs_shade


class Evening(Value):
    on: date
    tasks: tuple[Task, ...]


class Agenda(Value, kw_only=True):
    """The coming evenings, the state of each open case, and the plants on watch."""

    evenings: tuple[Evening, ...]
    progress: Mapping[PlantId, tuple[Progress, ...]]
    watched: Mapping[PlantId, Watch]
    ready: tuple[PlantId, ...]

    def on(self, day: date) -> tuple[Task, ...]:
        return next((evening.tasks for evening in self.evenings if evening.on == day), ())

    def rinsed_on(self, day: date) -> tuple[Task, ...]:
        """Give the sprays of an evening for which leaves are rinsed that day, to be dry by then."""
        stepped = ((task, task.step.before) for task in self.on(day) if task.step is not None)
        return tuple(task for task, before in stepped if any(act.method is Method.RINSE for act in before))


class _Day(Value):
    household: Household
    knowledge: Knowledge
    today: date


def plan(household: Household, knowledge: Knowledge, today: date) -> Agenda:
    cases = {
        plant.id: tuple(progress(outbreak_on(household, knowledge, plant, case, today)) for case in open_)
        for plant in household.living
        if (open_ := plant.open_cases)
    }
    watches = watched(household, knowledge, today)
    day = _Day(household, knowledge, today)
    return Agenda(
        evenings=_evenings(day, [*_treatments(day, cases), *_checks(day, cases, watches)]),
        progress=cases,
        watched=watches,
        ready=(
            *(plant for plant, states in cases.items() if all(one.qualifies for one in states)),
            *(plant.id for plant in household.living if _is_out_of_quarantine(plant, today)),
        ),
    )


def _is_out_of_quarantine(plant: Plant, today: date) -> bool:
    """Whether its weeks are over and a late look found none."""
    until, last = plant.quarantine_until, max((check.on for check in plant.checks), default=None)
    return (
        until is not None
        and today >= until
        and last is not None
        and (today - last).days <= FRESH_DAYS
        and last > (plant.isolated_on or last)
    )


def _treatments(day: _Day, cases: Mapping[PlantId, tuple[Progress, ...]]) -> list[tuple[Task, date]]:
    found = []
    besides: dict[tuple[PlantId, Method | None], tuple[Task, date]] = {}
    for number, states in cases.items():
        steps = [due_step(state.outbreak) for state in states if not state.is_finished]
        if not steps:
            continue
        step = min((one for one in steps if one is not None), key=lambda one: one.aim_on, default=None)
        if step is not None:
            task = Task(
                plant=number,
                method=step.method,
                product=step.product.id if step.product else None,
                step=step,
                opens_on=step.opens_on,
                closes_on=step.closes_on,
            )
            found.append((task, step.aim_on))
        for beside in _beside(day, day.household.plants[number], step):
            aim_on = beside.opens_on if step is None else step.aim_on
            besides.setdefault((beside.plant, beside.method), (beside, aim_on))
    # two cases in a room ask a third plant for the same: once, and what takes a product last
    return found + sorted(besides.values(), key=lambda one: one[0].product is not None)


def _beside(day: _Day, plant: Plant, step: Step | None) -> Iterator[Task]:
    """
    Give the same work on the other pots of the room, where the pest asks for it and they bear it.

    Where the plant itself must stay moist and nothing is there to drench with, the others dry once.
    """
    household, knowledge, today = day.household, day.knowledge, day.today
    for case in plant.open_cases:
        fight = knowledge.pests[case.pest].fight
        if not fight.is_room_wide or (step is not None and step.pest != case.pest):
            continue
        acts = step.acts if step else tuple(Act(one) for one in fight.with_round if not one.uses_product)
        opens = step.opens_on if step else case.opened_on
        for other in household.living:
            if other.id == plant.id or other.open_cases or other.place != plant.place or plant.place is None:
                continue
            stands = Outbreak(household=household, knowledge=knowledge, plant=other, case=case, today=today)
            done = {one.method for one in other.treatments if one.on >= opens}
            for act in acts:
                product = None if act.product is None else choose_product(stands, act.method)
                allowed = allowed_on(knowledge, other, product)
                is_borne = bears(stands, act.method) if act.product is None else product is not None
                if is_borne and (allowed is None or allowed <= opens) and act.method not in done:
                    yield Task(
                        plant=other.id,
                        method=act.method,
                        product=None if product is None else product.id,
                        step=None,
                        opens_on=opens,
                        closes_on=step.closes_on if step else opens + timedelta(days=1),
                    )


def _checks(
    day: _Day, cases: Mapping[PlantId, tuple[Progress, ...]], watches: Mapping[PlantId, Watch]
) -> list[tuple[Task, date]]:
    household, knowledge, today = day.household, day.knowledge, day.today
    told = household.routines.get(CHECK_ROUTINE)
    turns = _turns(day, {*cases, *watches}, told)
    found = []
    for plant in household.living:
        involved = plant.id in cases or plant.id in watches or plant.quarantine_until is not None
        if told is None and not involved and not plant.signs:
            continue
        watch = watches.get(plant.id)
        every = _WEEK
        if told is None and not plant.open_cases and watch is not None and watch.until is not None:
            grown = hatch_to_adult_days(household, knowledge, plant, watch.pest, today)
            every = min(SLOW_WATCH_DAYS, max(_WEEK, grown // LOOKS_BEFORE_GROWN))
        due = turns.get(plant.id) or _check_due(
            knowledge, plant, told, today, every if told is not None or involved else None
        )
        if due is not None and watch is not None and not plant.open_cases and not plant.signs:
            due = max(due, _lifted_until(knowledge.pests[watch.pest], plant) or due)
        if due is not None:
            pests = [*(case.pest for case in plant.open_cases), *([watch.pest] if watch else [])]
            is_lifted = any(knowledge.pests[pest].rooted for pest in pests)
            late = (today - due).days - TOLD_LOOK_LATE_DAYS
            if is_lifted and late > 0:  # not done it is not asked for again every evening
                due += timedelta(days=-(-late // _WEEK) * _WEEK)
            is_free = told is None and not plant.signs and not is_lifted
            found.append((_check_task(plant, due, is_free=is_free), due))
    return found


def _turns(
    day: _Day, involved: AbstractSet[PlantId], told: tuple[str, date] | None
) -> Mapping[PlantId, date]:
    """
    Give healthy plants their turns in a weekly look, a third at a time where there are more than twenty.

    Who was looked at longest ago comes first, and of those who stands where a case has been. Judgement.
    """
    healthy = [
        plant
        for plant in day.household.living
        if plant.id not in involved and not plant.signs and not plant.quarantine_until
    ]
    if told is None or len(healthy) <= LOOKED_AT_ONCE:
        return {}
    looked = {plant.id: max(plant.looked_on, default=plant.added_on or day.today) for plant in healthy}
    places = {plant.place for plant in day.household.plants.values() if plant.cases}
    healthy.sort(key=lambda plant: (looked[plant.id], plant.place not in places, plant.id))
    third = -(-len(healthy) // THIRDS)
    # a turn is over once as many as a third were looked at since
    before = sorted(looked.values())[-third] + timedelta(days=CHECKS_APART_DAYS)
    found: dict[PlantId, date] = {}
    for first in range(0, len(healthy), third):
        following = _next_on(told[0], told[1], max(before, told[1] - timedelta(days=1)))
        if following is None:
            break
        found |= dict.fromkeys((plant.id for plant in healthy[first : first + third]), following)
        before = following
    return found


def _check_due(
    knowledge: Knowledge, plant: Plant, told: tuple[str, date] | None, today: date, every_days: int | None
) -> date | None:
    seen_on = max(plant.looked_on, default=None)
    looked = seen_on or plant.added_on or today
    if plant.open_cases and all(knowledge.pests[case.pest].rooted for case in plant.open_cases):
        return _roots_due(knowledge, plant)
    found_on = max((find.on for case in plant.open_cases for find in case.finds), default=None)
    signs = [
        on + timedelta(days=1)
        for on, _ in plant.signs
        if plant.lost_on is None
        and (seen_on is None or seen_on <= on)
        and (found_on is None or found_on < on)  # what was found that day explains it
    ]
    dates = signs
    if every_days is not None:
        rule, since = told or (DEFAULT_CHECK_RULE, looked)
        apart = timedelta(days=every_days - _WEEK + CHECKS_APART_DAYS)
        anchor = max(looked + apart, since - timedelta(days=1))
        following = _next_on(rule, since, anchor)
        dates = signs if following is None else [*signs, following]
    return min(dates, default=None)


def _roots_due(knowledge: Knowledge, plant: Plant) -> date:
    """Give the next look where only the roots show the pest: so many days after the last, or fresh mix."""
    looks = [check.on for check in plant.checks if check.level is Level.ROOTS]
    potted = [one.on for one in plant.treatments if one.method is Method.CLEAN_OUT]
    apart = max(knowledge.pests[case.pest].looking.apart_days for case in plant.open_cases)
    finds = [case.last_find_on for case in plant.open_cases]
    return max([*looks, *potted, *finds]) + timedelta(days=apart)


def _lifted_until(pest: Pest, plant: Plant) -> date | None:
    """Give the day until which a look at the roots stands, where only the roots show what is watched for."""
    looks = [check.on for check in plant.checks if check.level is Level.ROOTS]
    return max(looks) + timedelta(days=pest.looking.apart_days) if pest.rooted and looks else None


def _check_task(plant: Plant, due: date, *, is_free: bool) -> Task:
    """Give the look at a plant in its days: what was missed on a healthy one joins the next evening."""
    late = (LOOK_LATE_DAYS if plant.open_cases else _WEEK) if is_free else TOLD_LOOK_LATE_DAYS
    return Task(
        plant=plant.id,
        method=None,
        product=None,
        step=None,
        opens_on=due - timedelta(days=LOOK_EARLY_DAYS if is_free else 0),
        closes_on=due + timedelta(days=late),
    )


def _evenings(day: _Day, needs: list[tuple[Task, date]]) -> tuple[Evening, ...]:
    tasks = dict(enumerate(task for task, _ in needs))
    asked = [_need(day, number, task, aim) for number, (task, aim) in enumerate(needs)]
    return tuple(
        Evening(on, tuple(part for key in keys for part in _parts(tasks[key])))
        for on, keys in fewest_evenings(asked)
    )


def _parts(task: Task) -> tuple[Task, ...]:
    """Give an evening's work on a plant thing by thing, in the order it is done."""
    if task.step is None or not task.step.before:
        return (task,)
    before = (
        replace(task, method=act.method, product=act.product.id if act.product else None, step=None)
        for act in task.step.before
    )
    return (*before, task)


def _need(day: _Day, number: int, task: Task, aim: date) -> Need:
    """Bound a task by its window, by today (the overdue is due now), and by the days that are left out."""
    today = day.today
    first, last = max(task.opens_on, today), max(task.closes_on, today)
    left_out = _left_out(day, task)
    days = evenings(first, last, left_out)
    aimed = _nearest(days, aim)
    if _is_shadeless(day, task, aimed):
        sunny = frozenset(on for on in days if _is_shadeless(day, task, on))
        if len(sunny) < len(days):  # where no day has shade the plant is moved out of the sun
            left_out |= sunny
            days = evenings(first, last, left_out)
            aimed = _nearest(days, aim)
    at = days.index(aimed)  # up to it and from it on, as far as no day is left out
    run = [on for number, on in enumerate(days) if (on - aimed).days == number - at]
    joins = None if task.step is None or run[0] != days[0] else task.step.joins_from_on
    label_on = None if joins is None else evenings(min(max(joins, today), run[0]), run[0], left_out)[0]
    return Need(key=number, opens_on=run[0], aim_on=aimed, closes_on=run[-1], label_on=label_on)


def _nearest(days: tuple[date, ...], aim: date) -> date:
    return aim if aim in days else min(days, key=lambda on: (abs(on - aim), on))


def _left_out(day: _Day, task: Task) -> frozenset[date]:
    """Give the days from today on that a task cannot fall on: put off, away, or too hot for its product."""
    household, today = day.household, day.today
    plant = household.plants[task.plant]
    off = household.days_away(today)
    if plant.postponed_to is not None and plant.postponed_to > today:
        off |= frozenset(evenings(today, plant.postponed_to - timedelta(days=1)))
    product = None if task.product is None else household.products[task.product]
    if product is not None and is_off_today(Use(household, day.knowledge, plant, product, today)):
        off |= {today}
    return off


def _is_shadeless(day: _Day, task: Task, on: date) -> bool:
    household = day.household
    plant = household.plants[task.plant]
    place = None if plant.place is None else household.places[plant.place]
    if place is None or not needs_shade(household, day.knowledge, task):
        return False
    is_lit = place.exposure.sees_sun or place.lamp_until is not None
    return is_lit and is_shadeless(on, place.exposure, household.site, household.habits)
