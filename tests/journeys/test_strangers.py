"""Two households on one bot: nothing of one is ever read, pressed or changed from the other."""

import re

import pytest

from bot.actions.incoming import Photo
from bot.catalogue.load import load
from bot.conversation import Conversation
from tests.journeys.talking import OWNER, PARTNER, Talk

SECRETS = ("monstera of Ada", "Adas larder", "12 longtailed mealybugs")
HOME_A = (
    *("/start", "Gent", "monstera, Adas larder\nfern, hall", "no window", "no window"),
    "rename monstera to monstera of Ada",
)
HOME_B = (
    *("/start", "Rotterdam", "pothos, Bos attic\nivy, porch", "no window", "no window"),
    "rename pothos to pothos of Bo",
)


@pytest.fixture
def two(stranger_talk: Talk) -> Talk:
    """Two homes, each with its owner."""
    talk = stranger_talk
    talk.conversation = Conversation(load().knowledge, lambda *_: True)
    for text in HOME_A:
        talk.say(text)
    for text in HOME_B:
        talk.say(text, person=PARTNER)
    assert "monstera of Ada" in talk.say("plants")[0], "there is something to keep to oneself"
    assert "pothos of Bo" in talk.say("plants", person=PARTNER)[0]
    return talk


def test_every_button_of_one_home_is_dead_in_the_other(two: Talk) -> None:
    for text in (
        "monstera 12 longtailed mealybugs",
        "walk",
        "export",
        "fern",
        "chrt",
        "forget me",
        "mix 1 l",
        "work day",
        "put monstera back",
        "i live in Springfield",
    ):
        two.say(text)
    two.send(Photo("file-1", ""))
    two.evening()
    offered = {button.data for answer in two.shown[OWNER] for row in answer.buttons for button in row}
    assert len(offered) > 15
    before = two.entries(1), two.entries(2)
    for data in sorted(offered):
        (answer,) = two.press_data(data, person=PARTNER)
        assert answer == "That button is from an earlier message. Please say it in words."
    assert (two.entries(1), two.entries(2)) == before


FORGED: tuple[str, ...] = (
    "",
    "q",
    "q.",
    "q1",
    "q1.",
    "q.1",
    "q1.1.1",
    "q-1.0",
    "q1.-1",
    "q999999999999999999.0",
    "q1.99999",
    "x1.0",
)
FORGED += ("q\uff11.0", "q1.0\0", "Q1.0", "q 1.0", "\U0001fab4" * 16, "q1.0;DROP TABLE journal", "null")


@pytest.mark.parametrize("data", FORGED)
def test_forged_and_truncated_buttons_do_nothing(two: Talk, data: str) -> None:
    before = two.entries(1), two.entries(2)
    (answer,) = two.press_data(data, person=PARTNER)
    assert answer.startswith("That button is from an earlier message.")
    assert (two.entries(1), two.entries(2)) == before


def test_no_text_of_one_home_reaches_the_other(two: Talk) -> None:
    two.say("monstera 12 longtailed mealybugs")
    two.evening()
    asked = (
        *("plants", "isolated?", "what's due", "why", "history", "stock", "settings", "members", "routines"),
        *(
            "why monstera",
            "history monstera",
            "monstera clean",
            "monstera died",
            "photos monstera",
            "chart monstera",
        ),
        *("moved the pothos to adas larder", "release monstera", "walk", "calendar", "csv", "json", "undo"),
    )
    for text in asked:
        for answer in two.say(text, person=PARTNER):
            told = answer.replace("“monstera”", "")  # what Bo typed may be quoted back to Bo
            assert not any(secret in told for secret in SECRETS), f"{text} -> {answer}"
        document = two.shown[PARTNER][-1].document
        assert document is None or not any(secret.encode() in document.content for secret in SECRETS)


def test_markup_in_names_is_shown_as_text_and_nothing_is_parsed(two: Talk) -> None:
    from bot.telegram.outgoing import send  # noqa: PLC0415 - only here

    two.say("<b>fern</b> *bold* [x](http://y), kitchen, 12 cm")
    (answer,) = two.say("plants")
    call = send(1, two.shown[OWNER][-1])
    assert "parse_mode" not in call.body
    assert call.body["text"] == answer
    assert call.body["link_preview_options"] == {"is_disabled": True}


def test_an_invitation_of_one_home_does_not_move_somebody_out_of_the_other(two: Talk) -> None:
    found = re.search(r"/start (\S+)", two.say("invite")[0])
    assert found is not None
    two.say(f"/start {found[1]}", person=PARTNER)
    assert two.say("plants", person=PARTNER)[0].startswith("You share more than one home.")
    assert two.press("My home", person=PARTNER)[0].startswith("Bos attic")
