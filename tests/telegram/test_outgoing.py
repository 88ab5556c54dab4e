import pytest

from bot.telegram.outgoing import Context, answer_press, edit, edit_buttons, fitting, send
from bot.wording.answer import Answer, Attachment, Button, Invitation

ROWS = {"inline_keyboard": [[{"text": "Done", "callback_data": "q1.0"}]]}
ANSWER = Answer(text="Tonight: the hoya.", buttons=((Button("Done", "q1.0"),),))


def test_an_answer_becomes_a_plain_message_with_buttons() -> None:
    call = send(5, ANSWER)
    assert (call.chat, call.method) == (5, "sendMessage")
    assert call.body["reply_markup"] == ROWS
    assert "parse_mode" not in call.body
    assert "reply_markup" not in send(5, Answer(text="x")).body


def test_a_message_and_its_buttons_can_be_changed() -> None:
    assert edit(5, 8, Answer(text="Done.")).body.get("reply_markup") is None
    assert edit_buttons(5, 8, ANSWER.buttons).body == {"chat_id": 5, "message_id": 8, "reply_markup": ROWS}
    assert answer_press(5, "q").body == {"callback_query_id": "q"}


def test_what_stands_out_is_counted_as_the_platform_counts() -> None:
    # worked by hand in UTF-16 units: the leaf takes two, a space and "Hoya: " six more; the bold line is ten
    said = Answer(text="🌿 Hoya: spray now.\nWhy: eggs hatch.", bold="spray now.", folded="Why: eggs hatch.")
    entities = [(one["type"], one["offset"], one["length"]) for one in send(5, said).body["entities"]]
    assert entities == [("bold", 9, 10), ("expandable_blockquote", 20, 16)]


def test_a_part_that_is_not_in_the_text_marks_nothing() -> None:
    assert "entities" not in send(5, Answer(text="Tonight.", bold="Tomorrow.")).body


def test_a_repeat_comes_without_a_sound() -> None:
    assert send(5, Answer(text="x", is_silent=True)).body["disable_notification"] is True
    assert "disable_notification" not in send(5, Answer(text="x")).body


def test_a_group_is_offered_the_reply_where_words_are_asked_for() -> None:
    asks = Answer(text="Which town?", wants_words=True)
    in_group = send(-5, asks, Context(replies_to=31)).body
    assert in_group["reply_markup"] == {"force_reply": True, "selective": True}
    assert in_group["reply_parameters"]["message_id"] == 31
    assert "reply_markup" not in send(5, asks, Context(replies_to=31)).body
    with_buttons = Answer(text="Which town?", wants_words=True, buttons=ANSWER.buttons)
    assert send(-5, with_buttons, Context(replies_to=31)).body["reply_markup"] == ROWS


def test_the_location_button_stands_in_private_chats_only() -> None:
    asks = Answer(text="Which town?", location_label="Share my place")
    (row,) = send(5, asks).body["reply_markup"]["keyboard"]
    assert row == [{"text": "Share my place", "request_location": True}]
    assert "reply_markup" not in send(-5, asks).body
    settled = send(5, Answer(text="Ghent.", is_location_settled=True)).body
    assert settled["reply_markup"] == {"remove_keyboard": True}


def test_an_invitation_is_the_bots_own_link_with_a_button_that_hands_it_on() -> None:
    invitation = Answer(text="For two days:", invitation=Invitation("abc-1", "Send it"))
    body = send(5, invitation, Context("duskround_bot")).body
    assert body["text"] == "For two days:\nhttps://t.me/duskround_bot?start=abc-1"
    ((button,),) = body["reply_markup"]["inline_keyboard"]
    assert button["text"] == "Send it"
    assert button["url"] == "https://t.me/share/url?url=https%3A%2F%2Ft.me%2Fduskround_bot%3Fstart%3Dabc-1"


def test_a_picture_and_a_file_stand_in_the_row_itself() -> None:
    held = {"name": "plan.ics", "base64": "QkVHSU4="}  # "BEGIN", RFC 4648
    call = send(5, Answer(text="The plan.", document=Attachment("plan.ics", b"BEGIN")))
    assert (call.method, call.body["document"], call.body["caption"]) == ("sendDocument", held, "The plan.")
    assert send(5, Answer(text="x", picture=Attachment("a.png", b"BEGIN"))).method == "sendPhoto"


def test_a_long_text_is_cut_between_characters_by_the_platforms_count() -> None:
    assert fitting("a" * 4096) == "a" * 4096
    # each of these takes two units, so 2,048 fit; 4,095 units leave room for 2,047 and the ellipsis
    assert fitting("🌿" * 2049) == "🌿" * 2047 + "…"


def test_nothing_cannot_be_said() -> None:
    with pytest.raises(ValueError, match="0 characters"):
        fitting(" ")
