"""A message that is not understood leads on: what it may be about is a button, and what was typed is kept."""

import pytest

from bot.actions.read_anew import SUBJECT_TEXTS, ReadAnew, Subject
from bot.domain.journal import LostNow, Postponed
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
    reading = read_as(ReadAnew(text, subject), EVENING)
    assert not reading.sure
    assert any(notation(one.commands, EVENING).startswith(meaning) for one in reading.offers)


def test_what_is_missing_is_asked_where_the_subject_says_no_more() -> None:
    assert read_as(ReadAnew("zorb", Subject.SEEN), EVENING).sure == (ReadAnew("zorb", Subject.SEEN),)


def test_who_means_something_else_is_asked_what_it_is_about(talk: Talk) -> None:
    talk.set_up()
    assert "“ivy died”" in talk.say("chucked the ivy out the back, good riddance to it")[0]
    [asked] = talk.press("Something else")
    assert asked.startswith("Not that, then: nothing is written.")
    assert SUBJECTS.intersection(talk.labels())
    assert not [one for _, one in talk.told() if isinstance(one, LostNow)]


@pytest.mark.parametrize(
    "text",
    [
        "chucked the ivy out the back, good riddance to it",
        "the hoya had better wait, visitors here all week",
        "so what with all these visitors is the hoya to be left be or no",
    ],
)
def test_what_was_refused_is_not_offered_again(talk: Talk, text: str) -> None:
    talk.set_up()
    talk.say(text)
    refused = set[str]()
    for _ in range(6):
        labels = talk.labels()
        if "Yes" in labels:
            offered = talk.shown[1][-1].text.partition("“")[2].partition("”")[0]
            assert offered not in refused
            refused.add(offered)
            talk.press("Something else" if "Something else" in labels else "All of it is wrong")
            continue
        subjects = [one for one in labels if one in SUBJECTS]
        if not subjects:
            break
        talk.press(subjects[-1])
    assert refused
    assert not [one for _, one in talk.told() if isinstance(one, LostNow | Postponed)]


def test_who_refuses_what_was_offered_may_always_ask(talk: Talk) -> None:
    talk.set_up()
    talk.say("chucked the ivy out the back, good riddance to it")
    talk.press("Something else")
    assert "I ask something" in talk.labels()


def test_of_two_things_offered_either_may_be_left_out(talk: Talk) -> None:
    talk.set_up()
    talk.say("ivy sprayed i think with soap, hoya moved to the study")
    said = talk.shown[1][-1].text
    assert "Ivy" in said or "ivy" in said
    talk.press("Something else")
    [without, *_] = [one for one in talk.labels() if one.startswith("Not ")]
    assert "Yes" in talk.labels()
    [asked] = talk.press(without)
    assert without.removeprefix("Not ") not in asked
    assert "Not written: " not in asked
