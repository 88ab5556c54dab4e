"""Worked examples of Jean Meeus, Astronomical Algorithms, 2nd edition, 1998."""

from datetime import UTC, datetime

import pytest

from tests.domain.rising import equatorial


def test_example_25_a_the_apparent_place_of_the_sun() -> None:
    right_ascension, declination = equatorial(datetime(1992, 10, 13, tzinfo=UTC))  # 1992 October 13.0 TD
    # p. 165, 13h13m31.4s and -7 deg 47' 06"; the decimals 198.38083 and -7.78507 from memory, they agree
    assert right_ascension == pytest.approx((13 + 13 / 60 + 31.4 / 3600) * 15, abs=0.0003)
    assert declination == pytest.approx(-(7 + 47 / 60 + 6 / 3600), abs=0.0002)
    assert right_ascension == pytest.approx(198.38083, abs=0.00001)
    assert declination == pytest.approx(-7.78507, abs=0.00001)
