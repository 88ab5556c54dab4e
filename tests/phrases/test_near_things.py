"""What stands near to a telling and is none: plans, hearsay, other people's plants, habits, good-byes, numbers of other things."""

from pathlib import Path

import pytest

from bot.actions.action import Expecting
from bot.actions.incomplete import Incomplete
from bot.actions.log_round import LogRound
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.domain.value import replace
from bot.domain.window import Outdoors
from bot.phrases.hearing import understand
from bot.phrases.homes import read_facets
from bot.phrases.notation import notation
from bot.rehearsal import read_situation
from tests.phrases.meanings import parts
from tests.phrases.situation import EVENING, HOYA, KNOWLEDGE, offered

NEAR = Path(__file__).with_name("near_things.tsv")
QUIET = read_situation(
    """
now = 2026-08-11T18:10:00
places = ["hall", "loft"]
plants = [{names = ["aloe"], place = "hall"}, {names = ["clivia"], place = "loft"}, {names = ["lime"], place = "loft"}]
shelf = [{ingredient = "soap"}, {ingredient = "neem"}]
""",
    KNOWLEDGE,
)
HOMES = {"evening": EVENING, "quiet": QUIET}


def _written(text: str, home: Situation) -> set[str]:
    told = understand(text, home)
    sure = tuple(one for one in told if not isinstance(one, Incomplete | NotUnderstood))
    return {part.head for part in parts(notation(sure, home)) if part.writes}


def _near() -> list[tuple[str, str]]:
    rows = (
        row.split("\t") for row in NEAR.read_text("utf-8").splitlines() if row and not row.startswith("#")
    )
    return [(row[0], row[1] if len(row) > 1 else "") for row in rows]


@pytest.mark.parametrize("home", HOMES)
@pytest.mark.parametrize(("text", "told"), _near())
def test_it_writes_no_more_than_it_tells(text: str, told: str, home: str) -> None:
    situation = HOMES[home]
    one, other = (plant.names[0] for plant in situation.plants[:2])
    said = text.replace("{p}", one).replace("{q}", other).replace("{l}", situation.places[0].name)
    assert _written(said, situation) <= set(told.split())


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("clivia repotted in new soil", "done clivia method=repot"),
        ("aloe in fresh soil, finally", "done aloe method=repot"),
    ],
)
def test_new_soil_is_a_pot_of_its_own(text: str, meaning: str) -> None:
    assert notation(understand(text, QUIET), QUIET) == meaning


@pytest.mark.parametrize(
    "text",
    [
        "no window at all, it is outdoors: sun in the evening",
        "there is no window, that one's outside! sun comes in the afternoon",
        "outside, no window, evening sun",
    ],
)
def test_a_place_outdoors_is_not_dark_for_want_of_a_window(text: str) -> None:
    told = read_facets(text, QUIET)
    assert told is not None
    assert (told.facing, told.outdoors) == (None, Outdoors.AFTERNOON)


@pytest.mark.parametrize(
    "text",
    [
        "aloe sat apart, now it is back",
        "the lime sat in quarantine and is released",
        "aloe sat alone, it is back",
    ],
)
def test_what_sat_somewhere_did_not_do_so_on_saturday(text: str) -> None:
    told = understand(text, QUIET)
    assert all(getattr(one, "on", None) is None for one in told)


@pytest.mark.parametrize(
    "text",
    [
        "wiped hoya but ivy when home",
        "hoya wiped, coffee after work",
        "wiped the hoya, the ivy later",
        "hoya is wiped, ivy next",
    ],
)
def test_what_is_still_to_come_is_not_done(text: str) -> None:
    meant = understand(text, EVENING)
    choices = (choice for one in meant if isinstance(one, Incomplete) for choice in one.choices)
    told = (*meant, *(one for choice in choices for one in choice.commands))
    assert {one.plants for one in told if isinstance(one, LogRound)} == {(HOYA,)}


@pytest.mark.parametrize(
    "text",
    [
        "when did I do it? Pruned the aloe",
        "Did I spray the clivia? No.",
        "clivia is clean. The aloe? Set that apart.",
        "On 3 August, what did I do? Sprayed the aloe.",
        "Has the aloe been looked at? Yes, clean.",
    ],
)
def test_the_answer_to_a_question_of_one_s_own_writes_nothing(text: str) -> None:
    assert not _written(text, QUIET)


PHALS = read_situation(
    """
now = 2026-08-11T18:10:00
places = ["hall"]
plants = [{names = ["phal 1"], place = "hall"}, {names = ["phal 2"], place = "hall"}, {names = ["phal 3"], place = "hall"}]
""",
    KNOWLEDGE,
)


@pytest.mark.parametrize(
    "text",
    [
        "The phals were all inspected without finding a pest",
        "the phals were looked at, not a bug in sight",
        "phals checked without a single bug",
        "gave the phals a look, nothing",
    ],
)
def test_an_article_is_no_number_of_a_plant(text: str) -> None:
    written = notation(offered(understand(text, PHALS)), PHALS)
    assert written in {"none phal_1 phal_2 phal_3", "ask none phal_1 phal_2 phal_3"}


EMPTY = read_situation('now = 2026-08-11T18:10:00\nexpecting = "plants"\nlacks_town = true', KNOWLEDGE)


@pytest.mark.parametrize(
    "text",
    [
        "a bay, an aloe and a rubber tree, I've the three of them on the landing so I have",
        "a rubber tree, a hoya and ivy, I've all three of them on the landing so I do",
        "bay, mint and thyme, I keep the three of them on the landing",
    ],
)
def test_the_three_of_them_are_those_told(text: str) -> None:
    added = notation(offered(understand(text, EMPTY)), EMPTY)
    assert added.count("add ") == added.count("place=landing") == 3


@pytest.mark.parametrize(
    "text",
    [
        "bought neem, sprayed the aloe with it",
        "got some neem and sprayed the aloe with it",
        "I have bought neem and with it the aloe is sprayed",
        "neem bought. Aloe sprayed with it",
    ],
)
def test_what_was_bought_is_what_it_was_sprayed_with(text: str) -> None:
    written = notation(offered(understand(text, QUIET)), QUIET)
    assert "done aloe method=spray product=neem" in written


@pytest.mark.parametrize(
    "text",
    [
        "rinsed the aloe, saw 6 gnats while I was at it",
        "6 fungus gnats on the aloe, where the leaf meets the stem",
        "I report 6 gnats on the aloe",
        "aloe has 6 gnats, they keep running away",
    ],
)
def test_a_word_that_everybody_types_is_no_slip_of_another(text: str) -> None:
    written = notation(offered(understand(text, QUIET)), QUIET)
    assert "find aloe 6 pest=fungus_gnat" in written
    assert "white" not in written


@pytest.mark.parametrize(
    "text",
    ["aloe 3-4", "5-6 on the aloe", "about 3-4 mites on the aloe", "clivia 10-12"],
)
def test_about_so_many_corrects_nothing(text: str) -> None:
    assert not _written(text, QUIET)


WINDOW = replace(EVENING, expecting=Expecting.PLACE)


@pytest.mark.parametrize(
    "text",
    [
        "You're a great help altogether, I don't know how I managed",
        "there is some pest on the hoya, I do not know what",
        "I don't know when I sprayed",
        "not sure whether the soap is any good",
        "I don't know any more what I told you",
    ],
)
def test_what_else_is_not_known_is_no_window(text: str) -> None:
    assert not _written(text, WINDOW)


@pytest.mark.parametrize(
    "text", ["I don't know", "no idea, sorry", "haven't a notion which way it faces", "dunno"]
)
def test_a_window_may_be_unknown(text: str) -> None:
    assert _written(text, WINDOW) <= {"place", "skip"}
    assert understand(text, WINDOW)[0] != NotUnderstood(text)
