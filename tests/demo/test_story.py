"""The story's own checks must catch a fault; the second opinion on the sun is held against ephem."""

from datetime import UTC, datetime, timedelta
from math import degrees

import ephem
import pytest

from demo.shadows import altitude_azimuth, is_lit, lit_minute
from demo.story import CASES, GHENT, ZONE, Faults, asked_sprays, check_quiet, check_released, check_sun


def nudge(at: datetime, text: str = "Tonight") -> dict[str, str]:
    return {"at": at.astimezone(UTC).isoformat(), "text": text}


@pytest.mark.parametrize(("hour", "faults"), [(21, 0), (22, 1), (23, 1), (3, 1), (7, 1), (8, 0)])
def test_a_message_in_quiet_hours_is_a_fault(hour: int, faults: int) -> None:
    found = Faults()
    check_quiet([nudge(datetime(2026, 5, 2, hour, tzinfo=ZONE))], found)
    assert len(found.lines) == faults


@pytest.mark.parametrize(
    ("text", "hour", "faults"),
    [
        ("Spray moth orchid with soap.", 17, 1),  # west window, the sun is in the west
        ("Spray moth orchid with soap.", 21, 1),  # the sun still stands a degree above the horizon
        ("Spray moth orchid with soap.", 22, 0),
        ("Swab moth orchid with alcohol.", 17, 0),
        ("Spray ivy with soap.", 9, 1),  # east window
        ("Spray ivy with soap.", 17, 0),
        ("Spray bay laurel with soap.", 17, 1),
        ("Spray hoya with soap.", 17, 1),  # its lamp is on until 18:00
        ("Spray hoya and small hoya with soap.", 19, 0),
        ("Spray chilli with soap in shade; back only once", 17, 0),
    ],
)
def test_a_spray_in_the_sun_or_under_the_lamp_is_a_fault(text: str, hour: int, faults: int) -> None:
    found = Faults()
    check_sun([nudge(datetime(2026, 5, 2, hour, tzinfo=ZONE), f"Tonight:\n{text}")], found)
    assert len(found.lines) == faults


def test_a_spray_put_off_to_the_morning_is_checked_against_the_mornings_sun() -> None:
    sent = datetime(2026, 5, 2, 20, tzinfo=ZONE)
    text = "Tomorrow morning, from 08:00: soap on ivy."
    assert asked_sprays(text, sent) == [("ivy", datetime(2026, 5, 3, 8, tzinfo=ZONE))]
    found = Faults()
    check_sun([nudge(sent, text), nudge(sent, text.replace("ivy", "moth orchid"))], found)
    assert len(found.lines) == 1
    assert found.lines[0].startswith("ivy sprayed")


def test_a_plant_kept_or_let_go_against_the_rule_is_a_fault() -> None:
    found = Faults()
    check_released(dict.fromkeys(CASES, "by the rule"), found)
    assert not found.lines
    kept = dict.fromkeys(CASES[2:], "by the rule")
    check_released(kept | {CASES[0]: "not by the rule"}, found)
    assert found.lines == [f"{name} was not released by the rule" for name in CASES[:2]]


def worst_altitude(latitude: float, longitude: float) -> float:
    """Give the largest difference to ephem in 2026 while the sun is up or nearly so. [deg]."""
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.pressure = str(latitude), str(longitude), 0
    worst = 0.0
    for number in range(0, 365 * 24, 41):
        at = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(hours=number)
        observer.date = at.replace(tzinfo=None)
        altitude, _ = altitude_azimuth(latitude, longitude, at)
        if altitude > -5:
            worst = max(worst, abs(altitude - degrees(ephem.Sun(observer).alt)))
    return worst


SITES = (GHENT, (-33.9, 151.2), (60.2, 24.9), (19.4, -99.1))


@pytest.mark.parametrize(("latitude", "longitude"), SITES)
def test_the_second_opinion_on_the_sun_agrees_with_ephem_within_a_tenth_of_a_degree(
    latitude: float, longitude: float
) -> None:
    assert worst_altitude(latitude, longitude) < 0.1


def test_the_azimuth_agrees_where_the_sun_is_low_enough_to_shine_in() -> None:
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.pressure = str(GHENT[0]), str(GHENT[1]), 0
    for number in range(0, 84 * 24, 7):
        at = datetime(2026, 5, 2, tzinfo=UTC) + timedelta(hours=number)
        observer.date = at.replace(tzinfo=None)
        altitude, azimuth = altitude_azimuth(*GHENT, at)
        if altitude > -1:
            assert azimuth == pytest.approx(degrees(ephem.Sun(observer).az), abs=0.3)


def test_a_window_without_light_is_never_lit() -> None:
    noon = datetime(2026, 6, 20, 12, tzinfo=UTC)
    assert not is_lit("none", *GHENT, noon)
    assert is_lit("S", *GHENT, noon)
    assert lit_minute("none", *GHENT, noon, 60) is None
    assert lit_minute("S", *GHENT, noon, 60) == noon
