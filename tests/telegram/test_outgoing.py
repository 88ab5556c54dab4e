import pytest

from bot.telegram.outgoing import answer_press, edit, edit_buttons, fitting, send
from bot.wording.answer import Answer, Button

ROWS = {"inline_keyboard": [[{"text": "Done", "callback_data": "q1.0"}]]}
ANSWER = Answer(text="Tonight: the hoya.", buttons=((Button("Done", "q1.0"),),))


def test_an_answer_becomes_a_plain_message_with_buttons() -> None:
    call = send(5, ANSWER)
    assert (call.chat, call.method) == (5, "sendMessage")
    assert call.body["reply_markup"] == ROWS
    assert "parse_mode" not in call.body
    assert "reply_markup" not in send(5, Answer(text="x")).body


def test_a_message_and_its_buttons_can_be_changed() -> None:
    assert edit(5, 8, Answer(text="Done.")).body["reply_markup"] == {"inline_keyboard": []}
    assert edit_buttons(5, 8, ANSWER.buttons).body == {"chat_id": 5, "message_id": 8, "reply_markup": ROWS}
    assert answer_press(5, "q").body == {"callback_query_id": "q"}


def test_a_long_text_is_cut_between_characters_by_the_platforms_count() -> None:
    assert fitting("a" * 4096) == "a" * 4096
    # each of these takes two units, so 2,048 fit; 4,095 units leave room for 2,047 and the ellipsis
    assert fitting("🌿" * 2049) == "🌿" * 2047 + "…"


def test_nothing_cannot_be_said() -> None:
    with pytest.raises(ValueError, match="0 characters"):
        fitting(" ")
