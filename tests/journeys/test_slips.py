"""Slips of the finger: guessed at and asked back, never taken for what they resemble."""

import pytest

from bot.domain.journal import HouseholdSet, PlantSet, Treated
from tests.journeys.talking import Talk


def test_a_misspelt_town_is_asked_back(stranger_talk: Talk) -> None:
    stranger_talk.say("/start")
    (answer,) = stranger_talk.say("Gemt")
    assert answer.startswith("I know no town called “Gemt”, so nothing is written yet. Is it one of these?")
    assert stranger_talk.labels()[0] == "Gent, Flanders, BE"
    assert stranger_talk.told() == []
    assert stranger_talk.press("Gent, Flanders, BE")[0].startswith("Written: Gent, Europe/Brussels.")


def test_a_town_told_again_is_not_written_as_a_plant(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Rotterdam"))
    assert stranger_talk.say("Ghent") == ["“Ghent”: your town, or a plant? Not written yet."]
    assert not any(isinstance(one, PlantSet) for _, one in stranger_talk.told())
    stranger_talk.press("My town is Ghent")
    towns = [one.town for _, one in stranger_talk.told() if isinstance(one, HouseholdSet)]
    assert towns == ["Rotterdam", "Ghent"]


def test_a_plant_named_like_a_town_is_a_plant_when_that_is_said(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Rotterdam"))
    stranger_talk.say("Florence")
    assert stranger_talk.press("A plant called Florence")[0].startswith("Written, 1 plant:\nFlorence")
    assert stranger_talk.say("Paris, 12 cm")[0].startswith("Written, 1 plant:\nParis")


def test_kinds_of_plants_are_never_taken_for_towns(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Rotterdam"))  # Hoya is a town in Lower Saxony
    assert stranger_talk.say("hoya")[0].startswith("Written, 1 plant:\nhoya")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("wy", "why"),
        ("chrt", "chart"),
        ("wrok day", "work day"),
        ("spraeyd the hoya", "sprayed hoya"),
        ("wipd ivy", "wiped ivy"),
        ("settigns", "settings"),
        ("kitchen faces esat", "kitchen faces east"),
        ("calender", "calendar"),
    ],
)
def test_one_slip_in_a_message_is_offered_and_writes_nothing(talk: Talk, typed: str, meant: str) -> None:
    before = len(talk.entries())
    assert talk.say(typed) == [f"Did you mean “{meant}”? Not written yet."]
    first, *_, last = talk.labels()
    assert (first, last) == ("Yes", "Something else")
    assert talk.new_since(before) == []


@pytest.mark.parametrize("typed", ["soap, ready to use", "neem oil concentrate"])
def test_a_bottle_told_of_without_a_verb_is_offered(talk: Talk, typed: str) -> None:
    before = len(talk.entries())
    assert talk.say(typed)[0].startswith("Did you mean “got ")
    assert talk.new_since(before) == []
    assert talk.say("yes")[0].startswith("On the shelf: ")


def test_what_is_told_and_what_is_asked_in_one_message_are_both_answered(talk: Talk) -> None:
    before = len(talk.entries())
    (answer,) = talk.say("sprayed the hoya. what's isolated?")
    assert answer.startswith("Written: hoya sprayed")
    assert answer.endswith("No plant is apart.")
    assert [type(one) for one in talk.new_since(before)] == [Treated]
    before = len(talk.entries())
    talk.say("sprayed the ivy\nblorp it\nisolated?")
    assert talk.new_since(before) == []


def test_readings_as_near_as_each_other_are_offered_together(talk: Talk) -> None:
    talk.set_up(("hoya 12 citrus mealybugs",))
    talk.evening()
    before = len(talk.entries())
    talk.say("hoya fone")
    assert talk.labels() == ["Yes", "hoya none", "Something else"]
    assert talk.new_since(before) == []


def test_yes_takes_the_only_thing_offered(talk: Talk) -> None:
    before = len(talk.entries())
    talk.say("spraeyd the hoya")
    assert talk.say("yes")[0].startswith("Written: hoya sprayed")
    assert [type(one) for one in talk.new_since(before)] == [Treated]
    before = len(talk.entries())
    talk.say("yes")
    assert talk.new_since(before) == []  # the question is settled: it cannot be answered twice


def test_the_name_of_a_kind_is_offered_as_a_new_plant(talk: Talk) -> None:
    assert talk.say("fern")[0].startswith("“fern”: a new plant? Not written yet")
    talk.say("yes")
    assert [plant.name for plant in talk.home.living][-1] == "fern"


@pytest.mark.parametrize("text", ["blahblah", "qwerty zxcvb", "wy wy wy", "xx"])
def test_what_resembles_nothing_is_not_guessed_at(talk: Talk, text: str) -> None:
    assert talk.say(text)[0].startswith("I did not understand")


def test_the_name_of_a_pest_is_no_slip_of_a_plants(talk: Talk) -> None:
    talk.say("peace lily, study")
    assert talk.say("ivy 23 green peach aphids")[0].startswith("Written: 23 green peach aphids on ivy.")
    assert talk.say("peace lily 1 green peach aphid")[0].startswith(
        "Written: 1 green peach aphid on peace lily."
    )
