"""Watering is noted and shown in the history, and changes no plan."""

import pytest

from bot.domain.journal import Watered
from tests.journeys.talking import Talk


@pytest.mark.parametrize(
    "words", ["watered the hoya", "hoya watered", "I just watered my hoya", "i have watered the hoya today"]
)
def test_watering_is_noted_once_a_day_and_shown(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    due = talk.say("what's due")
    assert talk.say(words)[0] == "Noted for today, Sat 2 May: hoya watered."
    talk.say(words)
    assert [one for one in talk.told() if isinstance(one[1], Watered)] == [("hoya", Watered())]
    assert "today: hoya watered" in talk.say("history hoya")[0]
    assert talk.say("what's due") == due


def test_several_and_yesterday(talk: Talk) -> None:
    assert (
        talk.say("watered hoya and ivy yesterday")[0]
        == "Noted for yesterday, Fri 1 May: hoya and ivy watered."
    )


@pytest.mark.parametrize(
    "words", ["did I water the hoya?", "watered nothing", "should I water the ivy", "watered the moon"]
)
def test_questions_and_what_is_no_plant_note_nothing(talk: Talk, words: str) -> None:
    talk.say(words)
    assert not any(isinstance(payload, Watered) for _, payload in talk.told())
