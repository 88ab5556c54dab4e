"""Is it working: words and a picture."""

import struct

import pytest

from tests.journeys.talking import Talk

PNG = b"\x89PNG\r\n\x1a\n"
MOST_BYTES = 200_000


@pytest.fixture
def falling(talk: Talk) -> Talk:
    talk.say("hoya 20 longtailed mealybugs")
    talk.say("sprayed the hoya")
    for number in (24, 11, 9, 10, 2):
        talk.passes(days=7)
        talk.say(f"hoya {number}")
        talk.say("sprayed the hoya")
    return talk


def test_a_fall_is_called_with_its_size_and_how_sure_it_is(falling: Talk) -> None:
    # 20 24 11 9 10 2 a week apart: factor .7254 a week by R's glm, called falling.
    assert falling.say("is the hoya getting better")[0].startswith(
        "hoya, longtailed mealybug: falling, about 27 % fewer each week (in 4 of 5 such records 36 % fewer to 18 % fewer)."
    )


def test_the_picture_is_a_small_png_of_phone_size(falling: Talk) -> None:
    falling.say("chart hoya")
    picture = falling.shown[1][-1].picture
    assert picture is not None
    assert picture.content.startswith(PNG)
    width, height = struct.unpack(">II", picture.content[16:24])
    assert 600 <= width <= 1200
    assert height <= width
    assert len(picture.content) < MOST_BYTES


def test_few_counts_are_too_early_and_one_has_no_picture(talk: Talk) -> None:
    talk.say("hoya 20 longtailed mealybugs")
    assert talk.say("trend hoya") == [
        "hoya, longtailed mealybug: too early to tell from 1 count; it takes 4. Tell me at each look how many you see."
    ]
    assert talk.shown[1][-1].picture is None


def test_counts_that_do_not_fall_point_to_where_they_hide(talk: Talk) -> None:
    talk.say("hoya 5 longtailed mealybugs")
    talk.say("sprayed the hoya")
    for number in (4, 6, 5, 5, 6):
        talk.passes(days=7)
        talk.say(f"hoya {number}")
    answer = talk.say("trend")[0]
    assert "cannot tell yet from 6 counts" in answer
    assert "Before you change the product, look where they hide" in answer


def test_without_a_case_there_is_nothing_to_follow(talk: Talk) -> None:
    assert talk.say("trend") == ["No case is open, so there is nothing to follow."]
    assert talk.say("trend ivy") == ["ivy has no open case to follow."]
