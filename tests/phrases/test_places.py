"""Sentences about places, as people say them while they look around the room."""

import pytest

from bot.actions.add_plants import AddPlants
from bot.actions.incomplete import Incomplete
from bot.actions.set_place import SetPlace
from bot.domain.window import Facing, Outdoors
from bot.phrases.hearing import understand
from bot.phrases.homes import read_places
from bot.phrases.lexicon import classes_of, phrases_of, words_of_class
from tests.phrases.situation import EVENING

N, E, S, W, SW = Facing.N, Facing.E, Facing.S, Facing.W, Facing.SW
ALL_DAY, MORNING, AFTERNOON = Outdoors.ALL_DAY, Outdoors.MORNING, Outdoors.AFTERNOON


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("living room faces south, big window. bedroom is north", [("living room", S), ("bedroom", N)]),
        ("the loft window looks south and the hall one north", [("loft", S), ("hall", N)]),
        (
            "Loft is south-facing, the hall faces north and the cellar has no window",
            [("Loft", S), ("hall", N), ("cellar", Facing.NONE)],
        ),
        ("sorry, loft is south", [("loft", S)]),
        ("loft: west window", [("loft", W)]),
        ("the loft's window points east", [("loft", E)]),
        ("loft has a small window facing north", [("loft", N)]),
    ],
)
def test_each_place_gets_the_way_its_own_window_looks(text: str, expected: list[tuple[str, Facing]]) -> None:
    told = read_places(text, EVENING)
    assert told is not None
    assert [(one.name, one.facing) for one in told] == expected


@pytest.mark.parametrize(
    ("text", "outdoors", "facing"),
    [
        ("terrace is outside, faces south west, sun from about 1pm", AFTERNOON, SW),
        ("terrace is outdoors, sun until noon", MORNING, None),
        ("terrace is outside", ALL_DAY, None),
        ("the terrace gets morning sun", MORNING, None),
    ],
)
def test_a_place_outdoors_is_told_by_its_sun(text: str, outdoors: Outdoors, facing: Facing | None) -> None:
    assert read_places(text, EVENING) == (SetPlace(name="terrace", outdoors=outdoors, facing=facing),)


@pytest.mark.parametrize(
    "text",
    [
        "is the loft facing south?",
        "the loft faces south and the ivy is sticky",
        "hoya is outside",
        "we are outside",
        "loft is south, 3 on the hoya",
        "everything is outside",
    ],
)
def test_what_is_more_than_places_is_none_of_them(text: str) -> None:
    assert read_places(text, EVENING) is None


def test_a_sentence_about_a_place_founds_no_plant() -> None:
    meant = understand("loft faces south, big window. cellar is north", EVENING)
    assert [type(one) for one in meant] == [SetPlace, SetPlace]


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        ("we bought a begonia today, it's in the kitchen", [("begonia", "kitchen")]),
        ("picked up a fern at the market", [("fern", None)]),
        ("we have two ferns in the study", [("fern 1", "study"), ("fern 2", "study")]),
        ("my sister brought us another begonia", [("begonia", None)]),
        ("white hoya, kitchen", [("white hoya", "kitchen")]),
    ],
)
def test_a_plant_that_came_is_offered_with_its_place(text: str, plants: list[tuple[str, str | None]]) -> None:
    (asked,) = understand(text, EVENING)
    assert isinstance(asked, Incomplete)
    (add,) = asked.choices
    (command,) = add.commands
    assert isinstance(command, AddPlants)
    assert [(one.name, one.place) for one in command.plants] == plants


LIGHT = {" ".join(one) for one in phrases_of("sun", *classes_of("sun"))}
WAYS = words_of_class("compass", *classes_of("compass")) - {"w"}  # which is "with" before anything else


@pytest.mark.parametrize("told", sorted(LIGHT - {"full sun", "all day sun", "sun all day", "no sun"} | WAYS))
def test_whatever_tells_of_light_is_read(told: str) -> None:
    """None of the lexicon's words for light is passed over; all day's sun is read by halves, and no sun is no yard."""
    assert read_places(f"the loft: {told}", EVENING) is not None
