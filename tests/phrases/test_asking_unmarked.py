"""How a question begins is known in one place, with a mark behind it or without."""

import pytest

from bot.phrases.questions import asks_unmarked, asks_wholly


@pytest.mark.parametrize(
    "text",
    ["is the coffee done", "ok so did we rinse it", "must I wipe the bay", "who pruned it", "wiped by whom"],
)
def test_who_turns_the_words_round_asks_without_a_mark(text: str) -> None:
    assert asks_unmarked(text)


@pytest.mark.parametrize(
    "text", ["when I got home I wiped it", "what a day", "has thrips, the ivy", "do the bay"]
)
def test_who_only_begins_like_a_question_does_not(text: str) -> None:
    assert not asks_unmarked(text)


@pytest.mark.parametrize("text", ["and when is the next one?", "how do I wipe?", "should we move it?"])
def test_a_sentence_with_a_mark_asks_from_its_first_word_on(text: str) -> None:
    assert asks_wholly(text)


@pytest.mark.parametrize("text", ["can you note that?", "the ivy?", "rinse it, right?", "when then?"])
def test_a_tag_a_request_and_a_name_are_no_whole_question(text: str) -> None:
    assert not asks_wholly(text)
