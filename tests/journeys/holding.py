"""What a home's journal holds, in lines a person can compare with what was told: nothing of what is planned."""

from bot.domain.household import Household, Place, Plant
from tests.journeys.talking import Talk


def holds(talk: Talk) -> list[str]:
    """Give a line for each thing told, in a fixed order: town, places, shelf, then each plant's days."""
    home = talk.home
    lines = [f"town {home.town or home.latitude}"] if home.town or home.latitude is not None else []
    for place in sorted(home.places.values(), key=lambda one: one.name):
        if place.id not in home.places_gone:
            plants = sorted(plant.name for plant in home.living if plant.place == place.id)
            lines.append(f"place {place.name}, {_looks(place)}: {', '.join(plants) or '-'}")
    unplaced = sorted(plant.name for plant in home.living if plant.place is None)
    lines += [f"no place: {', '.join(unplaced)}"] if unplaced else []
    lines += [f"shelf {product.ingredient}" for product in home.products.values()]
    for plant in sorted(home.plants.values(), key=lambda one: one.name):
        lines += _days(plant, home)
    return lines


def _looks(place: Place) -> str:
    if place.outdoors is not None:
        return "outdoors"
    return place.facing.value if place.facing is not None else "window not told"


def _days(plant: Plant, home: Household) -> list[str]:
    told = [
        (find.on, 0, f"{case.pest} {find.count if find.count is not None else find.grade.value}")
        for case in plant.cases
        for find in case.finds
    ]
    told += [(check.on, 1, f"none seen, {check.level.value}") for check in plant.checks]
    told += [(on, 2, f"sign {sign.value}") for on, sign in plant.signs]
    for one in plant.treatments:
        product = home.products.get(one.product) if one.product is not None else None
        told.append((one.on, 3, " ".join([one.method.value, *([product.ingredient] if product else [])])))
    if plant.lost_on is not None:
        told.append((plant.lost_on, 4, "gone"))
    told += [(case.closed_on, 5, f"{case.pest} over") for case in plant.cases if case.closed_on is not None]
    lines = [f"{plant.name}: {on} {what}" for on, _, what in sorted(told)]
    return [*lines, *([f"{plant.name}: apart"] if plant.is_apart else [])]
