"""How warm a place is: its usual temperature, replaced by readings for their days."""

from collections.abc import Mapping
from datetime import date, timedelta

from bot.domain.household import Household, Plant

READING_HOLDS_DAYS = 7
"""A reading speaks for the place for a week. Judgement. [d]"""


def temperature_on(household: Household, plant: Plant, day: date) -> float | None:
    """Temperature at the plant's place, None where nobody told. [degC]."""
    place = household.places.get(plant.place) if plant.place is not None else None
    if place is None:
        return None
    for back in range(READING_HOLDS_DAYS):
        reading = place.readings.get(day - timedelta(days=back))
        if reading is not None:
            return reading
    return place.usual_c


def daily_temperatures(household: Household, plant: Plant, first: date, last: date) -> Mapping[date, float]:
    """Give the days of a span on which a reading speaks. [degC]."""
    place = household.places.get(plant.place) if plant.place is not None else None
    if place is None or not place.readings:
        return {}
    days = {}
    for number in range((last - first).days + 1):
        day = first + timedelta(days=number)
        value = temperature_on(household, plant, day)
        if value is not None:
            days[day] = value
    return days
