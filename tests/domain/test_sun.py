from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from bot.domain.sun import HORIZON, Site, crossing, cycles, local, noon, position, sunniest, transit
from tests.domain.rising import sunrise, sunset

TOULOUSE = Site(43.6, 1.44, "Europe/Paris")
TROMSO = Site(69.65, 18.96, "Europe/Oslo")
REYKJAVIK = Site(64.15, -21.94, "Atlantic/Reykjavik")


def clock(site: Site, at: datetime | None) -> str:
    assert at is not None
    return f"{at.astimezone(ZoneInfo(site.zone)):%d %H:%M}"


def test_the_evening_belongs_to_the_local_date_far_from_greenwich() -> None:
    # at Boise the sun sets at 03:30 UTC of the next day, in Auckland it rises on the UTC day before:
    # a rise or set taken by the UTC date would be a day off
    boise, auckland = Site(43.6, -116.2, "America/Boise"), Site(-36.85, 174.76, "Pacific/Auckland")
    # ephem (horizon -0.8333 deg, no air) has 03:29:48 and 19:33:42 UTC
    assert clock(boise, sunset(boise, date(2026, 6, 21))) == "21 21:29"
    assert clock(auckland, sunrise(auckland, date(2026, 6, 21))) == "21 07:33"


def test_a_zone_a_day_ahead_of_its_sun_still_has_noon_on_its_own_date() -> None:
    kiritimati = Site(1.87, -157.4, "Pacific/Kiritimati")  # UTC+14 at a longitude of UTC-10.5
    # mean noon is 157.4 / 15 h after 12:00 UTC: 22:30 UTC, 12:30 there; the equation of time is 2 min in June
    assert clock(kiritimati, noon(kiritimati, date(2026, 6, 21))) == "21 12:31"


def test_the_midnight_sun_neither_rises_nor_sets() -> None:
    assert sunrise(TROMSO, date(2026, 6, 21)) is None
    assert sunset(TROMSO, date(2026, 6, 21)) is None
    assert position(TROMSO, local(TROMSO, date(2026, 6, 21), time()))[0] > 0


def test_the_polar_night_has_a_noon_below_the_horizon() -> None:
    assert sunrise(TROMSO, date(2026, 12, 21)) is None
    assert sunset(TROMSO, date(2026, 12, 21)) is None
    # noon altitude is 90 - 69.65 - 23.44 = -3.09 deg, by hand
    assert position(TROMSO, noon(TROMSO, date(2026, 12, 21)))[0] == pytest.approx(-3.09, abs=0.02)


def test_a_sunset_after_midnight_counts_for_the_date_it_falls_on() -> None:
    # near midsummer the sun sets in Reykjavik just past midnight: one date has no sunset, the next have
    # theirs in their first minutes
    dates = [date(2026, 6, 1) + timedelta(days=number) for number in range(45)]
    found = [sunset(REYKJAVIK, on) for on in dates]
    assert found.count(None) == 1
    hours = {at.hour for at in found if at is not None}
    assert hours == {23, 0}


@pytest.mark.parametrize("latitude", [90.0, -90.0])
def test_a_pole_has_a_day_of_half_a_year(latitude: float) -> None:
    pole = Site(latitude, 0.0, "UTC")
    lit = [crossing(pole, cycles(pole, at, at)[1], HORIZON) is not None for at in months(2026)]
    # the sun is up from the March to the September equinox at the north pole, the reverse at the south
    expected = [4 <= month <= 9 for month in range(1, 13)]
    assert lit == (expected if latitude > 0 else [not up for up in expected])


def months(year: int) -> list[datetime]:
    return [datetime(year, month, 10, 12, tzinfo=UTC) for month in range(1, 13)]


def test_transits_are_a_day_apart_within_half_a_minute() -> None:
    first = cycles(TOULOUSE, datetime(2026, 1, 1, tzinfo=UTC), datetime(2026, 1, 1, tzinfo=UTC))[1]
    steps = [transit(TOULOUSE, first + n + 1) - transit(TOULOUSE, first + n) for n in range(365)]
    # from memory: the solar day is longest, by 30 s, near 22 December, shortest, by 21.5 s, in mid September
    assert max(steps) == pytest.approx(86_430, abs=1.5)
    assert min(steps) == pytest.approx(86_400 - 21.5, abs=1.5)


@pytest.mark.parametrize(
    ("zone", "on", "expected"),
    [
        # clocks skip midnight: the date starts with the change itself
        ("Asia/Beirut", date(2026, 3, 29), datetime(2026, 3, 28, 22, tzinfo=UTC)),
        ("America/Santiago", date(2026, 9, 6), datetime(2026, 9, 6, 4, tzinfo=UTC)),
        ("Africa/Cairo", date(2026, 4, 24), datetime(2026, 4, 23, 22, tzinfo=UTC)),
        # clocks repeat midnight: the date starts with the first
        ("Atlantic/Azores", date(2026, 10, 25), datetime(2026, 10, 25, 0, tzinfo=UTC)),
    ],
)
def test_a_date_without_a_midnight_or_with_two_starts_at_the_first_moment(
    zone: str, on: date, expected: datetime
) -> None:
    assert local(Site(None, None, zone), on, time()) == expected


def test_a_skipped_time_is_read_with_the_offset_before() -> None:
    # RFC 5545 section 3.3.5: 02:30 on the night clocks go forward is 02:30+01:00, which clocks show as 03:30
    assert local(TOULOUSE, date(2026, 3, 29), time(2, 30)) == datetime(2026, 3, 29, 1, 30, tzinfo=UTC)


def test_the_sun_shows_from_its_upper_limb_on() -> None:
    assert HORIZON.level == pytest.approx(-0.01454, abs=0.00001)  # sin -0.8333 deg


def test_no_sun_without_coordinates() -> None:
    with pytest.raises(ValueError, match="latitude"):
        position(Site(None, 1.0, "Europe/Paris"), datetime(2026, 1, 1, tzinfo=UTC))
    with pytest.raises(ValueError, match="aware"):
        position(TOULOUSE, datetime(2026, 1, 1))  # noqa: DTZ001 - the refusal is the point


@pytest.mark.parametrize(
    ("bearings_deg", "latitude_deg", "sunniest_deg"),
    [
        ((0.0, 180.0), 52.0, 180.0),  # the sun stands in the south at noon north of the tropics
        ((0.0, 180.0), -34.0, 0.0),  # and in the north south of them
        ((90.0, 0.0), -34.0, 0.0),
        ((90.0, 180.0), -34.0, 90.0),
        ((90.0, 180.0), 0.0, 90.0),  # on the equator it rises and sets square to it, and noon stands overhead
        ((90.0, 270.0), 52.0, 270.0),  # equal by symmetry: the one with the afternoon
        ((225.0, 180.0), 60.0, 180.0),
    ],
)
def test_the_sunniest_wall_faces_the_equator(
    bearings_deg: tuple[float, ...], latitude_deg: float, sunniest_deg: float
) -> None:
    assert sunniest(bearings_deg, latitude_deg) == sunniest_deg


def test_of_no_wall_none_is_sunniest() -> None:
    with pytest.raises(ValueError, match="empty"):
        sunniest((), 52.0)
