"""When plants may go back."""

from collections.abc import Iterable
from datetime import date

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.domain.identity import PlantId
from bot.domain.progress import Progress


class ReleaseInfo(Outcome):
    of: tuple[tuple[str, tuple[Progress, ...], date | None], ...]
    free: tuple[tuple[str, date | None, str | None], ...]
    """Not isolated; where on watch, until when (None while that case is open) and because of which plant."""
    quarantined: tuple[tuple[str, date], ...] = ()
    beside: tuple[tuple[str, tuple[str, ...], date], ...] = ()
    """Plants held by what was seen on others beside them since, which those are, and when."""


@answers(Topic.RELEASE)
def show_release(command: Ask, desk: Desk) -> ReleaseInfo:
    """Say when plants may go back; unnamed: all that are kept apart."""
    asked = command.plants or tuple(plant.id for plant in desk.household.living if plant.is_isolated)
    held = [plant for plant in asked if desk.plant(plant).is_isolated]
    return ReleaseInfo(
        tuple(
            (desk.plant(plant).name, desk.agenda.progress.get(plant, ()), desk.plant(plant).isolated_on)
            for plant in held
            if desk.plant(plant).quarantine_until is None
        ),
        tuple(_free(plant, desk) for plant in asked if plant not in held),
        tuple(
            (desk.plant(plant).name, until)
            for plant in held
            if (until := desk.plant(plant).quarantine_until) is not None
        ),
        tuple(one for plant in held for one in _beside(plant, desk)),
    )


def _beside(plant: PlantId, desk: Desk) -> Iterable[tuple[str, tuple[str, ...], date]]:
    for state in desk.agenda.progress.get(plant, ()):
        if (on := state.record.last_find_on) > state.case.last_find_on:
            others = (
                one.id
                for one in desk.household.living
                if one.id != plant
                and one.place == desk.plant(plant).place
                and any(case.pest == state.case.pest and case.last_find_on == on for case in one.cases)
            )
            yield desk.plant(plant).name, desk.names(others), on


def _free(plant: PlantId, desk: Desk) -> tuple[str, date | None, str | None]:
    """Give the name of a plant that is not isolated; where it is watched, until when and because of which."""
    watch = desk.agenda.watched.get(plant)
    because = None if watch is None else desk.plant(watch.because_of).name
    return desk.plant(plant).name, None if watch is None else watch.until, because
