"""Put plants into another place."""

from datetime import date

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.isolate import ask_apart
from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import Draft, IsolatedNow, PlaceSet, PlantSet
from bot.domain.value import replace


class MovePlant(Command):
    plants: tuple[PlantId, ...]
    place: PlaceId
    on: date | None = None
    room: str = ""
    """The name of a place that is still to be made, whatever stands for the place."""


class PlantsMoved(Outcome):
    plants: tuple[str, ...]
    place: str
    still_isolated: tuple[str, ...]
    beside: tuple[str, ...] = ()
    """Plants with a case that stand beside healthy ones there."""
    healthy: tuple[str, ...] = ()


@performs
def move(command: MovePlant, desk: Desk) -> PlantsMoved:
    """
    Write another place; isolation goes on there.

    Who has an open case and stands with no healthy plant there is apart now; beside healthy ones it is asked.
    """
    drafts: list[Draft] = []
    if command.room:
        command = replace(command, place=desk.store.new_place(desk.member.household))
        drafts.append(desk.draft(PlaceSet(place=command.place, name=command.room)))
    drafts += [
        desk.draft(PlantSet(place=command.place), plant=plant, on=command.on) for plant in command.plants
    ]
    kept = {plant for plant in command.plants if desk.plant(plant).isolated_on is not None}
    sick = [plant for plant in command.plants if desk.plant(plant).open_cases and plant not in kept]
    there = [
        one for one in desk.household.living if one.place == command.place and one.id not in command.plants
    ]
    healthy = [one.name for one in there if not one.open_cases]
    healthy += [desk.plant(plant).name for plant in command.plants if not desk.plant(plant).open_cases]
    if not healthy:
        is_alone = not there and len(command.plants) == 1
        drafts += [desk.draft(IsolatedNow(apart=is_alone), plant=plant, on=command.on) for plant in sick]
    desk.write(drafts)
    isolated = [plant for plant in command.plants if desk.plant(plant).isolated_on is not None]
    return PlantsMoved(
        desk.names(command.plants),
        desk.household.places[command.place].name,
        desk.names(isolated),
        desk.names(sick) if healthy else (),
        tuple(healthy) if sick else (),
        asking=ask_apart(tuple(sick)) if healthy and sick else None,
    )
