"""What the stand-in remembers: chats, their messages, and files."""

import re
import secrets
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

Json = dict[str, Any]

COMMAND = re.compile(r"/[A-Za-z0-9_]{1,32}(@\w+)?(?=\s|$)", re.ASCII)


@dataclass(frozen=True, slots=True)
class StoredFile:
    """A photo or document somebody sent; the bot names it by `file_id`."""

    file_id: str
    path: str
    name: str
    kind: str
    body: bytes = field(repr=False)

    def as_platform(self) -> Json:
        """Say what the bot API says of any file."""
        return {"file_id": self.file_id, "file_unique_id": self.file_id[-12:], "file_size": len(self.body)}


@dataclass(slots=True)
class Message:
    """One message; `order` and `edit_order` count every change in every chat."""

    id: int
    chat: "Chat"
    sender: Json
    at: datetime
    order: int
    text: str
    photo: StoredFile | None = None
    document: StoredFile | None = None
    location: tuple[float, float] | None = None
    markup: Json | None = None
    edited_at: datetime | None = None
    edit_order: int = 0
    is_deleted: bool = False
    reaction: list[Json] = field(default_factory=list)
    """The bot's own sign under it."""
    signs: dict[int, list[str]] = field(default_factory=dict)
    """What people put under it."""
    entities: list[Json] = field(default_factory=list)
    keyboard: Json | None = None
    """What is offered beside inline buttons: a forced reply, a button that shares the location."""
    is_silent: bool = False
    is_pinned: bool = False
    replies_to: "Message | None" = None
    quote: str = ""
    is_forwarded: bool = False
    data_shown: set[str] = field(default_factory=set)

    @property
    def is_by_bot(self) -> bool:
        """Whether the bot wrote it."""
        return bool(self.sender["is_bot"])

    def buttons(self) -> list[list[Json]]:
        """List the inline buttons, row by row."""
        rows = (self.markup or {}).get("inline_keyboard", [])
        return [[shown_button(button) for button in row] for row in rows]

    def as_platform(self) -> Json:
        """Describe it the way the bot API does."""
        said: Json = {
            "message_id": self.id,
            "date": int(self.at.timestamp()),
            "chat": self.chat.as_platform(),
            "from": self.sender,
        }
        said |= self._content() | self._context()
        if self.edited_at is not None:
            said["edit_date"] = int(self.edited_at.timestamp())
        if self.markup is not None:
            said["reply_markup"] = self.markup
        return said

    def _content(self) -> Json:
        if self.photo is not None:
            width, height = image_size(self.photo.body)
            sizes = [self.photo.as_platform() | {"width": width, "height": height}]
            return {"photo": sizes} | self._caption()
        if self.document is not None:
            named = {"file_name": self.document.name, "mime_type": self.document.kind}
            return {"document": self.document.as_platform() | named} | self._caption()
        if self.location is not None:
            return {"location": {"latitude": self.location[0], "longitude": self.location[1]}}
        if command := COMMAND.match(self.text):
            entity = {"type": "bot_command", "offset": 0, "length": command.end()}
            return {"text": self.text, "entities": [entity]}
        return {"text": self.text} | ({"entities": self.entities} if self.entities else {})

    def _context(self) -> Json:
        said: Json = {}
        if self.replies_to is not None:
            said["reply_to_message"] = replace(self.replies_to, replies_to=None).as_platform()
        if self.quote and self.replies_to is not None:
            said["quote"] = {"text": self.quote, "position": max(self.replies_to.text.find(self.quote), 0)}
        if self.is_forwarded:
            at = int(self.at.timestamp())
            said["forward_origin"] = {"type": "hidden_user", "date": at, "sender_user_name": "Somebody"}
        return said

    def _caption(self) -> Json:
        return {"caption": self.text} if self.text else {}

    def as_person(self, url: str) -> Json:
        """Describe it the way a person sees it, files as addresses under `url`."""
        seen: Json = {
            "id": self.id,
            "who": "bot" if self.is_by_bot else "person",
            "text": self.text,
            "buttons": self.buttons(),
            "photo": file_url(url, self.photo),
            "document": file_url(url, self.document),
            "at": self.at.isoformat(),
            "edited_at": self.edited_at.isoformat() if self.edited_at else None,
        }
        more = {
            "deleted": self.is_deleted,
            "silent": self.is_silent,
            "pinned": self.is_pinned,
            "bold": self._marked("bold"),
            "folded": self._marked("expandable_blockquote"),
            "wants_reply": bool((self.keyboard or {}).get("force_reply")),
            "location_button": next(iter(labels((self.keyboard or {}).get("keyboard", []))), ""),
            "reaction": [one.get("emoji") for one in self.reaction],
            "reply_to": self.replies_to.id if self.replies_to else None,
        }
        return seen | {name: value for name, value in more.items() if value}

    def _marked(self, kind: str) -> list[str]:
        """List the parts of the text that stand out in one way; the platform counts UTF-16 code units."""
        units = self.text.encode("utf-16-le")
        spans = [(2 * one["offset"], 2 * one["length"]) for one in self.entities if one["type"] == kind]
        return [units[at : at + length].decode("utf-16-le", "replace") for at, length in spans]


@dataclass(slots=True)
class Chat:
    """A private chat (positive id) or a group (negative id)."""

    id: int
    is_blocked: bool = False
    messages: list[Message] = field(default_factory=list)
    by_id: dict[int, Message] = field(default_factory=dict)
    edited: dict[int, Message] = field(default_factory=dict)

    @property
    def is_group(self) -> bool:
        """Whether several people share it."""
        return self.id < 0

    def as_platform(self) -> Json:
        """Describe it the way the bot API does."""
        if self.is_group:
            return {"id": self.id, "type": "group", "title": f"Group {-self.id}"}
        return {"id": self.id, "type": "private", "first_name": f"Person {self.id}"}

    def add(self, message: Message) -> None:
        """Append a message."""
        self.messages.append(message)
        self.by_id[message.id] = message

    def changed(self, order: int) -> Iterator[Message]:
        """Yield messages written or edited after the change numbered `order`."""
        first = bisect_right(self.messages, order, key=lambda message: message.order)
        for message in self.edited.values():
            if message.edit_order > order >= message.order:
                yield message
        yield from self.messages[first:]

    def seen_from(self, after: int, since: datetime | None) -> list[Message]:
        """List messages newer than the one numbered `after`, and older ones edited later than it."""
        known = bisect_right(self.messages, after, key=lambda message: message.id)
        order = self.messages[known - 1].order if known else 0
        fresh = [message for message in self.messages[known:] if not message.is_deleted]
        old = [m for m in self.edited.values() if m.id <= after and m.edit_order > order]
        if since is not None:
            old = [m for m in self.edited.values() if m.id <= after and m.edited_at and m.edited_at >= since]
        return sorted(old, key=lambda message: message.id) + fresh


class Chats:
    """Every chat that ever spoke to the bot, and every file."""

    def __init__(self, clock: Callable[[], datetime]) -> None:
        self.clock = clock
        self.order = 0
        self.by_id: dict[int, Chat] = {}
        self.files: dict[str, StoredFile] = {}
        self.paths: dict[str, StoredFile] = {}
        self._last_id = 0

    def open(self, chat_id: int) -> Chat:
        """Find a chat, or start it."""
        return self.by_id.setdefault(chat_id, Chat(chat_id))

    def write(self, chat: Chat, sender: Json, text: str, **content: Any) -> Message:
        """Write a new message into a chat."""
        self._last_id += 1
        self.order += 1
        message = Message(self._last_id, chat, sender, self.clock(), self.order, text, **content)
        self._note_buttons(message)
        chat.add(message)
        return message

    def edit(
        self, message: Message, text: str, markup: Json | None, entities: list[Json] | None = None
    ) -> None:
        """Change a message's text and buttons in place."""
        message.text, message.markup = text, markup
        if entities is not None:
            message.entities = entities
        self._note_buttons(message)
        self._touch(message)

    def pin(self, message: Message, *, is_pinned: bool) -> None:
        """Put a message at the head of its chat, or let it go."""
        message.is_pinned = is_pinned

    def delete(self, message: Message) -> None:
        """Take a message away, leaving an empty place that says so."""
        message.text, message.markup, message.photo, message.document = "", None, None, None
        message.is_deleted = True
        self._touch(message)

    def store(self, name: str, kind: str, body: bytes, *, is_photo: bool) -> StoredFile:
        """Keep a file under a fresh id."""
        number = len(self.files) + 1
        suffix = re.sub(r"[^A-Za-z0-9.]", "", name[name.rfind(".") :]) if "." in name else ""
        path = f"{'photos' if is_photo else 'documents'}/file_{number}{suffix}"
        stored = StoredFile(f"file{number}-{secrets.token_hex(8)}", path, name, kind, body)
        self.files[stored.file_id] = self.paths[path] = stored
        return stored

    def _touch(self, message: Message) -> None:
        self.order += 1
        message.edited_at, message.edit_order = self.clock(), self.order
        message.chat.edited.pop(message.id, None)
        message.chat.edited[message.id] = message

    def _note_buttons(self, message: Message) -> None:
        message.data_shown.update(b["data"] for row in message.buttons() for b in row if b["data"])


def shown_button(button: Json) -> Json:
    """Describe one inline button the way a person meets it."""
    seen = {"label": button["text"], "data": button.get("callback_data")}
    return seen | {"url": button["url"]} if "url" in button else seen


def labels(rows: Iterable[Iterable[Json]]) -> list[str]:
    """List the buttons of a reply keyboard that share where one is."""
    return [button["text"] for row in rows for button in row if button.get("request_location")]


def person(person_id: int) -> Json:
    """Describe a person the way the bot API does."""
    named = {"first_name": f"Person {person_id}", "language_code": "en"}
    return {"id": person_id, "is_bot": False} | named


def file_url(url: str, stored: StoredFile | None) -> str | None:
    """Say where a person downloads a file."""
    return None if stored is None else f"{url}/files/{stored.file_id}"


PNG_HEAD_BYTES = 24
UNKNOWN_SIZE = (90, 90)


def image_size(body: bytes) -> tuple[int, int]:
    """Read the pixel size of a PNG; anything else counts as 90 by 90."""
    if body[:8] == b"\x89PNG\r\n\x1a\n" and len(body) >= PNG_HEAD_BYTES:
        return int.from_bytes(body[16:20]), int.from_bytes(body[20:24])
    return UNKNOWN_SIZE
