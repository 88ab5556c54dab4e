"""Where plants stand by now: in a room that is known or new, apart there, or "them" of the message before."""

import pytest

from bot.domain.value import replace
from bot.phrases.hearing import understand
from bot.phrases.notation import notation
from bot.rehearsal import read_situation
from tests.phrases.situation import KNOWLEDGE, clauses, offered

HOME = read_situation(
    """
now = 2026-09-15T19:40:00
places = ["porch", "den", "hall"]
plants = [{names = ["clivia"], place = "porch"}, {names = ["aralia"], place = "den"},
  {names = ["lime"], place = "den"}, {names = ["jade plant"], place = "hall"}]
tonight = [{plant = "clivia", method = "wipe"}]
""",
    KNOWLEDGE,
)
CLIVIA, ARALIA, LIME, JADE = (one.id for one in HOME.plants)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("clivia and lime are in the bathroom now", "move clivia lime place=bathroom"),
        ("the lime stands in the bathroom now", "move lime place=bathroom"),
        ("aralia is out on the balcony", "move aralia place=balcony"),
        ("the aralia and the lime now live in the bedroom", "move aralia lime place=bedroom"),
        ("all three are in the den by now: clivia, aralia, lime", "move clivia aralia lime place=den"),
        ("clivia is apart now, in the pantry", "isolate clivia + move clivia place=pantry"),
        ("the lime is alone now in the guest room", "isolate lime + move lime place=guest_room"),
        (
            "carried the clivia to the hall, lime to the bathroom",
            "move clivia place=hall + move lime place=bathroom",
        ),
        ("clivia, lime and aralia are in the kitchen", "move clivia lime aralia place=kitchen"),
    ],
)
def test_where_plants_are_now_is_a_move_and_no_wash(text: str, meaning: str) -> None:
    assert clauses(notation(offered(understand(text, HOME)), HOME)) == clauses(meaning)


@pytest.mark.parametrize(
    "text", ["put them in the bedroom", "they are in the bedroom now", "moved those to the bedroom"]
)
def test_them_are_the_plants_just_told_of(text: str) -> None:
    told = replace(HOME, spoken=(ARALIA, LIME))
    meaning = notation(offered(understand(text, told)), told)
    assert clauses(meaning) == clauses("move aralia lime place=bedroom")


@pytest.mark.parametrize(
    "text",
    [
        "the lime is not on the balcony",
        "is the lime on the balcony?",
        "lime is on the balcony and has 3 aphids",
    ],
)
def test_what_is_denied_asked_or_more_than_a_place_is_no_move(text: str) -> None:
    assert not notation(offered(understand(text, HOME)), HOME).startswith("move")
