"""Which plants are on watch: they share a place with a case, or were released lately."""

import math
from collections.abc import Sequence
from datetime import date, timedelta

from bot.domain.climate import cool_side
from bot.domain.development import SLOW_DEFAULT, Warmth, clock
from bot.domain.household import Case, Household, Plant
from bot.domain.identity import PlantId
from bot.domain.knowledge import Knowledge
from bot.domain.outbreak import is_root_prone
from bot.domain.remedy import CANNOT_LIFT
from bot.domain.value import Value

LONGEST_WATCH_DAYS = 365
"""Where it is too cold to tell, a watch ends after a year. Judgement. [d]"""


class Watch(Value, kw_only=True):
    """A plant on watch: for which pest, because of which plant, until when (None while that case is open)."""

    plant: PlantId
    pest: str
    because_of: PlantId
    until: date | None


def hatch_to_adult_days(
    household: Household, knowledge: Knowledge, plant: Plant, pest: str, today: date
) -> int:
    """Give h3, the days from an egg laid today to a visible adult at the plant's place. [d]."""
    known, mean = knowledge.pests[pest], cool_side(household, plant, today)
    hours = clock(known, Warmth(since_on=today, mean=SLOW_DEFAULT if mean is None else mean))
    return LONGEST_WATCH_DAYS if math.isinf(hours.h3) else min(math.ceil(hours.h3), LONGEST_WATCH_DAYS)


def watched(household: Household, knowledge: Knowledge, today: date) -> dict[PlantId, Watch]:
    """Plants on watch today, each for its longest reason."""
    found: dict[PlantId, Watch] = {}
    free = [plant for plant in household.living if not plant.open_cases]
    for plant in household.plants.values():
        for case in plant.cases:
            for watch in _watches_of(household, knowledge, plant, case, free, today):
                _keep_longest(found, watch)
    return found


def _watches_of(  # noqa: PLR0913, PLR0917 - one fact each, named at the only call
    household: Household, knowledge: Knowledge, plant: Plant, case: Case, free: Sequence[Plant], today: date
) -> list[Watch]:
    until = None
    if case.closed_on is not None:
        days = hatch_to_adult_days(household, knowledge, plant, case.pest, today)
        if (
            CANNOT_LIFT in plant.traits
            and knowledge.pests[case.pest].at_roots
            and is_root_prone(knowledge, plant)
        ):
            days *= 2  # its roots were never seen
        until = case.closed_on + timedelta(days=days)
        if today > until:
            return []
    spread = plant.stood_in(case.opened_on, case.closed_on or today)
    exposed = [  # whoever ever shared a place with the case, wherever the two stand now
        other
        for other in free
        if other.id != plant.id and any(place in other.stood_in(*days) for place, days in spread.items())
    ]
    if case.closed_on is not None and plant.lost_on is None and not plant.open_cases:
        exposed.append(plant)
    return [Watch(plant=other.id, pest=case.pest, because_of=plant.id, until=until) for other in exposed]


def _keep_longest(found: dict[PlantId, Watch], watch: Watch) -> None:
    known = found.get(watch.plant)
    if known is None or (known.until is not None and (watch.until is None or watch.until > known.until)):
        found[watch.plant] = watch
