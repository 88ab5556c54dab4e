"""What stands near to a telling and is none: plans, hearsay, other people's plants, habits, good-byes, numbers of other things."""

from pathlib import Path

import pytest

from bot.actions.incomplete import Incomplete
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.domain.window import Outdoors
from bot.phrases.homes import read_facets
from bot.phrases.notation import notation
from bot.phrases.reading import understand
from bot.rehearsal import read_situation
from tests.phrases.meanings import parts
from tests.phrases.situation import EVENING, KNOWLEDGE

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
