"""How long work takes, what goes first when there is little time, and how a big outbreak is sorted."""

from collections.abc import Mapping, Sequence
from datetime import date
from enum import Enum

from bot.domain.agenda import Agenda, Task
from bot.domain.gathering import gathered
from bot.domain.household import Household, Plant
from bot.domain.identity import PlantId
from bot.domain.knowledge import Knowledge
from bot.domain.outbreak import outbreak_on
from bot.domain.remedy import Hard, remedy, why_hard
from bot.domain.trade import Grade, Method
from bot.domain.value import Value
from bot.domain.workday import MINUTES as STAGES
from bot.domain.workday import Stage

MINUTES: Mapping[Method | None, int] = {
    Method.SWAB: 6,
    Method.WIPE: STAGES[Stage.WASH],
    Method.RINSE: STAGES[Stage.WASH],
    Method.SPRAY: STAGES[Stage.SPRAY],
    Method.DRENCH: 3,
    Method.NEMATODES: 3,
    Method.PREDATORS: 3,
    Method.DRY: 1,
    Method.PRUNE: STAGES[Stage.PRUNE],
    Method.REPOT: STAGES[Stage.REPOT],
    Method.CLEAN_OUT: STAGES[Stage.UNPOT] + STAGES[Stage.POTS] + STAGES[Stage.REPOT],
    None: STAGES[Stage.LOOK],
}
"""Minutes a plant takes by method, None for a look: our estimates, no publication found. [min]"""
TRIAGE_FROM = 10
"""So many open cases are sorted before anything is done. Judgement. [1]"""
_WEEK = 7  # [d]
_HOUR = 60  # [min]


class Chore(Value):
    plant: PlantId
    tasks: tuple[Task, ...]

    @property
    def minutes(self) -> int:
        return sum(MINUTES[task.method] for task in self.tasks)


def chores(household: Household, knowledge: Knowledge, tasks: Sequence[Task]) -> tuple[Chore, ...]:
    """
    Put an evening's work in the order it counts: bad ones near the healthy, by label and window, looks last.

    Judgement: what is bad and stands among healthy plants spreads most with each day.
    """
    found = [Chore(plant, tuple(of)) for plant, of in gathered((task.plant, task) for task in tasks).items()]
    return tuple(sorted(found, key=lambda chore: _order(household, knowledge, chore)))


def _order(household: Household, knowledge: Knowledge, chore: Chore) -> tuple[bool, int, date]:
    plant = household.plants[chore.plant]
    is_look = all(task.method is None for task in chore.tasks)
    spreads = is_bad(plant) + is_near_healthy(household, knowledge, plant)
    return is_look, -spreads, min(task.closes_on for task in chore.tasks)


def is_bad(plant: Plant) -> bool:
    """Whether many were seen in an open case."""
    return any(case.worst is Grade.MANY for case in plant.open_cases)


def is_near_healthy(household: Household, knowledge: Knowledge, plant: Plant) -> bool:
    """Whether an infested plant stands where others without a case stand, and is to be kept from them."""
    spreads = any(knowledge.pests[case.pest].fight.is_set_apart for case in plant.open_cases)
    beside = (other for other in household.living if other.place == plant.place and not other.open_cases)
    return spreads and not plant.is_apart and plant.place is not None and any(beside)


def within(found: Sequence[Chore], minutes: int) -> tuple[tuple[Chore, ...], tuple[Chore, ...]]:
    """Cut work to a time [min]: what is done, in order, and what is left; the first is always done."""
    now: list[Chore] = []
    for chore in found:
        if not now or sum(one.minutes for one in (*now, chore)) <= minutes:
            now.append(chore)
    return tuple(now), tuple(chore for chore in found if chore not in now)


class Sort(Enum):
    """What becomes of a plant where there are too many to treat them all at once."""

    DISCARD = "discard"
    CUT = "cut"
    TREAT = "treat"
    WATCH = "watch"


class Triage(Value):
    """Plants by what becomes of them, and the hours a week that asks for. [h]."""

    sorts: Mapping[Sort, tuple[PlantId, ...]]
    hours_a_week: float
    hours_saved: float
    """Of them, what giving up those to discard would save. [h]"""


def triage(household: Household, knowledge: Knowledge, agenda: Agenda, today: date) -> Triage:
    """
    Sort all plants: to discard where it is bad and hard to win, else to cut back, to treat, to watch.

    Discarding is only advised where a pest is ever fought that way. Judgement throughout.
    """
    sorts: dict[Sort, list[PlantId]] = {sort: [] for sort in Sort}
    minutes: dict[PlantId, float] = {}
    for plant in household.living:
        if plant.open_cases:
            sorts[_sort(household, knowledge, plant, today)].append(plant.id)
            minutes[plant.id] = _minutes_a_week(household, knowledge, plant, agenda, today)
        elif plant.id in agenda.watched:
            sorts[Sort.WATCH].append(plant.id)
            minutes[plant.id] = MINUTES[None]
    return Triage(
        {sort: tuple(plants) for sort, plants in sorts.items()},
        hours_a_week=sum(minutes.values()) / _HOUR,
        hours_saved=sum(minutes[plant] for plant in sorts[Sort.DISCARD]) / _HOUR,
    )


def given_up(household: Household, knowledge: Knowledge, today: date) -> tuple[PlantId, ...]:
    """Give the plants whose discarding is offered by name: many were seen, or it is hard to win."""
    return tuple(
        plant.id
        for plant in household.living
        if any(
            knowledge.pests[case.pest].fight.is_discarded
            and (
                case.worst is Grade.MANY
                or why_hard(outbreak_on(household, knowledge, plant, case, today)) is not None
            )
            for case in plant.open_cases
        )
    )


def _sort(household: Household, knowledge: Knowledge, plant: Plant, today: date) -> Sort:
    outbreaks = [outbreak_on(household, knowledge, plant, case, today) for case in plant.open_cases]
    hard = {why_hard(one) for one in outbreaks if one.pest.fight.is_discarded} - {None}
    if hard & {Hard.EXHAUSTED, Hard.WITHOUT_HELP} or (hard and is_bad(plant)):
        return Sort.DISCARD
    is_cut = is_bad(plant) or any(
        act.method is Method.PRUNE for one in outbreaks for act in remedy(one).before
    )
    return Sort.CUT if is_cut else Sort.TREAT


def _minutes_a_week(
    household: Household, knowledge: Knowledge, plant: Plant, agenda: Agenda, today: date
) -> float:
    """Give the time one plant takes: its rounds at their gap, and a look. [min/week]."""
    total = float(MINUTES[None])
    for state in agenda.progress.get(plant.id, ()):
        found = remedy(outbreak_on(household, knowledge, plant, state.case, today))
        acts = found.before if found.main is None else (*found.before, found.main)
        total += sum(MINUTES[act.method] for act in acts) * _WEEK / max(state.gap_days, 1)
    return total
