"""Answer to platform call: the method's name and its body, plain text and inline buttons."""

import base64
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from bot.wording.answer import Answer, Button

LONGEST_TEXT = 4096
LONGEST_CAPTION = 1024
ELLIPSIS = "…"


@dataclass(frozen=True, slots=True)
class Call:
    """One call of the platform: to which chat, which method, what body."""

    chat: int
    method: str
    body: dict[str, Any]


def send(chat: int, answer: Answer) -> Call:
    """Say something new; what goes with it stands in the row itself, so that it is sent after any stop."""
    attached = answer.picture or answer.document
    if attached is not None:
        kind, method = ("photo", "sendPhoto") if answer.picture else ("document", "sendDocument")
        content = base64.b64encode(attached.content).decode()
        held = {"name": attached.name, "base64": content}
        body: dict[str, Any] = {"chat_id": chat, "caption": fitting(answer.text, LONGEST_CAPTION), kind: held}
        if answer.buttons:
            body["reply_markup"] = keyboard(answer.buttons)
        return Call(chat, method, body)
    body = {"chat_id": chat, "text": fitting(answer.text), "link_preview_options": {"is_disabled": True}}
    if answer.buttons:
        body["reply_markup"] = keyboard(answer.buttons)
    return Call(chat, "sendMessage", body)


def edit(chat: int, message_id: int, answer: Answer) -> Call:
    """Change what an earlier message of ours says; without buttons it loses those it had."""
    body = {
        "chat_id": chat,
        "message_id": message_id,
        "text": fitting(answer.text),
        "reply_markup": keyboard(answer.buttons),
        "link_preview_options": {"is_disabled": True},
    }
    return Call(chat, "editMessageText", body)


def edit_buttons(chat: int, message_id: int, buttons: Sequence[Sequence[Button]] = ()) -> Call:
    """Change only the buttons under an earlier message of ours."""
    body = {"chat_id": chat, "message_id": message_id, "reply_markup": keyboard(buttons)}
    return Call(chat, "editMessageReplyMarkup", body)


def answer_press(chat: int, callback_id: str, notice: str = "") -> Call:
    """Tell the platform a press was noticed, so that the button stops waiting."""
    body = {"callback_query_id": callback_id} | ({"text": notice[:200]} if notice else {})
    return Call(chat, "answerCallbackQuery", body)


def keyboard(buttons: Sequence[Sequence[Button]]) -> dict[str, Any]:
    """Lay out inline buttons row by row."""
    rows = [[{"text": each.label, "callback_data": each.data} for each in row] for row in buttons]
    return {"inline_keyboard": rows}


def fitting(text: str, longest: int = LONGEST_TEXT) -> str:
    """
    Cut a text the platform would refuse for its length; whoever wrote it should have cut it better.

    The platform counts UTF-16 code units [1 to 4,096].
    """
    if not text.strip():
        raise ValueError("a message of 0 characters cannot be sent")
    units = text.encode("utf-16-le")
    if len(units) <= 2 * longest:
        return text
    return units[: 2 * (longest - 1)].decode("utf-16-le", "ignore") + ELLIPSIS
