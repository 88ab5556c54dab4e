"""All plants by place."""

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.pest_word import kin, pest_name
from bot.domain.identity import PlantId


class PlantList(Outcome):
    places: tuple[tuple[str | None, tuple[str, ...]], ...]
    pest: str | None = None


class NoPlants(Outcome):
    """The household has no plants yet."""


def place_name(desk: Desk, plant: PlantId) -> str | None:
    """Name where a plant stands."""
    place = desk.plant(plant).place
    return desk.household.places[place].name if place is not None else None


@answers(Topic.PLANTS)
def show_plants(asked: Ask, desk: Desk) -> PlantList:
    """Give the living plants by place; where a pest is asked for, those with an open case of it."""
    pests = frozenset() if asked.pest is None else kin(asked.pest, desk)
    by_place: dict[str | None, list[str]] = {}
    for plant in desk.household.living:
        if asked.pest is None or any(case.pest in pests for case in plant.open_cases):
            by_place.setdefault(place_name(desk, plant.id), []).append(plant.name)
    places = tuple((place, tuple(names)) for place, names in by_place.items())
    return PlantList(places, None if asked.pest is None else pest_name(asked.pest, desk))
