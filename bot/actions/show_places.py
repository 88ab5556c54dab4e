"""Where the plants stand."""

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.remove_place import standing_in
from bot.domain.household import Place
from bot.domain.value import Value


class PlaceTold(Value):
    place: Place
    plants: tuple[str, ...]


class PlacesTold(Outcome):
    places: tuple[PlaceTold, ...]
    nowhere: tuple[str, ...] = ()


@answers(Topic.PLACES)
def tell_places(command: Ask, desk: Desk) -> PlacesTold:
    """Give the places with what stands there; of named plants only where they stand."""
    wanted = {desk.plant(plant).place for plant in command.plants}
    told = tuple(
        PlaceTold(place, desk.names(standing_in(place.id, desk)))
        for place in desk.household.places.values()
        if not command.plants or place.id in wanted
    )
    nowhere = tuple(plant for plant in command.plants if desk.plant(plant).place is None)
    return PlacesTold(told, desk.names(nowhere))
