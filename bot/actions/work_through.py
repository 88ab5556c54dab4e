"""A work day in the chat: one stage at a time, each tick the treatment it stands for."""

from collections.abc import Iterable

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.course import next_step
from bot.domain.household import Plant, Product, Work
from bot.domain.identity import PlantId
from bot.domain.journal import Draft, IsolatedNow, Treated, WorkBegun, WorkEnded, WorkTicked
from bot.domain.mixture import spray_ml
from bot.domain.outbreak import allowed_on
from bot.domain.remedy import choose_product
from bot.domain.trade import Grade, Method
from bot.domain.workday import Stage, StagePlan, Worked, plan_work


class BeginWork(Command):
    """A work day with these plants, or with all that need it; or the one under way again."""

    plants: tuple[PlantId, ...] = ()
    cleaned_out: tuple[PlantId, ...] = ()


class TickWork(Command):
    """The open stage is done, but for some plants; or it is left out."""

    but: tuple[PlantId, ...] = ()
    is_left_out: bool = False


class EndWork(Command):
    """Enough for today, to go on later; or for good."""

    is_for_good: bool = False


class WorkStage(Outcome, kw_only=True):
    """The stage at hand: its plants in order, its number among all, what was written before it."""

    plan: StagePlan
    plants: tuple[str, ...]
    number: int
    count: int
    minutes_left: int
    product: str | None
    just_washed: tuple[str, ...]
    written: tuple[tuple[Stage, tuple[str, ...]], ...]


class WorkDone(Outcome):
    """Nothing is left of the work day."""

    written: tuple[tuple[Stage, tuple[str, ...]], ...]


class WorkPaused(Outcome):
    """Enough for today; stages left, none where it is over for good."""

    stages_left: int


class NoWork(Outcome):
    """No work day is under way, or there is nothing to work on."""

    is_begun: bool


TREATED = {
    Stage.PRUNE: Method.PRUNE,
    Stage.WASH: Method.RINSE,
    Stage.REPOT: Method.CLEAN_OUT,
    Stage.SPRAY: Method.SPRAY,
}
"""What a tick writes; the other stages are only ticked."""


STAGE_CHOICES = (
    Choice(ButtonText.DONE, (TickWork(),)),
    Choice(ButtonText.LEAVE_OUT, (TickWork(is_left_out=True),)),
    Choice(ButtonText.STOP_TODAY, (EndWork(),)),
)
_Written = tuple[tuple[Stage, tuple[str, ...]], ...]


@performs
def begin_work(command: BeginWork, desk: Desk) -> WorkStage | WorkDone | NoWork:
    """Begin with the plants named, or with all that have a case and those beside them; or go on."""
    if desk.household.work is None or command.plants or command.cleaned_out:
        plants = tuple(dict.fromkeys((*command.plants, *command.cleaned_out))) or _all_involved(desk)
        if not plants:
            return NoWork(is_begun=False)
        cleaned_out = command.cleaned_out or tuple(plant for plant in plants if _needs_clean_out(plant, desk))
        desk.write([desk.draft(WorkBegun(plants, cleaned_out))])
    return _show(desk, ())


@performs
def tick_work(command: TickWork, desk: Desk) -> WorkStage | WorkDone | NoWork:
    """Write what the stage stands for, but for the plants excepted, which stay open."""
    work = desk.household.work
    open_stages = () if work is None else _open_stages(work, desk)
    if not open_stages:
        return NoWork(is_begun=work is not None)
    stage = open_stages[0]
    done = tuple(plant for plant in stage.plants if plant not in command.but)
    drafts = [desk.draft(WorkTicked(stage.stage.value, done, is_left_out=command.is_left_out))]
    if not command.is_left_out:
        drafts += _drafts(stage.stage, done, desk)
    desk.write(drafts)
    return _show(desk, ((stage.stage, desk.names(done)),) if not command.is_left_out else ())


@performs
def end_work(command: EndWork, desk: Desk) -> WorkPaused | NoWork:
    """Stop for today, or for good."""
    work = desk.household.work
    if work is None:
        return NoWork(is_begun=False)
    left = len(_open_stages(work, desk))
    desk.close_question()
    if command.is_for_good:
        desk.write([desk.draft(WorkEnded())])
        return WorkPaused(0)
    return WorkPaused(left)


def _show(desk: Desk, written: _Written) -> WorkStage | WorkDone | NoWork:
    work = desk.household.work
    stages = () if work is None else _open_stages(work, desk)
    if work is None or not stages:
        if work is not None:
            desk.write([desk.draft(WorkEnded())])
        desk.close_question()
        return WorkDone(written)
    stage = stages[0]
    product = _spray(stage.plants[0], desk) if stage.stage is Stage.SPRAY else None
    done = len([one for one in work.ticked if one not in {left.stage.value for left in stages}])
    return WorkStage(
        plan=stage,
        plants=desk.names(stage.plants),
        number=done + 1,
        count=done + len(stages),
        minutes_left=sum(one.minutes for one in stages),
        product=None if product is None else desk.product_name(product.id),
        just_washed=desk.names(plant for plant in stage.plants if plant in work.cleaned_out),
        written=written,
        asking=Asking(STAGE_CHOICES, Expecting.WORK),
    )


def _open_stages(work: Work, desk: Desk) -> tuple[StagePlan, ...]:
    """Plan anew from what is still to be done: what was ticked is out, whatever changed since is in."""
    living = {plant.id for plant in desk.household.living}
    plants = [plant for plant in work.plants if plant in living]
    worked = [_worked(desk.plant(plant), work, desk) for plant in plants]
    sprays = [float(spray_ml(one.pot_cm)) for one in worked]
    stages = []
    for stage in Stage:
        left = [at for at, one in enumerate(worked) if one.plant not in work.ticked.get(stage.value, set())]
        planned = plan_work([worked[at] for at in left], [sprays[at] for at in left])
        stages += [one for one in planned if one.stage is stage]
    return tuple(stages)


def _worked(plant: Plant, work: Work, desk: Desk) -> Worked:
    is_out = plant.id in work.cleaned_out
    return Worked(
        plant=plant.id,
        pot_cm=plant.pot_cm,
        is_infested=bool(plant.open_cases) or is_out,
        is_apart=plant.is_apart,
        is_bad=is_out or any(case.worst is Grade.MANY for case in plant.open_cases),
        is_sprayed=_spray(plant.id, desk) is not None,
        is_cleaned_out=is_out,
    )


def _spray(plant_id: PlantId, desk: Desk) -> Product | None:
    """Give what the plant may be sprayed with today, by shelf and label."""
    plant = desk.plant(plant_id)
    for case in plant.open_cases:
        product = choose_product(desk.outbreak(plant_id, case), Method.SPRAY)
        if product is not None and _is_allowed(plant, product, desk):
            return product
    return None


def _is_allowed(plant: Plant, product: Product, desk: Desk) -> bool:
    day = allowed_on(desk.knowledge, plant, product)
    return day is None or day <= desk.today


def _drafts(stage: Stage, plants: Iterable[PlantId], desk: Desk) -> list[Draft]:
    if stage is Stage.APART:
        return [desk.draft(IsolatedNow(apart=True), plant=plant) for plant in plants]
    method = TREATED.get(stage)
    if method is None:
        return []
    drafts = []
    for plant in plants:
        product = _spray(plant, desk) if method is Method.SPRAY else None
        told = Treated(method=method, product=None if product is None else product.id)
        drafts.append(desk.draft(told, plant=plant))
    return drafts


def _all_involved(desk: Desk) -> tuple[PlantId, ...]:
    ill = [plant.id for plant in desk.household.living if plant.open_cases]
    return tuple(dict.fromkeys((*desk.agenda.watched, *ill))) if ill else ()


def _needs_clean_out(plant_id: PlantId, desk: Desk) -> bool:
    plant = desk.plant(plant_id)
    steps = [next_step(desk.outbreak(plant_id, case)) for case in plant.open_cases]
    return any(step is not None and step.method is Method.CLEAN_OUT for step in steps)
