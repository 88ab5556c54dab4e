"""All plants by place."""

from datetime import date

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.actions.pest_word import kin, pest_name
from bot.actions.show_release import ReleaseInfo, show_release
from bot.domain.identity import PlantId
from bot.domain.trade import Grade
from bot.domain.value import Value


class PlantList(Outcome):
    places: tuple[tuple[str | None, tuple[str, ...]], ...]
    pest: str | None = None
    is_ill: bool | None = None
    """Whether only plants are given that have a pest, or that have none."""


class Standing(Value):
    """What is known of one plant: its pests, how many were seen last and when, and the last clean look."""

    plant: str
    place: str | None
    pests: tuple[tuple[str, int | Grade | None, date], ...]
    clean_on: date | None


class HowTheyAre(Outcome):
    """What is known of plants that are asked about."""

    plants: tuple[Standing, ...]


class NoPlants(Outcome):
    """The household has no plants yet."""


def place_name(desk: Desk, plant: PlantId) -> str | None:
    """Name where a plant stands."""
    place = desk.plant(plant).place
    return desk.household.places[place].name if place is not None else None


@answers(Topic.PLANTS)
def show_plants(asked: Ask, desk: Desk) -> PlantList | HowTheyAre | ReleaseInfo:
    """Give how named plants are, else the living by place; of a pest, ill or well, only those."""
    if asked.plants:
        if asked.is_ill is False and all(desk.plant(one).open_cases for one in asked.plants):
            return show_release(asked, desk)  # clean, and when it may go back
        return HowTheyAre(tuple(_standing(plant, desk) for plant in asked.plants))
    pests = frozenset() if asked.pest is None else kin(asked.pest, desk)
    by_place: dict[str | None, list[str]] = {}
    for plant in desk.household.living:
        has = tuple(case.pest for case in plant.open_cases)
        is_asked = asked.is_ill is None or asked.is_ill == bool(has)
        if is_asked and (asked.pest is None or not pests.isdisjoint(has)):
            by_place.setdefault(place_name(desk, plant.id), []).append(plant.name)
    places = tuple((place, tuple(names)) for place, names in by_place.items())
    return PlantList(places, None if asked.pest is None else pest_name(asked.pest, desk), asked.is_ill)


def _standing(number: PlantId, desk: Desk) -> Standing:
    plant = desk.plant(number)
    pests = tuple(
        (pest_name(case.pest, desk), last.grade if last.count is None else last.count, last.on)
        for case in plant.open_cases
        for last in case.finds[-1:]
    )
    clean_on = max((one.on for one in plant.checks), default=None)
    return Standing(plant.name, place_name(desk, number), pests, clean_on)
