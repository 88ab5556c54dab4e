"""
A second opinion on the sun, for the story's check: nothing here is shared with the planner.

Solar position by the Fourier series of Spencer (1971), as printed in many solar-energy handbooks (from
memory), good to about 0.03 degrees of declination and half a minute of the equation of time; the check allows for it.
"""

from datetime import UTC, datetime, timedelta
from math import acos, asin, atan2, cos, degrees, pi, radians, sin

STEP = timedelta(minutes=5)
BEARINGS = {"N": 0, "NE": 45, "E": 90, "SE": 135, "S": 180, "SW": 225, "W": 270, "NW": 315}
HORIZON = -0.5
"""Sun at least this high counts. [deg]"""


def altitude_azimuth(latitude: float, longitude: float, at: datetime) -> tuple[float, float]:
    """Give the sun's altitude and azimuth from north over east. [deg]."""
    at = at.astimezone(UTC)
    hours = at.hour + at.minute / 60 + at.second / 3600
    gamma = 2 * pi * (at.timetuple().tm_yday - 1 + (hours - 12) / 24) / 365
    declination = (
        0.006918
        - 0.399912 * cos(gamma)
        + 0.070257 * sin(gamma)
        - 0.006758 * cos(2 * gamma)
        + 0.000907 * sin(2 * gamma)
        - 0.002697 * cos(3 * gamma)
        + 0.00148 * sin(3 * gamma)
    )
    minutes = 229.18 * (
        0.000075
        + 0.001868 * cos(gamma)
        - 0.032077 * sin(gamma)
        - 0.014615 * cos(2 * gamma)
        - 0.040849 * sin(2 * gamma)
    )
    hour_angle = radians((hours * 60 + minutes + 4 * longitude) / 4 - 180)
    phi = radians(latitude)
    altitude = asin(sin(phi) * sin(declination) + cos(phi) * cos(declination) * cos(hour_angle))
    azimuth = atan2(
        sin(hour_angle), cos(hour_angle) * sin(phi) - sin(declination) / cos(declination) * cos(phi)
    )
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
