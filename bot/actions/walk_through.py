"""The check walk in the chat: one plant at a time, one tap each, resumable."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.show_plants import NoPlants
from bot.domain.identity import PlantId
from bot.domain.journal import WalkBegun, WalkEnded, WalkPassed
from bot.domain.trade import Grade, Level
from bot.domain.walk import is_under_way, walk_order


class BeginWalk(Command):
    """
    A look over plants one by one, all where none are named, or the walk under way again.

    The level is asked where it is not told.
    """

    level: Level | None = None
    plants: tuple[PlantId, ...] = ()


class PassPlant(Command):
    plants: tuple[PlantId, ...]


class GoOn(Command):
    """The walk's next plant, unless something is being asked about this one."""


class EndWalk(Command):
    """Stop the walk, to go on later; or for good."""

    is_for_good: bool = False


class WalkLevelAsked(Outcome):
    """How closely the plants of a walk are to be looked at; how many they are."""

    plants: int


class WalkStep(Outcome, kw_only=True):
    """The plant at hand on a check walk, its number among all, its open cases and where they hide."""

    plant: str
    place: str | None
    number: int
    count: int
    level: Level
    pests: tuple[str, ...]
    hides: str | None
    is_resumed: bool
    is_first: bool


class WalkDone(Outcome, kw_only=True):
    """What a walk came to."""

    none_seen: tuple[str, ...]
    found: tuple[str, ...]
    passed: tuple[str, ...]
    ready: tuple[str, ...]


class WalkStopped(Outcome):
    """Enough for now; plants left, none where it is over for good."""

    plants_left: int


class NoWalk(Outcome):
    """No check walk is under way."""


LEVELS = (
    (ButtonText.PLAIN_LOOK, Level.PLAIN),
    (ButtonText.WITH_A_LENS, Level.LENS),
    (ButtonText.GLANCE, Level.GLANCE),
)


GRADES = ((ButtonText.A_FEW, Grade.FEW), (ButtonText.SOME, Grade.SOME), (ButtonText.MANY, Grade.MANY))


@performs
def begin_walk(command: BeginWalk, desk: Desk) -> WalkStep | WalkDone | WalkLevelAsked | NoPlants:
    """Begin, or go on with the walk under way; how closely is asked once."""
    if is_under_way(desk.household.walk, desk.today):
        return _step(desk, is_resumed=True)
    order = walk_order(desk.household, desk.agenda.progress, desk.agenda.watched)
    plants = tuple(plant for plant in order if not command.plants or plant in command.plants)
    if not plants:
        return NoPlants()
    if command.level is None:
        choices = tuple(Choice(text, (BeginWalk(level, command.plants),)) for text, level in LEVELS)
        return WalkLevelAsked(len(plants), asking=Asking(choices, Expecting.WALK))
    desk.write([desk.draft(WalkBegun(plants, command.level))])
    return _step(desk)


@performs
def pass_plant(command: PassPlant, desk: Desk) -> WalkStep | WalkDone | NoWalk:
    """Leave plants out of this walk."""
    if not is_under_way(desk.household.walk, desk.today):
        return NoWalk()
    desk.write(desk.draft(WalkPassed(), plant=plant) for plant in command.plants)
    return _step(desk)


@performs
def go_on(_: GoOn, desk: Desk) -> WalkStep | WalkDone | None:
    """Show the next plant, unless something is being asked about this one or no walk is under way."""
    if desk.is_asking or desk.household.walk is None:
        return None
    return _step(desk)


@performs
def end_walk(command: EndWalk, desk: Desk) -> WalkStopped | NoWalk:
    """Stop for now, or for good."""
    walk = desk.household.walk
    if walk is None:
        return NoWalk()
    desk.close_question()
    if command.is_for_good:
        desk.write([desk.draft(WalkEnded())])
        return WalkStopped(0)
    return WalkStopped(len(_left(desk)))


def _left(desk: Desk) -> tuple[PlantId, ...]:
    walk = desk.household.walk
    living = {plant.id for plant in desk.household.living}
    return () if walk is None else tuple(plant for plant in walk.left if plant in living)


def _step(desk: Desk, *, is_resumed: bool = False) -> WalkStep | WalkDone:
    walk, left = desk.household.walk, _left(desk)
    assert walk is not None
    if not left:
        return _done(desk)
    plant = desk.plant(left[0])
    place = desk.household.places.get(plant.place) if plant.place is not None else None
    return WalkStep(
        plant=plant.name,
        place=None if place is None else place.name,
        number=len(walk.plants) - len(left) + 1,
        count=len(walk.plants),
        level=walk.level,
        pests=tuple(desk.knowledge.pests[case.pest].name for case in plant.open_cases),
        hides=next((desk.knowledge.pests[case.pest].hides for case in plant.open_cases), None),
        is_resumed=is_resumed,
        is_first=len(left) == len(walk.plants),
        asking=Asking(walk_choices((plant.id,), walk.level), Expecting.WALK),
    )


def walk_choices(its: tuple[PlantId, ...], level: Level | None = None) -> tuple[Choice, ...]:
    """Offer what can be said of the plant at hand."""
    return (
        Choice(ButtonText.NONE_SEEN, (LogCheck(plants=its, level=level), GoOn())),
        *(Choice(text, (LogFind(plants=its, grade=grade), GoOn())) for text, grade in GRADES),
        Choice(ButtonText.NOT_TODAY, (PassPlant(its),)),
        Choice(ButtonText.STOP_NOW, (EndWalk(),)),
    )


def _done(desk: Desk) -> WalkDone:
    walk = desk.household.walk
    assert walk is not None
    found = tuple(
        plant.id
        for plant in desk.household.living
        if plant.id in walk.plants
        and any(find.on >= walk.begun_on for case in plant.cases for find in case.finds)
    )
    living = {plant.id for plant in desk.household.living}
    none_seen = tuple(plant for plant in walk.plants if plant in walk.seen & living and plant not in found)
    passed = tuple(plant for plant in walk.plants if plant in (walk.passed - walk.seen) & living)
    desk.write([desk.draft(WalkEnded())])
    desk.close_question()
    return WalkDone(
        none_seen=desk.names(none_seen),
        found=desk.names(found),
        passed=desk.names(passed),
        ready=desk.names(desk.agenda.ready),
    )
