"""One raw update to an incoming message, by the library's own reading."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from telegram import CallbackQuery, Message, MessageReactionUpdated, PhotoSize, Update, User
from telegram.constants import ChatType, MessageAttachmentType
from telegram.helpers import effective_message_type

from bot.actions.incoming import Incoming, Kind, Location, Other, Photo, Press, Quoted, Reaction, Text
from bot.actions.naming import shown_name
from bot.telegram.fields import BadFieldError, degrees_of, id_of, is_id, text_of
from bot.telegram.parsed import Ignored, Me, Moved, Parsed, Unparsable

GROUPS = frozenset({ChatType.GROUP, ChatType.SUPERGROUP})
LONGEST_ALBUM = 64
LARGEST_PHOTO_PX = 4_000_000
"""The platform offers each photo in several sizes; a larger one shows no more on a phone. Judgement. [1]"""


def parse(raw: Any, me: Me) -> Parsed:
    """Read one update; anything out of form becomes Unparsable, never an exception."""
    number: Any = raw.get("update_id") if isinstance(raw, dict) else None
    if not is_id(number):
        return Unparsable(None, "update_id is missing or no number", raw)
    try:
        return _read(number, Update.de_json(raw), me)
    except BadFieldError as error:
        return Unparsable(number, str(error), raw)
    except Exception as error:  # noqa: BLE001 - the library raises what a field of a wrong kind happens to raise
        return Unparsable(number, type(error).__name__, raw)


def _read(number: int, update: Update, me: Me) -> Parsed:
    if (message := update.message or update.edited_message) is not None:
        return _message(number, message, me, is_edit=update.message is None)
    if update.callback_query is not None:
        return _press(number, update.callback_query)
    if update.message_reaction is not None:
        return _reaction(number, update.message_reaction)
    return Ignored(number)


def _message(number: int, message: Message, me: Me, *, is_edit: bool) -> Parsed:
    if message.migrate_to_chat_id is not None:
        return Moved(number, id_of(message.chat.id), id_of(message.migrate_to_chat_id))
    kind = _kind(message)
    if message.from_user is None or message.from_user.is_bot or kind is None:
        return Ignored(number, id_of(message.chat.id))
    kind, is_for_us = _unaddressed(kind, me)
    quoted = _quoted(message, me)
    if message.chat.type in GROUPS:
        is_command = isinstance(kind, Text) and kind.text.startswith("/")
        is_for_us = is_for_us and (is_command or (quoted is not None and quoted.is_ours))
    return _incoming(
        number,
        message,
        message.from_user,
        kind,
        addressed=is_for_us,
        message_id=id_of(message.message_id),
        is_forwarded=message.forward_origin is not None,
        is_edit=is_edit,
        quoted=quoted,
    )


def _press(number: int, query: CallbackQuery) -> Parsed:
    message = query.message
    if message is None or query.data is None:
        return Ignored(number)
    shown = getattr(message, "text", None)
    kind = Press(
        text_of(query.data), id_of(message.message_id), text_of(query.id), text_of(shown) if shown else ""
    )
    return _incoming(number, message, query.from_user, kind)


def _reaction(number: int, changed: MessageReactionUpdated) -> Parsed:
    """Read which signs are new; custom ones say nothing anybody could read."""
    before = {getattr(one, "emoji", "") for one in changed.old_reaction}
    fresh = [getattr(one, "emoji", "") for one in changed.new_reaction]
    signs = tuple(text_of(sign) for sign in fresh if sign and sign not in before)
    if changed.user is None or changed.user.is_bot or not signs:
        return Ignored(number, id_of(changed.chat.id))
    kind = Reaction(signs, id_of(changed.message_id))
    return _incoming(number, changed, changed.user, kind)


def _incoming(number: int, what: Any, sender: User, kind: Kind, **more: Any) -> Incoming:
    """Say who sent it, where and when; a message, a press and a reaction tell that alike."""
    if not isinstance(what.date, datetime):
        raise BadFieldError("the date is missing or no number")
    return Incoming(
        update_id=number,
        chat=id_of(what.chat.id),
        person=id_of(sender.id),
        name=shown_name(text_of(sender.first_name)),
        kind=kind,
        at=what.date,
        is_group=what.chat.type in GROUPS,
        **{"addressed": True} | more,
    )


def _kind(message: Message) -> Kind | None:
    """Say what was sent; None for what the platform itself says, such as who joined."""
    if message.text is not None:
        return Text(text_of(message.text))
    if (place := message.location) is not None:
        return Location(degrees_of(place.latitude, 90), degrees_of(place.longitude, 180))
    if message.photo:
        album = text_of(message.media_group_id or "")
        return Photo(_largest(message.photo), text_of(message.caption or ""), album[:LONGEST_ALBUM])
    what = effective_message_type(message)
    if what is None or what in list(MessageAttachmentType):
        return Other(what or "something else")
    return None


def _unaddressed(kind: Kind, me: Me) -> tuple[Kind, bool]:
    """Strip our name off a command; False if the command is for another bot."""
    if not (isinstance(kind, Text) and kind.text.startswith("/")):
        return kind, True
    word = kind.text.split(maxsplit=1)[0]
    command, at, name = word.partition("@")
    return Text(command + kind.text[len(word) :]), not at or name.lower() == me.username.lower()


def _quoted(message: Message, me: Me) -> Quoted | None:
    earlier = message.reply_to_message
    if earlier is None:
        return None
    is_ours = earlier.from_user is not None and earlier.from_user.id == me.id
    text = (message.quote.text if message.quote else None) or earlier.text or earlier.caption or ""
    return Quoted(id_of(earlier.message_id), text_of(text), is_ours)


def _largest(sizes: Sequence[PhotoSize]) -> str:
    fitting = [size for size in sizes if size.width * size.height <= LARGEST_PHOTO_PX] or sizes
    return text_of(max(fitting, key=lambda size: size.width * size.height).file_id)
