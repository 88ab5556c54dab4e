"""A home told as people tell it: what is denied or not theirs is not written, what stands together is."""

from datetime import time

import pytest

from bot.domain.journal import CheckedClean
from tests.journeys.talking import Talk

Held = dict[str, set[str]]


def held(talk: Talk) -> Held:
    """Give what is written: the plants of each place, by its name and the way it looks."""
    home = talk.home
    found: Held = {}
    names = {}
    for place in home.places.values():
        way = "" if place.facing is None else f" {place.facing.value.lower()}"
        names[place.id] = f"{place.name.casefold()}{way}"
        found[names[place.id]] = set()
    for plant in home.plants.values():
        at = "" if plant.place is None else names[plant.place]
        found.setdefault(at, set()).add(plant.name.casefold())
    return found


def told(talk: Talk, *texts: str) -> Held:
    for text in ("/start", "Ghent", *texts):
        talk.say(text)
    return held(talk)


@pytest.mark.parametrize(
    ("texts", "home"),
    [
        (("the attic faces west, not north",), {"attic w": set[str]()}),
        (("landing looks north rather than east",), {"landing n": set[str]()}),
        (("fern in the loft", "loft isn't east"), {"loft": {"fern"}}),
        (("fern in the loft", "not south"), {"loft": {"fern"}}),
        (("fern in the loft", "it does not face west"), {"loft": {"fern"}}),
    ],
)
def test_a_way_that_is_denied_is_not_written(stranger_talk: Talk, texts: tuple[str, ...], home: Held) -> None:
    assert told(stranger_talk, *texts) == home


@pytest.mark.parametrize(
    ("text", "home"),
    [
        (
            "Attic dracaena and yucca - west - Landing begonia - north - Box room calathea and ivy - no window",
            {
                "attic w": {"dracaena", "yucca"},
                "landing n": {"begonia"},
                "box room none": {"calathea", "ivy"},
            },
        ),
        ("so, office east bathroom north", {"office e": set[str](), "bathroom n": set[str]()}),
        ("bedroom west landing no window", {"bedroom w": set[str](), "landing none": set[str]()}),
        (
            "attic north bathroom east porch south",
            {"attic n": set[str](), "bathroom e": set[str](), "porch s": set[str]()},
        ),
    ],
)
def test_each_way_is_of_the_room_it_stands_beside(stranger_talk: Talk, text: str, home: Held) -> None:
    assert told(stranger_talk, text) == home


@pytest.mark.parametrize(
    ("text", "home"),
    [
        (
            "And the attic? That's south. Yucca and begonia in there.",
            {"porch": {"fern"}, "attic s": {"yucca", "begonia"}},
        ),
        ("What about the box room? It has a yucca.", {"porch": {"fern"}, "box room": {"yucca"}}),
        ("The landing? North, with a yucca.", {"porch": {"fern"}, "landing n": {"yucca"}}),
    ],
)
def test_a_room_one_asks_oneself_about_heads_what_is_told_of_it(
    stranger_talk: Talk, text: str, home: Held
) -> None:
    assert told(stranger_talk, "fern on the porch", text) == home


@pytest.mark.parametrize(
    ("text", "home"),
    [
        ("yucca begonia calathea bathroom", {"bathroom": {"yucca", "begonia", "calathea"}}),
        ("yucca begonia ivy in the attic", {"attic": {"yucca", "begonia", "ivy"}}),
        ("aloe cactus in the attic", {"attic": {"aloe cactus"}}),
        ("english ivy and jade tree in the attic", {"attic": {"english ivy", "jade tree"}}),
        ("yucca comma begonia and ivy in the attic full stop", {"attic": {"yucca", "begonia", "ivy"}}),
    ],
)
def test_kinds_in_a_row_are_as_many_plants(stranger_talk: Talk, text: str, home: Held) -> None:
    assert told(stranger_talk, text) == home


@pytest.mark.parametrize(
    ("text", "home"),
    [
        ("scale on calathea 14", {"": {"calathea"}}),
        ("14 scale on calathea 2", {"": {"calathea 2"}}),
    ],
)
def test_a_number_behind_a_kind_counts_what_was_seen_unless_another_does(
    stranger_talk: Talk, text: str, home: Held
) -> None:
    assert told(stranger_talk, text) == home
    assert sum(len(one.cases) for one in stranger_talk.home.plants.values()) == 1


@pytest.mark.parametrize(
    "text",
    [
        "there were two yuccas",
        "we used to grow a begonia",
        "i'd love a calathea some day",
        "we want to get a palm in spring",
        "my dad has a yucca in the attic",
        "my parents keep three begonias on the landing",
        "scale on the yucca of my aunt",
        "spider mites on my cousin's begonia",
        "a calathea too, but it is at work",
    ],
)
def test_what_is_not_of_this_home_is_not_written(stranger_talk: Talk, text: str) -> None:
    assert told(stranger_talk, text) == {}


@pytest.mark.parametrize(
    ("text", "home"),
    [
        ("my aunt gave me a yucca, it is in the attic", {"attic": {"yucca"}}),
        ("there were spider mites on the yucca", {"": {"yucca"}}),
    ],
)
def test_what_was_given_or_seen_is_of_this_home(stranger_talk: Talk, text: str, home: Held) -> None:
    assert told(stranger_talk, text) == home


OFFERED = "yucca and begonia in the attic, 6 scale on yucca, and zorblet fresh"


@pytest.mark.parametrize(
    ("right", "said"),
    [
        ("sorry, i meant begonia", "6 scale on begonia"),
        ("no that was on the begonia, not the yucca", "6 scale on begonia"),
        ("no, 40", "40 scale on yucca"),
        ("oops 12", "12 scale on yucca"),
        ("not 6 but 16", "16 scale on yucca"),
        ("many", "many scale on yucca"),
        ("wait, 9 on the begonia", "9 scale on begonia"),
    ],
)
def test_what_was_seen_in_an_offered_home_is_put_right(stranger_talk: Talk, right: str, said: str) -> None:
    assert told(stranger_talk, OFFERED) == {}
    answer = stranger_talk.say(right)[0]
    assert f"“attic: yucca, begonia; {said}”" in answer
    assert held(stranger_talk) == {}


@pytest.mark.parametrize(
    "text", ["Leeds attic east. yucca and ivy in attic", "Hull attic east. yucca, ivy in attic"]
)
def test_a_town_in_front_of_a_room_is_no_part_of_it(stranger_talk: Talk, text: str) -> None:
    stranger_talk.say("/start")
    stranger_talk.say(text)
    assert held(stranger_talk) == {"attic e": {"yucca", "ivy"}}


@pytest.mark.parametrize(
    ("text", "until"),
    [
        ("till ten in the evening", time(22)),
        ("it switches off at 20:30", time(20, 30)),
        ("until 8 pm", time(20)),
        ("the light in the utility corner is on until 19:00", time(19)),
        ("that lamp in the corner goes off around nine", time(21)),
        ("she is out until 20:30", None),
        ("i am off at 9", None),
    ],
)
def test_until_when_a_lamp_is_on_is_told_by_itself(
    stranger_talk: Talk, text: str, until: time | None
) -> None:
    told(stranger_talk, "yucca in the utility corner", "no window, just a lamp", text)
    assert [one.lamp_until for one in stranger_talk.home.places.values()] == [until]


def test_a_lamp_s_hour_is_of_no_room_with_a_window(stranger_talk: Talk) -> None:
    told(stranger_talk, "yucca in the utility room", "north", "until 20:30")
    assert [one.lamp_until for one in stranger_talk.home.places.values()] == [None]


SEVERAL = "three begonias and a yucca in the attic, 6 scale on begonia 2, and zorblet fresh"


@pytest.mark.parametrize(
    ("right", "said"),
    [
        ("just the one begonia, not three", "attic: begonia, yucca; 6 scale on begonia"),
        ("no, there are two begonias", "attic: begonia 1, begonia 2, yucca; 6 scale on begonia 2"),
        (
            "not three begonias but two! Two begonias and the yucca in the attic",
            "attic: begonia 1, begonia 2, yucca; 6 scale on begonia 2",
        ),
        ("ONE begonia stands there, not 1 and 2 and 3", "attic: begonia, yucca; 6 scale on begonia"),
    ],
)
def test_a_number_put_right_leaves_as_many_in_an_offered_home(
    stranger_talk: Talk, right: str, said: str
) -> None:
    assert told(stranger_talk, SEVERAL) == {}
    assert f"“{said}”" in stranger_talk.say(right)[0]


def test_a_number_of_plants_is_none_of_the_first_that_is_named(stranger_talk: Talk) -> None:
    told(stranger_talk, "the attic holds four plants, sorry, two, a begonia and a yucca")
    if "Yes" in stranger_talk.labels():
        stranger_talk.press("Yes")
    assert held(stranger_talk) == {"attic": {"begonia", "yucca"}}


@pytest.mark.parametrize(
    ("texts", "clean"),
    [
        (("yucca and begonia in the attic. yucca clean. 6 scale on begonia",), {"yucca"}),
        ((OFFERED, "begonia clean"), {"begonia"}),
        ((OFFERED, "the begonia is clear"), {"begonia"}),
        (("yucca and begonia in the attic, begonia not clean",), set[str]()),
    ],
)
def test_plants_told_to_be_clean_are_looked_at(
    stranger_talk: Talk, texts: tuple[str, ...], clean: set[str]
) -> None:
    told(stranger_talk, *texts)
    if "Yes" in stranger_talk.labels():
        stranger_talk.press("Yes")
    assert {name for name, payload in stranger_talk.told() if isinstance(payload, CheckedClean)} == clean


def test_what_goes_on_about_an_offered_home_is_read_into_it(stranger_talk: Talk) -> None:
    assert told(stranger_talk, OFFERED, "yucca clean", "begonia clean too") == {}
    stranger_talk.press("Yes")
    assert held(stranger_talk) == {"attic": {"yucca", "begonia"}}


@pytest.mark.parametrize(
    ("text", "home"),
    [
        ("2 yuccas one in the attic one on the landing", {"attic": {"yucca 1"}, "landing": {"yucca 2"}}),
        (
            "three yuccas, two in the attic one on the landing",
            {"attic": {"yucca 1", "yucca 2"}, "landing": {"yucca 3"}},
        ),
        ("landing w, porch none", {"landing w": set[str](), "porch none": set[str]()}),
        (
            "landing west, bathroom none, attic north",
            {"landing w": set[str](), "bathroom none": set[str](), "attic n": set[str]()},
        ),
    ],
)
def test_one_word_tells_one_of_several_or_no_window(stranger_talk: Talk, text: str, home: Held) -> None:
    assert told(stranger_talk, text) == home


@pytest.mark.parametrize(
    ("texts", "home"),
    [
        (("the landing faces west", "there i have a yucca and a palm"), {"landing w": {"yucca", "palm"}}),
        (("fern in the attic", "there we keep a palm too"), {"attic": {"fern", "palm"}}),
        (("hello there i have a yucca in the attic",), {"attic": {"yucca"}}),
    ],
)
def test_there_is_the_room_told_last(stranger_talk: Talk, texts: tuple[str, ...], home: Held) -> None:
    assert told(stranger_talk, *texts) == home
