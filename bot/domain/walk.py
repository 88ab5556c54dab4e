"""The check walk: every plant looked at once, those without a find first, so that hands carry nothing."""

from collections.abc import Mapping
from datetime import date

from bot.domain.household import Household, Walk
from bot.domain.identity import PlantId
from bot.domain.progress import Progress
from bot.domain.trade import WORST_LAST
from bot.domain.watch import Watch

RESUMABLE_DAYS = 2
"""A walk not finished after so many days begins anew. Judgement. [d]"""


def walk_order(
    household: Household, progress: Mapping[PlantId, tuple[Progress, ...]], watched: Mapping[PlantId, Watch]
) -> tuple[PlantId, ...]:
    """
    Give all living plants in the order to look at them.

    First the unaffected, then those on watch or in quarantine, then those with a case, the worst last; within
    each place by place, so that nobody walks twice. Unaffected before infested: common practice, no source.
    """

    def rank(plant: PlantId) -> tuple[int, int]:
        known = household.plants[plant]
        if plant in progress:
            return 2, max(WORST_LAST.index(case.worst) for case in known.open_cases)
        return int(plant in watched or known.quarantine_until is not None), 0

    places = list(household.places)
    return tuple(
        sorted(
            (plant.id for plant in household.living),
            key=lambda one: (
                rank(one),
                places.index(place) if (place := household.plants[one].place) in places else len(places),
            ),
        )
    )


def is_under_way(walk: Walk | None, today: date) -> bool:
    """Whether a walk can be gone on with."""
    return walk is not None and bool(walk.left) and 0 <= (today - walk.begun_on).days <= RESUMABLE_DAYS
