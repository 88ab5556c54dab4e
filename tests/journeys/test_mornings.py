"""What waits for the morning is named when its slot opens, unless it was answered before."""

from datetime import timedelta

import pytest

from bot.domain.journal import Postponed, Treated
from bot.domain.trade import Method
from tests.journeys.talking import Talk

FACES_SOUTH = (
    "/start",
    "Gent",
    "ivy, study",
    "study faces west",
    "got soap, ready to use, every 7 days",
    "evening at 19:00",
    "quiet from 20:00 to 07:00",
)


@pytest.fixture
def waiting(stranger_talk: Talk) -> Talk:
    """The sun stays on the ivy until the quiet hours: it is sprayed in the morning."""
    stranger_talk.set_up(FACES_SOUTH)
    stranger_talk.say("ivy 12 longtailed mealybugs")
    text = stranger_talk.evening()[0]
    assert "Tomorrow morning, 07:00 to 12:46: soap on ivy." in text
    stranger_talk.passes(minutes=5)
    stranger_talk.say("wiped")
    return stranger_talk


def sprays(talk: Talk) -> list[Treated]:
    told = [payload for _, payload in talk.told() if isinstance(payload, Treated)]
    return [one for one in told if one.method is Method.SPRAY]


def test_what_waits_for_the_morning_gets_its_own_short_message(waiting: Talk) -> None:
    evening = waiting.now.date()
    (text,) = waiting.evening()
    assert waiting.now.date() == evening + timedelta(days=1)
    assert 7 <= waiting.now.hour < 13
    assert text.startswith("This morning, ")
    assert "Spray ivy" in text
    assert "Wipe" not in text
    assert "Before the sun comes at 12:46: ivy." in text
    assert waiting.labels() == ["Morning done", "Not now"]


@pytest.mark.parametrize("words", ["done", "sprayed", "ivy done", "👍"])
def test_it_is_answered_in_words(waiting: Talk, words: str) -> None:
    waiting.evening()
    waiting.passes(minutes=10)
    waiting.say(words)
    assert len(sprays(waiting)) == 1
    assert waiting.entries()[-1].happened_on == waiting.now.date()


@pytest.mark.parametrize("words", ["sprayed ivy with soap", "not tonight", "ivy died"])
def test_what_was_answered_before_is_not_named_again(waiting: Talk, words: str) -> None:
    waiting.say(words)
    night = waiting.now
    texts = waiting.evening()
    assert not any("This morning" in text for text in texts), (night, texts)


def test_the_morning_comes_once_and_can_be_put_off(waiting: Talk) -> None:
    waiting.evening()
    waiting.press("Not now")
    assert any(isinstance(payload, Postponed) for _, payload in waiting.told())
    assert not any("This morning" in text for text in waiting.evening())


def test_a_done_in_the_evening_leaves_the_morning(waiting: Talk) -> None:
    waiting.say("done")
    assert sprays(waiting) == []
    assert "This morning" in waiting.evening()[0]


def test_what_is_sprayed_in_the_morning_is_waited_for_from_then_on(stranger_talk: Talk) -> None:
    stranger_talk.set_up([line.replace("ivy", "mint") for line in FACES_SOUTH])
    stranger_talk.say("soap label: 3 days before harvest")
    stranger_talk.say("mint 12 green peach aphids")
    assert "Tomorrow morning" in stranger_talk.evening()[0]
    answer = stranger_talk.say("when can i eat the mint?")[0]
    sprayed_on = stranger_talk.now.date() + timedelta(days=1)
    assert f"in the morning, {sprayed_on:%a} {sprayed_on.day} May" in answer
    # worked by hand: three days after the morning's spray, four after the evening it is asked on
    free_on = sprayed_on + timedelta(days=3)
    assert f"not before {free_on:%a} {free_on.day} May" in answer
