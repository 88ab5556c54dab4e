"""Expected spans at 43 N 0 E come from a separate implementation that samples the sky, cut to the minute."""

from datetime import date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from bot.domain.sun import Site
from bot.domain.window import Exposure, Facing, Outdoors, lit_spans
from tests.domain.rising import sunset

PLACE = Site(43.0, 0.0, "UTC")
TOULOUSE = Site(43.6, 1.44, "Europe/Paris")
AUCKLAND = Site(-36.85, 174.76, "Pacific/Auckland")
DAYS = (date(2026, 3, 20), date(2026, 6, 21), date(2026, 9, 22), date(2026, 12, 21))

EXACT = {
    "N": ("06:03-06:06 18:07-18:12", "04:20-07:52 16:11-19:42", "05:47-05:54 17:52-17:57", ""),
    "NE": ("06:03-09:50", "04:20-10:45", "05:47-09:36", "07:27-08:40"),
    "E": ("06:03-12:07", "04:20-12:01", "05:47-11:52", "07:27-11:58"),
    "SE": ("06:03-14:24", "04:20-13:18", "05:47-14:09", "07:27-15:16"),
    "S": ("06:06-18:07", "07:52-16:11", "05:54-17:52", "07:27-16:28"),
    "SW": ("09:50-18:12", "10:45-19:42", "09:36-17:57", "08:40-16:28"),
    "W": ("12:07-18:12", "12:01-19:42", "11:52-17:57", "11:58-16:28"),
    "NW": ("14:24-18:12", "13:18-19:42", "14:09-17:57", "15:16-16:28"),
}
ROUGH = {
    "N": ("06:03-08:12 16:02-18:12", "04:20-09:40 14:23-19:42", "05:47-07:58 15:47-17:57", ""),
    "NE": ("06:03-11:04", "04:20-11:27 18:33-19:42", "05:47-10:49", "07:27-10:25"),
    "E": ("06:03-13:10", "04:20-12:35", "05:47-12:55", "07:27-13:30"),
    "SE": ("06:03-16:02", "04:20-14:23", "05:47-15:47", "07:27-16:28"),
    "S": ("06:03-18:12", "05:30-18:33", "05:47-17:57", "07:27-16:28"),
    "SW": ("08:12-18:12", "09:40-19:42", "07:58-17:57", "07:27-16:28"),
    "W": ("11:04-18:12", "11:27-19:42", "10:49-17:57", "10:25-16:28"),
    "NW": ("13:10-18:12", "04:20-05:30 12:35-19:42", "12:55-17:57", "13:30-16:28"),
}


def clocks(exposure: Exposure, site: Site, on: date, days: int = 1) -> str:
    zone = ZoneInfo(site.zone)
    spans = lit_spans(exposure, site, on, days)
    return " ".join(
        f"{span.start.astimezone(zone):%H:%M}-{span.end.astimezone(zone):%H:%M}" for span in spans
    )


def minutes(spans: str) -> list[int]:
    return [int(clock[:2]) * 60 + int(clock[3:]) for span in spans.split() for clock in span.split("-")]


@pytest.mark.parametrize("facing", EXACT)
@pytest.mark.parametrize(("table", "tolerance_deg"), [(EXACT, 0.0), (ROUGH, 22.5)], ids=["exact", "rough"])
def test_sun_in_a_window_at_43_north(
    facing: str, table: dict[str, tuple[str, ...]], tolerance_deg: float
) -> None:
    exposure = Exposure(facing=Facing(facing), tolerance_deg=tolerance_deg)
    for on, expected in zip(DAYS, table[facing], strict=True):
        assert minutes(clocks(exposure, PLACE, on)) == pytest.approx(minutes(expected), abs=1)


def test_an_east_window_is_free_from_solar_noon() -> None:
    # by the same sampling: noon 13:56 by the clock, 14:31 with the bearing known to 22.5 deg; rise by ephem
    exact = clocks(Exposure(facing=Facing.E, tolerance_deg=0.0), TOULOUSE, DAYS[1])
    assert exact == "06:12-13:56"
    assert clocks(Exposure(facing=Facing.E), TOULOUSE, DAYS[1]) == "06:12-14:31"


def test_a_west_window_has_sun_until_sunset_all_year() -> None:
    for on in (date(2026, 1, 1) + timedelta(days=7 * week) for week in range(52)):
        spans = lit_spans(Exposure(facing=Facing.W), TOULOUSE, on, 1)
        down = sunset(TOULOUSE, on)
        assert down is not None
        assert abs((spans[-1].end - down).total_seconds()) < 1


def test_a_north_window_in_the_south_is_the_sunny_one() -> None:
    # Auckland in June: sun from rise to set, 07:33 to 17:11
    assert clocks(Exposure(facing=Facing.N), AUCKLAND, DAYS[1]) == "07:33-17:11"
    assert clocks(Exposure(facing=Facing.S), AUCKLAND, DAYS[1]) == ""


def test_outdoors_counts_before_a_window() -> None:
    balcony = Exposure(facing=Facing.N, outdoors=Outdoors.ALL_DAY)
    assert clocks(balcony, PLACE, DAYS[0]) == clocks(Exposure(facing=Facing.UNKNOWN), PLACE, DAYS[0])
    assert clocks(balcony, PLACE, DAYS[0]) == clocks(Exposure(), PLACE, DAYS[0])


@pytest.mark.parametrize(("outdoors", "like"), [(Outdoors.MORNING, Facing.E), (Outdoors.AFTERNOON, Facing.W)])
@pytest.mark.parametrize("site", [PLACE, AUCKLAND])
def test_morning_and_afternoon_mean_east_and_west_on_both_hemispheres(
    outdoors: Outdoors, like: Facing, site: Site
) -> None:
    for on in DAYS:
        assert lit_spans(Exposure(outdoors=outdoors), site, on, 1) == lit_spans(
            Exposure(facing=like), site, on, 1
        )


@pytest.mark.parametrize("dark", [Exposure(facing=Facing.NONE), Exposure(outdoors=Outdoors.SHADE)])
def test_no_sun_reaches_the_dark_places(dark: Exposure) -> None:
    assert lit_spans(dark, PLACE, DAYS[1], 3) == ()
    assert not dark.sees_sun


def test_a_lamp_counts_as_sun_and_joins_it() -> None:
    lamp = Exposure(facing=Facing.E, tolerance_deg=0.0, lamp_from=time(11), lamp_until=time(20))
    assert clocks(lamp, PLACE, DAYS[1]) == "04:20-20:00"
    dark = Exposure(facing=Facing.NONE, lamp_from=time(21), lamp_until=time(2))
    assert clocks(dark, PLACE, DAYS[1], 2) == "00:00-02:00 21:00-02:00 21:00-00:00"


def test_a_lamp_without_an_end_is_always_on() -> None:
    always = Exposure(facing=Facing.NONE, lamp_from=time(6), lamp_until=time(6))
    assert clocks(always, PLACE, DAYS[1], 2) == "00:00-00:00"


def test_a_lamp_is_known_where_the_town_is_not() -> None:
    nowhere = Site(None, None, "Europe/Paris")
    assert lit_spans(Exposure(facing=Facing.S), nowhere, DAYS[1], 1) == ()
    lamp = Exposure(facing=Facing.S, lamp_from=time(8), lamp_until=time(20))
    assert clocks(lamp, nowhere, DAYS[1]) == "08:00-20:00"


def test_the_midnight_sun_goes_round_every_window() -> None:
    tromso = Site(69.65, 18.96, "Europe/Oslo")
    assert clocks(Exposure(outdoors=Outdoors.ALL_DAY), tromso, DAYS[1], 3) == "00:00-00:00"
    for facing in EXACT:
        lit = lit_spans(Exposure(facing=Facing(facing), tolerance_deg=0.0), tromso, DAYS[1], 4)
        # half the horizon belongs to a wall, and the sun goes round it once a day
        seconds = sum((span.end - span.start).total_seconds() for span in lit) / 4 / 3600
        assert seconds == pytest.approx(12.0, abs=1.5)


def test_spans_are_in_order_and_apart() -> None:
    for facing in Facing:
        spans = lit_spans(Exposure(facing=facing), TOULOUSE, date(2026, 3, 27), 5)
        assert all(one.end < two.start for one, two in pairwise(spans))
        assert all(span.start < span.end for span in spans)


def test_the_day_a_clock_changes_has_23_hours() -> None:
    always = Exposure(facing=Facing.NONE, lamp_from=time(), lamp_until=time())
    (span,) = lit_spans(always, TOULOUSE, date(2026, 3, 29), 1)
    assert (span.start, span.end) == (
        datetime(2026, 3, 29, tzinfo=ZoneInfo("Europe/Paris")),
        datetime(2026, 3, 30, tzinfo=ZoneInfo("Europe/Paris")),
    )
    assert (span.end - span.start) == timedelta(hours=23)


def test_an_angle_without_meaning_is_refused() -> None:
    with pytest.raises(ValueError, match="deg"):
        Exposure(facing=Facing.W, tolerance_deg=-1.0)
    with pytest.raises(ValueError, match="lamp"):
        Exposure(facing=Facing.W, lamp_from=time(8))
