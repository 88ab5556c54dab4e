"""
The worked examples of Reda & Andreas, Solar Position Algorithm for Solar Radiation Applications.

NREL/TP-560-34302 (revised 2008), tables A2.1 and A5.1, and values printed by NREL's SPA web calculator.
"""

import math
from datetime import UTC, date, datetime

import pytest

from bot.domain.sun import Site, noon, position
from tests.domain.rising import equatorial, sunrise, sunset

GOLDEN = Site(39.742476, -105.1786, "Etc/GMT+7")  # A5.1; the example's clock is mountain standard time
AT = datetime(2003, 10, 17, 19, 30, 30, tzinfo=UTC)
LOW_ACCURACY_DEG = 0.02  # Meeus gives 0.01 deg for the longitude; near the zenith an azimuth takes double


def test_altitude_and_azimuth_of_the_worked_example() -> None:
    altitude, azimuth = position(GOLDEN, AT)
    assert altitude == pytest.approx(39.872046, abs=LOW_ACCURACY_DEG)  # A5.1, e0, before refraction
    assert azimuth == pytest.approx(194.340241, abs=LOW_ACCURACY_DEG)  # A5.1


def test_right_ascension_and_declination_of_the_worked_example() -> None:
    right_ascension, declination = equatorial(AT)
    assert right_ascension == pytest.approx(202.22704, abs=LOW_ACCURACY_DEG)  # A5.1, topocentric
    assert declination == pytest.approx(-9.316179, abs=LOW_ACCURACY_DEG)  # A5.1; parallax is 0.002 deg


def test_incidence_on_the_tilted_surface_of_the_worked_example() -> None:
    altitude, azimuth = (math.radians(angle) for angle in position(GOLDEN, AT))
    slope, bearing = math.radians(30), math.radians(170)  # A5.1: 30 deg, 10 deg east of south
    cosine = math.sin(altitude) * math.cos(slope) + math.cos(altitude) * math.sin(slope) * math.cos(
        azimuth - bearing
    )
    assert math.degrees(math.acos(cosine)) == pytest.approx(25.18700, abs=LOW_ACCURACY_DEG)  # A5.1


def test_sunrise_of_the_worked_example() -> None:
    rise = sunrise(GOLDEN, date(2003, 10, 17))
    assert rise is not None
    expected = datetime(2003, 10, 17, 13, 12, 43, tzinfo=UTC)  # A5.1: 06:12:43
    assert abs((rise - expected).total_seconds()) < 3


def test_the_sunset_printed_in_the_worked_example_is_that_of_the_evening_before() -> None:
    # A5.1 prints 17:20:19.  The algorithm takes the set of the UTC day modulo 24 h, and the sun sets at
    # Golden after 0 h UTC: the figure belongs to the 16th.  Skyfield with JPL DE421 gives 17:20:18 on the
    # 16th and 17:18:51 on the 17th.
    before, on = sunset(GOLDEN, date(2003, 10, 16)), sunset(GOLDEN, date(2003, 10, 17))
    assert before is not None
    assert on is not None
    assert abs((before - datetime(2003, 10, 17, 0, 20, 19, tzinfo=UTC)).total_seconds()) < 3
    assert abs((on - datetime(2003, 10, 18, 0, 18, 51, tzinfo=UTC)).total_seconds()) < 3


@pytest.mark.parametrize(
    ("site", "rise", "set_"),
    [
        # table A2.1
        (
            Site(35.0, 0.0, "UTC"),
            datetime(1994, 1, 2, 7, 8, 12, 800_000, UTC),
            datetime(1994, 1, 2, 16, 59, 55, 900_000, UTC),
        ),
        (
            Site(-35.0, 0.0, "UTC"),
            datetime(2004, 12, 4, 4, 38, 57, 100_000, UTC),
            datetime(2004, 12, 4, 19, 2, 2, 500_000, UTC),
        ),
        # SPA web calculator, 07:21:55 and 16:47:43 MST
        (GOLDEN, datetime(2015, 1, 2, 14, 21, 55, tzinfo=UTC), datetime(2015, 1, 2, 23, 47, 43, tzinfo=UTC)),
    ],
)
def test_rise_and_set_of_the_tables(site: Site, rise: datetime, set_: datetime) -> None:
    found = sunrise(site, rise.date()), sunset(site, rise.date())
    assert found[0] is not None
    assert found[1] is not None
    assert abs((found[0] - rise).total_seconds()) < 3
    assert abs((found[1] - set_).total_seconds()) < 3


def test_noon_stands_halfway_between_rise_and_set() -> None:
    rise, set_ = sunrise(GOLDEN, date(2003, 10, 17)), sunset(GOLDEN, date(2003, 10, 17))
    assert rise is not None
    assert set_ is not None
    middle = rise + (set_ - rise) / 2
    # the declination falls 0.18 deg over the day's 11 h, which shortens the afternoon by about half a minute
    assert abs((noon(GOLDEN, date(2003, 10, 17)) - middle).total_seconds()) < 30
