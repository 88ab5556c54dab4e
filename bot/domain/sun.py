"""Where the sun stands, and when it crosses a plane through a place: the horizon, or a wall."""

import math
from collections.abc import Iterable
from datetime import UTC, date, datetime, time
from functools import lru_cache
from typing import NamedTuple
from zoneinfo import ZoneInfo

from bot.domain.recurrence import on_the_clock
from bot.domain.value import Value

DAY_SECONDS = 86_400.0
RISE_ALTITUDE_DEG = -0.8333  # 34' of refraction and 16' of half diameter: the upper limb shows (noaa_solar)

_J2000 = datetime(2000, 1, 1, 12, tzinfo=UTC).timestamp()
_TURN = 2.0 * math.pi
_TURN_PER_SECOND = _TURN / DAY_SECONDS
_STEPS = 6
_CLOSE_SECONDS = 5.0  # each step leaves about a thousandth of the one before
_NO_REACH = 1e-9
_SAMPLES = 48
_SIN_OBLIQUITY = 0.3978  # sine of 23.44 deg (meeus1998, ch. 22)


class Site(Value):
    """
    A place on earth: latitude north and longitude east [deg], None while the town is unknown, and its zone.

    The zone is an IANA name. It is the place's own, wherever its people happen to travel.
    """

    latitude: float | None
    longitude: float | None
    zone: str

    @property
    def is_located(self) -> bool:
        """Whether the sun can be computed here at all."""
        return self.latitude is not None and self.longitude is not None


class Plane(Value):
    """The part of the sky in front of a plane: the sun's unit vector times this normal exceeds `level`."""

    east: float
    north: float
    up: float
    level: float


class Arc(Value):
    """
    The stretch of one turn of the sun spent in front of a plane, in seconds since 1970.

    `opens` and `closes` say whether an end is a crossing; where not, the sun was in front before or stays so.
    """

    start: float
    end: float
    opens: bool
    closes: bool


class _Sun(NamedTuple):
    right_ascension: float
    declination: float
    sidereal: float


def wall(bearing_deg: float) -> Plane:
    """Give the half of the sky that an upright wall with this outward bearing from north [deg] faces."""
    bearing = math.radians(bearing_deg)
    return Plane(math.sin(bearing), math.cos(bearing), 0.0, 0.0)


HORIZON = Plane(0.0, 0.0, 1.0, math.sin(math.radians(RISE_ALTITUDE_DEG)))
"""The sky in which any part of the sun shows: its centre above the true, airless altitude of its rise."""


def position(site: Site, at: datetime) -> tuple[float, float]:
    """
    Airless altitude of the sun's centre, and its azimuth from north through east, 0 to 360. [deg].

    ValueError without coordinates, or for a naive instant.

    .. [meeus1998] ch. 13 (horizontal coordinates) and ch. 25, low accuracy.
    """
    latitude, longitude = _coordinates(site)
    sun = _sun(_utc(at).timestamp())
    hour = sun.sidereal + longitude - sun.right_ascension
    east = -math.cos(sun.declination) * math.sin(hour)
    across = math.cos(sun.declination) * math.cos(hour)
    north = math.sin(sun.declination) * math.cos(latitude) - across * math.sin(latitude)
    up = math.sin(sun.declination) * math.sin(latitude) + across * math.cos(latitude)
    return math.degrees(math.atan2(up, math.hypot(east, north))), math.degrees(
        math.atan2(east, north)
    ) % 360.0


def sunniest(bearings_deg: Iterable[float], latitude_deg: float) -> float:
    """
    Of upright walls by their bearing from north [deg], give the one that the year's direct sun beats on most.

    Under a clear sky without air, summed over the sun's declinations and hours [cosines of incidence];
    latitude -90 to 90 [deg], north positive. Of two that are equal the one further west: its sun comes with
    the day's warmth. ValueError where there is none.
    """
    latitude = math.radians(latitude_deg)

    def beam(bearing_deg: float) -> float:
        faced, total = wall(bearing_deg), 0.0
        for step in range(_SAMPLES):
            declination = math.asin(_SIN_OBLIQUITY * math.sin(_TURN * step / _SAMPLES))
            for turn in range(_SAMPLES):
                hour = _TURN * (turn + 0.5) / _SAMPLES
                across = math.cos(declination) * math.cos(hour)
                up = math.sin(declination) * math.sin(latitude) + across * math.cos(latitude)
                east = -math.cos(declination) * math.sin(hour)
                north = math.sin(declination) * math.cos(latitude) - across * math.sin(latitude)
                total += max(0.0, east * faced.east + north * faced.north) if up > 0.0 else 0.0
        return round(total, 6)

    return max(bearings_deg, key=lambda one: (beam(one), -wall(one).east))


def noon(site: Site, day: date) -> datetime:
    """Give the instant the sun crosses the meridian on this local date; every date has one."""
    return instant(transit(site, _cycle_of(site, day)))


def local(site: Site, day: date, clock: time) -> datetime:
    """Give the UTC instant at which the place's clocks show this time."""
    return on_the_clock(day, clock, ZoneInfo(site.zone))


def instant(seconds: float) -> datetime:
    """Turn seconds since 1970 into an aware UTC datetime."""
    return datetime.fromtimestamp(seconds, UTC)


def cycles(site: Site, start: datetime, end: datetime) -> range:
    """Give the numbers of the turns of the sun that can reach into the time from `start` to `end`."""
    first = _mean_noon(site, 0)
    return range(
        math.floor((start.timestamp() - first) / DAY_SECONDS) - 1,
        math.ceil((end.timestamp() - first) / DAY_SECONDS) + 2,
    )


@lru_cache(maxsize=4096)
def transit(site: Site, cycle: int) -> float:
    """Give the second since 1970 of upper transit number `cycle`, counted in days of mean local time."""
    _, longitude = _coordinates(site)
    seconds = _mean_noon(site, cycle)
    for _ in range(3):
        sun = _sun(seconds)
        hour = math.remainder(sun.sidereal + longitude - sun.right_ascension, _TURN)
        seconds -= hour / _TURN_PER_SECOND
    return seconds


@lru_cache(maxsize=16384)
def crossing(site: Site, cycle: int, plane: Plane) -> Arc | None:
    """
    Find the stretch of one turn of the sun in front of a plane, None while it stays behind. [s since 1970].

    With a fixed declination the product is a cosine of the hour angle, so both ends have a closed form; the
    declination is then taken at the end itself until it stands still. Nothing is sampled, so no short stretch
    is missed. Within a day of the polar day or night the ends are good to minutes, else to seconds.

    .. [meeus1998] ch. 15, the cosine of the hour angle at rising, for any plane in place of the horizon.
    """
    opens, start = _edge(site, cycle, plane, -1.0)
    closes, end = _edge(site, cycle, plane, 1.0)
    return Arc(start, end, opens, closes) if end > start else None


def _edge(site: Site, cycle: int, plane: Plane, side: float) -> tuple[bool, float]:
    latitude, longitude = _coordinates(site)
    along = plane.up * math.cos(latitude) - plane.north * math.sin(latitude)
    polar = plane.north * math.cos(latitude) + plane.up * math.sin(latitude)
    centre, reach = math.atan2(-plane.east, along), math.hypot(along, plane.east)
    middle = seconds = transit(site, cycle)
    width = 0.0
    for _ in range(_STEPS):
        sun = _sun(seconds)
        width = _half_width(
            plane.level - math.sin(sun.declination) * polar, math.cos(sun.declination) * reach
        )
        mean = (seconds - middle) * _TURN_PER_SECOND
        hour = mean + math.remainder(sun.sidereal + longitude - sun.right_ascension - mean, _TURN)
        step = (centre + side * width - hour) / _TURN_PER_SECOND
        seconds += step
        if abs(step) < _CLOSE_SECONDS:
            break
    return 0.0 < width < math.pi, seconds


def _half_width(level: float, reach: float) -> float:
    if reach < _NO_REACH:  # at a pole the horizon has no rising side
        return math.pi if level < 0.0 else 0.0
    return math.acos(min(1.0, max(-1.0, level / reach)))


def _sun(seconds: float) -> _Sun:
    days = (seconds - _J2000) / DAY_SECONDS
    century = days / 36525.0
    node = math.radians(125.04 - 1934.136 * century)
    nutation = -0.00478 * math.sin(node)
    longitude = math.radians(_true_longitude(century) - 0.00569 + nutation)
    obliquity = math.radians(23.4392911 - 0.0130042 * century + 0.00256 * math.cos(node))
    right_ascension = math.atan2(math.cos(obliquity) * math.sin(longitude), math.cos(longitude))
    declination = math.asin(math.sin(obliquity) * math.sin(longitude))
    mean = 280.46061837 + 360.98564736629 * days + 0.000387933 * century * century
    return _Sun(right_ascension, declination, math.radians(mean % 360.0 + nutation * math.cos(obliquity)))


def _true_longitude(century: float) -> float:
    mean = 280.46646 + century * (36000.76983 + century * 0.0003032)
    anomaly = math.radians(357.52911 + century * (35999.05029 - century * 0.0001537))
    centre = (
        (1.914602 - century * (0.004817 + century * 0.000014)) * math.sin(anomaly)
        + (0.019993 - century * 0.000101) * math.sin(2.0 * anomaly)
        + 0.000289 * math.sin(3.0 * anomaly)
    )
    return mean + centre


def _mean_noon(site: Site, cycle: int) -> float:
    _, longitude = _coordinates(site)
    return (cycle + 0.5 - longitude / _TURN) * DAY_SECONDS


def _cycle_of(site: Site, day: date) -> int:
    midday = local(site, day, time(12)).timestamp()
    return round((midday - _mean_noon(site, 0)) / DAY_SECONDS)


def _coordinates(site: Site) -> tuple[float, float]:
    if site.latitude is None or site.longitude is None:
        raise ValueError(f"no sun without latitude and longitude [deg]: {site}")
    return math.radians(site.latitude), math.radians(site.longitude)


def _utc(at: datetime) -> datetime:
    if at.tzinfo is None:
        raise ValueError(f"an aware instant is needed, not the naive {at}")
    return at.astimezone(UTC)
