"""Why a plant's plan is as it is."""

from collections.abc import Mapping
from datetime import date

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.log_find import discard_choice
from bot.domain.campaign import Evidence
from bot.domain.course import Step, next_step
from bot.domain.household import Place, Product
from bot.domain.identity import PlantId
from bot.domain.nudging import Placement, placements
from bot.domain.progress import Progress
from bot.domain.refusal import Refusal, Use, refusals
from bot.domain.remedy import Hard, why_hard
from bot.domain.value import Value
from bot.domain.watch import hatch_to_adult_days


class ReasonOf(Value, kw_only=True):
    plant: str
    step: Step | None
    product: str | None
    progress: tuple[Progress, ...]
    cited: Mapping[str, str]
    placement: Placement | None = None
    """Where sun decides on the hour: the slot it was put into."""
    place: Place | None = None
    watch: tuple[str, date | None, int] | None = None
    """On watch: because of which plant, until when, and the days from egg to adult it rests on. [d]"""
    quarantine_until: date | None = None
    product_evidence: Evidence | None = None
    """Where the label's usual figures come from, None where the person told them."""
    washed_off: float | None = None
    """What washes took off one leaf here, where it was counted. [1]"""
    hard: tuple[tuple[str, Hard], ...] = ()
    """Pests that are hard to win against there, and why."""
    passed_over: tuple[tuple[str, tuple[Refusal, ...]], ...] = ()
    """Products of the shelf that are not suggested, and why."""


class Reasons(Outcome):
    """Why, for several plants; empty when nothing is planned."""

    of: tuple[ReasonOf, ...]
    in_full: bool = False


@answers(Topic.WHY)
def explain(command: Ask, desk: Desk) -> Reasons:
    """Say why plants' plans are as they are; unnamed: all that have a case, at the place if one is named."""
    there = tuple(one for one in desk.agenda.progress if desk.plant(one).place == command.place)
    asked = command.plants or (there if command.place is not None else ()) or tuple(desk.agenda.progress)
    of = tuple(_reason(plant, desk) for plant in asked)
    hard = [plant for plant, one in zip(asked, of, strict=True) if one.hard]
    return Reasons(of, command.in_full, offers=discard_choice(hard[0], desk) if len(hard) == 1 else ())


def _reason(plant: PlantId, desk: Desk) -> ReasonOf:
    steps = [next_step(desk.outbreak(plant, case)) for case in desk.plant(plant).open_cases]
    step = min((one for one in steps if one), key=lambda one: one.aim_on, default=None)
    known = desk.plant(plant)
    hard = [(case.pest, why_hard(desk.outbreak(plant, case))) for case in known.open_cases]
    return ReasonOf(
        plant=desk.plant(plant).name,
        step=step,
        product=desk.product_name(step.product.id) if step and step.product else None,
        progress=desk.agenda.progress.get(plant, ()),
        cited=desk.knowledge.cited,
        placement=_placement(plant, desk),
        place=desk.household.places.get(known.place) if known.place is not None else None,
        watch=_watch(plant, desk),
        quarantine_until=known.quarantine_until,
        product_evidence=_usual_label(step.product, desk) if step and step.product else None,
        washed_off=desk.household.washed_off,
        hard=tuple((pest, why) for pest, why in hard if why is not None),
        passed_over=passed_over(plant, step, desk),
    )


def _placement(plant: PlantId, desk: Desk) -> Placement | None:
    """Give the slot that the sun leaves for a plant on its next evening."""
    for evening in desk.agenda.evenings:
        if any(task.plant == plant and task.method is not None for task in evening.tasks):
            found = placements(desk.household, desk.knowledge, evening.tasks, evening.on, desk.now)
            return next((one for one in found if plant in one.plants), None)
    return None


def _watch(plant: PlantId, desk: Desk) -> tuple[str, date | None, int] | None:
    watch = desk.agenda.watched.get(plant)
    if watch is None:
        return None
    days = hatch_to_adult_days(desk.household, desk.knowledge, desk.plant(plant), watch.pest, desk.today)
    return desk.plant(watch.because_of).name, watch.until, days


def _usual_label(product: Product, desk: Desk) -> Evidence | None:
    kind = desk.knowledge.products.get(product.ingredient)
    return kind.evidence if kind is not None and product.label.gap_days is None else None


def passed_over(plant: PlantId, step: Step | None, desk: Desk) -> tuple[tuple[str, tuple[Refusal, ...]], ...]:
    """Give the products that could do the same but are not suggested, with the rules that forbid them."""
    known = desk.plant(plant)
    if step is None or not known.open_cases:
        return ()
    pest = desk.knowledge.pests[known.open_cases[0].pest]
    found = []
    for product in desk.household.products.values():
        broken = refusals(Use(desk.household, desk.knowledge, known, product, desk.today, pest))
        if broken:
            found.append((desk.product_name(product.id) or "", broken))
    return tuple(found)
