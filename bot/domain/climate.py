"""How warm a place is: its usual temperature, and readings that speak for their day and fade over three."""

from collections.abc import Callable, Mapping
from datetime import date, timedelta

from bot.domain.development import FAST_DEFAULT, SLOW_DEFAULT
from bot.domain.household import Household, Place, Plant

FADES_OVER_DAYS = 3
"""A reading stands for its day, and fades to the usual temperature by this day after it. Judgement. [d]"""
DOUBTED_AFTER = 3
"""Readings in a row that are off make the usual temperature doubtful. Judgement. [1]"""
DOUBTED_BY_C = 2.0
"""How far off they are. Judgement. [degC]"""


def place_on(household: Household, plant: Plant, day: date) -> Place | None:
    """Give the place a plant stood in on a day; before the first told one it stood there too."""
    number = plant.stays[0][1] if plant.stays else plant.place
    for start, place in plant.stays:
        if start <= day:
            number = place
    return None if number is None else household.places.get(number)


def usual_on(place: Place, day: date) -> float | None:
    """Give how warm a place usually is at that time of the year, None where nobody told. [degC]."""
    return place.by_month.get(day.month, place.usual_c) if place.by_month else place.usual_c


def temperature_on(household: Household, plant: Plant, day: date) -> float | None:
    """Give the temperature at the plant's place as it is best known, None where nobody told. [degC]."""
    place = place_on(household, plant, day)
    return None if place is None else _faded(place, day, usual_on(place, day))


def warm_side(household: Household, plant: Plant, day: date) -> float | None:
    """
    Give the warmer of the usual temperature and what readings say, for the gap. [degC].

    Where nobody told a usual one, it counts as 24; None where nothing was told at all.
    """
    return _side(household, plant, day, FAST_DEFAULT, max)


def cool_side(household: Household, plant: Plant, day: date) -> float | None:
    """
    Give the cooler of the usual temperature and what readings say, for length and release. [degC].

    Where nobody told a usual one, it counts as 18; None where nothing was told at all.
    """
    return _side(household, plant, day, SLOW_DEFAULT, min)


def reach_on(place: Place, day: date) -> tuple[float, float] | None:
    """Give the lowest and highest of a day: as told, else what was read then, else None. [degC]."""
    read = place.readings.get(day)
    return place.extremes.get(day, None if read is None else (read, read))


def span_on(household: Household, plant: Plant, day: date) -> tuple[float, float] | None:
    """Give what an evening has to reckon with: today's lowest and highest, else the usual one. [degC]."""
    place = place_on(household, plant, day)
    if place is None:
        return None
    usual = usual_on(place, day)
    return reach_on(place, day) or (None if usual is None else (usual, usual))


def is_usual_doubted(place: Place) -> bool:
    """Whether the last three readings are all more than 2 degC off what is usual, on the same side."""
    last = sorted(place.readings)[-DOUBTED_AFTER:]
    usual = usual_on(place, last[-1]) if len(last) == DOUBTED_AFTER else None
    if usual is None:
        return False
    off = [place.readings[day] - usual for day in last]
    return all(one > DOUBTED_BY_C for one in off) or all(one < -DOUBTED_BY_C for one in off)


def cool_days(household: Household, plant: Plant, first: date, last: date) -> Mapping[date, float]:
    """Give the days of a span where a reading speaks or the plant has moved, on the cool side. [degC]."""
    stood_in = [household.places[place] for place in plant.stood_in(first, last) if place in household.places]
    if len(stood_in) <= 1 and not any(place.readings or place.by_month for place in stood_in):
        return {}
    days = (first + timedelta(days=number) for number in range((last - first).days + 1))
    return {day: value for day in days if (value := cool_side(household, plant, day)) is not None}


def _side(
    household: Household, plant: Plant, day: date, otherwise: float, pick: Callable[[float, float], float]
) -> float | None:
    place = place_on(household, plant, day)
    if place is None:
        return None
    usual = usual_on(place, day)
    base = otherwise if usual is None else usual
    read = _faded(place, day, base)
    if usual is None and read == base:
        return None
    return base if read is None else pick(base, read)


def _faded(place: Place, day: date, usual: float | None) -> float | None:
    """Give what the last reading still says of a day: all of it on its own, a third less each day after."""
    for back in range(FADES_OVER_DAYS if place.readings else 0):
        reading = place.readings.get(day - timedelta(days=back))
        if reading is not None and usual is not None:
            return usual + (reading - usual) * (FADES_OVER_DAYS - back) / FADES_OVER_DAYS
        if reading is not None:
            return reading if back == 0 else None
    return usual
