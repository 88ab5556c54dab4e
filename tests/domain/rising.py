"""What almanacs print of the sun, by the bot's own formulas: its place on the sky, when it rises and sets."""

import math
from collections.abc import Iterable
from datetime import date, datetime, time, timedelta

from bot.domain.sun import HORIZON, Site, _cycle_of, _sun, crossing, instant, local


def equatorial(at: datetime) -> tuple[float, float]:
    """Give the sun's apparent right ascension, 0 to 360, and declination. [deg]."""
    sun = _sun(at.timestamp())
    return math.degrees(sun.right_ascension) % 360.0, math.degrees(sun.declination)


def sunrise(site: Site, day: date) -> datetime | None:
    """Give when the upper limb appears on this local date; of two the one before that date's noon."""
    cycle = _cycle_of(site, day)
    arcs = (crossing(site, cycle, HORIZON), crossing(site, cycle + 1, HORIZON))
    return _first_within((arc.start for arc in arcs if arc is not None and arc.opens), site, day)


def sunset(site: Site, day: date) -> datetime | None:
    """Give when the upper limb disappears on this local date; of two the one after that date's noon."""
    cycle = _cycle_of(site, day)
    arcs = (crossing(site, cycle, HORIZON), crossing(site, cycle - 1, HORIZON))
    return _first_within((arc.end for arc in arcs if arc is not None and arc.closes), site, day)


def _first_within(moments: Iterable[float], site: Site, day: date) -> datetime | None:
    start, end = local(site, day, time()), local(site, day + timedelta(days=1), time())
    return next((at for at in map(instant, moments) if start <= at < end), None)
