"""Let go of a place no longer used."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import PlaceGone


class RemovePlace(Command):
    place: PlaceId


class PlaceRemoved(Outcome):
    name: str


class PlaceInUse(Outcome):
    """Plants stand there; nothing written."""

    name: str
    plants: tuple[str, ...]


@performs
def remove_place(command: RemovePlace, desk: Desk) -> PlaceRemoved | PlaceInUse:
    """Let go of a place where nothing stands any more."""
    name = desk.household.places[command.place].name
    there = standing_in(command.place, desk)
    if there:
        return PlaceInUse(name, desk.names(there))
    desk.write([desk.draft(PlaceGone(place=command.place))])
    return PlaceRemoved(name)


def standing_in(place: PlaceId, desk: Desk) -> list[PlantId]:
    """Give the plants that stand at a place."""
    return [plant.id for plant in desk.household.living if plant.place == place]
