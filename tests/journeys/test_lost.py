"""A message that is not understood leads on: what it may be about is a button, and what was typed is kept."""

import pytest

from bot.domain.journal import LostNow, PlantSet
from tests.journeys.talking import Talk


@pytest.mark.parametrize(
    ("text", "subject", "offered"),
    [
        ("hoya had better wait, visitors here", "It has to wait", "“hoya later tomorrow”"),
        ("the ivy's off to the study it seems", "A plant has moved", "“moved ivy to the study”"),
    ],
)
def test_a_lost_message_is_read_anew_as_what_its_writer_says_it_is_about(
    talk: Talk, text: str, subject: str, offered: str
) -> None:
    talk.set_up()
    before = talk.told()
    assert text in talk.say(text)[0]
    assert subject in talk.labels()
    assert talk.press(subject) == [f"Did you mean {offered}? Nothing is written yet."]
    assert talk.told() == before


def test_what_a_lost_message_meant_is_written_after_yes(talk: Talk) -> None:
    talk.set_up()
    talk.say("the ivy's off to the study it seems")
    talk.press("A plant has moved")
    talk.press("Yes")
    name, entry = talk.told()[-1]
    assert isinstance(entry, PlantSet)
    assert entry.place is not None
    assert (name, talk.home.places[entry.place].name) == ("ivy", "study")


def test_what_is_missing_is_asked_where_the_subject_says_no_more(talk: Talk) -> None:
    talk.set_up()
    talk.say("the ivy's off to my sister's")
    [asked] = talk.press("I saw something")
    assert asked.startswith("What did you see, how many, and on which plant?")


def test_who_means_something_else_is_asked_what_it_is_about(talk: Talk) -> None:
    talk.set_up()
    assert "“ivy died”" in talk.say("chucked the ivy out the back, good riddance to it")[0]
    [asked] = talk.press("Something else")
    assert asked.endswith("so nothing is written. What is it about?")
    assert "A plant has moved" in talk.labels()
    assert not [one for _, one in talk.told() if isinstance(one, LostNow)]
