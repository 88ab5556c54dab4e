"""
Fourteen zones over two years, half the dates at clock changes: the evening's hour, and the sun at that hour.

The sun's place is ephem's (XEphem's libastro), another author's code. Zones, their towns and clock changes are from
the tz database; among them are changes at midnight, half-hour changes, polar day and night, and offsets of 45 min.
"""

import math
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import ephem
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.domain.fold import fold
from bot.domain.identity import EntryId, HouseholdId
from bot.domain.journal import (
    Entry,
    Found,
    HouseholdSet,
    Nudged,
    NudgedTask,
    PlaceSet,
    PlantSet,
    ProductSet,
    evening_of,
)
from bot.domain.label import Label
from bot.domain.nudging import next_nudge_at
from bot.domain.slot import Habits, SlotKind, slots
from bot.domain.sun import Site
from bot.domain.trade import Grade, Method
from bot.domain.window import Exposure, Facing, Outdoors
from tests.domain.telling import HOYA, KNOWLEDGE, LANDING, SOAP, Telling

SITES = (
    Site(51.1, 3.7, "Europe/Brussels"),
    Site(40.7, -74.0, "America/New_York"),
    Site(47.6, -52.7, "America/St_Johns"),
    Site(-31.5, 159.1, "Australia/Lord_Howe"),
    Site(33.6, -7.6, "Africa/Casablanca"),
    Site(27.7, 85.3, "Asia/Kathmandu"),
    Site(-13.8, -171.8, "Pacific/Apia"),
    Site(-43.9, -176.5, "Pacific/Chatham"),
    Site(-25.3, -57.6, "America/Asuncion"),
    Site(33.9, 35.5, "Asia/Beirut"),
    Site(37.7, -25.7, "Atlantic/Azores"),
    Site(78.2, 15.6, "Arctic/Longyearbyen"),
    Site(-53.2, -70.9, "America/Punta_Arenas"),
    Site(22.6, 88.4, "Asia/Kolkata"),
)
FIRST, DAYS = date(2026, 1, 1), 730
SEEN_DEG = 0.6
"""Our formulas and ephem's differ by less; the disc is half a degree wide. [deg]"""
BEARINGS = {
    Facing.N: 0,
    Facing.NE: 45,
    Facing.E: 90,
    Facing.SE: 135,
    Facing.S: 180,
    Facing.SW: 225,
    Facing.W: 270,
    Facing.NW: 315,
}


def changes(site: Site) -> list[date]:
    """Give the days of two years on which the clocks of a zone change."""
    zone = ZoneInfo(site.zone)

    def offset(on: date) -> timedelta | None:
        return datetime.combine(on, time(12), zone).utcoffset()

    days = [FIRST + timedelta(days=number) for number in range(DAYS)]
    return [on for on in days if offset(on) != offset(on - timedelta(days=1))]


CHANGES = {site: changes(site) for site in SITES}


@st.composite
def days_at(draw: st.DrawFn) -> tuple[Site, date]:
    """Draw a site and a day, every other time one at a change of its clocks."""
    site = draw(st.sampled_from(SITES))
    near = CHANGES[site]
    is_near: bool = draw(st.booleans())
    if near and is_near:
        chosen: date = draw(st.sampled_from(near))
        return site, chosen + timedelta(days=draw(st.integers(-1, 1)))
    return site, FIRST + timedelta(days=draw(st.integers(0, DAYS - 1)))


def shines_at(site: Site, facing: Facing, at: datetime) -> bool:
    """Whether ephem's sun falls on a window that looks this way, beyond any doubt of the last half degree."""
    assert site.latitude is not None
    assert site.longitude is not None
    place = ephem.Observer()
    place.lat, place.lon = str(site.latitude), str(site.longitude)
    place.pressure, place.elevation, place.date = 0, 0, at.astimezone(UTC).replace(tzinfo=None)
    sun = ephem.Sun(place)
    apart = abs((math.degrees(sun.az) - BEARINGS[facing] + 180) % 360 - 180)
    return math.degrees(sun.alt) > SEEN_DEG and apart < 90 - SEEN_DEG


@settings(max_examples=250, deadline=None)
@given(
    days_at(),
    st.lists(
        st.sampled_from(sorted(BEARINGS, key=lambda one: one.value)), min_size=1, max_size=4, unique=True
    ),
    st.times(time(17), time(21, 30)),
)
def test_no_sun_meets_what_was_sprayed_at_the_hour_given(
    where: tuple[Site, date], facings: list[Facing], evening: time
) -> None:
    site, on = where
    habits = Habits(preferred=evening, quiet_from=time(22), quiet_until=time(8))
    exposures = [
        Exposure(facing=facing, outdoors=None, lamp_from=None, lamp_until=None) for facing in facings
    ]
    zone = ZoneInfo(site.zone)
    now = datetime.combine(on, time(12), zone).astimezone(UTC)
    found = slots(on, exposures, site, habits, now)
    assert {one for slot in found for one in slot.exposures} == set(exposures)
    for slot in found:
        if slot.kind not in {SlotKind.EVENING, SlotKind.MORNING}:
            continue
        dry_at = slot.start_at + timedelta(minutes=habits.length_minutes + habits.dry_minutes)
        moments = [slot.start_at + timedelta(minutes=10 * step) for step in range(100)]
        for moment in [one for one in moments if one <= dry_at]:
            for exposure in slot.exposures:
                assert exposure.facing is not None
                assert not shines_at(site, exposure.facing, moment), (site, on, exposure.facing, moment)


def home(site: Site, evening: time, quiet: tuple[time, time], outdoors: Outdoors | None) -> Telling:
    """Tell of a home with one plant due for soap."""
    telling = Telling()
    telling.tell(
        HouseholdSet(
            town="x",
            latitude=site.latitude,
            longitude=site.longitude,
            zone=site.zone,
            evening=evening,
            quiet_from=quiet[0],
            quiet_until=quiet[1],
        ),
        -200,
    )
    facing = None if outdoors else Facing.W
    telling.tell(PlaceSet(place=LANDING, name="landing", facing=facing, outdoors=outdoors), -200)
    telling.tell(PlantSet(name="hoya", place=LANDING), -200, plant=HOYA)
    telling.tell(ProductSet(product=SOAP, ingredient="soap", label=Label(gap_days=7)), -200)
    return telling


@settings(max_examples=60, deadline=None)
@given(
    days_at(),
    st.times(time(17), time(21, 59)),
    st.sampled_from([(time(22), time(8)), (time(23), time(6)), (time(0), time(7)), (time(22, 30), time(22))]),
    st.sampled_from([None, Outdoors.ALL_DAY, Outdoors.AFTERNOON]),
)
def test_one_nudge_an_evening_and_none_in_quiet_hours(
    where: tuple[Site, date], evening: time, quiet: tuple[time, time], outdoors: Outdoors | None
) -> None:
    site, on = where
    zone = ZoneInfo(site.zone)
    telling = home(site, evening, quiet, outdoors)
    start = datetime.combine(on - timedelta(days=1), time(9), zone).astimezone(UTC)
    day = (start.astimezone(zone).date() - date(2026, 5, 2)).days
    telling.tell(Found(pest="citrus_mealybug", grade=Grade.SOME, count=9), day, plant=HOYA)
    sent: list[datetime] = []
    now = start
    for _ in range(9):
        at = next_nudge_at(fold(telling.entries), KNOWLEDGE, now)
        if at is None or at > start + timedelta(days=4):
            break
        assert at >= now
        household = fold(telling.entries)
        assert not household.is_quiet(at), (site, at)
        evening_on = evening_of(at, zone)
        count = sum(evening_of(one, zone) == evening_on for one in sent) + 1
        sent.append(at)
        task = NudgedTask(plant=HOYA, method=Method.SPRAY, product=SOAP)
        telling.entries.append(
            Entry(
                id=EntryId(len(telling.entries) + 1),
                household=HouseholdId(1),
                member=None,
                plant=None,
                happened_at=at,
                happened_on=evening_on,
                recorded_at=at,
                source="evening",
                payload=Nudged(count=count, tasks=(task,)),
                void_of=None,
            )
        )
        now = at + timedelta(minutes=1)
    evenings = [evening_of(at, zone) for at in sent]
    assert max((evenings.count(one) for one in evenings), default=0) <= 2  # the nudge and its one repeat
    assert evenings == sorted(evenings)
    for first, second in pairwise(sent):
        assert second - first >= timedelta(minutes=60)
