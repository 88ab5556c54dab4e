"""Never pushes: silence ends in one question and then in quiet; long answers come in parts."""

from datetime import timedelta

import pytest

from bot.domain.journal import CheckedClean, Nudged, SilenceAsked
from bot.messages import LONG_TEXT, split
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


def test_five_silent_evenings_end_in_one_kind_line_and_then_in_one_a_week(outbreak: Talk) -> None:
    began = outbreak.now.date()
    said = silent_weeks(outbreak, 40)
    asked = [entry.happened_on for entry in outbreak.entries() if isinstance(entry.payload, SilenceAsked)]
    # written from 2 May on; five evenings are over on the 7th, and then a week each: within forty days five lines
    assert [(on - began).days for on in asked] == [5, 12, 19, 26, 33]
    (line,) = {text for text in said if "heard nothing" in text}
    assert line.startswith("Since Sat 2 May I have heard nothing; that is all right. Shall I go on?")
    assert said[-5:] == [line] * 5
    assert outbreak.labels() == ["Go on", "Quiet until I write"]
    nudges = [entry.happened_on for entry in outbreak.entries() if isinstance(entry.payload, Nudged)]
    assert max(nudges) < asked[0]
    assert max(nudges.count(on) for on in nudges) <= 2  # at most two messages an evening nobody asked for


@pytest.mark.parametrize("word", ["isolated?", "hello", "thanks", "what's due", "undo"])
def test_who_comes_back_is_asked_to_look_first(outbreak: Talk, word: str) -> None:
    silent_weeks(outbreak, 30)
    before = len(outbreak.told())
    answer = outbreak.say(word)[0]
    assert "First a look" in answer
    assert outbreak.labels()[:1] == ["None seen"] or word == "undo"
    asked = answer.rpartition("First a look, then I plan by what you see: ")[2].partition(". “")[0]
    outbreak.say("all clean")
    looked = {plant for plant, payload in outbreak.told()[before:] if isinstance(payload, CheckedClean)}
    assert looked == set(asked.replace(" and ", ", ").split(", ")), "just those it named"
    assert outbreak.evening()[0].startswith("Tonight,"), "and the evenings come again"


def test_go_on_asks_for_a_look_and_shows_no_old_list(outbreak: Talk) -> None:
    silent_weeks(outbreak, 30)
    answer = outbreak.press("Go on")[0]
    assert "First a look" in answer
    assert "spray" not in answer.lower()
    (text,) = outbreak.evening()
    assert "Look at" in text
    assert "spray" not in text.lower(), "what was planned weeks ago is a guess until somebody looks"


def test_where_a_look_comes_first_nothing_is_mixed(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("got soap, concentrate, 20 ml per litre, every 7 days")
    assert "Mix" in talk.evening()[0]
    silent_weeks(talk, 30)
    talk.press("Go on")
    (text,) = talk.evening()
    assert "Look at" in text
    assert "Mix" not in text


def test_a_find_told_on_coming_back_is_planned_at_once(outbreak: Talk) -> None:
    silent_weeks(outbreak, 30)
    outbreak.say("hoya 3")
    (text,) = outbreak.evening()
    assert "hoya" in text.splitlines()[1], "its work stands first"
    assert "hoya" not in next(line for line in text.splitlines() if line.startswith("Look")).replace(
        "small hoya", ""
    )


@pytest.mark.parametrize(
    "words", ["once is enough", "stop writing twice", "one message is enough", "don't remind me twice"]
)
def test_once_is_enough_ends_the_repeats_and_is_taken_back_by_its_own_words(
    outbreak: Talk, words: str
) -> None:
    outbreak.say(words)
    assert all(text.startswith("Tonight,") for _ in range(3) for text in outbreak.evening())
    assert "comes a second time" in outbreak.say("remind me twice")[0]
    outbreak.evening()
    assert outbreak.evening()[0].startswith("Once more")


def test_the_repeat_has_the_button_that_ends_it_and_is_silent(outbreak: Talk) -> None:
    outbreak.evening()
    outbreak.evening()
    assert outbreak.shown[OWNER][-1].is_silent
    outbreak.press("Once is enough")
    outbreak.evening()
    assert outbreak.evening()[0].startswith("Tonight,")


def test_nothing_is_repeated_where_all_is_settled(outbreak: Talk) -> None:
    outbreak.evening()
    button = outbreak.button("All done")
    outbreak.press_data(button)
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
    assert talk.say("history hoya")[0].startswith("today: hoya longtailed mealybug\n")
    talk.joins()
    talk.say("hoya clean", person=PARTNER)
    assert talk.say("history hoya")[0].startswith(
        "today: hoya none seen (Bo)\ntoday: hoya longtailed mealybug (Ada)\n"
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
