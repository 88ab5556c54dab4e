"""Examples, quotations, suppositions and what is taken back are offered at most, and written by nobody's word."""

import pytest

from bot.phrases.hearing import heard
from bot.phrases.notation import notation
from tests.phrases.situation import EVENING, answered, first_offer


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("for example: orchid rinsed", "done orchid method=rinse"),
        ("e.g. ivy has 4 mites", "find ivy 4 pest=spider_mite"),
        ("my husband says: hoya wiped", "done hoya method=wipe"),
        ("\u201corchid wiped\u201d", "done orchid method=wipe"),
        ("once the ivy is rinsed", "done ivy method=rinse"),
        ("rinsing the ivy later", "done ivy method=rinse"),
        ("as a boy I sprayed the ivy", "done ivy method=spray"),
        ("we were told the ivy was wiped", "done ivy method=wipe"),
        ("the diary says orchid rinsed", "done orchid method=rinse"),
        ("the ivy we rinsed looks good", "done ivy method=rinse"),
        ("were ivy and orchid wiped", "done ivy orchid method=wipe"),
    ],
)
def test_what_is_told_as_a_case_is_only_offered(text: str, offered: str) -> None:
    assert (answered(text), first_offer(text)[0]) == ("", offered)


@pytest.mark.parametrize("back", ["No wait.", "Hang on.", "Haha no."])
def test_what_a_sentence_takes_back_is_not_written_beside_a_question(back: str) -> None:
    assert "done" not in answered(f"Orchid wiped. {back} What's due?")


@pytest.mark.parametrize(
    "text",
    [
        "Sorry! Orchid wiped.",
        "Oh no, the orchid, wiped it",
    ],
)
def test_a_courtesy_in_front_takes_nothing_back(text: str) -> None:
    assert answered(text) == "done orchid method=wipe"


def test_numbers_with_no_before_them_take_nothing_back() -> None:
    assert not heard("Mites on the hoyas. No. 1: 3. No. 2: 5.", EVENING).offers


@pytest.mark.parametrize(
    "text",
    [
        "orchid not wiped. what should I do?",
        "did not wipe the orchid, what now?",
        "no wiping of the orchid. what's next?",
        "I do not recall wiping the orchid",
    ],
)
def test_what_was_not_done_is_put_off_only_where_nothing_is_asked(text: str) -> None:
    assert "later" not in answered(text)


@pytest.mark.parametrize(
    "text", ["I think I wiped the orchid. Can you see?", "Orchid wiped, do you have that?"]
)
def test_who_asks_whether_it_is_known_tells_nothing_for_sure(text: str) -> None:
    assert "done" not in answered(text)
    assert first_offer(text)[0] == "done orchid method=wipe"


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("sprayed the orchid, no neem", "done orchid method=rinse"),
        ("coffee sprayed with no soap", "done coffee method=rinse"),
        ("sprayed the coffee but not with neem", "done coffee method=rinse"),
        ("wiped the coffee, no alcohol", "done coffee method=wipe"),
        ("coffee sprayed with neem, not soap", "done coffee method=spray product=neem"),
    ],
)
def test_what_was_sprayed_without_a_product_was_rinsed(text: str, offered: str) -> None:
    assert (answered(text), first_offer(text)[0]) == ("", offered)


def test_a_spray_of_water_is_a_rinse() -> None:
    assert answered("sprayed the coffee with water") == "done coffee method=rinse"
    assert answered("sprayed the coffee with soap and water") == "done coffee method=spray product=soap"


@pytest.mark.parametrize("text", ["no neem sprayed on the ivy", "sprayed no neem on the ivy"])
def test_a_product_that_was_not_sprayed_is_looked_for(text: str) -> None:
    assert notation(heard(text, EVENING).sure, EVENING) == "deleteentry"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("coffee has 9 mealybugs, do I have to isolate it?", "find coffee 9"),
        ("chilli has 7 aphids. should I prune it?", "find chilli 7"),
        ("bay has 3 scale, will it spread?", "find bay 3"),
    ],
)
def test_what_is_seen_is_written_before_a_question_of_what_to_do(text: str, told: str) -> None:
    assert told in answered(text)


@pytest.mark.parametrize("text", ["orchid wiped, was that right?", "orchid wiped, should I have?"])
def test_a_question_that_doubts_what_is_told_leaves_it_an_offer(text: str) -> None:
    assert "done" not in answered(text)
