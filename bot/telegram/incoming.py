"""Raw update to incoming message, without trusting a single field."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from bot.actions.incoming import Incoming, Kind, Location, Other, Photo, Press, Text

Json = Mapping[str, Any]

LARGEST_ID = 2**63 - 1
LATEST_DATE_S = 2**33
GROUPS = frozenset({"group", "supergroup"})
LONGEST_NAME = 64
LARGEST_PHOTO_PX = 4_000_000
"""The platform offers each photo in several sizes; a larger one shows no more on a phone. Judgement. [1]"""
UNREAD = (
    "sticker",
    "voice",
    "video",
    "video_note",
    "audio",
    "document",
    "animation",
    "contact",
    "poll",
    "venue",
)


@dataclass(frozen=True, slots=True)
class Me:
    """The bot's own account."""

    id: int
    username: str


@dataclass(frozen=True, slots=True)
class Unparsable:
    """An update that broke the platform's own form; the reason carries no personal text."""

    update_id: int | None
    reason: str


@dataclass(frozen=True, slots=True)
class Ignored:
    """A sound update that asks nothing of the bot."""

    update_id: int
    what: str


@dataclass(frozen=True, slots=True)
class Moved:
    """A group that was given a new chat id."""

    update_id: int
    chat: int
    to: int


Parsed = Incoming | Ignored | Moved | Unparsable


class _BadFieldError(Exception):
    """A field that is missing or of the wrong kind, by its path."""


def number_of(raw: Any) -> int | None:
    """Read an update's own number, None if it has none to speak of."""
    try:
        return _integer(_mapping(raw, "update"), "update_id")
    except _BadFieldError:
        return None


def chat_of(raw: Any) -> int | None:
    """Read the chat an update belongs to, as far as anybody can tell; keeps the order inside a chat."""
    try:
        for content in _mapping(raw, "update").values():
            if isinstance(content, Mapping):
                holder = content.get("message", content)
                return _integer(_part(_mapping(holder, "message"), "chat"), "id")
    except _BadFieldError:
        pass
    return None


def parse(raw: Any, me: Me) -> Parsed:
    """Read one update; anything out of form becomes Unparsable, never an exception."""
    number = number_of(raw)
    if number is None:
        return Unparsable(None, "update_id is missing or no number")
    try:
        return _parsed(number, _mapping(raw, "update"), me)
    except _BadFieldError as error:
        return Unparsable(number, str(error))


def _parsed(number: int, update: Json, me: Me) -> Parsed:
    if "message" in update:
        return _message(number, _part(update, "message"), me)
    if "edited_message" in update:
        return Ignored(number, "edited_message")
    if "callback_query" in update:
        return _press(number, _part(update, "callback_query"))
    return Ignored(number, next((str(key)[:40] for key in update if key != "update_id"), "nothing"))


def _message(number: int, message: Json, me: Me) -> Parsed:
    chat = _part(message, "chat")
    chat_id = _integer(chat, "id")
    if "migrate_to_chat_id" in message:
        return Moved(number, chat_id, _integer(message, "migrate_to_chat_id"))
    if "from" not in message:
        return Ignored(number, "a message by nobody")
    sender = _part(message, "from")
    if sender.get("is_bot") is True:
        return Ignored(number, "a message by a bot")
    kind, is_for_us = _unaddressed(_kind(message), me)
    is_group = _is_group(chat)
    if is_group:
        is_for_us = is_for_us and (_is_command(kind) or _is_reply_to(message, me))
    return Incoming(
        update_id=number,
        chat=chat_id,
        person=_integer(sender, "id"),
        name=_name(sender),
        kind=kind,
        at=_time(message),
        is_group=is_group,
        addressed=is_for_us,
    )


def _is_group(chat: Json) -> bool:
    kind = chat.get("type")
    return isinstance(kind, str) and kind in GROUPS


def _press(number: int, query: Json) -> Parsed:
    sender = _part(query, "from")
    if "message" not in query or "data" not in query:
        return Ignored(number, "a press without message or data")
    message = _part(query, "message")
    chat = _part(message, "chat")
    return Incoming(
        update_id=number,
        chat=_integer(chat, "id"),
        person=_integer(sender, "id"),
        name=_name(sender),
        kind=Press(_text(query, "data"), _integer(message, "message_id"), _text(query, "id")),
        at=_time(message) if message.get("date") else datetime.fromtimestamp(0, UTC),
        is_group=_is_group(chat),
        addressed=True,
    )


def _kind(message: Json) -> Kind:
    if "text" in message:
        return Text(_text(message, "text"))
    if "location" in message:
        place = _part(message, "location")
        return Location(_degrees(place, "latitude", 90), _degrees(place, "longitude", 180))
    if "photo" in message:
        caption = _text(message, "caption") if "caption" in message else ""
        album = _text(message, "media_group_id") if "media_group_id" in message else ""
        return Photo(_largest(message["photo"]), caption, album[:LONGEST_NAME])
    return Other(next((what for what in UNREAD if what in message), "something else"))


def _unaddressed(kind: Kind, me: Me) -> tuple[Kind, bool]:
    """Strip our name off a command; False if the command is for another bot."""
    if not (isinstance(kind, Text) and kind.text.startswith("/")):
        return kind, True
    word, space, rest = _split_word(kind.text)
    command, at, name = word.partition("@")
    if not at:
        return kind, True
    return Text(f"{command}{space}{rest}"), name.lower() == me.username.lower()


def _split_word(text: str) -> tuple[str, str, str]:
    end = next((index for index, sign in enumerate(text) if sign.isspace()), len(text))
    return text[:end], text[end : end + 1], text[end + 1 :]


def _is_command(kind: Kind) -> bool:
    return isinstance(kind, Text) and kind.text.startswith("/")


def _is_reply_to(message: Json, me: Me) -> bool:
    earlier = message.get("reply_to_message")
    author = earlier.get("from") if isinstance(earlier, Mapping) else None
    return isinstance(author, Mapping) and author.get("id") == me.id


def _mapping(value: Any, name: str) -> Json:
    if not isinstance(value, Mapping):
        raise _BadFieldError(f"{name} is no object")
    return value


def _part(parent: Json, name: str) -> Json:
    return _mapping(parent.get(name), name)


def _integer(parent: Json, name: str) -> int:
    value = parent.get(name)
    if isinstance(value, bool) or not isinstance(value, int) or abs(value) > LARGEST_ID:
        raise _BadFieldError(f"{name} is missing or no number")
    return value


def _text(parent: Json, name: str) -> str:
    value = parent.get(name)
    if not isinstance(value, str):
        raise _BadFieldError(f"{name} is missing or no text")
    return storable(value)


def storable(text: str) -> str:
    """Drop what a database refuses: the NUL character and half surrogate pairs."""
    return text.replace("\0", "").encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def _degrees(parent: Json, name: str, bound: float) -> float:
    value = parent.get(name)
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _BadFieldError(f"{name} is missing or no number")
    if not (math.isfinite(value) and abs(value) <= bound):
        raise _BadFieldError(f"{name} is beyond {bound} degrees")
    return float(value)


def _time(message: Json) -> datetime:
    seconds = _integer(message, "date")
    if not 0 <= seconds <= LATEST_DATE_S:
        raise _BadFieldError("date is out of range")
    return datetime.fromtimestamp(seconds, UTC)


def _name(sender: Json) -> str:
    name = sender.get("first_name")
    return storable(name)[:LONGEST_NAME] if isinstance(name, str) else ""


def _largest(sizes: Any) -> str:
    if not isinstance(sizes, list) or not sizes:
        raise _BadFieldError("photo is no list of sizes")
    known = [_mapping(size, "photo") for size in sizes]
    fitting = [size for size in known if _area(size) <= LARGEST_PHOTO_PX] or known
    return _text(max(fitting, key=_area), "file_id")


def _area(size: Json) -> int:
    return _integer(size, "width") * _integer(size, "height")
