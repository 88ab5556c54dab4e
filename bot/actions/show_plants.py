"""All plants by place."""

from dataclasses import dataclass

from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.domain.identity import PlantId


@dataclass(frozen=True, slots=True)
class PlantList(Outcome):
    """All plants by place."""

    places: tuple[tuple[str | None, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class NoPlants(Outcome):
    """The household has no plants yet."""


def place_name(desk: Desk, plant: PlantId) -> str | None:
    """Name where a plant stands."""
    place = desk.plant(plant).place
    return desk.household.places[place].name if place is not None else None


@answers(Topic.PLANTS)
def show_plants(_: Ask, desk: Desk) -> PlantList:
    """Give all living plants by place."""
    by_place: dict[str | None, list[str]] = {}
    for plant in desk.household.living:
        by_place.setdefault(place_name(desk, plant.id), []).append(plant.name)
    return PlantList(tuple((place, tuple(names)) for place, names in by_place.items()))
