"""A home told of in people's own words: town, plants, places, windows, finds and the shelf, in any order."""

from dataclasses import replace

import pytest

from bot.actions.situation import Expecting
from bot.phrases.homes import Home, read_home
from tests.phrases.situation import EVENING

NEW = replace(
    EVENING,
    plants=(),
    places=(),
    shelf=(),
    tonight=(),
    expecting=Expecting.TOWN,
    lacks_town=True,
)


def told(text: str) -> Home:
    return read_home(text, NEW)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "Hi so I'm in Bristol and I've got a jade and a hoya in the bedroom, window faces south, and a peace lily in the bathroom which is north, and the hoya has got mealybugs, about 15 of them, and I've got a bottle of insecticidal soap ready to use",
            "Bristol; bedroom (s): jade, hoya; bathroom (n): peace lily; 15 mealybugs on hoya; got insecticidal soap, ready to use",
        ),
        (
            "okay so we live in leeds and there's a fern and a spider plant in the bathroom and a monstera in the front room and the monstera has thrips all over it maybe fifty of them",
            "leeds; bathroom: fern, spider plant; front room: monstera; 50 thrips on monstera",
        ),
        (
            "Kassel. Im Wohnzimmer (window to the east) stand a calathea and a palm, in the Wintergarten a lemon tree",
            "Kassel; Wohnzimmer (e): calathea, palm; Wintergarten: lemon tree",
        ),
        (
            "mealybugs on my orchid!! about 20. it lives in the hall, with the two ferns",
            "hall: orchid, fern 1, fern 2; 20 mealybugs on orchid",
        ),
    ],
)
def test_a_home_told_in_one_breath(text: str, said: str) -> None:
    home = told(text)
    assert home.in_words() == said
    assert home.unread == ()
    assert home.is_known


@pytest.mark.parametrize(
    ("text", "name", "way"),
    [
        ("living room west", "living room", "w"),
        ("the stairwell window looks north", "stairwell", "n"),
        ("bathroom: no window", "bathroom", "no window"),
        ("our balcony is outdoors with morning sun", "balcony", "morning"),
        ("south-east facing studio", "studio", "SE"),
    ],
)
def test_which_way_a_place_looks(text: str, name: str, way: str) -> None:
    assert told(text).in_words() == f"{name} ({way.lower()})"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("hi my hoya is full of mealybugs, about 12", "12 mealybugs on hoya"),
        ("there are 30 aphids on the basil in the kitchen", "30 aphids on basil"),
        ("ivy's got spider mites, just a few", "few spider mites on ivy"),
    ],
)
def test_a_number_told_beats_a_manner_of_speaking(text: str, line: str) -> None:
    assert told(text).lines == (line,)


@pytest.mark.parametrize(
    "text",
    [
        "coffee ivy hoya bay chilli. that's five",
        "only the calathea po",
        "I wish I had a hoya",
        "no mealybugs on the hoya",
    ],
)
def test_a_word_that_was_not_read_is_told(text: str) -> None:
    home = told(text)
    assert home.unread or not home.is_known


def test_a_paste_of_sixty_with_headings_numbers_and_pots() -> None:
    home = told(
        "Rack 1 (grow light):\nAV 1-20\n20 african violets\nKitchen:\nphal 1..18\nhoya kerrii 4 in\n- jade, 12 cm"
    )
    places = [one.place for one in home.plants]
    assert (places.count("Rack 1"), places.count("Kitchen")) == (40, 20)
    assert [one.pot_cm for one in home.plants[-2:]] == [10.2, 12.0]  # 4 in are 10.16 cm


@pytest.mark.parametrize("text", ["jade", "hoya and ivy", "lemon, bay"])
def test_a_plant_is_no_town_of_that_name(text: str) -> None:
    assert told(text).town == ""


@pytest.mark.parametrize(
    ("text", "town"),
    [("ok Utrecht", "Utrecht"), ("hi bristol here", "bristol"), ("It's Kassel, Germany.", "Kassel, Germany")],
)
def test_a_town_is_found_among_other_words(text: str, town: str) -> None:
    assert told(text).town == town
