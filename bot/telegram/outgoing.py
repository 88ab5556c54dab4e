"""Answer to platform call: the method's name and its arguments, as JSON has them."""

import base64
from collections.abc import Iterator, Sequence
from typing import Any
from urllib.parse import urlencode

from telegram.constants import CallbackQueryLimit, MessageEntityType, MessageLimit
from telegram.helpers import create_deep_linked_url

from bot.domain.value import Value
from bot.wording.answer import Answer, Button

NO_PREVIEW = {"is_disabled": True}
SHARE_URL = "https://t.me/share/url"
ELLIPSIS = "…"
_TURNS = dict.fromkeys((0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)))
"""Marks that turn the direction of what follows (from memory, Unicode Annex 9): no name may do so."""


class Call(Value):
    """One call of the platform: to which chat, which method, what arguments, as they are kept until sent."""

    chat: int
    method: str
    body: dict[str, Any]


class Context(Value):
    """What a message needs that no answer knows: the bot's own name, and the message it answers."""

    username: str = ""
    replies_to: int | None = None


NOWHERE = Context()


def send(chat: int, answer: Answer, context: Context = NOWHERE) -> Call:
    """Say something new; what goes with it stands in the row itself, so that it is sent after any stop."""
    body: dict[str, Any] = {"chat_id": chat}
    text, link = answer.text, ""
    if answer.invitation is not None:
        link = create_deep_linked_url(context.username, answer.invitation.code)
        text = f"{text}\n{link}"
    attached = answer.picture or answer.document
    if attached is not None:
        kind = "photo" if answer.picture else "document"
        body[kind] = {"name": attached.name, "base64": base64.b64encode(attached.content).decode()}
        body["caption"] = fitting(text, MessageLimit.CAPTION_LENGTH)
    else:
        kind = "message"
        body |= _worded(text, answer)
    if answer.is_silent:
        body["disable_notification"] = True
    is_group = chat < 0
    if answer.wants_words and is_group and context.replies_to is not None:
        body["reply_parameters"] = {"message_id": context.replies_to, "allow_sending_without_reply": True}
    markup = _markup(answer, link, is_group=is_group)
    return Call(chat, f"send{kind.capitalize()}", body | ({"reply_markup": markup} if markup else {}))


def edit(chat: int, message_id: int, answer: Answer) -> Call:
    """Change what an earlier message of ours says; without buttons it loses those it had."""
    body = {"chat_id": chat, "message_id": message_id} | _worded(answer.text, answer)
    return Call(chat, "editMessageText", body | _under(answer.buttons))


def edit_buttons(chat: int, message_id: int, buttons: Sequence[Sequence[Button]] = ()) -> Call:
    """Change only the buttons under an earlier message of ours."""
    body = {"chat_id": chat, "message_id": message_id}
    return Call(chat, "editMessageReplyMarkup", body | _under(buttons))


def answer_press(chat: int, callback_id: str, notice: str = "") -> Call:
    """Tell the platform a press was noticed, so that the button stops waiting."""
    told = {"text": notice[: CallbackQueryLimit.ANSWER_CALLBACK_QUERY_TEXT_LENGTH]} if notice else {}
    return Call(chat, "answerCallbackQuery", {"callback_query_id": callback_id} | told)


def pin(chat: int, message_id: int) -> Call:
    """Keep a message of ours at the head of its chat, without a sound."""
    body = {"chat_id": chat, "message_id": message_id, "disable_notification": True}
    return Call(chat, "pinChatMessage", body)


def unpin(chat: int, message_id: int) -> Call:
    """Let a pinned message go."""
    return Call(chat, "unpinChatMessage", {"chat_id": chat, "message_id": message_id})


def _rows(buttons: Sequence[Sequence[Button]]) -> list[list[dict[str, str]]]:
    """Lay out inline buttons row by row."""
    return [
        [{"text": each.label.translate(_TURNS), "callback_data": each.data} for each in row]
        for row in buttons
    ]


def _under(buttons: Sequence[Sequence[Button]]) -> dict[str, Any]:
    return {"reply_markup": {"inline_keyboard": _rows(buttons)}} if buttons else {}


def _markup(answer: Answer, link: str, *, is_group: bool) -> dict[str, Any] | None:
    """Choose what stands under a message; the platform takes one kind, and buttons go first."""
    if link and answer.invitation is not None:
        shared = f"{SHARE_URL}?{urlencode({'url': link})}"
        share = {"text": answer.invitation.label, "url": shared}
        return {"inline_keyboard": [*_rows(answer.buttons), [share]]}
    if answer.buttons:
        return {"inline_keyboard": _rows(answer.buttons)}
    if answer.wants_words and is_group:
        return {"force_reply": True, "selective": True}
    if answer.location_label and not is_group:
        button = {"text": answer.location_label, "request_location": True}
        return {"keyboard": [[button]], "resize_keyboard": True, "one_time_keyboard": True}
    if answer.is_location_settled and not is_group:
        return {"remove_keyboard": True}
    return None


def _worded(text: str, answer: Answer) -> dict[str, Any]:
    """Give a text with what stands out in it."""
    shown = fitting(text)
    entities = list(_entities(shown, answer))
    return {"text": shown, "link_preview_options": NO_PREVIEW} | ({"entities": entities} if entities else {})


def _entities(text: str, answer: Answer) -> Iterator[dict[str, Any]]:
    marks = (MessageEntityType.BOLD, answer.bold), (MessageEntityType.EXPANDABLE_BLOCKQUOTE, answer.folded)
    for kind, part in marks:
        at = text.find(part) if part else -1
        if at >= 0:
            yield {"type": kind.value, "offset": _units(text[:at]), "length": _units(part)}


def _units(text: str) -> int:
    """Count as the platform does: UTF-16 code units."""
    return len(text.encode("utf-16-le")) // 2


def fitting(text: str, longest: int = MessageLimit.MAX_TEXT_LENGTH) -> str:
    """
    Cut a text the platform would refuse for its length; whoever wrote it should have cut it better.

    The platform counts UTF-16 code units [1 to 4,096].
    """
    text = text.translate(_TURNS)
    if not text.strip():
        raise ValueError("a message of 0 characters cannot be sent")
    units = text.encode("utf-16-le")
    if len(units) <= 2 * longest:
        return text
    return units[: 2 * (longest - 1)].decode("utf-16-le", "ignore") + ELLIPSIS
