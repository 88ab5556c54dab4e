"""Call plants and places otherwise, put plants into other pots, and let go of places no longer used."""

from bot.actions.commands import RemovePlace, Rename, SetPot
from bot.actions.desk import Desk
from bot.actions.outcomes import NameTaken, PlaceInUse, PlaceRemoved, PlacesTold, PlaceTold, PotSet, Renamed
from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import PlaceGone, PlaceSet, PlantRenamed, PlantSet


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


def set_pot(command: SetPot, desk: Desk) -> PotSet:
    """Keep how wide the pots are: mixtures and work days are reckoned by it. [cm]."""
    desk.write(desk.draft(PlantSet(pot_cm=command.pot_cm), plant=plant) for plant in command.plants)
    return PotSet(desk.names(command.plants), command.pot_cm)


def remove_place(command: RemovePlace, desk: Desk) -> PlaceRemoved | PlaceInUse:
    """Let go of a place where nothing stands any more."""
    name = desk.household.places[command.place].name
    there = _standing_in(command.place, desk)
    if there:
        return PlaceInUse(name, desk.names(there))
    desk.write([desk.draft(PlaceGone(place=command.place))])
    return PlaceRemoved(name)


def tell_places(plants: tuple[PlantId, ...], desk: Desk) -> PlacesTold:
    """Give the places with what stands there; of named plants only where they stand."""
    wanted = {desk.plant(plant).place for plant in plants}
    told = tuple(
        PlaceTold(place, desk.names(_standing_in(place.id, desk)))
        for place in desk.household.places.values()
        if not plants or place.id in wanted
    )
    nowhere = tuple(plant for plant in plants if desk.plant(plant).place is None)
    return PlacesTold(told, desk.names(nowhere))


def _standing_in(place: PlaceId, desk: Desk) -> list[PlantId]:
    return [plant.id for plant in desk.household.living if plant.place == place]
