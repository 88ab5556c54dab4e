"""Who did what on a day is answered from the journal, and one puts right what the other wrote."""

import re

import pytest

from bot.domain.journal import Found, Treated
from tests.journeys.talking import OWNER, PARTNER, Talk


@pytest.fixture
def couple(talk: Talk) -> Talk:
    """Bo shares the plants and has wiped; Ada wrote a spray that never was, and a number that is wrong."""
    talk.say("invite")
    code = re.search(r"/start (\S{12})", talk.shown[OWNER][-1].text)
    assert code is not None
    talk.say(code[0], person=PARTNER)
    talk.say("got neem, ready to use, every 7 days")
    talk.say("hoya 3 longtailed mealybugs")
    talk.say("sprayed the hoya with neem")
    talk.say("wiped the hoya", person=PARTNER)
    return talk


@pytest.mark.parametrize(
    ("words", "days"),
    [
        ("what did Bo do today", 0),
        ("what has bo done so far today?", 0),
        ("What did bo do yesterday?", 1),
        ("what did Bo do on saturday", 1),
        ("hello again. what did bo do this week", 1),
    ],
)
def test_what_the_other_did_on_a_day_is_told_from_the_journal(couple: Talk, words: str, days: int) -> None:
    couple.passes(days=days)
    (answer,) = couple.say(words)
    assert answer.startswith("Bo, ")
    assert "hoya wiped" in answer
    assert "sprayed" not in answer


@pytest.mark.parametrize("words", ["what did I do today", "what have i done today?"])
def test_ones_own_day_is_ones_own(couple: Talk, words: str) -> None:
    (answer,) = couple.say(words)
    assert "hoya sprayed" in answer
    assert "hoya wiped" not in answer


@pytest.mark.parametrize(
    "words", ["what did we do today?", "what have we done today", "what did everybody do"]
)
def test_all_are_told_with_who_it_was(couple: Talk, words: str) -> None:
    (answer,) = couple.say(words)
    assert "hoya wiped (Bo)" in answer
    assert "hoya sprayed (Ada)" in answer


def test_a_day_without_a_word_says_so(couple: Talk) -> None:
    couple.passes(days=2)
    assert couple.say("what did Bo do yesterday") == ["Nothing is written of Bo for yesterday, Sun 3 May."]


@pytest.mark.parametrize(
    "words",
    [
        "no no, i just wiped it, no neem sprayed on the hoya",
        "the hoya never got neem",
        "sorry, there was no neem used on hoya",
    ],
)
def test_what_the_other_wrote_is_shown_and_deleted_on_a_tap(couple: Talk, words: str) -> None:
    (answer,) = couple.say(words, person=PARTNER)
    assert "hoya sprayed (neem oil) by Ada" in answer
    couple.press("Delete it", person=PARTNER)
    assert [one.method.value for _, one in couple.told() if isinstance(one, Treated)] == ["wipe"]


@pytest.mark.parametrize(
    "words",
    ["no, it was 2 on the hoya", "correct: hoya 2 today, not 3", "Wait, there were 2 on hoya and not 3"],
)
def test_a_number_is_put_right_on_a_tap(couple: Talk, words: str) -> None:
    (answer,) = couple.say(words)
    assert "hoya 2 longtailed mealybug" in answer
    couple.press("Change it")
    assert [one.count for _, one in couple.told() if isinstance(one, Found)] == [2]
