"""When direct sun, or a lamp, reaches the plants of a place."""

import enum
from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from typing import assert_never

from bot.domain.sun import HORIZON, Plane, Site, crossing, cycles, instant, local, wall
from bot.domain.value import Value

_DAY = timedelta(days=1)
_JOIN_SECONDS = 1.0
_RIGHT_ANGLE_DEG = 90.0


class Facing(enum.Enum):
    """Which way a window looks; UNKNOWN counts as an open sky, so that an error goes towards sun."""

    N = "N"
    NE = "NE"
    E = "E"
    SE = "SE"
    S = "S"
    SW = "SW"
    W = "W"
    NW = "NW"
    NONE = "none"
    UNKNOWN = "unknown"

    # by identity, as members are single: an evening asks for exposures forty times a home
    __hash__ = object.__hash__


class Outdoors(enum.Enum):
    """When the sun reaches a place outdoors, as its people describe it."""

    ALL_DAY = "all-day"
    MORNING = "morning"
    AFTERNOON = "afternoon"
    SHADE = "shade"

    __hash__ = object.__hash__  # as above


_COMPASS = (Facing.N, Facing.NE, Facing.E, Facing.SE, Facing.S, Facing.SW, Facing.W, Facing.NW)
BEARING_DEG = {facing: 45.0 * number for number, facing in enumerate(_COMPASS)}


class Exposure(Value, kw_only=True):
    """
    What of the sky and of lamps the plants of a place can see.

    `outdoors` wins where both are given; with neither, the place counts as open to all the sky. The bearing
    may be off by `tolerance_deg` either way. What stands opposite, depth behind the glass and roofs above it
    are left out, so that an error goes towards sun. A lamp is on every day from `lamp_from` to `lamp_until`
    on the local clock, over midnight if need be, all day if the two are equal.
    """

    facing: Facing | None = None
    outdoors: Outdoors | None = None
    tolerance_deg: float = 22.5
    lamp_from: time | None = None
    lamp_until: time | None = None

    def __post_init__(self) -> None:
        """Refuse an angle without a meaning and half a lamp time."""
        if not 0.0 <= self.tolerance_deg <= _RIGHT_ANGLE_DEG:
            raise ValueError(f"tolerance {self.tolerance_deg} deg not in 0 to 90")
        if (self.lamp_from is None) is not (self.lamp_until is None):
            raise ValueError(f"a lamp needs both times: {self.lamp_from}, {self.lamp_until}")

    @property
    def is_unknown(self) -> bool:
        """Whether nobody told which way the window looks."""
        return self.outdoors is None and self.facing in {None, Facing.UNKNOWN}

    @property
    def sees_sun(self) -> bool:
        """Whether any direct sun can ever come in."""
        if self.outdoors is not None:
            return self.outdoors is not Outdoors.SHADE
        return self.facing is not Facing.NONE


class Span(Value):
    """A stretch of time between two aware UTC instants."""

    start: datetime
    end: datetime


_Stretch = tuple[float, float]  # seconds since 1970


def lit_spans(exposure: Exposure, site: Site, first: date, days: int) -> tuple[Span, ...]:
    """
    When direct sun or a lamp reaches the plants, from the first local midnight through `days` local dates.

    A wall sees the sun while their bearings differ by less than a right angle. A bearing known to within the
    tolerance [deg] widens that sector on both sides, so that an error goes towards sun. Without coordinates
    only lamps are known. In order, apart from each other, cut at both ends of the time looked at.

    .. [olgyay1957] horizontal shadow angle; a wall is in shade from 90 deg on.
    """
    start, end = local(site, first, time()), local(site, first + days * _DAY, time())
    stretches = _lamp(exposure, site, first, days)
    if site.is_located and exposure.sees_sun:
        stretches += _sunlit(exposure, site, start, end)
    low, high = start.timestamp(), end.timestamp()
    cut = ((max(low, a), min(high, b)) for a, b in _merged(stretches))
    return tuple(Span(instant(a), instant(b)) for a, b in cut if a < b)


def bearing_deg(exposure: Exposure) -> float | None:
    """
    Give the bearing from north [deg] that the plants look along, None for all round.

    Morning sun is the eastern half of the sky, afternoon sun the western: true on both hemispheres.
    """
    match exposure.outdoors:
        case None:
            return None if exposure.facing is None else BEARING_DEG.get(exposure.facing)
        case Outdoors.MORNING:
            return BEARING_DEG[Facing.E]
        case Outdoors.AFTERNOON:
            return BEARING_DEG[Facing.W]
        case Outdoors.ALL_DAY | Outdoors.SHADE:
            return None
        case never:
            assert_never(never)


def _sunlit(exposure: Exposure, site: Site, start: datetime, end: datetime) -> list[_Stretch]:
    turns = cycles(site, start, end)
    up = _stretches(site, turns, HORIZON)
    bearing = bearing_deg(exposure)
    if bearing is None:
        return up
    # |sun - wall| < 90 + tolerance is the union of the two half skies turned by the tolerance either way
    sides = {wall(bearing - exposure.tolerance_deg), wall(bearing + exposure.tolerance_deg)}
    facing = _merged(stretch for side in sides for stretch in _stretches(site, turns, side))
    return _common(up, facing)


def _stretches(site: Site, turns: Iterable[int], plane: Plane) -> list[_Stretch]:
    arcs = (crossing(site, turn, plane) for turn in turns)
    return _merged((arc.start, arc.end) for arc in arcs if arc is not None)


def _lamp(exposure: Exposure, site: Site, first: date, days: int) -> list[_Stretch]:
    if exposure.lamp_from is None or exposure.lamp_until is None:
        return []
    until_later = _DAY if exposure.lamp_until <= exposure.lamp_from else 0 * _DAY
    return [
        (
            local(site, on, exposure.lamp_from).timestamp(),
            local(site, on + until_later, exposure.lamp_until).timestamp(),
        )
        for on in (first + number * _DAY for number in range(-1, days))
    ]


def _merged(stretches: Iterable[_Stretch]) -> list[_Stretch]:
    merged: list[_Stretch] = []
    for start, end in sorted(stretches):
        if merged and start <= merged[-1][1] + _JOIN_SECONDS:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((start, end))
    return merged


def _common(some: Iterable[_Stretch], others: list[_Stretch]) -> list[_Stretch]:
    pairs = ((max(a, c), min(b, d)) for a, b in some for c, d in others)
    return [(start, end) for start, end in pairs if start < end]
