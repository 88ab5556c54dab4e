"""
A second opinion on the sun, for the story's check: nothing here is shared with the planner.

Solar position by the low-precision formulae of the Astronomical Almanac (from memory), good to about 0.02
degrees between 1950 and 2050; written apart from the planner's, which follow another book.
"""

from datetime import UTC, datetime, timedelta
from math import acos, asin, atan2, cos, degrees, radians, sin

EPOCH = datetime(2000, 1, 1, 12, tzinfo=UTC)
STEP = timedelta(minutes=5)
BEARINGS = {"N": 0, "NE": 45, "E": 90, "SE": 135, "S": 180, "SW": 225, "W": 270, "NW": 315}
HORIZON = -0.5
"""Sun at least this high counts. [deg]"""


def altitude_azimuth(latitude: float, longitude: float, at: datetime) -> tuple[float, float]:
    """Give the sun's altitude and azimuth from north over east. [deg]."""
    days = (at - EPOCH) / timedelta(days=1)
    anomaly = radians(357.528 + 0.9856003 * days)
    along = radians(280.460 + 0.9856474 * days + 1.915 * sin(anomaly) + 0.020 * sin(2 * anomaly))
    tilt = radians(23.439 - 0.0000004 * days)
    ascension = atan2(cos(tilt) * sin(along), cos(along))
    declination = asin(sin(tilt) * sin(along))
    turned = radians(15 * (18.697374558 + 24.06570982441908 * days) + longitude) - ascension
    phi = radians(latitude)
    altitude = asin(sin(phi) * sin(declination) + cos(phi) * cos(declination) * cos(turned))
    azimuth = atan2(sin(turned), cos(turned) * sin(phi) - sin(declination) / cos(declination) * cos(phi))
    return degrees(altitude), (degrees(azimuth) + 180) % 360


def is_lit(bearing: str, latitude: float, longitude: float, at: datetime) -> bool:
    """Whether the sun stands before a window of that bearing, or above an afternoon balcony."""
    altitude, azimuth = altitude_azimuth(latitude, longitude, at)
    if altitude < HORIZON or bearing == "none":
        return False
    if bearing == "afternoon":
        return azimuth > 180  # noqa: PLR2004 - past due south
    away = radians(azimuth - BEARINGS[bearing])
    return degrees(acos(cos(away))) < 90  # noqa: PLR2004 - in front of the wall


def lit_minute(
    bearing: str, latitude: float, longitude: float, start: datetime, minutes: int
) -> datetime | None:
    """Give the first moment of a span, in 5-minute steps, at which the sun is on; None if it stays off."""
    for number in range(minutes // 5 + 1):
        at = start + number * STEP
        if is_lit(bearing, latitude, longitude, at):
            return at
    return None
