"""Worked angles of walls and windows, from handbooks and from other people's test suites."""

import math

import pytest

from bot.domain.sun import wall


def towards_sun(altitude_deg: float, azimuth_deg: float) -> tuple[float, float, float]:
    altitude, azimuth = math.radians(altitude_deg), math.radians(azimuth_deg)
    flat = math.cos(altitude)
    return flat * math.sin(azimuth), flat * math.cos(azimuth), math.sin(altitude)


def incidence_deg(bearing_deg: float, altitude_deg: float, azimuth_deg: float) -> float:
    plane, (east, north, up) = wall(bearing_deg), towards_sun(altitude_deg, azimuth_deg)
    return math.degrees(math.acos(plane.east * east + plane.north * north + plane.up * up))


@pytest.mark.parametrize(
    ("azimuth_deg", "expected_deg"),
    [
        # pvlib-python tests/test_irradiance.py: wall towards north, sun 30 deg from the zenith
        (60.0, 75.5224878),
        (170.0, 119.4987042),
    ],
)
def test_incidence_on_a_wall_towards_north(azimuth_deg: float, expected_deg: float) -> None:
    assert incidence_deg(0.0, 60.0, azimuth_deg) == pytest.approx(expected_deg, abs=1e-7)


def test_a_south_east_wall_is_in_sun_75_degrees_off_its_bearing() -> None:
    # course slides on solar angles: facade at 45 east of south, sun 30 west of south, gamma = 75, sun
    # on the horizon the incidence is gamma itself
    assert incidence_deg(135.0, 0.0, 210.0) == pytest.approx(75.0)


@pytest.mark.parametrize("altitude_deg", [0.0, 20.0, 60.0])
def test_a_wall_is_in_shade_from_a_right_angle_on(altitude_deg: float) -> None:
    # the same slides: |gamma| >= 90, facade in shade; whatever the sun's height
    assert incidence_deg(270.0, altitude_deg, 181.0) < 90.0
    assert incidence_deg(270.0, altitude_deg, 179.0) > 90.0
    assert incidence_deg(270.0, altitude_deg, 359.0) < 90.0
    assert incidence_deg(270.0, altitude_deg, 1.0) > 90.0


def test_profile_angle_and_incidence_agree() -> None:
    # tan(profile) = tan(altitude) / cos(gamma): altitude 45, gamma 60 gives atan 2 = 63.4349, worked by hand
    profile = math.radians(63.4349)
    cosine = math.cos(math.radians(incidence_deg(180.0, 45.0, 240.0)))
    assert math.tan(profile) == pytest.approx(math.sin(math.radians(45.0)) / cosine, rel=1e-5)
