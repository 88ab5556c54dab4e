"""Who is kept apart, and who is on watch."""

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.show_plants import place_name
from bot.domain.household import Plant
from bot.domain.progress import Progress
from bot.domain.watch import Watch


class IsolatedList(Outcome):
    """Plants still kept apart, each with its cases' state; and plants on watch."""

    plants: tuple[tuple[Plant, str | None, tuple[Progress, ...]], ...]
    watched: tuple[tuple[str, Watch, str], ...]


@answers(Topic.ISOLATED)
def show_isolated(_: Ask, desk: Desk) -> IsolatedList:
    """Give who is kept apart with its cases, and who is on watch because of whom."""
    plants = tuple(
        (plant, place_name(desk, plant.id), desk.agenda.progress.get(plant.id, ()))
        for plant in desk.household.living
        if plant.is_isolated
    )
    watched = tuple(
        (desk.plant(plant).name, watch, desk.plant(watch.because_of).name)
        for plant, watch in desk.agenda.watched.items()
    )
    return IsolatedList(plants, watched)
