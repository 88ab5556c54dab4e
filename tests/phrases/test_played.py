"""What players found written or offered that nobody told, each with other wordings."""

import pytest

from bot.phrases.hearing import heard
from bot.phrases.homes import read_home
from bot.phrases.notation import notation
from tests.phrases.homes_measured import NEW
from tests.phrases.situation import EVENING, answered, first_offer


@pytest.mark.parametrize(
    "text",
    [
        "hoya: wiped. ivy: pruned only, no spray tonight.",
        "hoya: wiped. ivy: pruned just now, no spray.",
        "wiped the hoya. pruned the ivy alone, no spray",
    ],
)
def test_what_is_denied_behind_only_takes_nothing_back(text: str) -> None:
    assert "method=spray" not in f"{answered(text)} {first_offer(text)[0]}"


@pytest.mark.parametrize(
    "text",
    [
        "coffee is in the kitchen now, ivy is clean",
        "coffee is in the kitchen now, the ivy clean",
        "the coffee stands in the kitchen, and the ivy is clean",
    ],
)
def test_a_plant_that_is_clean_is_not_moved_with_another(text: str) -> None:
    assert not any("ivy" in line and line.startswith("move") for line in answered(text).split(" + "))


@pytest.mark.parametrize(
    "text",
    [
        "sprayed both, except that I only wiped the ivy",
        "sprayed the hoya and the orchid, except the ivy which I wiped",
        "everything sprayed except the ivy, that one got wiped",
    ],
)
def test_a_plant_to_which_something_else_was_done_is_no_mere_exception(text: str) -> None:
    assert "done" not in answered(text) or "ivy method=wipe" in answered(text)


def test_of_eating_is_answered_only_once_the_spraying_beside_it_isanswered() -> None:
    told = heard("my son maybe sprayed the hoya with that soap stuff today, when can we eat it?", EVENING)
    assert told.sure == ()
    assert notation(told.offers[0].commands, EVENING).endswith("ask eating hoya")


@pytest.mark.parametrize(
    "text", ["got soap spray from the garden centre", "soap from the garden store, a spray"]
)
def test_a_shop_is_no_place_to_spray(text: str) -> None:
    assert "refuse" not in answered(text)


@pytest.mark.parametrize("text", ["wiped the hoya, took 25 mins, 12 left", "that was 40 mins on the ivy"])
def test_minutes_are_no_plant(text: str) -> None:
    assert "mint" not in f"{answered(text)} {first_offer(text)[0]}"


@pytest.mark.parametrize(
    ("text", "home"),
    [
        ("Doris, a pilea in the den", "den: pilea Doris"),
        ("In the den I have a Syngo, a hoya and a fern", "den: Syngo, hoya, fern"),
        ("Two Quibbles, a fern in the den", "fern"),
    ],
)
def test_somebody_s_name_and_its_kind_are_one_plant_and_a_list_is_none(text: str, home: str) -> None:
    assert home in read_home(text, NEW).in_words()
