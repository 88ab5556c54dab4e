"""
The course of a case: what is done next on a plant, with what, when, and until when.

Rules: methods by severity, product by the shelf, gap by development and label, rounds until the minimum is
done.
Each answer carries the figures it rests on, so that "why" has something to say.
"""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import Enum
from functools import cached_property

from bot.domain.climate import daily_temperatures, temperature_on
from bot.domain.gap import GapPlan, Lateness, lateness, plan_gap
from bot.domain.household import Case, Household, Plant, Product, Treatment
from bot.domain.knowledge import Knowledge
from bot.domain.label import refusals
from bot.domain.length import RoundForecast, forecast_rounds, minimum_rounds, winning_gaps
from bot.domain.pest import Level, Pest
from bot.domain.release import (
    CleanCheck,
    ReleaseForecast,
    ReleaseRecord,
    ReleaseState,
    forecast_release,
    merged_looks,
    release_state,
    rounds_finished,
)
from bot.domain.survival import Start
from bot.domain.trade import Grade, Method

STALL_DAYS = 21
"""Living pests this long after the start or the last clean-out call for a clean-out. Judgement. [d]"""

PRODUCT_METHODS = frozenset({Method.SPRAY, Method.DRENCH, Method.SWAB})
HANDWORK = frozenset({Method.RINSE, Method.WIPE})

MOST_SOUGHT = 2
"""Kinds of product named at once. Judgement. [1]"""


class Because(Enum):
    """Why this method."""

    FEW = "few"
    SOME = "some"
    MANY = "many"
    STALL = "stall"
    NO_PRODUCT = "no-product"
    BETWEEN = "between"
    MITES = "mites"
    ROOTS = "roots"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """The next treatment of a plant: what, with what, in which days, and why."""

    plant: int
    method: Method
    product: Product | None
    because: Because
    opens_on: date
    aim_on: date
    closes_on: date
    gap: GapPlan | None
    last_on: date | None
    lateness: Lateness
    missed_after_on: date | None
    joins_from_on: date | None = None
    """From this day on the label lets it join an evening that takes place anyway."""


@dataclass(frozen=True, kw_only=True)
class Progress:
    """
    How far a case is: rounds, forecast, release.

    The two forecasts are computed when somebody wants to know: planning an evening does not.
    """

    case: Case
    pest: Pest
    temperature: float | None
    rounds_done: int
    rounds_since_find: int
    is_finished: bool
    state: ReleaseState
    gap_days: float
    record: ReleaseRecord
    today: date

    @cached_property
    def forecast(self) -> RoundForecast:
        """How many rounds it takes at the least, and likely."""
        return forecast_rounds(self.pest, self.temperature, self.gap_days, Start(self.case.worst.value))

    @cached_property
    def rhythm(self) -> tuple[float, float] | None:
        """Longest gaps that still win, reaching 95 and 80 % each round; None but for leaf mealybugs. [d]."""
        return winning_gaps(self.pest, self.temperature)

    @cached_property
    def release(self) -> ReleaseForecast:
        """When it may leave isolation if every check from now on finds none."""
        return forecast_release(self.record, self.today, now=self.state)


def choose_method(plant: Plant, case: Case, pest: Pest) -> tuple[Method, Because]:
    """
    Pick the method by severity and pest.

    Up to 5 in one spot: swab. Some: spray. Many, or still alive after 21 days: a clean-out, then sprays.
    Mites are too small and too many to swab: spray. What lives in the mix is not reached on the leaves: roots
    washed and fresh mix, then drenches. Common practice, no source; the stall rule is judgement.
    """
    cleaned_on = max((t.on for t in rounds(plant, case) if t.method is Method.CLEAN_OUT), default=None)
    since = cleaned_on or case.opened_on
    if (case.last_find_on - since).days >= STALL_DAYS:
        return Method.CLEAN_OUT, Because.STALL
    if pest.drenched:
        return (Method.CLEAN_OUT if pest.rooted and cleaned_on is None else Method.DRENCH), Because.ROOTS
    if Method.PRUNE in pest.fight.strong:
        return Method.SPRAY, Because.MITES
    if case.worst is Grade.MANY:
        return (Method.CLEAN_OUT if cleaned_on is None else Method.SPRAY), Because.MANY
    if case.worst is Grade.SOME:
        return Method.SPRAY, Because.SOME
    return Method.SWAB, Because.FEW


def choose_product(  # noqa: PLR0913, PLR0917 - one fact each
    household: Household, knowledge: Knowledge, plant: Plant, pest: Pest, method: Method, today: date
) -> Product | None:
    """Pick from the shelf what the method can use and no rule forbids; the shortest label gap first."""
    fitting = [
        product
        for product in household.products.values()
        if product.ingredient in knowledge.products
        and method in knowledge.products[product.ingredient].methods
        and not refusals(household, knowledge, plant, product, pest, today)
    ]
    return min(fitting, key=lambda product: (label_days(knowledge, product) or 0, product.id), default=None)


def _wish(
    household: Household, knowledge: Knowledge, plant: Plant, case: Case, today: date
) -> tuple[Method, Because, Product | None]:
    """Pick method and product of a case, once a day and household."""
    key = (plant.id, case.pest, case.opened_on, today)
    known: tuple[Method, Because, Product | None] | None = household.chosen.get(key)
    if known is None:
        pest = knowledge.pests[case.pest]
        method, because = choose_method(plant, case, pest)
        product = choose_product(household, knowledge, plant, pest, method, today)
        known = household.chosen[key] = (method, because, product)
    return known


def label_days(knowledge: Knowledge, product: Product | None) -> int | None:
    """Give the label's minimum gap: as told, else the cautious default of its kind. [d]."""
    if product is None:
        return None
    if product.gap_days is not None:
        return product.gap_days
    kind = knowledge.products.get(product.ingredient)
    return kind.gap_days if kind else None


def rounds(plant: Plant, case: Case) -> list[Treatment]:
    """Treatments that count for the case: from its opening on, pruning and repotting alone left out."""
    end = case.closed_on or date.max
    return [
        treatment
        for treatment in plant.treatments
        if case.opened_on <= treatment.on <= end and treatment.method not in {Method.PRUNE, Method.REPOT}
    ]


def round_days(plant: Plant, case: Case) -> list[date]:
    """
    Days that count as rounds, in order.

    Handwork after a use of a product bridges the gap to the next and is no round; before the first, or where
    no product is used at all, it is one.
    """
    done = rounds(plant, case)
    full = {treatment.on for treatment in done if treatment.method not in HANDWORK}
    first = min((treatment.on for treatment in done if treatment.method in PRODUCT_METHODS), default=date.max)
    return sorted(full | {treatment.on for treatment in done if treatment.on < first})


def next_step(
    household: Household, knowledge: Knowledge, plant: Plant, case: Case, today: date
) -> Step | None:
    """Give the next treatment of a case, None where only checks remain."""
    if progress(household, knowledge, plant, case, today).is_finished:
        return None
    return due_step(household, knowledge, plant, case, today)


def due_step(household: Household, knowledge: Knowledge, plant: Plant, case: Case, today: date) -> Step:
    """Give the next treatment of a case whose rounds are not finished, never sooner than the label allows."""
    step = _wished_step(household, knowledge, plant, case, today)
    used_on, label = _last_use(knowledge, plant, step.product), label_days(knowledge, step.product)
    if used_on is None or label is None or step.opens_on >= (soonest := used_on + timedelta(days=label)):
        return step
    return replace(
        step,
        opens_on=soonest,
        aim_on=max(step.aim_on, soonest),
        closes_on=max(step.closes_on, soonest + timedelta(days=1)),
    )


def _wished_step(household: Household, knowledge: Knowledge, plant: Plant, case: Case, today: date) -> Step:
    method, because, product = _wish(household, knowledge, plant, case, today)
    if product is None and method is Method.SWAB:
        method = Method.WIPE
    elif product is None and method in PRODUCT_METHODS:
        method, because = Method.RINSE, Because.NO_PRODUCT
    last = max((treatment.on for treatment in rounds(plant, case)), default=None)
    if last is None:
        return _first_step(knowledge, plant, case, method, product, because, today)
    return _following_step(household, knowledge, plant, case, method, product, because, last, today)


def _first_step(  # noqa: PLR0913, PLR0917 - one fact each, named at the only call
    knowledge: Knowledge,
    plant: Plant,
    case: Case,
    method: Method,
    product: Product | None,
    because: Because,
    today: date,
) -> Step:
    """Give a new case its first round at once: by hand where an earlier use still forbids the product."""
    allowed_on = label_allows_on(knowledge, plant, product) or case.opened_on
    if allowed_on > max(today, case.opened_on):
        product, method, because = None, _by_hand(method), Because.BETWEEN
        allowed_on = case.opened_on
    opens = max(case.opened_on, allowed_on)
    return Step(
        plant=plant.id,
        method=method,
        product=product,
        because=because,
        opens_on=opens,
        aim_on=opens,
        closes_on=opens + timedelta(days=1),
        gap=None,
        last_on=None,
        lateness=Lateness.LATE if (today - case.opened_on).days > 1 else Lateness.ON_TIME,
        missed_after_on=None,
    )


def _by_hand(method: Method) -> Method:
    return Method.RINSE if method is Method.SPRAY else Method.WIPE


def label_allows_on(knowledge: Knowledge, plant: Plant, product: Product | None) -> date | None:
    """Give the first day on which the label allows the product again, None where it was never used here."""
    label, used_on = label_days(knowledge, product), _last_use(knowledge, plant, product)
    return None if label is None or used_on is None else used_on + timedelta(days=label)


def _last_use(knowledge: Knowledge, plant: Plant, product: Product | None) -> date | None:
    """
    Give the day from which a product's label counts: its last use, or the last spray of any other.

    Leaves that were sprayed two days ago are not sprayed again because the next bottle is another. Judgement.
    """
    if product is None:
        return None
    kind = knowledge.products.get(product.ingredient)
    is_spray = kind is not None and Method.SPRAY in kind.methods
    uses = (
        t.on
        for t in plant.treatments
        if t.product == product.id or (is_spray and t.product is not None and t.method is Method.SPRAY)
    )
    return max(uses, default=None)


def _following_step(  # noqa: PLR0913, PLR0917 - one fact each, named at the only call
    household: Household,
    knowledge: Knowledge,
    plant: Plant,
    case: Case,
    method: Method,
    product: Product | None,
    because: Because,
    last: date,
    today: date,
) -> Step:
    pest = knowledge.pests[case.pest]
    label = label_days(knowledge, product)
    used_on = _last_use(knowledge, plant, product)
    temperature = temperature_on(household, plant, today)
    whole = plan_gap(pest, temperature, label)
    if whole.label_outlasts and used_on is not None:
        return _bridged_step(plant, method, product, because, used_on, last, whole, today)
    left = None if label is None or used_on is None else (used_on + timedelta(days=label) - last).days
    plan = plan_gap(pest, temperature, left if left is not None and left > 0 else None)
    return Step(
        plant=plant.id,
        method=method,
        product=product,
        because=because,
        opens_on=last + timedelta(days=plan.opens_days),
        aim_on=last + timedelta(days=plan.aim_days),
        closes_on=last + timedelta(days=plan.closes_days),
        gap=whole,
        last_on=last,
        lateness=lateness(plan, (today - last).days),
        missed_after_on=last + timedelta(days=plan.missed_after_days),
        joins_from_on=None
        if label is None or used_on is None
        else max(used_on + timedelta(days=label), last + timedelta(days=1)),
    )


def _bridged_step(  # noqa: PLR0913, PLR0917 - one fact each, named at the only call
    plant: Plant,
    method: Method,
    product: Product | None,
    because: Because,
    used_on: date,
    last: date,
    plan: GapPlan,
    today: date,
) -> Step:
    """Give a handwork day while the label forbids the product, else the product from the label's day on."""
    opens = used_on + timedelta(days=plan.opens_days)
    hand_days = [used_on + timedelta(days=day) for day in plan.handwork_days]
    waiting = [day for day in hand_days if day > last and opens > max(day, today)]
    if waiting:
        day = waiting[0]
        span = (day, day, day + timedelta(days=1))
        product, method, because = None, _by_hand(method), Because.BETWEEN
    else:
        span = (
            opens,
            used_on + timedelta(days=plan.aim_days),
            used_on + timedelta(days=plan.closes_days),
        )
    was_kept = last >= max((day for day in hand_days if day < span[0]), default=used_on)
    return Step(
        plant=plant.id,
        method=method,
        product=product,
        because=because,
        opens_on=span[0],
        aim_on=span[1],
        closes_on=span[2],
        gap=plan,
        last_on=last,
        # Who kept every day that was asked for is not late on the next one, even where the days lie beyond U.
        lateness=Lateness.ON_TIME if was_kept and today <= span[2] else lateness(plan, (today - last).days),
        missed_after_on=last + timedelta(days=plan.missed_after_days),
    )


def shared_last_find(household: Household, plant: Plant, case: Case) -> date:
    """
    Give the day the release clock starts.

    Plants in one place with the same pest share the last find among them; one set apart has its own clock.
    """
    own = case.last_find_on
    return own if plant.is_apart else household.last_finds.get((plant.place, case.pest), own)


def progress(household: Household, knowledge: Knowledge, plant: Plant, case: Case, today: date) -> Progress:
    """How far a case is: rounds done and needed, chance of freedom, earliest release."""
    pest = knowledge.pests[case.pest]
    temperature = temperature_on(household, plant, today)
    days = round_days(plant, case)
    gap_days = _usual_gap(knowledge, household, plant, case, days, today)
    minimum = minimum_rounds(pest, temperature, gap_days)
    since_find = sum(1 for day in days if day >= case.last_find_on)
    record = _record(
        household, knowledge, plant, case, pest, temperature, today, minimum, days, since_find, gap_days
    )
    state = release_state(record, today)
    finished = rounds_finished(
        minimum,
        len(days),
        (today - record.last_find_on).days,
        (state.h1_on - record.last_find_on).days,
        since_find,
        state.clean_in_a_row,
    )
    return Progress(
        case=case,
        pest=pest,
        temperature=temperature,
        rounds_done=len(days),
        rounds_since_find=since_find,
        is_finished=finished,
        state=state,
        gap_days=gap_days,
        record=record,
        today=today,
    )


def _usual_gap(  # noqa: PLR0913, PLR0917 - one fact each, named at the only call
    knowledge: Knowledge, household: Household, plant: Plant, case: Case, days: list[date], today: date
) -> float:
    _, _, product = _wish(household, knowledge, plant, case, today)
    label = label_days(knowledge, product)
    planned = float(
        plan_gap(knowledge.pests[case.pest], temperature_on(household, plant, today), label).aim_days
    )
    if len(days) > 1:  # two rounds on neighbouring days are a slip, not the rhythm to come
        return max(planned, (days[-1] - days[0]).days / (len(days) - 1))
    return planned


def kinds_to_seek(knowledge: Knowledge, pest: str) -> tuple[str, ...]:
    """Name at most two kinds of product that reach a pest indoors and harm no bees, the mildest first."""
    wanted = Method.DRENCH if knowledge.pests[pest].drenched else Method.SPRAY
    kinds = [
        kind.name
        for kind in knowledge.products.values()
        if pest in kind.reaches
        and wanted in kind.methods
        and kind.is_for_indoors
        and kind.group is None
        and not kind.harms_bees
    ]
    return tuple(kinds[:MOST_SOUGHT])


def is_root_prone(knowledge: Knowledge, plant: Plant) -> bool:
    """Whether pests may sit at the roots unseen: as told, else by the plant's kind."""
    kind = knowledge.kind_of(plant)
    return "root-prone" in plant.traits or (kind is not None and kind.is_root_prone)


def _record(  # noqa: PLR0913, PLR0917 - one fact each, named at the only call
    household: Household,
    knowledge: Knowledge,
    plant: Plant,
    case: Case,
    pest: Pest,
    temperature: float | None,
    today: date,
    minimum: int,
    days: list[date],
    since_find: int,
    gap_days: float,
) -> ReleaseRecord:
    start = shared_last_find(household, plant, case)
    looks = [CleanCheck(check.on, check.level) for check in plant.checks if check.on > start]
    sprays = [t.on for t in rounds(plant, case) if t.method in {Method.SPRAY, Method.DRENCH}]
    return ReleaseRecord(
        pest=pest,
        temperature=temperature,
        daily=daily_temperatures(household, plant, start, today),
        last_find_on=start,
        checks=merged_looks(pest, looks),  # once here, and not for every day looked at
        is_merged=True,
        last_spray_on=max(sprays, default=None),
        rounds_done=len(days),
        rounds_since_find=since_find,
        rounds_needed=minimum,
        rounds_gap_days=max(1, round(gap_days)),
        strict=household.is_strict,
        root_prone=pest.at_roots and is_root_prone(knowledge, plant),
        roots_checked=any(look.level is Level.ROOTS for look in looks),
        weekly_reintroduction=0.0,
    )
