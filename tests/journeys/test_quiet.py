"""Never pushes: silence ends in one question and then in quiet; long answers come in parts."""

from datetime import timedelta

import pytest

from bot.conversation import LONG_TEXT, split
from bot.domain.journal import Nudged, SilenceAsked
from tests.journeys.talking import OWNER, PARTNER, Talk


def silent_weeks(talk: Talk, days: int) -> list[str]:
    """Let days pass without a word and give what the bot said on its own."""
    end, said = talk.now + timedelta(days=days), []
    while (due := talk.next_at()) is not None and due <= end:
        new = talk.tick(max(due, talk.now))
        if not new and talk.next_at() == due:
            break
        said += new
    talk.now = end
    return said


def test_a_week_of_silence_ends_in_one_question_and_then_in_quiet(outbreak: Talk) -> None:
    said = silent_weeks(outbreak, 60)
    (question,) = [text for text in said if "heard nothing" in text]
    assert question.startswith(
        "I have written each evening since Sat 2 May and heard nothing. Shall I go on?"
    )
    assert said[-1] == question
    assert outbreak.labels() == ["Go on", "Quiet until I write"]
    nudges = [entry.happened_on for entry in outbreak.entries() if isinstance(entry.payload, Nudged)]
    asked = [entry.happened_on for entry in outbreak.entries() if isinstance(entry.payload, SilenceAsked)]
    assert (asked[0] - nudges[0]).days >= 7
    assert max(nudges.count(on) for on in nudges) <= 2  # at most two messages an evening nobody asked for


@pytest.mark.parametrize("word", ["isolated?", "hello", "thanks", "hoya clean", "undo"])
def test_any_word_brings_the_evenings_back(outbreak: Talk, word: str) -> None:
    silent_weeks(outbreak, 30)
    assert outbreak.next_at() is None
    outbreak.say(word)
    assert outbreak.next_at() is not None


def test_go_on_shows_what_is_due_and_the_evenings_come_again(outbreak: Talk) -> None:
    silent_weeks(outbreak, 30)
    assert "hoya" in outbreak.press("Go on")[0]
    assert outbreak.evening()[0].startswith("Tonight,")


def test_quiet_until_i_write_is_kept(outbreak: Talk) -> None:
    silent_weeks(outbreak, 30)
    assert outbreak.press("Quiet until I write")[0].startswith("I stay quiet until you write “back”.")
    assert outbreak.evening() == []


def test_who_answers_now_and_then_is_never_asked(outbreak: Talk) -> None:
    said: list[str] = []
    for _ in range(6):
        said += silent_weeks(outbreak, 5)
        outbreak.say("isolated?")
    assert not any("heard nothing" in text for text in said)


def test_the_others_message_says_who_answered(outbreak: Talk) -> None:
    outbreak.joins()
    (mine, theirs) = outbreak.evening()
    assert mine == theirs
    with outbreak.database.unit() as store:  # as the platform's own message holds it
        entries = outbreak.nudges[-1]
        assert entries.chat in {OWNER, PARTNER}
        store.queue("nudge:1:2026-05-02:1:9", 9, "sendMessage", {"text": "Tonight"}, outbreak.now)
    outbreak.say("done", person=PARTNER)
    edits = {chat: answer for chat, _, answer in outbreak.heard[-1].edits}
    assert edits[PARTNER] is None  # only the buttons go where it was answered
    assert OWNER in edits


def test_history_says_who_told_what_where_several_share_the_plants(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    assert talk.say("history hoya")[0].endswith("today: hoya longtailed mealybug")
    talk.joins()
    talk.say("hoya clean", person=PARTNER)
    assert talk.say("history hoya")[0].endswith(
        "today: hoya longtailed mealybug (Ada)\ntoday: hoya none seen (Bo)"
    )


def test_a_long_list_comes_in_parts(talk: Talk) -> None:
    add_many(talk)
    (first,) = talk.say("plants")
    assert len(first) <= LONG_TEXT
    assert talk.labels()[-1] == "More"
    whole = [first]
    while "More" in talk.labels():
        whole += talk.press("More")
    listed = "\n".join(whole)
    assert all(plant.name in listed for plant in talk.home.living)
    assert len(whole) > 1


def add_many(talk: Talk) -> None:
    """Add sixty plants in two messages."""
    lines = [f"cactus {name} of the long windowsill, shelf {name}, 12 cm" for name in _names(60)]
    for half in (lines[:30], lines[30:]):
        assert talk.say("\n".join(half))[0].startswith("Written, 30 plants")


def _names(count: int) -> list[str]:
    """Give names of letters alone."""
    return [f"{chr(97 + number // 26)}{chr(97 + number % 26)}x" for number in range(count)]


def test_more_leaves_the_open_question_open(talk: Talk) -> None:
    add_many(talk)
    talk.say("ivy 8 spider mites")
    talk.say("plants")
    talk.press("More")
    talk.press("It is apart now")
    assert next(plant for plant in talk.home.living if plant.name == "ivy").is_apart


@pytest.mark.parametrize("length", [0, 10, LONG_TEXT, LONG_TEXT + 1, 4 * LONG_TEXT])
def test_splitting_loses_nothing(length: int) -> None:
    text = "\n".join("word" * 10 for _ in range(length // 41 + 1))[:length]
    shown, rest = split(text)
    assert "\n".join([shown, rest] if rest else [shown]) == text
