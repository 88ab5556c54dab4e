"""Answers name what they speak of: who is apart, what is still open, whom a look leaves out, what holds a plant."""

from datetime import date

import pytest

from bot.domain.journal import CheckedClean, Treated
from tests.journeys.talking import Talk


@pytest.mark.parametrize("words", ["isolated?", "what is apart?", "who is kept apart?"])
def test_all_who_are_apart_are_named_in_the_first_lines(talk: Talk, words: str) -> None:
    for name in ("hoya", "small hoya", "moth orchid"):
        talk.say(f"{name} 4 citrus mealybugs")
        talk.say(f"{name} is apart")
    (answer,) = talk.say(words)
    assert answer.startswith("Apart, 3 plants:")
    assert all(name in answer for name in ("hoya", "small hoya", "moth orchid"))


@pytest.mark.parametrize("words", ["wiped the orchid", "the moth orchid was wiped", "orchid wiped just now"])
def test_still_open_says_what_is_open(talk: Talk, words: str) -> None:
    talk.say("orchid 30 longtailed mealybugs")
    talk.evening()
    (answer,) = talk.say(words)
    assert "Still open tonight: spray moth orchid with soap." in answer


def test_several_treatments_of_a_message_are_told_as_one(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    (answer,) = talk.say("wiped the hoya and sprayed hoya with soap")
    assert answer.startswith("Written: hoya wiped, then sprayed (soap).")
    assert answer.count("Written:") == 1
    assert "Still open" not in answer


def test_what_is_told_late_is_not_asked_for_again(talk: Talk) -> None:
    """The message asks for what was done the evening before, and nobody had said so."""
    talk.say("ivy 9 spider mites")
    talk.evening()
    talk.passes(days=1)
    talk.evening()
    talk.say("did the ivy yesterday")
    left = [one for one in talk.entries() if isinstance(one.payload, Treated)]
    assert left, "written for the day before"
    before = len(talk.told())
    talk.say("done")
    assert not [one for _, one in talk.told()[before:] if isinstance(one, Treated)], "nor written once more"
    answer = talk.say("hoya wiped")[0]
    assert "ivy" not in answer.partition("Still open tonight")[2]


@pytest.mark.parametrize("words", ["others all clean", "all the others are clean", "the rest is clean"])
def test_the_others_are_named_and_those_with_pests_are_said_to_be_left_out(talk: Talk, words: str) -> None:
    talk.say("add fern, landing\npilea, landing")
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("done")
    talk.at(date(2026, 5, 10), 20)
    talk.tick()
    (answer,) = talk.say(words)
    looked = {name for name, one in talk.told() if isinstance(one, CheckedClean)}
    assert looked == {"small hoya", "fern", "pilea"}
    assert "Not hoya: pests there" in answer
    talk.press("Clean too: hoya")
    assert "hoya" in {name for name, one in talk.told() if isinstance(one, CheckedClean)}


def test_what_holds_a_plant_back_beside_it_is_named(talk: Talk) -> None:
    talk.say("hoya 12 citrus mealybugs")
    talk.say("small hoya 2 citrus mealybugs")
    talk.evening()
    talk.say("done")
    talk.passes(days=4)
    talk.say("hoya 5 citrus mealybugs")
    (looked,) = talk.say("small hoya none seen, with a lens")
    assert "living ones near it today" in looked
    (answer,) = talk.say("when may the small hoya go back?")
    assert "hoya beside it had living ones on Wed 6 May" in answer


def test_none_seen_is_asked_with_the_name(talk: Talk) -> None:
    (answer,) = talk.say("ivy wiped, none seen with lens")
    assert "None seen on : " not in answer
    talk.say("small hoya swabbed, nothing found")
    assert "None seen on : " not in answer


def test_neighbours_of_a_plant_that_was_moved_are_not_said_to_be_where_it_is_now(talk: Talk) -> None:
    talk.say("coffee 12 spider mites")
    talk.say("study has one plant more: fern")
    talk.say("moved the coffee plant to the study")
    (answer,) = talk.say("coffee 6 spider mites")
    assert "others at study" not in answer
