"""
Tables of the U.S. Naval Observatory, Astronomical Applications Department.

The files are those the ephem wheel carries in ephem/tests/usno (MIT licence); single days as noted.
"""

import re
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from importlib.resources import files

import pytest

from bot.domain.sun import Site, noon
from tests.domain.rising import equatorial, sunrise, sunset

ATLANTA = Site(33 + 46 / 60, -(84 + 25 / 60), "Etc/GMT+5")  # head of riset_sun.txt: W084 25, N33 46, EST
BOULDER = Site(39.0, -105.0, "Etc/GMT+7")
ROUNDING_SECONDS = 35  # half a minute of print, and the 5 s of a low-accuracy position


def usno(name: str) -> list[str]:
    return (files("ephem.tests") / "usno" / name).read_text().splitlines()


def seconds_apart(found: datetime | None, on: date, clock: str, behind_utc: int) -> float:
    assert found is not None
    printed = datetime.combine(on, time(int(clock[:2]), int(clock[2:])), UTC) + timedelta(hours=behind_utc)
    return abs((found - printed).total_seconds())


def atlanta_table() -> Iterator[tuple[date, str, str]]:
    for line in usno("riset_sun.txt"):
        if not re.match(r"\d\d  ", line):
            continue
        for month in range(1, 13):
            cell = line[4 + 11 * (month - 1) : 4 + 11 * month].split()
            if cell:
                yield date(2007, month, int(line[:2])), cell[0], cell[1]


def test_every_rise_and_set_of_atlanta_in_2007() -> None:
    rows = list(atlanta_table())
    assert len(rows) == 365
    worst = max(
        max(
            seconds_apart(sunrise(ATLANTA, on), on, rise, 5),
            seconds_apart(sunset(ATLANTA, on), on, set_, 5),
        )
        for on, rise, set_ in rows
    )
    assert worst < ROUNDING_SECONDS


@pytest.mark.parametrize(
    ("on", "rise", "set_"),
    [
        # USNO, 39 N 105 W, mountain standard time, as pvlib-python quotes it in tests/test_spa.py
        (date(2015, 1, 2), "0719", "1649"),
        (date(2015, 4, 2), "0543", "1824"),
        (date(2015, 8, 2), "0501", "1910"),
        (date(2015, 12, 2), "0701", "1638"),
    ],
)
def test_rise_and_set_in_the_four_seasons_at_39_north(on: date, rise: str, set_: str) -> None:
    assert seconds_apart(sunrise(BOULDER, on), on, rise, 7) < ROUNDING_SECONDS
    assert seconds_apart(sunset(BOULDER, on), on, set_, 7) < ROUNDING_SECONDS


def test_rise_noon_and_set_in_daylight_time() -> None:
    # USNO for Atlanta, 2009 September 6, as ephem/doc/rise-set.rst quotes it: 7:15, 13:36, 19:56 EDT
    site, on = Site(ATLANTA.latitude, ATLANTA.longitude, "America/New_York"), date(2009, 9, 6)
    assert seconds_apart(sunrise(site, on), on, "0715", 4) < ROUNDING_SECONDS
    assert seconds_apart(noon(site, on), on, "1336", 4) < ROUNDING_SECONDS
    assert seconds_apart(sunset(site, on), on, "1956", 4) < ROUNDING_SECONDS


def test_apparent_right_ascension_and_declination() -> None:
    pattern = re.compile(
        r"(?P<on>2007 \w{3} \d\d) 00:00:00.0 +(?P<h>\d+) (?P<m>\d+) (?P<s>[\d.]+) +(?P<sign>[-+]) +"
        r"(?P<d>\d+) (?P<min>\d+) (?P<sec>[\d.]+)"
    )
    rows = [found for line in usno("appgeo_sun.txt") if (found := pattern.match(line))]
    assert len(rows) == 12
    for row in rows:
        at = datetime.strptime(row["on"], "%Y %b %d").replace(tzinfo=UTC)
        right_ascension, declination = equatorial(at)
        printed = 15 * (int(row["h"]) + int(row["m"]) / 60 + float(row["s"]) / 3600)
        size = int(row["d"]) + int(row["min"]) / 60 + float(row["sec"]) / 3600
        # 0.01 deg is the accuracy Meeus ch. 25 gives
        assert right_ascension == pytest.approx(printed, abs=0.01)
        assert declination == pytest.approx(-size if row["sign"] == "-" else size, abs=0.01)
