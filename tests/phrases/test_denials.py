"""What is denied, excepted or said of another day is never written the other way round."""

import pytest

from bot.actions.action import ButtonText, Choice, Expecting
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.postpone import Postpone
from bot.actions.situation import Asked, KnownPlant
from bot.domain.identity import PlantId
from bot.domain.value import replace
from bot.phrases.forms.rows import ROWS
from bot.phrases.hearing import understand
from bot.phrases.mentions import Mentions
from bot.phrases.notation import notation
from bot.phrases.setting import Setting
from bot.phrases.spotting import spotted
from tests.phrases.situation import CALATHEA, EVENING, IVY, ORCHID, clauses, said_or_offered


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("done but orchid not", "done hoya coffee"),
        ("done, but the orchid not yet", "done hoya coffee"),
        ("all done but coffee isnt", "done hoya orchid"),
        ("done. orchid not", "done hoya coffee"),
        ("done, haven't done the orchid yet", "done hoya coffee"),
        ("done, except orchid", "done hoya coffee"),
        ("did the hoya on sunday not today", "done hoya on=2026-05-03"),
        ("hoya was sprayed yesterday not today", "done hoya method=spray on=2026-05-05"),
        ("the ivy was wednesday not today", "unclear"),
        ("the orchid wasnt sprayed on 28 april", "deleteentry"),
        ("all clean except hoya 1", "none ivy + find hoya 1"),
        (
            "yesterday i did the hoya with neem and swabbed the ivy",
            "done hoya product=neem on=2026-05-05 + done ivy method=swab on=2026-05-05",
        ),
        ("my mum sprayed her orchid", "unclear"),
        ("we are in vacation until the 24 may", "hold until=2026-05-24"),
    ],
)
def test_it_is_read_as_it_was_meant(text: str, meaning: str) -> None:
    sure = tuple(
        one for one in understand(text, EVENING) if not isinstance(one, GiveFirstAid)
    )  # help in doubt
    meant = {notation(sure, EVENING), said_or_offered(text, EVENING)}
    assert clauses(meaning) in [clauses(one) for one in meant]


def test_all_clean_does_not_speak_of_what_was_found_today() -> None:
    asked = replace(EVENING, tonight=(*EVENING.tonight, Asked(CALATHEA, None)))
    found = replace(asked, found_today=frozenset({IVY}))
    for text in ("all clean", "all others clean", "the others are clean"):
        assert clauses(notation(understand(text, found), found)) == clauses("none calathea"), text


@pytest.mark.parametrize(
    "text",
    [
        "never did the orchid tonight",
        "the orchid didn't get done, that's all",
        "no i never did the orchid",
        "orchid not treated tonight. That's all.",
    ],
)
def test_a_plant_that_is_denied_says_nothing_of_the_others(text: str) -> None:
    told = understand(text, EVENING)
    assert not any(isinstance(one, LogRound) for one in told)
    assert all(one.plants == (ORCHID,) for one in told if isinstance(one, Postpone))


@pytest.mark.parametrize(
    "text",
    [
        "violets: looked at every one, no pests, only no. 2: 8 mites",
        "every violet checked, clean, all but number 2: 8 mites",
        "violet all looked at. mites only on no 2: 8",
    ],
)
def test_all_of_one_name_is_never_all_of_the_home(text: str) -> None:
    violets = tuple(KnownPlant(id=PlantId(20 + n), names=(f"violet {n}",), place=None) for n in (1, 2, 3))
    home = replace(EVENING, plants=(*EVENING.plants, *violets))
    told = [one for one in understand(text, home) if isinstance(one, LogCheck)]
    assert {plant for one in told for plant in one.plants} <= {violets[0].id, violets[2].id}


@pytest.mark.parametrize("text", ["loads of bugs", "12 of them", "many mealybugs"])
def test_a_plant_that_is_only_offered_to_be_added_has_no_find_yet(text: str) -> None:
    add = Choice(ButtonText.ADD, (AddPlants((NewPlant(name="fern"),), is_sure=True),), "fern")
    asked = replace(EVENING, expecting=Expecting.CHOICE, choices=(add,), choice_texts=("Add fern",))
    told = [one for one in understand(text, asked) if isinstance(one, LogFind)]
    assert all(isinstance(plant, int) for one in told for plant in one.plants)


@pytest.mark.parametrize(
    "text", ["did not spray the hoya", "i didn't wipe the orchid", "we did not spray hoya and ivy"]
)
def test_what_was_not_done_is_no_round_of_the_others(text: str) -> None:
    assert ROWS["done"](Mentions(spotted(text, EVENING), Setting(EVENING))) is None


@pytest.mark.parametrize(
    "text",
    [
        "We have nothing here to treat with",
        "nowt to spray them with yet",
        "I own no product to treat with, sorry",
        "nothing at hand",
        "got nothing in the house to use",
        "There is no spray in stock.",
    ],
)
def test_nothing_at_hand_puts_no_evening_off(text: str) -> None:
    assert not any(isinstance(one, Postpone) for one in understand(text, EVENING))
