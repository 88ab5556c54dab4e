"""
The slot rule at its edges, and against an independent sun.

Clock times of the single cases come from a separate implementation that samples the sky every few minutes;
the property at the end asks ephem, minute by minute, with a window test of its own.
"""

import math
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import ephem
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.slot import Habits, Slot, SlotKind, slots
from bot.domain.sun import Site
from bot.domain.window import Exposure, Facing, Outdoors

TOULOUSE = Site(43.6, 1.44, "Europe/Paris")
TROMSO = Site(69.65, 18.96, "Europe/Oslo")
MIDSUMMER = date(2026, 6, 21)

EAST, WEST, NORTH, SOUTH = (Exposure(facing=Facing(name)) for name in "EWNS")
SHADE, OPEN = Exposure(outdoors=Outdoors.SHADE), Exposure(outdoors=Outdoors.ALL_DAY)


def habits(quiet_from: time = time(22), quiet_until: time = time(7), preferred: time = time(20)) -> Habits:
    return Habits(preferred=preferred, quiet_from=quiet_from, quiet_until=quiet_until)


def at_noon(day: date, site: Site) -> datetime:
    return datetime.combine(day, time(12), ZoneInfo(site.zone))


def clock(at: datetime | None, site: Site) -> str:
    return "-" if at is None else f"{at.astimezone(ZoneInfo(site.zone)):%d %H:%M}"


def plan(
    *exposures: Exposure,
    day: date = MIDSUMMER,
    site: Site = TOULOUSE,
    when: Habits | None = None,
    now: datetime | None = None,
) -> list[tuple[str, str]]:
    found = slots(day, exposures, site, when or habits(), now or at_noon(day, site))
    return [(slot.kind.name, clock(slot.start_at, site)) for slot in found]


def only(
    exposure: Exposure, *, day: date = MIDSUMMER, site: Site = TOULOUSE, when: Habits | None = None
) -> Slot:
    (slot,) = slots(day, [exposure], site, when or habits(), at_noon(day, site))
    return slot


def test_an_east_window_gets_the_preferred_time() -> None:
    slot = only(EAST)
    assert (slot.kind, clock(slot.start_at, TOULOUSE)) == (SlotKind.EVENING, "21 20:00")
    assert clock(slot.sun_back_at, TOULOUSE) == "22 06:13"


@pytest.mark.parametrize(
    ("quiet_from", "expected"),
    [
        # sunset 21:39; a quarter of an hour later, on the 5-minute grid: 21:55 to 22:25
        (time(23), ("EVENING", "21 21:55")),
        (time(0, 30), ("EVENING", "21 21:55")),
        (time(22), ("MORNING", "22 07:00")),
        (time(21), ("MORNING", "22 07:00")),
    ],
)
def test_a_west_window_waits_for_sunset_or_for_the_morning(
    quiet_from: time, expected: tuple[str, str]
) -> None:
    slot = only(WEST, when=habits(quiet_from))
    assert (slot.kind.name, clock(slot.start_at, TOULOUSE)) == expected
    assert clock(slot.sun_back_at, TOULOUSE) == "22 13:21"


def test_windows_are_split_when_no_start_serves_all() -> None:
    found = slots(
        MIDSUMMER, [EAST, WEST, NORTH, SHADE], TOULOUSE, habits(time(21)), at_noon(MIDSUMMER, TOULOUSE)
    )
    assert [(slot.kind.name, clock(slot.start_at, TOULOUSE), slot.exposures) for slot in found] == [
        ("EVENING", "21 20:00", (EAST, SHADE)),
        ("MORNING", "22 07:00", (WEST,)),
        ("MORNING", "22 11:50", (NORTH,)),
    ]
    assert clock(found[2].sun_back_at, TOULOUSE) == "22 16:20"


def test_one_start_serves_windows_whose_sun_goes_at_different_times() -> None:
    assert plan(EAST, WEST, EAST, when=habits(time(23))) == [("EVENING", "21 21:55")]


def test_who_has_sun_last_waits_when_free_times_do_not_meet() -> None:
    # one is free from 20:15 on, the other only with 3.5 h to go before 22:00, until 18:25
    early = Exposure(facing=Facing.NONE, lamp_from=time(8), lamp_until=time(20))
    late = Exposure(facing=Facing.NONE, lamp_from=time(22), lamp_until=time(2))
    assert plan(late) == [("EVENING", "21 18:25")]
    assert plan(early, late) == [("EVENING", "21 20:15"), ("MORNING", "22 07:00")]


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        (date(2026, 3, 29), "29 20:35"),  # clocks go forward, sunset 20:17 by the new time
        (date(2026, 10, 25), "25 20:00"),  # clocks go back, sunset 17:55
    ],
)
def test_the_days_of_a_clock_change(day: date, expected: str) -> None:
    assert plan(WEST, day=day) == [("EVENING", expected)]


@pytest.mark.parametrize(
    ("exposure", "expected"),
    [
        (EAST, ("EVENING", "21 19:35")),
        (SOUTH, ("EVENING", "21 20:05")),
        (WEST, ("MORNING", "22 07:00")),
        (NORTH, ("MORNING", "22 09:15")),
        (OPEN, ("MOVE", "21 20:00")),
    ],
)
def test_the_midnight_sun_leaves_gaps_by_window(exposure: Exposure, expected: tuple[str, str]) -> None:
    assert plan(exposure, site=TROMSO) == [expected]


def test_the_midnight_sun_never_goes_from_an_open_bed() -> None:
    slot = only(OPEN, site=TROMSO)
    assert slot.kind is SlotKind.MOVE
    assert slot.sun_back_at is not None
    assert slot.sun_back_at < slot.start_at


def test_the_polar_night_leaves_any_time() -> None:
    slot = only(OPEN, day=date(2026, 12, 21), site=TROMSO)
    assert (slot.kind, clock(slot.start_at, TROMSO)) == (SlotKind.EVENING, "21 20:00")
    assert slot.sun_back_at is None


@pytest.mark.parametrize(
    ("site", "day", "expected"),
    [
        # sunset 00:04 of the next day
        (Site(64.15, -21.94, "Atlantic/Reykjavik"), date(2026, 6, 17), ("MORNING", "18 07:00")),
        # Beijing time, 3 h ahead of the sun: sunset 22:26
        (Site(39.47, 75.99, "Asia/Shanghai"), MIDSUMMER, ("MORNING", "22 07:00")),
    ],
)
def test_late_suns_send_a_west_window_to_the_morning(
    site: Site, day: date, expected: tuple[str, str]
) -> None:
    assert plan(WEST, site=site, day=day) == [expected]


def test_the_sunny_north_window_of_the_south_is_free_after_sunset() -> None:
    assert plan(NORTH, site=Site(-36.85, 174.76, "Pacific/Auckland")) == [("EVENING", "21 20:00")]


def test_an_open_balcony_is_moved_out_of_the_sun_when_quiet_comes_before_sunset() -> None:
    slot = only(OPEN, when=habits(time(21)))
    assert (slot.kind, clock(slot.start_at, TOULOUSE)) == (SlotKind.MOVE, "21 20:00")


def test_a_move_keeps_to_the_evening_of_the_household() -> None:
    assert plan(OPEN, when=habits(time(21), preferred=time(22))) == [("MOVE", "21 20:30")]


def test_too_late_for_today() -> None:
    now = datetime(2026, 6, 21, 21, 50, tzinfo=ZoneInfo("Europe/Paris"))
    assert plan(EAST, now=now) == [("LATE", "22 20:00")]


def test_nothing_starts_before_now() -> None:
    now = datetime(2026, 6, 21, 20, 41, tzinfo=ZoneInfo("Europe/Paris"))
    assert plan(EAST, now=now) == [("EVENING", "21 20:45")]


def test_a_lamp_counts_as_sun() -> None:
    lamp = Exposure(facing=Facing.NONE, lamp_from=time(8), lamp_until=time(21))
    slot = only(lamp, when=habits(time(23)))
    assert (slot.kind.name, clock(slot.start_at, TOULOUSE)) == (
        "EVENING",
        "21 21:15",
    )  # off at 21:00, and a quarter
    assert clock(slot.sun_back_at, TOULOUSE) == "22 08:00"


def test_a_lamp_that_is_never_off_means_moving() -> None:
    always = Exposure(facing=Facing.NONE, lamp_from=time(), lamp_until=time())
    assert plan(always) == [("MOVE", "21 20:00")]


def test_without_a_town_the_evening_stands_unchecked() -> None:
    nowhere = Site(None, None, "Europe/Paris")
    slot = only(OPEN, site=nowhere)
    assert (slot.kind, clock(slot.start_at, nowhere)) == (SlotKind.EVENING, "21 20:00")
    assert slot.sun_back_at is None


def test_without_a_town_no_morning_is_promised_to_a_window() -> None:
    nowhere = Site(None, None, "Europe/Paris")
    asleep = habits(time(16))  # no evening is left before it is quiet
    assert plan(EAST, SHADE, site=nowhere, when=asleep) == [("MORNING", "22 07:00"), ("MOVE", "22 07:00")]


def test_who_sleeps_from_ten_to_two_is_not_asked_at_two() -> None:
    assert plan(WEST, when=habits(time(22), time(2))) == [("MORNING", "22 05:00")]


def test_who_sleeps_through_the_afternoon_is_asked_after() -> None:
    assert plan(EAST, when=habits(time(14), time(22, 30))) == [("EVENING", "21 22:30")]


def test_quiet_hours_over_the_whole_evening_leave_the_morning() -> None:
    assert plan(EAST, when=habits(time(15), time(5))) == [("MOVE", "22 05:00")]
    assert plan(WEST, when=habits(time(15), time(5))) == [("MORNING", "22 05:00")]


def test_no_quiet_hours_at_all() -> None:
    assert plan(EAST, when=habits(time(), time())) == [("EVENING", "21 20:00")]


def test_a_preferred_time_after_midnight_belongs_to_the_evening_before() -> None:
    assert plan(EAST, when=habits(time(1), time(8), preferred=time(0, 15))) == [("EVENING", "22 00:15")]


def test_no_hour_left_by_day_or_night() -> None:
    # awake for a quarter of an hour: a round of half an hour fits nowhere
    assert plan(EAST, when=habits(time(12, 15), time(12))) == [("LATE", "22 20:00")]


def test_nobody_due_needs_no_slot() -> None:
    assert plan() == []


def test_a_naive_now_is_refused() -> None:
    with pytest.raises(ValueError, match="aware"):
        plan(EAST, now=datetime(2026, 6, 21, 12))  # noqa: DTZ001 - the refusal is the point


# The property: zones with early and late suns, with clock changes at midnight, at both ends of the globe.
SITES = (
    TOULOUSE,
    TROMSO,
    Site(64.15, -21.94, "Atlantic/Reykjavik"),
    Site(43.6, -116.2, "America/Boise"),
    Site(43.66, -70.26, "America/New_York"),
    Site(-33.45, -70.67, "America/Santiago"),
    Site(33.89, 35.5, "Asia/Beirut"),
    Site(30.04, 31.24, "Africa/Cairo"),
    Site(39.47, 75.99, "Asia/Shanghai"),
    Site(1.35, 103.82, "Asia/Singapore"),
    Site(-36.85, 174.76, "Pacific/Auckland"),
    Site(-31.55, 159.08, "Australia/Lord_Howe"),
    Site(37.74, -25.67, "Atlantic/Azores"),
    Site(1.87, -157.4, "Pacific/Kiritimati"),
)
CHANGES_2026 = (
    *(date(2026, 3, day) for day in (8, 28, 29)),
    *(date(2026, 4, day) for day in (4, 5, 24)),
    *(date(2026, 9, day) for day in (6, 27)),
    *(date(2026, 10, day) for day in (4, 24, 25, 29)),
    date(2026, 11, 1),
)
dates = st.one_of(st.sampled_from(CHANGES_2026), st.dates(date(2026, 1, 1), date(2027, 12, 31)))
hours = st.integers(0, 23).map(time)
exposure_drawn = st.one_of(
    st.builds(
        Exposure,
        facing=st.sampled_from(Facing),
        tolerance_deg=st.sampled_from([0.0, 22.5]),
    ),
    st.builds(Exposure, outdoors=st.sampled_from(Outdoors)),
    # lamps switch away from the hours that clock changes repeat
    st.builds(
        Exposure,
        facing=st.sampled_from(Facing),
        lamp_from=st.just(time(6)),
        lamp_until=st.sampled_from([time(14), time(18), time(21)]),
    ),
)
habits_drawn = st.builds(
    Habits, preferred=hours, quiet_from=hours, quiet_until=hours, dry_minutes=st.sampled_from([60, 180])
)


BEARINGS: dict[Facing | Outdoors, float] = {
    Facing.N: 0.0,
    Facing.NE: 45.0,
    Facing.E: 90.0,
    Facing.SE: 135.0,
    Facing.S: 180.0,
    Facing.SW: 225.0,
    Facing.W: 270.0,
    Facing.NW: 315.0,
    Outdoors.MORNING: 90.0,
    Outdoors.AFTERNOON: 270.0,
}


def has_lamp(exposure: Exposure, at: datetime, zone: ZoneInfo) -> bool:
    if exposure.lamp_from is None or exposure.lamp_until is None:
        return False
    return exposure.lamp_from <= at.astimezone(zone).time() < exposure.lamp_until


def has_sun(exposure: Exposure, site: Site, at: datetime) -> bool:
    view = exposure.outdoors or exposure.facing or Facing.UNKNOWN
    if view in (Facing.NONE, Outdoors.SHADE):
        return False
    place = ephem.Observer()
    place.lat, place.lon, place.pressure = str(site.latitude), str(site.longitude), 0
    place.date = at.replace(tzinfo=None)
    sun = ephem.Sun(place)
    altitude, azimuth = math.degrees(sun.alt), math.degrees(sun.az)
    # Meeus 16.4 (Saemundsson) starts from the true altitude, the code under test from the apparent one
    lift = 1.02 / math.tan(math.radians(altitude + 10.3 / (altitude + 5.11))) / 60 if altitude > -1 else 0.0
    shows = altitude > -0.8333 and altitude + lift + 0.2667 > 0
    if view not in BEARINGS:
        return shows
    return shows and abs((azimuth - BEARINGS[view] + 180) % 360 - 180) < 90 + exposure.tolerance_deg


def wet_minutes(slot: Slot, when: Habits) -> Iterator[datetime]:
    for minute in range(when.length_minutes + when.dry_minutes + 1):
        yield slot.start_at + timedelta(minutes=minute)


def is_quiet(when: Habits, at: datetime, zone: ZoneInfo) -> bool:
    # by instants: a wall clock shows twice what falls into a repeated hour
    today = at.astimezone(zone).date()
    for on in (today - timedelta(days=1), today):
        until = on + timedelta(days=when.quiet_until < when.quiet_from)
        start, end = (
            datetime.combine(day, wall, zone).astimezone(UTC)
            for day, wall in ((on, when.quiet_from), (until, when.quiet_until))
        )
        if start <= at < end:
            return True
    return False


@settings(max_examples=60, deadline=None)
@given(
    day=dates,
    exposures=st.lists(exposure_drawn, min_size=1, max_size=4),
    site=st.sampled_from(SITES),
    when=habits_drawn,
)
def test_no_sun_while_wet_and_no_quiet_hour_broken(
    day: date, exposures: list[Exposure], site: Site, when: Habits
) -> None:
    zone, now = ZoneInfo(site.zone), at_noon(day, site)
    found = slots(day, exposures, site, when, now)
    assert sorted(map(repr, (e for slot in found for e in slot.exposures))) == sorted(
        map(repr, set(exposures))
    )
    for slot in found:
        assert slot.start_at >= now
        if slot.kind is not SlotKind.LATE:
            busy = range(when.length_minutes)
            assert not any(is_quiet(when, slot.start_at + timedelta(minutes=n), zone) for n in busy)
        if slot.kind in (SlotKind.EVENING, SlotKind.MORNING):
            wet = list(wet_minutes(slot, when))
            for exposure in slot.exposures:
                assert not any(has_sun(exposure, site, at) or has_lamp(exposure, at, zone) for at in wet)
