"""The bot API's methods, as far as a chat bot of ours needs them."""

import re
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from demo.chats import Chat, Chats, Json, Message, StoredFile
from demo.updates import WEBHOOK_ACTIVE, RefusedError, Updates, Webhook, parsed

LONGEST_TEXT = 4096
LONGEST_CAPTION = 1024
LONGEST_NOTICE = 200
LONGEST_DATA_BYTES = 64
LONGEST_DESCRIPTION = 512
LONGEST_SHORT_DESCRIPTION = 120
MOST_COMMANDS = 100
NOT_MODIFIED = (
    "message is not modified: specified new message content and reply markup are exactly the same"
    " as a current content and reply markup of the message"
)
QUERY_TOO_OLD = "query is too old and response timeout expired or query ID is invalid"
COMMAND_NAME = re.compile(r"[a-z0-9_]{1,32}")
SECRET = re.compile(r"[A-Za-z0-9_-]{0,256}")


@dataclass(frozen=True, slots=True)
class Upload:
    """One file part of a multipart body."""

    name: str
    kind: str
    body: bytes


@dataclass(frozen=True, slots=True)
class Call:
    """One call's arguments, whether they came as a form or as JSON."""

    fields: Mapping[str, Any]
    uploads: Mapping[str, Upload]

    def text(self, name: str) -> str:
        """Read a text, empty if missing."""
        value = self.fields.get(name, "")
        return value if isinstance(value, str) else str(value)

    def integer(self, name: str, default: int | None = None) -> int:
        """Read a whole number."""
        value = self.fields.get(name, default)
        if value is None:
            raise bad(f"{name} is empty")
        try:
            return int(value)
        except (TypeError, ValueError, OverflowError):
            raise bad(f"{name} must be an integer") from None

    def value(self, name: str) -> Any:
        """Read a JSON value, None if missing."""
        try:
            return parsed(self.fields.get(name))
        except (ValueError, RecursionError):
            raise bad(f"can't parse {name} JSON") from None

    def flag(self, name: str) -> bool:
        """Read a truth value."""
        return self.text(name).lower() in {"true", "1"}


def bad(why: str) -> RefusedError:
    """Refuse with 400."""
    return RefusedError(400, f"Bad Request: {why}")


class Methods:
    """The methods by name; getUpdates alone has to wait."""

    def __init__(self, token: str, chats: Chats, updates: Updates, webhook: Webhook) -> None:
        self.token = token
        self.chats = chats
        self.updates = updates
        self.webhook = webhook
        self.calls: Counter[str] = Counter()
        self.queries: dict[str, str] = {}
        self.me: Json = {
            "id": int(token.partition(":")[0]),
            "is_bot": True,
            "first_name": "Duskround",
            "username": "duskround_bot",
        }
        self._commands: dict[str, list[Json]] = {}
        self.description = self.short_description = ""
        self.by_name: dict[str, Callable[[Call], Any]] = {
            "getMe": self._get_me,
            "sendMessage": self._send_message,
            "sendPhoto": self._send_photo,
            "sendDocument": self._send_document,
            "sendChatAction": self._send_chat_action,
            "editMessageText": self._edit_text,
            "editMessageReplyMarkup": self._edit_markup,
            "deleteMessage": self._delete_message,
            "setMessageReaction": self._react,
            "answerCallbackQuery": self._answer_query,
            "getFile": self._get_file,
            "setMyCommands": self._set_commands,
            "pinChatMessage": self._pin,
            "unpinChatMessage": self._unpin,
            "setMyDescription": self._set_description,
            "getMyDescription": self._get_description,
            "setMyShortDescription": self._set_short_description,
            "getMyShortDescription": self._get_short_description,
            "getMyCommands": self._get_commands,
            "deleteMyCommands": self._delete_commands,
            "setWebhook": self._set_webhook,
            "deleteWebhook": self._delete_webhook,
            "getWebhookInfo": self._webhook_info,
        }
        names = (*self.by_name, "getUpdates")
        self.names = {name.lower(): name for name in names}

    async def get_updates(self, call: Call) -> list[Json]:
        """Give unconfirmed updates, waiting for one if asked to."""
        if self.webhook.url:
            raise RefusedError(409, f"Conflict: {WEBHOOK_ACTIVE}")
        self._allow(call)
        offset, limit = call.integer("offset", 0), call.integer("limit", 100)
        return await self.updates.poll(offset, limit, call.integer("timeout", 0))

    def _get_me(self, _call: Call) -> Json:
        more = ("can_join_groups", "can_read_all_group_messages")
        return self.me | dict.fromkeys(more, True) | {"supports_inline_queries": False}

    def _send_message(self, call: Call) -> Json:
        chat, text = self._chat(call), checked_text(call)
        return self._send(chat, call, text)

    def _send_photo(self, call: Call) -> Json:
        chat, caption = self._chat(call), checked_caption(call)
        return self._send(chat, call, caption, photo=self._file(call, "photo"))

    def _send_document(self, call: Call) -> Json:
        chat, caption = self._chat(call), checked_caption(call)
        return self._send(chat, call, caption, document=self._file(call, "document"))

    def _send(self, chat: Chat, call: Call, text: str, **content: Any) -> Json:
        replies_to = self._replied(chat, call)
        content |= {"replies_to": replies_to, "entities": checked_entities(call, text)}
        content |= {"keyboard": other_markup(call), "is_silent": call.flag("disable_notification")}
        return self.chats.write(chat, self.me, text, markup=inline_markup(call), **content).as_platform()

    @staticmethod
    def _replied(chat: Chat, call: Call) -> Message | None:
        asked = call.value("reply_parameters")
        if not isinstance(asked, dict):
            return None
        message = chat.by_id.get(asked.get("message_id", 0))
        if message is None and not asked.get("allow_sending_without_reply"):
            raise bad("message to be replied not found")
        return message

    def _send_chat_action(self, call: Call) -> bool:
        self._chat(call)
        if not call.text("action"):
            raise bad("wrong parameter action in request")
        return True

    def _edit_text(self, call: Call) -> Json:
        message = self._own(call)
        if message.photo or message.document:
            raise bad("there is no text in the message to edit")
        text = checked_text(call)
        return self._edit(message, text, inline_markup(call), checked_entities(call, text))

    def _edit_markup(self, call: Call) -> Json:
        message = self._own(call)
        return self._edit(message, message.text, inline_markup(call))

    def _edit(
        self, message: Message, text: str, markup: Json | None, entities: list[Json] | None = None
    ) -> Json:
        said = message.entities if entities is None else entities
        if (text, markup, said) == (message.text, message.markup, message.entities):
            raise bad(NOT_MODIFIED)
        self.chats.edit(message, text, markup, said)
        return message.as_platform()

    def _delete_message(self, call: Call) -> bool:
        self.chats.delete(self._message(call, "delete"))
        return True

    def _react(self, call: Call) -> bool:
        reaction = call.value("reaction") or []
        message = self._message(call, "react")
        if not isinstance(reaction, list) or len(reaction) > 1:
            raise bad("too many reactions")
        message.reaction = reaction
        return True

    def _answer_query(self, call: Call) -> bool:
        query, notice = call.text("callback_query_id"), call.text("text")
        if query not in self.queries:
            raise bad(QUERY_TOO_OLD)
        if len(notice) > LONGEST_NOTICE:
            raise bad("MESSAGE_TOO_LONG")
        self.queries[query] = notice
        return True

    def _pin(self, call: Call) -> bool:
        self.chats.pin(self._message(call, "pin"), is_pinned=True)
        return True

    def _unpin(self, call: Call) -> bool:
        self.chats.pin(self._message(call, "unpin"), is_pinned=False)
        return True

    def _set_description(self, call: Call) -> bool:
        self.description = short_enough(call.text("description"), LONGEST_DESCRIPTION)
        return True

    def _get_description(self, _call: Call) -> Json:
        return {"description": self.description}

    def _set_short_description(self, call: Call) -> bool:
        self.short_description = short_enough(call.text("short_description"), LONGEST_SHORT_DESCRIPTION)
        return True

    def _get_short_description(self, _call: Call) -> Json:
        return {"short_description": self.short_description}

    def _get_file(self, call: Call) -> Json:
        stored = self.chats.files.get(call.text("file_id"))
        if stored is None:
            raise bad("invalid file_id")
        return stored.as_platform() | {"file_path": stored.path}

    def _set_commands(self, call: Call) -> bool:
        commands = call.value("commands")
        if not isinstance(commands, list) or not all(isinstance(c, dict) for c in commands):
            raise bad("commands must be a list")
        if len(commands) > MOST_COMMANDS or not all(is_command(c) for c in commands):
            raise bad("BOT_COMMAND_INVALID")
        self._commands[command_place(call)] = commands
        return True

    def _get_commands(self, call: Call) -> list[Json]:
        return self._commands.get(command_place(call), [])

    def menus(self) -> dict[str, list[Json]]:
        """Give the menus by the kind of chat they are for."""
        return {
            place.partition("'type': '")[2].partition("'")[0]: menu for place, menu in self._commands.items()
        }

    def _delete_commands(self, call: Call) -> bool:
        self._commands.pop(command_place(call), None)
        return True

    def _set_webhook(self, call: Call) -> bool:
        url, secret = call.text("url"), call.text("secret_token")
        if url and not url.startswith(("http://", "https://")):
            raise bad("bad webhook: invalid webhook URL specified")
        if not SECRET.fullmatch(secret):
            raise bad("secret token contains unallowed characters")
        self._allow(call)
        self._drop_if_asked(call)
        self.webhook.set(url, secret)
        return True

    def _delete_webhook(self, call: Call) -> bool:
        self._drop_if_asked(call)
        self.webhook.set("", "")
        return True

    def _webhook_info(self, _call: Call) -> Json:
        waiting = len(self.updates.pending)
        return {"url": self.webhook.url, "has_custom_certificate": False, "pending_update_count": waiting}

    def _drop_if_asked(self, call: Call) -> None:
        if call.flag("drop_pending_updates") and self.updates.pending:
            self.updates.confirm(self.updates.pending[-1]["update_id"] + 1)

    def _allow(self, call: Call) -> None:
        allowed = call.value("allowed_updates")
        if allowed is None:
            return
        if not isinstance(allowed, list) or not all(isinstance(kind, str) for kind in allowed):
            raise bad("allowed_updates must be a list")
        self.updates.allowed = frozenset(allowed)

    def _chat(self, call: Call) -> Chat:
        chat = self.chats.by_id.get(call.integer("chat_id"))
        if chat is None:
            raise bad("chat not found")
        if chat.is_blocked:
            left = "kicked from the group chat" if chat.is_group else "blocked by the user"
            raise RefusedError(403, f"Forbidden: bot was {left}")
        return chat

    def _message(self, call: Call, purpose: str) -> Message:
        message = self._chat(call).by_id.get(call.integer("message_id"))
        if message is None or message.is_deleted:
            raise bad(f"message to {purpose} not found")
        return message

    def _own(self, call: Call) -> Message:
        message = self._message(call, "edit")
        if not message.is_by_bot:
            raise bad("message can't be edited")
        return message

    def _file(self, call: Call, part: str) -> StoredFile:
        named = call.text(part)
        upload = call.uploads.get(named.removeprefix("attach://") if named else part)
        if upload is not None:
            is_photo = part == "photo"
            if not upload.body:
                raise bad("file must be non-empty")
            return self.chats.store(upload.name, upload.kind, upload.body, is_photo=is_photo)
        if named not in self.chats.files:
            raise bad("wrong file identifier/HTTP URL specified" if named else f"there is no {part}")
        return self.chats.files[named]


def checked_text(call: Call) -> str:
    """Read the text of a message: not empty, not too long."""
    text = call.text("text")
    if not text.strip():
        raise bad("message text is empty")
    if len(text) > LONGEST_TEXT:
        raise bad("message is too long")
    return text


def checked_caption(call: Call) -> str:
    """Read a caption: it may be empty."""
    caption = call.text("caption")
    if len(caption) > LONGEST_CAPTION:
        raise bad("message caption is too long")
    return caption


def short_enough(text: str, longest: int) -> str:
    """Refuse a description that is too long."""
    if len(text) > longest:
        raise bad("the description is too long")
    return text


def checked_entities(call: Call, text: str) -> list[Json]:
    """Read what stands out in a text: within it, by its UTF-16 code units."""
    given = call.value("entities") or []
    units = len(text.encode("utf-16-le", "replace")) // 2
    for one in given:
        if not isinstance(one, dict) or not isinstance(one.get("type"), str):
            raise bad("can't parse entities")
        at, length = one.get("offset"), one.get("length")
        if not (isinstance(at, int) and isinstance(length, int) and at >= 0 and 0 < length <= units - at):
            raise bad("entity beyond the end of the text")
    return list(given)


def other_markup(call: Call) -> Json | None:
    """Read what is offered beside inline buttons: a forced reply, or a keyboard in the place of letters."""
    markup = call.value("reply_markup")
    kinds = {"force_reply", "keyboard", "remove_keyboard"}
    return markup if isinstance(markup, dict) and markup.keys() & kinds else None


def inline_markup(call: Call) -> Json | None:
    """Read the inline buttons under a message."""
    markup = call.value("reply_markup")
    if markup is None:
        return None
    if not isinstance(markup, dict):
        raise bad("object expected as reply markup")
    rows = markup.get("inline_keyboard", [])
    if not isinstance(rows, list) or not all(isinstance(row, list) for row in rows):
        raise bad("inline keyboard must be an array of arrays")
    for row in rows:
        for button in row:
            check_button(button)
    return {"inline_keyboard": rows} if any(rows) else None


def check_button(button: Any) -> None:
    """Refuse a button without a label, or with data the platform would not carry."""
    if not isinstance(button, dict) or not isinstance(button.get("text"), str) or not button["text"]:
        raise bad("inline keyboard button text must be non-empty")
    data = button.get("callback_data")
    if data is None:
        if "url" in button and not str(button["url"]).startswith(("https://", "http://", "tg://")):
            raise bad("inline keyboard button URL is invalid")
        if not button.keys() - {"text", "style", "icon_custom_emoji_id"}:
            raise bad("inline keyboard button must have exactly one action")
        return
    if not isinstance(data, str) or not 0 < len(data.encode(errors="replace")) <= LONGEST_DATA_BYTES:
        raise bad("BUTTON_DATA_INVALID")


def is_command(command: Json) -> bool:
    """Say whether a command may stand in the menu."""
    name, described = command.get("command"), command.get("description")
    is_described = isinstance(described, str) and 0 < len(described) <= 256  # noqa: PLR2004 - the platform's
    return isinstance(name, str) and COMMAND_NAME.fullmatch(name) is not None and is_described


def command_place(call: Call) -> str:
    """Name the scope and language a command list belongs to."""
    return f"{call.value('scope') or {'type': 'default'}} {call.text('language_code')}"
