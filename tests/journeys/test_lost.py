"""A message that is not understood leads on: what it may be about is a button, and what was typed is kept."""

import pytest

from bot.actions.read_anew import SUBJECT_TEXTS, ReadAnew, Subject
from bot.domain.journal import LostNow
from bot.phrases.notation import notation
from bot.phrases.reading import read_as
from bot.wording.button_texts import BUTTON_TEXTS
from tests.journeys.talking import Talk
from tests.phrases.situation import EVENING

SUBJECTS = {BUTTON_TEXTS[text] for text in SUBJECT_TEXTS.values()}


@pytest.mark.parametrize(
    "text", ["flimmer zorb the quaddle hoya", "ivy quaddled sort of zorb wise", "zorb zorb zorb hoya"]
)
def test_a_lost_message_is_asked_what_it_is_about_and_writes_nothing(talk: Talk, text: str) -> None:
    talk.set_up()
    before = talk.told()
    assert text in talk.say(text)[0]
    [*subjects] = SUBJECTS.intersection(talk.labels())
    assert subjects
    talk.press(subjects[0])
    assert talk.told() == before


@pytest.mark.parametrize(
    ("text", "subject", "meaning"),
    [
        ("hoya had better wait, visitors here", Subject.LATER, "later hoya"),
        ("the ivy's off to the study it seems", Subject.MOVED, "move ivy place=study"),
    ],
)
def test_what_its_writer_says_it_is_about_is_offered(text: str, subject: Subject, meaning: str) -> None:
    reading = read_as(text, subject, EVENING)
    assert not reading.sure
    assert any(notation(one.commands, EVENING).startswith(meaning) for one in reading.offers)


def test_what_is_missing_is_asked_where_the_subject_says_no_more() -> None:
    assert read_as("zorb", Subject.SEEN, EVENING).sure == (ReadAnew("zorb", Subject.SEEN),)


def test_who_means_something_else_is_asked_what_it_is_about(talk: Talk) -> None:
    talk.set_up()
    assert "“ivy died”" in talk.say("chucked the ivy out the back, good riddance to it")[0]
    [asked] = talk.press("Something else")
    assert asked.endswith("so nothing is written. What is it about?")
    assert SUBJECTS.intersection(talk.labels())
    assert not [one for _, one in talk.told() if isinstance(one, LostNow)]
