"""
The course of a case: what is done next on a plant, with what, and in which days.

Methods and product come from the remedy, the gap from development and label. Each step carries the figures it
rests on, so that "why" has something to say.
"""

from datetime import date, timedelta

from bot.domain.gap import GapPlan, Lateness, lateness, plan_gap
from bot.domain.household import Product
from bot.domain.outbreak import BY_HAND, PAIRED, WITH_PRODUCT, Outbreak, once
from bot.domain.progress import progress
from bot.domain.remedy import Act, Because, Remedy, handwork_of, remedy
from bot.domain.trade import Method
from bot.domain.value import Value, replace


class Step(Value, kw_only=True):
    """The next treatment of a plant: what, with what, in which days, and why."""

    plant: int
    pest: str
    method: Method
    product: Product | None
    before: tuple[Act, ...] = ()
    """What goes before it that evening, in order, and is not done yet."""
    because: Because
    opens_on: date
    aim_on: date
    closes_on: date
    gap: GapPlan | None
    last_on: date | None
    lateness: Lateness
    joins_from_on: date | None = None
    """From this day on the label lets it join an evening that takes place anyway."""
    then: tuple[Act, ...] = ()
    """What follows the next evening, where tonight only the handwork is done."""

    @property
    def acts(self) -> tuple[Act, ...]:
        return (*self.before, Act(self.method, self.product))


@once
def next_step(outbreak: Outbreak) -> Step | None:
    """Give the next treatment of a case, None where only checks remain or nothing at hand does any good."""
    return None if progress(outbreak).is_finished else due_step(outbreak)


@once
def due_step(outbreak: Outbreak) -> Step | None:
    """Give the next treatment of a case whose rounds are not finished, never sooner than the label allows."""
    found = remedy(outbreak)
    if found.main is None:
        return None
    last = outbreak.last_full_on if found.main.method in WITH_PRODUCT else outbreak.last_on
    if last is None:
        step = _first_step(outbreak, found, found.main)
    else:
        step = _following_step(outbreak, found, found.main, last)
    used_on, label = outbreak.last_use(step.product), outbreak.label_days(step.product)
    if (
        used_on is not None
        and label is not None
        and step.opens_on < (soonest := used_on + timedelta(days=label))
    ):
        step = replace(
            step,
            opens_on=soonest,
            aim_on=max(step.aim_on, soonest),
            closes_on=max(step.closes_on, soonest + timedelta(days=1)),
        )
    return _without_what_is_done(outbreak, step)


def _without_what_is_done(outbreak: Outbreak, step: Step) -> Step:
    """Leave out what was done the evening before or that day already: both are one round."""
    if not step.before:
        return step
    on = max(step.aim_on, outbreak.today)
    done = {one.method for one in outbreak.treatments if timedelta() <= on - one.on <= PAIRED}
    if done & BY_HAND or Method.SWAB in done:
        done |= BY_HAND | {Method.SWAB}  # whichever way they were wiped off
    left = tuple(act for act in step.before if act.method not in done)
    return step if len(left) == len(step.before) else replace(step, before=left)


def _first_step(outbreak: Outbreak, found: Remedy, main: Act) -> Step:
    """
    Give a new case its first round at once: by hand where an earlier use still forbids the product.

    What is rinsed so late that it does not dry by the evening is sprayed the next.
    """
    opened_on, today = outbreak.case.opened_on, outbreak.today
    used_on, label = outbreak.last_use(main.product), outbreak.label_days(main.product)
    waits_until = opened_on if used_on is None or label is None else used_on + timedelta(days=label)
    hand = handwork_of(outbreak)
    because, before = found.because, found.before
    then: tuple[Act, ...] = ()
    opens = opened_on
    if waits_until > max(today, opened_on) and hand is not None and outbreak.last_on is None:
        main, because = Act(hand), Because.BETWEEN
        before = tuple(act for act in before if act.product is None and act.method is not hand)
    elif (
        outbreak.case.is_opened_late
        and main.product is not None
        and any(act.method is Method.RINSE for act in before)
    ):
        if today <= opened_on and outbreak.last_on is None:
            then = (main,)
            main, because = Act(Method.RINSE), Because.DRY_FIRST
            before = tuple(act for act in before if act.method is not Method.RINSE and act.product is None)
        else:
            opens = opened_on + timedelta(days=1)
    late = Lateness.LATE if (today - opens).days > 1 else Lateness.ON_TIME
    found = replace(found, main=main, before=before, because=because)
    step = _step(outbreak, found, (opens, opens, opens + timedelta(days=1)), late)
    return replace(step, then=then)


def _step(outbreak: Outbreak, found: Remedy, days: tuple[date, date, date], lateness: Lateness) -> Step:
    """Give a step by the days on which it opens, is best and closes."""
    opens_on, aim_on, closes_on = days
    main = found.main
    assert main is not None
    return Step(
        plant=outbreak.plant.id,
        pest=outbreak.case.pest,
        method=main.method,
        product=main.product,
        before=found.before,
        because=found.because,
        opens_on=opens_on,
        aim_on=aim_on,
        closes_on=closes_on,
        gap=None,
        last_on=None,
        lateness=lateness,
    )


def _following_step(outbreak: Outbreak, found: Remedy, main: Act, last: date) -> Step:
    label, used_on = outbreak.label_days(main.product), outbreak.last_use(main.product)
    hurried = found.is_hurried
    whole = plan_gap(outbreak.pest, outbreak.warm, label, is_hurried=hurried)
    if whole.handwork_days and used_on is not None and handwork_of(outbreak) is not None:
        return _bridged_step(outbreak, found, used_on, whole)
    left = None if label is None or used_on is None else (used_on + timedelta(days=label) - last).days
    plan = plan_gap(
        outbreak.pest, outbreak.warm, left if left is not None and left > 0 else None, is_hurried=hurried
    )
    days = plan.days_after(last)
    step = _step(outbreak, found, days, lateness(plan, (outbreak.today - last).days))
    joins = None if left is None else last + timedelta(days=max(left, 1))
    return replace(step, gap=whole, last_on=last, joins_from_on=joins)


def _bridged_step(outbreak: Outbreak, found: Remedy, used_on: date, plan: GapPlan) -> Step:
    """Give a handwork day between two uses of a product, else the product from its day on."""
    today, hand = outbreak.today, handwork_of(outbreak)
    last = outbreak.last_on or used_on
    span = plan.days_after(used_on)
    hand_days = [used_on + timedelta(days=day) for day in plan.handwork_days]
    # forgotten it is not asked for again: the next day of handwork, or the spray, comes soon
    left = [max(day, outbreak.plant.postponed_to or day) for day in hand_days if day > last]
    waiting = [day for day in left if span[0] > day >= today]
    if waiting and hand is not None:
        span = (waiting[0],) * 3
        found = replace(found, main=Act(hand), because=Because.BETWEEN, before=())
    was_kept = last >= max((day for day in hand_days if day < span[0]), default=used_on)
    # Who kept every day that was asked for is not late on the next one, even where the days lie beyond U.
    late = Lateness.ON_TIME if was_kept and today <= span[2] else lateness(plan, (today - last).days)
    return replace(_step(outbreak, found, span, late), gap=plan, last_on=last)
