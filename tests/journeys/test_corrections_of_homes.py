"""An offered home is corrected in people's own words: what it holds in the end, by the sort of correction."""

import pytest

from tests.journeys.talking import Talk

OFFER = "Gent. attic (north): hoya, jade plant, glumph. pantry (east): croton, bird's nest fern. croton has 8 thrips"
ATTIC, PANTRY = {"hoya", "jade plant", "glumph"}, {"croton", "bird's nest fern"}


@pytest.fixture
def offered(stranger_talk: Talk) -> Talk:
    stranger_talk.say("/start")
    assert "Did you mean" in stranger_talk.say(OFFER)[0]
    return stranger_talk


def held(talk: Talk, told: str) -> dict[str, set[str]]:
    """Say it, agree to what is offered, and give which plants stand where."""
    before = len(talk.entries())
    talk.say(told)
    assert len(talk.entries()) == before or "Yes" not in talk.labels()
    if "Yes" in talk.labels():
        talk.press("Yes")
    rooms = {one.id: one.name for one in talk.home.places.values()}
    found: dict[str, set[str]] = {}
    for plant in talk.home.living:
        found.setdefault(rooms[plant.place] if plant.place is not None else "", set()).add(plant.name)
    return found


def seen(talk: Talk) -> dict[str, object]:
    finds = ((one.name, find) for one in talk.home.living for case in one.cases for find in case.finds)
    return {name: find.count if find.count is not None else find.grade for name, find in finds}


@pytest.mark.parametrize(
    "told",
    [
        "hoya's up in the pantry, not in the attic",
        "the hoya isn't in the attic at all, it lives in the pantry",
        "no no, hoya: pantry",
        "the hoya you put in the attic stands in the pantry",
        "Sorry, wrong about the hoya. That one is in the pantry.",
        "yes but the hoya is in the pantry",
        "right, except the hoya stands in the pantry",
        "perfect apart from the hoya, that's in the pantry",
    ],
)
def test_a_plant_of_another_room(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": ATTIC - {"hoya"}, "pantry": PANTRY | {"hoya"}}
    assert seen(offered) == {"croton": 8}


@pytest.mark.parametrize(
    "told",
    [
        "the fern is in the bedroom",
        "fern's in the bedroom not the pantry",
        "the fern isn't in the pantry. it's in the bedroom",
        "bird's nest fern -> bedroom",
        "I keep the fern in the bedroom",
    ],
)
def test_a_plant_of_a_room_that_is_new(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": ATTIC, "pantry": {"croton"}, "bedroom": {"bird's nest fern"}}


@pytest.mark.parametrize(
    "told",
    [
        "jade and hoya belong in the pantry",
        "both the jade plant and the hoya are in the pantry",
        "neither the hoya nor the jade is in the attic, they're in the pantry",
        "in the pantry there are also the hoya and the jade",
    ],
)
def test_two_plants_of_another_room(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": {"glumph"}, "pantry": PANTRY | {"hoya", "jade plant"}}


@pytest.mark.parametrize(
    "told",
    [
        "the croton is actually a calathea",
        "not croton but calathea",
        "it's a calathea, not a croton",
        "I mistyped, croton is calathea",
        "replace croton with calathea",
        "for croton read calathea",
        "croton -> calathea",
    ],
)
def test_a_plant_of_another_name(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": ATTIC, "pantry": {"calathea", "bird's nest fern"}}
    assert seen(offered) == {"calathea": 8}


@pytest.mark.parametrize(
    "told",
    [
        "18 thrips, not 8",
        "make that 18 thrips",
        "not 8 but 18",
        "it was 18 thrips rather than 8",
        "eighteen thrips, I said",
    ],
)
def test_another_number(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": ATTIC, "pantry": PANTRY}
    assert seen(offered) == {"croton": 18}


@pytest.mark.parametrize(
    "told",
    [
        "you forgot the calathea, it's in the attic",
        "also a calathea in the attic",
        "you missed out my calathea, attic as well",
        "plus one calathea up in the attic",
        "and a calathea, attic",
        "yes, but a calathea is in the attic as well",
    ],
)
def test_a_plant_that_was_forgotten(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": ATTIC | {"calathea"}, "pantry": PANTRY}


@pytest.mark.parametrize(
    "told",
    [
        "glumph is the cat",
        "there's no glumph, I sneezed",
        "take glumph off, it is no plant",
        "glumph was a typo",
        "cross glumph out please",
        "glumph is my sister",
        "I haven't got any glumph",
        "glumph can go",
        "there is no such thing as a glumph",
        "glumph isn't one of mine",
        "all but glumph",
        "everything except the glumph",
        "right, apart from glumph",
        "the rest is right, glumph is nonsense",
    ],
)
def test_what_is_no_plant(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": ATTIC - {"glumph"}, "pantry": PANTRY}
    assert seen(offered) == {"croton": 8}


@pytest.mark.parametrize(
    "told",
    [
        "hoya and croton are swapped",
        "swap the hoya and the croton",
        "you've got the hoya and the croton the wrong way round",
        "other way around: hoya in the pantry, croton in the attic",
        "you mixed up the hoya and the croton",
    ],
)
def test_two_plants_that_are_swapped(offered: Talk, told: str) -> None:
    assert held(offered, told) == {
        "attic": {"croton", "jade plant", "glumph"},
        "pantry": {"hoya", "bird's nest fern"},
    }


@pytest.mark.parametrize(
    ("told", "place", "way"),
    [
        ("the pantry looks west, not east", "pantry", "W"),
        ("not east, the pantry is west", "pantry", "W"),
        ("pantry = west", "pantry", "W"),
        ("yes but pantry west", "pantry", "W"),
        ("the attic has no window", "attic", "none"),
        ("there's no window in the attic", "attic", "none"),
    ],
)
def test_the_window_of_a_room(offered: Talk, told: str, place: str, way: str) -> None:
    assert held(offered, told) == {"attic": ATTIC, "pantry": PANTRY}
    facing = {one.name: one.facing.value for one in offered.home.places.values() if one.facing is not None}
    assert facing == {"attic": "N", "pantry": "E"} | {place: way}


@pytest.mark.parametrize(
    "told",
    [
        "thrips sit on the hoya, not the croton",
        "it's the hoya that has thrips",
        "the hoya has the thrips, not the croton",
        "8 thrips are on hoya not on croton",
        "wrong plant: the hoya has the thrips",
    ],
)
def test_an_animal_of_another_plant(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": ATTIC, "pantry": PANTRY}
    assert seen(offered) == {"hoya": 8}


@pytest.mark.parametrize(
    "told",
    [
        "the attic is called loft",
        "it's the loft, not the attic",
        "not attic, loft",
        "rename attic to loft",
        "loft instead of attic",
    ],
)
def test_a_room_of_another_name(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"loft": ATTIC, "pantry": PANTRY}


@pytest.mark.parametrize("told", ["sorry I live in Aalst", "I live in Aalst", "my town is Aalst"])
def test_another_town_leaves_the_offer_as_it_is(offered: Talk, told: str) -> None:
    offered.say(told)
    assert offered.home.town == "Aalst"
    assert held(offered, "yes") == {"attic": ATTIC, "pantry": PANTRY}


@pytest.mark.parametrize(
    "told",
    [
        "again: attic: hoya, jade plant. pantry: croton, bird's nest fern, calathea. no glumph",
        "glumph is not a plant but I have a calathea in the pantry",
        "no glumph; calathea in the pantry",
        "forget glumph, it's called calathea and sits in the pantry",
    ],
)
def test_two_corrections_at_once(offered: Talk, told: str) -> None:
    assert held(offered, told) == {"attic": ATTIC - {"glumph"}, "pantry": PANTRY | {"calathea"}}


@pytest.mark.parametrize(
    ("told", "room"),
    [
        ("zorb is a plant, in the study", "study"),
        ("my zorb stands in the study", "study"),
        ("zorb is a plant. it lives in the study", "study"),
        ("study: zorb", "study"),
        ("zorb is the name of a plant", ""),
        ("a zorb is a plant too", ""),
    ],
)
def test_a_strange_name_that_is_insisted_on(stranger_talk: Talk, told: str, room: str) -> None:
    for text in ("/start", "Ghent", "hall: ivy. kitchen: jade. quabbel"):
        stranger_talk.say(text)
    assert "Something else" in stranger_talk.labels()
    stands = {"hall": {"ivy"}, "kitchen": {"jade"}}
    assert held(stranger_talk, told) == stands | {room: {"zorb"}}


@pytest.mark.parametrize(
    "told",
    [
        "don't lose the hoya",
        "the jade stays where it is",
        "hoya is not ill",
        "croton isn't a big plant",
        "I never water the hoya",
        "no thrips on the fern",
        "the glumph is a gift from a friend",
        "the pantry is not heated",
    ],
)
def test_what_corrects_nothing_takes_nothing_out(offered: Talk, told: str) -> None:
    (answer,) = offered.say(told)
    offer = "“attic (n): hoya, jade plant, glumph; pantry (e): croton, bird's nest fern; 8 thrips on croton”"
    assert offer in answer or "Did you mean" not in answer
    assert f"{offer}?" not in answer  # what was not understood of it is said


@pytest.mark.parametrize(
    ("told", "left_out"),
    [("the hoya is in the pantry. quabbel", "quabbel"), ("glumph is no plant, snorvel", "snorvel")],
)
def test_what_cannot_be_placed_is_named(offered: Talk, told: str, left_out: str) -> None:
    assert f"without “{left_out}”" in offered.say(told)[0]


def test_a_room_s_plant_stays_where_another_s_is_told_behind_it(offered: Talk) -> None:
    told = "pantry only has the croton, the fern is in the bedroom"
    assert held(offered, told) == {"attic": ATTIC, "pantry": {"croton"}, "bedroom": {"bird's nest fern"}}
