"""Plants in whatever shape people list them; what is no plant is left out."""

import pytest

from bot.actions.action import Expecting
from bot.actions.add_plants import AddPlants
from bot.actions.set_place import SetPlace
from bot.domain.value import replace
from bot.domain.window import Facing
from bot.phrases.hearing import understand
from bot.phrases.home_words import names_a_kind
from bot.phrases.lists import read_list
from bot.phrases.text import plain, words_of
from tests.phrases.situation import EVENING

NOBODY = replace(EVENING, plants=(), places=(), shelf=(), tonight=())
ASKED = replace(NOBODY, expecting=Expecting.PLANTS)
Told = list[tuple[str, str | None]]


def told(text: str) -> Told:
    listed = read_list(text, NOBODY, is_expected=True)
    return [] if listed is None else [(one.name, one.place) for one in listed.plants]


@pytest.mark.parametrize(
    ("text", "plants"),
    [
        (
            "jade, snake plant, string of hearts, two hoyas, peace lily",
            [
                ("jade", None),
                ("snake plant", None),
                ("string of hearts", None),
                ("hoya 1", None),
                ("hoya 2", None),
                ("peace lily", None),
            ],
        ),
        (
            "hi! we've got an aloe, three begonias and a croton, all on the porch",
            [("aloe", "porch"), *((f"begonia {n}", "porch") for n in (1, 2, 3)), ("croton", "porch")],
        ),
        ("ive got a fern a lime tree and a coleus", [("fern", None), ("lime tree", None), ("coleus", None)]),
        ("- fern (hall)\n- ivy (hall)", [("fern", "hall"), ("ivy", "hall")]),
        ("1) fern - hall\n2) Big Bertha", [("fern", "hall"), ("Big Bertha", None)]),
        ("bathroom fern", [("fern", "bathroom")]),
        ("basil balcony", [("basil", "balcony")]),
        (
            "on the porch stands the lemon, in the office the ficus and the yucca",
            [("lemon", "porch"), ("ficus", "office"), ("yucca", "office")],
        ),
        ("the fig is in the hall, the mint is on the balcony", [("fig", "hall"), ("mint", "balcony")]),
        ("aloe x3", [("aloe 1", None), ("aloe 2", None), ("aloe 3", None)]),
        ("4 cacti in the loft", [(f"cactus {n}", "loft") for n in (1, 2, 3, 4)]),
    ],
)
def test_a_list_is_read_in_the_shape_it_has(text: str, plants: Told) -> None:
    assert told(text) == plants


def test_a_paste_of_sixty_with_headings_ranges_and_pots() -> None:
    text = "Rack 1 (grow light):\nAV 1-20\n20 african violets\nKitchen:\nphal 1..18\nhoya kerrii 4 in\n- jade, 12 cm"
    plants = told(text)
    assert len(plants) == 20 + 20 + 18 + 2
    assert plants[0] == ("AV 1", "Rack 1")
    assert plants[39] == ("african violet 20", "Rack 1")
    assert plants[-2:] == [("hoya kerrii", "Kitchen"), ("jade", "Kitchen")]
    listed = read_list(text, NOBODY, is_expected=True)
    assert listed is not None
    assert [one.pot_cm for one in listed.plants[-2:]] == [10.16, 12.0]  # 4 in are 10.16 cm


@pytest.mark.parametrize(
    "text",
    [
        "i have about ten plants in one room, a bad mealybug outbreak",
        "so many plants, all over the flat",
        "it's a mess, bugs everywhere",
        "not sure yet, about twenty pots",
    ],
)
def test_what_is_no_plant_founds_none(text: str) -> None:
    assert not any(isinstance(one, AddPlants) for one in understand(text, ASKED))


def test_a_room_s_window_told_beside_its_plants_is_kept() -> None:
    meant = understand("I've got a jade and two hoyas in the bedroom, window faces south", ASKED)
    assert [type(one) for one in meant] == [AddPlants, SetPlace]
    (place,) = (one for one in meant if isinstance(one, SetPlace))
    assert (place.name, place.facing) == ("bedroom", Facing.S)


@pytest.mark.parametrize(
    ("text", "name", "then"),
    [
        ("the jade is full of mealybugs", "jade", "many mealybugs on jade"),
        ("my fern has 4 thrips", "fern", "4 thrips on fern"),
        ("but my zz has a dozen aphids", "zz", "12 aphids on zz"),
    ],
)
def test_a_find_on_a_plant_nobody_knows_yet_brings_the_plant_and_waits_for_it(
    text: str, name: str, then: str
) -> None:
    for asked in (ASKED, replace(NOBODY, expecting=Expecting.TOWN)):
        (added,) = understand(text, asked)
        assert isinstance(added, AddPlants)
        assert [one.name for one in added.plants] == [name]
        assert added.then == then


@pytest.mark.parametrize(
    "text", ["good night, sweet dreams", "ok bed - night night", "sosick of thesebugs", "evenin"]
)
def test_a_name_that_is_no_kind_of_plant_is_asked_about(text: str) -> None:
    assert not any(isinstance(one, AddPlants) for one in understand(text, ASKED))


@pytest.mark.parametrize(
    ("text", "is_new"),
    [
        ("the hoya has thrips again", False),
        ("gave the orchid and the ivy a shower", False),
        ("nothing on the coffee plant", False),
        ("the ficus has thrips again", True),
        ("ivy is fine, the begonia is not", True),
        ("somebody left a second hoya here", True),
        ("red ivy stands beside it", True),
        ("hoya 7 stands on the landing", True),
    ],
)
def test_a_kind_is_told_anew_only_where_no_plant_here_is_meant(text: str, *, is_new: bool) -> None:
    assert names_a_kind(words_of(plain(text)), EVENING) is is_new
