"""How warm a place is: its usual temperature, replaced by readings for their days."""

from collections.abc import Mapping
from datetime import date, timedelta

from bot.domain.household import Household, Place, Plant

READING_HOLDS_DAYS = 7
"""A reading speaks for the place for a week. Judgement. [d]"""


def _place_on(household: Household, plant: Plant, day: date) -> Place | None:
    """Give the place a plant stood in on a day; before the first told one it stood there too."""
    number = plant.stays[0][1] if plant.stays else plant.place
    for start, place in plant.stays:
        if start <= day:
            number = place
    return None if number is None else household.places.get(number)


def temperature_on(household: Household, plant: Plant, day: date) -> float | None:
    """Temperature at the plant's place, None where nobody told. [degC]."""
    place = _place_on(household, plant, day)
    if place is None:
        return None
    usual = place.by_month.get(day.month, place.usual_c) if place.by_month else place.usual_c
    if not place.readings:
        return usual
    for back in range(READING_HOLDS_DAYS):
        reading = place.readings.get(day - timedelta(days=back))
        if reading is not None:
            return reading
    return usual


def daily_temperatures(household: Household, plant: Plant, first: date, last: date) -> Mapping[date, float]:
    """Give the days of a span where a reading speaks or the plant has moved, by where it stood. [degC]."""
    stood_in = [household.places[place] for place in plant.stood_in(first, last) if place in household.places]
    if len(stood_in) <= 1 and not any(place.readings or place.by_month for place in stood_in):
        return {}
    days = {}
    for number in range((last - first).days + 1):
        day = first + timedelta(days=number)
        value = temperature_on(household, plant, day)
        if value is not None:
            days[day] = value
    return days
