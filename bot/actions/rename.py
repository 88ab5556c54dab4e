"""Call a plant or a place otherwise."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import PlaceSet, PlantRenamed


class Rename(Command):
    """Another name for a plant or for a place; one of the two is set."""

    name: str
    plant: PlantId | None = None
    place: PlaceId | None = None


class Renamed(Outcome):
    """A plant or a place bears another name."""

    old: str
    new: str


class NameTaken(Outcome):
    """Another bears this name already; nothing written."""

    name: str


@performs
def rename(command: Rename, desk: Desk) -> Renamed | NameTaken:
    """Call a plant or a place otherwise; no two may bear one name."""
    if command.plant is not None:
        known = desk.plant(command.plant).name
        others = [one.name for one in desk.household.living if one.id != command.plant]
        draft = desk.draft(PlantRenamed(command.name), plant=command.plant)
    else:
        assert command.place is not None
        known = desk.household.places[command.place].name
        others = [one.name for one in desk.household.places.values() if one.id != command.place]
        draft = desk.draft(PlaceSet(place=command.place, name=command.name))
    if command.name.casefold() in {name.casefold() for name in others}:
        return NameTaken(command.name)
    desk.write([draft])
    return Renamed(known, command.name)
