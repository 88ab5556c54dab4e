"""What is asked beside what is told is answered, or said to be beyond the bot: never dropped in silence."""

import pytest

from bot.actions.identify import Identify
from bot.actions.not_understood import NotUnderstood
from bot.actions.set_town import SetTown
from bot.phrases.hearing import understand
from tests.journeys.talking import Talk
from tests.phrases.situation import EVENING

KEY = "What do you see?"
BEYOND = "That is beyond me"


@pytest.mark.parametrize(
    ("told", "asked", "written"),
    [
        ("Swansea. But I was asking something. What is the animal on the chilli?", KEY, "Swansea"),
        ("Ghent. And what are these small bugs on the fern?", KEY, "Gent"),
        ("Ghent. So who won the football last night then?", BEYOND, "Gent"),
    ],
)
def test_the_town_is_taken_and_the_question_behind_it_is_answered(
    stranger_talk: Talk, told: str, asked: str, written: str
) -> None:
    stranger_talk.say("/start")
    answer = "\n".join(stranger_talk.say(told))
    assert f"Written: {written}" in answer or "Written: Ghent" in answer
    assert asked in answer


@pytest.mark.parametrize(
    ("told", "asked"),
    [
        ("chilli in the cellar, gardenia in the hall. What are the threads under the leaves?", KEY),
        ("chilli in the cellar. gardenia in the hall. How far is it to the moon, do you think?", BEYOND),
    ],
)
def test_plants_are_written_and_the_question_behind_them_is_answered(
    stranger_talk: Talk, told: str, asked: str
) -> None:
    for text in ("/start", "Ghent"):
        stranger_talk.say(text)
    answer = "\n".join(stranger_talk.say(told))
    assert "Written, 2 plants" in answer
    assert asked in answer


def test_a_question_beside_a_correction_of_an_offer_leaves_the_rest_as_it_was(stranger_talk: Talk) -> None:
    for text in ("/start", "Ghent", "Lads' den: lemongrass, zorbel. porch: gardenia"):
        stranger_talk.say(text)
    answer = "\n".join(stranger_talk.say("The porch looks north. Do I have to buy soap?"))
    assert "gardenia" in answer
    assert "porch (n)" in answer


@pytest.mark.parametrize("text", ["can we do the ivy tomorrow?", "the hoya? sprayed", "ivy sprayed, ok?"])
def test_what_only_sounds_like_a_question_is_not_said_to_be_beyond(text: str) -> None:
    meant = understand(text, EVENING)
    assert not any(isinstance(one, NotUnderstood | Identify | SetTown) for one in meant)
