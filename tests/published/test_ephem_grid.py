"""
A grid of places and days against ephem (XEphem's libastro, VSOP87), another author's code.

Tolerances: the low-accuracy formulas are good to 0.01 deg of longitude (Meeus ch. 25) and ephem to 0.003 deg.
A rise or set shifts by that error over the speed at which the sun climbs, so the test of a crossing asks for
the sun's height at that moment, which is as strict at every latitude.
"""

import itertools
import math
from datetime import UTC, date, datetime, timedelta

import ephem
import pytest

from bot.domain.sun import RISE_ALTITUDE_DEG, Site, noon, position
from tests.domain.rising import sunrise, sunset

ALTITUDE_ERROR_DEG = 0.016
AZIMUTH_ERROR_DEG = 0.05  # on the sky; near the zenith the bearing itself turns faster
LATITUDES = (-65.0, -50.0, -35.0, -10.0, 0.0, 15.0, 30.0, 43.0, 52.0, 60.0, 65.0)
HIGH_LATITUDES = (66.5, 69.65, 72.0, -68.0)
DAYS = [date(2026, 1, 1) + timedelta(days=17 * number) for number in range(64)]  # three years


def observer(site: Site) -> ephem.Observer:
    place = ephem.Observer()
    place.lat, place.lon = str(site.latitude), str(site.longitude)
    place.pressure, place.elevation = 0, 0
    return place


def ephem_position(place: ephem.Observer, at: datetime) -> tuple[float, float]:
    place.date = at.replace(tzinfo=None)
    sun = ephem.Sun(place)
    return math.degrees(sun.alt), math.degrees(sun.az)


def climb(place: ephem.Observer, at: datetime) -> tuple[float, float]:
    before, after = (ephem_position(place, at + timedelta(seconds=step))[0] for step in (-30, 30))
    return (before + after) / 2, (after - before) / 60


def assert_crosses(place: ephem.Observer, at: datetime | None, sign: int) -> None:
    assert at is not None
    altitude, speed = climb(place, at)
    assert altitude == pytest.approx(RISE_ALTITUDE_DEG, abs=ALTITUDE_ERROR_DEG)
    assert speed * sign > 0


@pytest.mark.parametrize("latitude", LATITUDES)
def test_the_sun_stands_on_the_horizon_at_our_rise_and_set(latitude: float) -> None:
    site = Site(latitude, 0.0, "UTC")
    place = observer(site)
    for on in DAYS:
        assert_crosses(place, sunrise(site, on), 1)
        assert_crosses(place, sunset(site, on), -1)


def worst_of_year(site: Site) -> float:
    place, worst = observer(site), 0.0
    place.horizon = str(RISE_ALTITUDE_DEG)
    for on in DAYS:
        found = sunset(site, on)
        assert found is not None
        place.date = (found - timedelta(hours=2)).replace(tzinfo=None)
        theirs = place.next_setting(ephem.Sun(), use_center=True).datetime().replace(tzinfo=UTC)
        worst = max(worst, abs((found - theirs).total_seconds()))
    return worst


@pytest.mark.parametrize(("latitude", "seconds"), [(0.0, 5.0), (43.0, 6.0), (-52.0, 8.0), (65.0, 20.0)])
def test_sunset_agrees_with_ephem_to_seconds(latitude: float, seconds: float) -> None:
    # 0.016 deg over the 15 deg/h of the equator's sunset is 4 s; over a 65 deg midwinter's 3 deg/h 19 s
    assert worst_of_year(Site(latitude, 0.0, "UTC")) < seconds


def sampled(site: Site, on: date) -> list[float]:
    place, start = observer(site), datetime(on.year, on.month, on.day, tzinfo=UTC)
    return [ephem_position(place, start + timedelta(minutes=5 * step))[0] for step in range(289)]


@pytest.mark.parametrize("latitude", HIGH_LATITUDES)
def test_polar_days_and_nights_have_no_rise_and_the_days_beside_them_do(latitude: float) -> None:
    site = Site(latitude, 0.0, "UTC")
    place = observer(site)
    for number in range(0, 365, 4):
        on = date(2026, 1, 1) + timedelta(days=number)
        altitudes = [altitude - RISE_ALTITUDE_DEG for altitude in sampled(site, on)]
        if min(altitudes) > ALTITUDE_ERROR_DEG or max(altitudes) < -ALTITUDE_ERROR_DEG:
            assert (sunrise(site, on), sunset(site, on)) == (None, None)
        pairs = list(itertools.pairwise(altitudes))
        # a day that only grazes the horizon by less than the error is nobody's to call
        if any(a < -ALTITUDE_ERROR_DEG < ALTITUDE_ERROR_DEG < b for a, b in pairs):
            assert_crosses(place, sunrise(site, on), 1)
        if any(b < -ALTITUDE_ERROR_DEG < ALTITUDE_ERROR_DEG < a for a, b in pairs):
            assert_crosses(place, sunset(site, on), -1)


@pytest.mark.parametrize("latitude", [*LATITUDES, *HIGH_LATITUDES, 89.0])
def test_positions_agree_with_ephem(latitude: float) -> None:
    for longitude in (-150.0, -20.0, 100.0):
        site = Site(latitude, longitude, "UTC")
        place = observer(site)
        for number in range(60):
            at = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(hours=number * 149.3)
            (altitude, azimuth), (alt, az) = position(site, at), ephem_position(place, at)
            assert altitude == pytest.approx(alt, abs=ALTITUDE_ERROR_DEG)
            across = math.remainder(azimuth - az, 360.0) * math.cos(math.radians(alt))
            assert across == pytest.approx(0.0, abs=AZIMUTH_ERROR_DEG)


@pytest.mark.parametrize("latitude", [-35.0, 43.0, 69.65])
def test_noon_is_ephems_transit(latitude: float) -> None:
    site = Site(latitude, 174.8, "Pacific/Auckland")
    place = observer(site)
    for on in DAYS:
        found = noon(site, on)
        place.date = (found - timedelta(hours=6)).replace(tzinfo=None)
        transit = place.next_transit(ephem.Sun()).datetime().replace(tzinfo=UTC)
        assert abs((found - transit).total_seconds()) < 4  # 0.016 deg at 15 deg/h
