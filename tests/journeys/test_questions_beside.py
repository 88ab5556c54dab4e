"""What is asked beside what is told is answered, or said to be beyond the bot: never dropped in silence."""

import pytest

from bot.actions.ask import Ask
from bot.actions.identify import Identify
from bot.actions.not_understood import NotUnderstood
from bot.actions.set_town import SetTown
from bot.phrases.hearing import understand
from tests.journeys.talking import Talk
from tests.phrases.situation import EVENING

KEY = "What do you see?"
BEYOND = "That is beyond me"


@pytest.mark.parametrize(
    ("told", "asked", "written"),
    [
        ("Swansea. But I was asking something. What is the animal on the chilli?", KEY, "Swansea"),
        ("Ghent. And what are these small bugs on the fern?", KEY, "Gent"),
        ("Ghent. So who won the football last night then?", BEYOND, "Gent"),
    ],
)
def test_the_town_is_taken_and_the_question_behind_it_is_answered(
    stranger_talk: Talk, told: str, asked: str, written: str
) -> None:
    stranger_talk.say("/start")
    answer = "\n".join(stranger_talk.say(told))
    assert f"Written: {written}" in answer or "Written: Ghent" in answer
    assert asked in answer


@pytest.mark.parametrize(
    ("told", "asked"),
    [
        ("chilli in the cellar, gardenia in the hall. What are the threads under the leaves?", KEY),
        ("chilli in the cellar. gardenia in the hall. How far is it to the moon, do you think?", BEYOND),
    ],
)
def test_plants_are_written_and_the_question_behind_them_is_answered(
    stranger_talk: Talk, told: str, asked: str
) -> None:
    for text in ("/start", "Ghent"):
        stranger_talk.say(text)
    answer = "\n".join(stranger_talk.say(told))
    assert "Written, 2 plants" in answer
    assert asked in answer


def test_a_question_beside_a_correction_of_an_offer_leaves_the_rest_as_it_was(stranger_talk: Talk) -> None:
    for text in ("/start", "Ghent", "Lads' den: lemongrass, zorbel. porch: gardenia"):
        stranger_talk.say(text)
    answer = "\n".join(stranger_talk.say("The porch looks north. Do I have to buy soap?"))
    assert "gardenia" in answer
    assert "porch (n)" in answer


@pytest.mark.parametrize("text", ["can we do the ivy tomorrow?", "the hoya? sprayed", "ivy sprayed, ok?"])
def test_what_only_sounds_like_a_question_is_not_said_to_be_beyond(text: str) -> None:
    meant = understand(text, EVENING)
    assert not any(isinstance(one, NotUnderstood | Identify | SetTown) for one in meant)


def test_a_yes_that_other_rooms_follow_is_a_yes_and_an_offer_of_those(stranger_talk: Talk) -> None:
    for text in ("/start", "Galway", "spare room: peperomia", "east", "soap"):
        stranger_talk.say(text)
    stranger_talk.say("bay window place areca palm and elefant ear, looks east")
    answer = "\n".join(stranger_talk.say("yes good. back bedrom weeping fig and lipstik plant window west"))
    assert "Written: bay window: areca palm" in answer
    assert "weeping fig, lipstick plant" in answer
    assert "Not written yet" in answer


@pytest.mark.parametrize("text", ["approx 20 of em", "some twenty of them", "20 of those i counted"])
def test_so_many_of_them_are_what_was_seen_and_not_plants(stranger_talk: Talk, text: str) -> None:
    stranger_talk.say("/start")
    answer = "\n".join(stranger_talk.say(f"my maranta's got mealybugs, {text}. its in the library"))
    assert "20 plants" not in answer
    assert "maranta 1" not in answer


def test_what_is_denied_beside_an_offer_brings_no_new_plant(stranger_talk: Talk) -> None:
    for text in ("/start", "Omaha", "hoya and zorb in the den"):
        stranger_talk.say(text)
    answer = "\n".join(stranger_talk.say("no zorb, no plus sign (my bad)"))
    assert "“den: hoya”" in answer


@pytest.mark.parametrize(
    "text",
    [
        "what do i do tonight w the peperomia",
        "so like what am i meant to do this evening",
        "whats on tonight then",
    ],
)
def test_tonight_is_asked_as_well_while_a_window_is_asked_about(stranger_talk: Talk, text: str) -> None:
    for said in ("/start", "Galway", "spare room: peperomia, ivy", "the ivy has 9 spider mites"):
        stranger_talk.say(said)
    answer = "\n".join(stranger_talk.say(text))
    assert "tonight" in answer.lower() or "today" in answer.lower() or "look at peperomia" in answer
    assert "beyond me" not in answer


def test_the_key_that_is_gone_through_asks_on_which_plant(stranger_talk: Talk) -> None:
    for text in ("/start", "omaha", "kumquat and azalea on the breakfast bar"):
        stranger_talk.say(text)
    for label in ("no window", "Don't know: find out", "Soft little insects", "Green or pink"):
        stranger_talk.press(label)
    assert {"kumquat", "azalea"} <= set(stranger_talk.labels())
    assert "How many on kumquat" in stranger_talk.press("kumquat")[0]


@pytest.mark.parametrize("text", ["kumquat 7 green peach aphids", "7 green peach aphids on the kumquat"])
def test_a_find_told_under_the_key_is_no_answer_to_what_it_looks_like(stranger_talk: Talk, text: str) -> None:
    for said in ("/start", "omaha", "kumquat and azalea on the breakfast bar"):
        stranger_talk.say(said)
    for label in ("no window", "Don't know: find out", "Soft little insects"):
        stranger_talk.press(label)
    assert "Written: 7 green peach aphids on kumquat" in stranger_talk.say(text)[0]


def test_rooms_are_spelt_out_and_a_way_is_no_name(stranger_talk: Talk) -> None:
    for text in ("/start", "omaha", "caladium in music rm, aloe in box bedrm. sewing rm: hoya"):
        answer = stranger_talk.say(text)[0]
    assert "music room: caladium" in answer
    assert "box bedroom: aloe" in answer
    assert "rename" not in stranger_talk.say("sewing rm = w")[0]


@pytest.mark.parametrize(
    "text",
    [
        "I don't live in Ghent. What do you do?",
        "Not far from Ghent. What can you do?",
        "Ghent? No. Which towns do you know?",
        "Ghent. I moved to Bruges. What's next?",
    ],
)
def test_a_town_that_is_denied_or_left_is_not_written(stranger_talk: Talk, text: str) -> None:
    stranger_talk.say("/start")
    assert "Written" not in "\n".join(stranger_talk.say(text))


@pytest.mark.parametrize(
    "text",
    [
        "yes good. without zorb. hall: fern",
        "yes great. remove zorb. hall: fern",
        "yes good. zorb died. hall: fern",
        "yes good. except attic. hall: fern",
        "yes good. blorb is a chair. hall: fern",
        "yes perfect. hall: fern, zorb moved to porch",
    ],
)
def test_a_yes_that_what_follows_takes_back_in_part_writes_nothing(stranger_talk: Talk, text: str) -> None:
    for said in ("/start", "Ghent", "den: zorb. attic: blorb, hoya"):
        stranger_talk.say(said)
    assert "Written" not in "\n".join(stranger_talk.say(text))


@pytest.mark.parametrize("text", ["is north ok?", "what about no window?", "what if it looks north?"])
def test_a_window_that_is_asked_about_is_not_written(stranger_talk: Talk, text: str) -> None:
    for said in ("/start", "Ghent", "ivy in the den"):
        stranger_talk.say(said)
    assert "Written" not in "\n".join(stranger_talk.say(text))


@pytest.mark.parametrize(
    "text",
    [
        "Why, did the hoya get sprayed",
        "Why, the hoya was sprayed, was it",
        "Why, no, hoya was not sprayed",
        "why, was the ivy moved to the kitchen",
        "why, oh why, did I spray the hoya with neem",
    ],
)
def test_a_why_that_asks_tells_nothing(text: str) -> None:
    assert all(isinstance(one, Ask | NotUnderstood) for one in understand(text, EVENING))


@pytest.mark.parametrize(
    "text",
    [
        "sprayed the coffee. Isn't it great?",
        "hoya sprayed. Got it?",
    ],
)
def test_what_is_no_question_to_the_bot_is_not_said_to_be_beyond(text: str) -> None:
    assert not any(isinstance(one, NotUnderstood) for one in understand(text, EVENING))


@pytest.mark.parametrize(
    "text",
    [
        "15, as i said. nothing to treat with",
        "I was saying already: about 15, under the leaves. to treat I am having nothing yet",
    ],
)
def test_a_number_that_is_asked_for_is_not_lost_beside_an_empty_shelf(stranger_talk: Talk, text: str) -> None:
    for said in ("/start", "Linz", "cloakroom: kumquat, ivy. west", "the kumquat has melon aphids"):
        stranger_talk.say(said)
    assert "15 melon aphids" in stranger_talk.say(text)[0]
