"""A person's side of the stand-in: talk, press, look, and move the clock."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Iterable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tornado.web import HTTPError, RequestHandler

from demo import chats

if TYPE_CHECKING:  # the server knows its handlers, so they cannot import it
    from demo.standin import StandIn

LONGEST_TEXT = 4096
LARGEST_ID = 2**52
LONGEST_DELAY_S = 600
LONGEST_STEP_S = 10 * 366 * 86_400
MOST_TIMES = 1_000_000
HIGHEST_PITCH = 90
HIGHEST_TURN = 180
ERROR_STATUSES = range(400, 600)
PATIENCE_S = 0.1
PAGE = Path(__file__).with_name("page.html")
PAGE_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline';"
    " img-src 'self' data:; connect-src 'self'; base-uri 'none'; form-action 'none'"
)
BLANKS = {code: " " for code in range(32) if code not in (9, 10)} | {13: None}


class BadInputError(ValueError):
    """The request makes no sense; nothing was changed."""


class PersonSide(RequestHandler):
    """What every endpoint of the person's side shares: JSON in, JSON out, 400 for nonsense."""

    standin: StandIn

    def initialize(self, standin: StandIn) -> None:
        """Take the stand-in the route was made with."""
        self.standin = standin

    def compute_etag(self) -> None:
        """Answers are never cached."""

    def set_default_headers(self) -> None:
        """Speak JSON unless a handler says otherwise."""
        self.set_header("Content-Type", "application/json; charset=utf-8")
        self.set_header("X-Content-Type-Options", "nosniff")
        self.set_header("Cache-Control", "no-store")

    def answer(self, said: Any) -> None:
        """Send a JSON answer."""
        self.finish(json.dumps(said))

    def log_exception(self, typ: Any, value: Any, tb: Any) -> None:
        """Log what is ours; bad input is the caller's."""
        if not isinstance(value, BadInputError | HTTPError):
            super().log_exception(typ, value, tb)

    def write_error(self, status_code: int, **kwargs: Any) -> None:  # noqa: ARG002 - the framework's
        """Say in JSON what is wrong."""
        cause = kwargs.get("exc_info", (None, None, None))[1]
        why: str = self._reason
        if isinstance(cause, BadInputError):
            self.set_status(400)
            why = str(cause)
        elif isinstance(cause, HTTPError) and cause.log_message:
            why = cause.log_message
        self.answer({"error": why})

    def body(self) -> Any:
        """Read the JSON body."""
        try:
            return json.loads(self.request.body)
        except (ValueError, RecursionError):
            raise BadInputError("the body must be JSON") from None

    def fields(self) -> chats.Json:
        """Read a JSON object."""
        body = self.body()
        if not isinstance(body, dict):
            raise BadInputError("the body must be a JSON object")
        return body

    def known_chat(self, raw: str) -> chats.Chat:
        """Find a chat that has spoken before."""
        chat = self.standin.chats.by_id.get(chat_id(raw))
        if chat is None:
            raise BadInputError(f"chat {raw} has never spoken to the bot")
        return chat

    @staticmethod
    def known_message(chat: chats.Chat, given: Any) -> chats.Message:
        """Find a message of a chat."""
        message = chat.by_id.get(whole(given, "message_id"))
        if message is None or message.is_deleted:
            raise BadInputError(f"chat {chat.id} has no message {given}")
        return message

    def changes(self, chat: chats.Chat, order: int) -> list[chats.Json]:
        """Show what the bot wrote or edited in a chat after the change numbered `order`."""
        changed = (m for m in chat.changed(order) if m.is_by_bot and not m.is_deleted)
        return [message.as_person(self.standin.url) for message in changed]


class Messages(PersonSide):
    """GET /person/{chat}/messages."""

    def get(self, raw: str) -> None:
        """Show the chat, or what is new in it."""
        chat = self.standin.chats.by_id.get(chat_id(raw))
        after = whole(self.get_query_argument("after", "0"), "after")
        since_text = self.get_query_argument("since", "")
        since = moment(since_text, "since") if since_text else None
        seen = chat.seen_from(after, since) if chat else []
        self.answer([message.as_person(self.standin.url) for message in seen])


class Speaking(PersonSide):
    """What the four ways of talking to the bot share."""

    def sender(self, chat: int, given: Any) -> chats.Json:
        """Say who is talking: in a private chat its owner, in a group whoever `as` names."""
        if given is None:
            given = chat
        person_id = whole(given, "as")
        if person_id <= 0:
            raise BadInputError("as must name the person who talks in the group: a positive whole number")
        if chat > 0 and person_id != chat:
            raise BadInputError(f"chat {chat} is private: only person {chat} talks there")
        return chats.person(person_id)

    def opened(self, raw: str) -> chats.Chat:
        """Find or start a chat, unless it has blocked the bot."""
        chat = self.standin.chats.open(chat_id(raw))
        if chat.is_blocked:
            raise BadInputError(f"chat {raw} has blocked the bot: unblock it first")
        return chat

    async def tell(self, raw: str, sender: chats.Json, text: str, *, waits: bool, **content: Any) -> None:
        """Write a person's message, hand it to the bot, and answer with what the bot does."""
        chat = self.opened(raw)
        message = self.standin.chats.write(chat, sender, text, **content)
        await self.hand_over(chat, "message", message.as_platform(), waits=waits)

    async def hand_over(self, chat: chats.Chat, kind: str, content: chats.Json, *, waits: bool) -> None:
        """Queue an update, wait for the bot, and answer with what it wrote or edited."""
        order = self.standin.chats.order
        update_id = self.standin.updates.push(kind, content)
        if waits and update_id is not None:
            await self._wait(update_id)
        said: chats.Json = {"messages": self.changes(chat, order)}
        if kind == "callback_query" and (notice := self.standin.methods.queries.get(content["id"])):
            said["notice"] = notice
        self.answer(said)

    async def _wait(self, update_id: int) -> None:
        if self.standin.settled is None:
            await self.standin.updates.confirmed(update_id, PATIENCE_S)
        else:
            await self.standin.settled()

    def waits(self, given: Any = None) -> bool:
        """Whether the caller wants the bot's answer: `wait`, in the query or the body."""
        if given is None:
            given = {"false": False, "true": True}.get(self.get_query_argument("wait", "true"))
        if not isinstance(given, bool):
            raise BadInputError("wait must be true or false")
        return given


class Say(Speaking):
    """POST /person/{chat}/say."""

    async def post(self, raw: str) -> None:
        """Type a text."""
        fields = self.fields()
        text = typed(fields.get("text"), "text")
        if not text.strip():
            raise BadInputError("text is empty")
        sender = self.sender(chat_id(raw), fields.get("as"))
        content: chats.Json = {"is_forwarded": fields.get("forwarded") is True}
        if fields.get("reply_to") is not None:
            content["replies_to"] = self.known_message(self.known_chat(raw), fields["reply_to"])
            content["quote"] = typed(fields.get("quote", ""), "quote")
        await self.tell(raw, sender, text, waits=self.waits(fields.get("wait")), **content)


class Edit(Speaking):
    """POST /person/{chat}/edit."""

    async def post(self, raw: str) -> None:
        """Change what a person's own message says."""
        chat, fields = self.known_chat(raw), self.fields()
        message = self.known_message(chat, fields.get("message_id"))
        text = typed(fields.get("text"), "text")
        if not text.strip():
            raise BadInputError("text is empty")
        if message.is_by_bot or message.photo or message.location:
            raise BadInputError(f"message {message.id} is no text of a person's")
        self.opened(raw)
        self.standin.chats.edit(message, text, None)
        content = message.as_platform()
        await self.hand_over(chat, "edited_message", content, waits=self.waits(fields.get("wait")))


class React(Speaking):
    """POST /person/{chat}/react."""

    async def post(self, raw: str) -> None:
        """Put a sign under a message, or take it away with an empty one."""
        chat, fields = self.known_chat(raw), self.fields()
        sender = self.sender(chat.id, fields.get("as"))
        message = self.known_message(chat, fields.get("message_id"))
        sign = typed(fields.get("emoji", ""), "emoji")
        self.opened(raw)
        before, after = message.signs.get(sender["id"], []), [sign] if sign else []
        message.signs[sender["id"]] = after
        changed = {
            "chat": chat.as_platform(),
            "message_id": message.id,
            "user": sender,
            "date": int(self.standin.clock().timestamp()),
            "old_reaction": [{"type": "emoji", "emoji": one} for one in before],
            "new_reaction": [{"type": "emoji", "emoji": one} for one in after],
        }
        await self.hand_over(chat, "message_reaction", changed, waits=self.waits(fields.get("wait")))


class About(PersonSide):
    """GET /about."""

    def get(self) -> None:
        """Show what the bot says of itself before anybody spoke, and its menus by kind of chat."""
        methods = self.standin.methods
        said = {"description": methods.description, "short_description": methods.short_description}
        self.answer(said | {"menus": methods.menus()})


class Photo(Speaking):
    """POST /person/{chat}/photo."""

    async def post(self, raw: str) -> None:
        """Send a picture."""
        sender = self.sender(chat_id(raw), self.get_argument("as", None))
        caption, waits = typed(self.get_argument("caption", ""), "caption"), self.waits()
        parts = self.request.files.get("file", [])
        if not parts or not parts[0].body:
            raise BadInputError("send the picture as a multipart part called file")
        self.opened(raw)
        part = parts[0]
        photo = self.standin.chats.store(part.filename, part.content_type, part.body, is_photo=True)
        await self.tell(raw, sender, caption, waits=waits, photo=photo)


class Location(Speaking):
    """POST /person/{chat}/location."""

    async def post(self, raw: str) -> None:
        """Send a place on the map."""
        fields = self.fields()
        place = (
            number(fields.get("lat"), "lat", -HIGHEST_PITCH, HIGHEST_PITCH),
            number(fields.get("lon"), "lon", -HIGHEST_TURN, HIGHEST_TURN),
        )
        sender = self.sender(chat_id(raw), fields.get("as"))
        text = f"{place[0]}, {place[1]}"
        await self.tell(raw, sender, text, waits=self.waits(fields.get("wait")), location=place)


class Press(Speaking):
    """POST /person/{chat}/press."""

    async def post(self, raw: str) -> None:
        """Press a button that a message shows, or has shown before."""
        chat, fields = self.known_chat(raw), self.fields()
        sender = self.sender(chat.id, fields.get("as"))
        message = self.known_message(chat, fields.get("message_id"))
        data, waits = typed(fields.get("data"), "data"), self.waits(fields.get("wait"))
        if data not in message.data_shown:
            raise BadInputError(f"message {message.id} never had a button with this data")
        self.opened(raw)
        query_id = str(len(self.standin.methods.queries) + 1)
        self.standin.methods.queries[query_id] = ""
        query = {
            "id": query_id,
            "from": sender,
            "message": message.as_platform(),
            "chat_instance": str(chat.id),
            "data": data,
        }
        await self.hand_over(chat, "callback_query", query, waits=waits)


class Block(PersonSide):
    """POST /person/{chat}/block."""

    def post(self, raw: str) -> None:
        """Block the bot, or let it speak again."""
        chat, blocked = self.known_chat(raw), self.fields().get("blocked")
        if not isinstance(blocked, bool):
            raise BadInputError("blocked must be true or false")
        chat.is_blocked = blocked
        self.answer({"blocked": blocked})


class Clock(PersonSide):
    """GET and POST /clock."""

    async def get(self) -> None:
        """Tell the simulated time, and the zone a chat's home lives by as far as it told one."""
        said: chats.Json = {"now": self.standin.clock().isoformat()}
        raw = self.get_query_argument("chat", "")
        if raw and self.standin.zone_of is not None:
            said["zone"] = await self.standin.zone_of(chat_id(raw))
        self.answer(said)

    async def post(self) -> None:
        """Move it forward, and answer with what the bot wrote on the way."""
        step = clock_step(self.fields(), self.standin.clock())
        if self.standin.move_clock is None:
            raise HTTPError(409, "this clock cannot be moved")
        order = self.standin.chats.order
        try:
            await self.standin.move_clock(step)
        except (ValueError, OverflowError) as no:
            raise BadInputError(str(no)) from no
        told = {str(chat.id): self.changes(chat, order) for chat in self.standin.chats.by_id.values()}
        now = self.standin.clock().isoformat()
        self.answer({"now": now, "messages": {name: said for name, said in told.items() if said}})


class Faults(PersonSide):
    """POST /faults."""

    def post(self) -> None:
        """Replace the list of things that go wrong."""
        body = self.body()
        if not isinstance(body, list):
            raise BadInputError("the body must be a JSON list of faults")
        self.standin.faults = [self._fault(one) for one in body]
        self.answer({"faults": len(body)})

    def _fault(self, one: Any) -> Any:
        from demo.standin import Fault  # noqa: PLC0415 - the server imports this file

        if not isinstance(one, dict):
            raise BadInputError("a fault must be a JSON object")
        if unknown := one.keys() - {
            "method",
            "times",
            "status",
            "retry_after",
            "cut",
            "delay_s",
            "is_garbage",
        }:
            raise BadInputError(f"a fault has no {', '.join(sorted(unknown))}")
        method = self.standin.methods.names.get(str(one.get("method")).lower())
        if method is None:
            raise BadInputError("method must name a method of the bot API")
        return Fault(method, **fault_figures(one))


class Push(PersonSide):
    """POST /updates."""

    def post(self) -> None:
        """Queue an update exactly as given; its chat counts as one that has spoken."""
        update = self.fields()
        if "update_id" in update and whole(update["update_id"], "update_id") <= 0:
            raise BadInputError("update_id must be positive")
        for chat in chats_named(update):
            self.standin.chats.open(chat)
        self.answer({"update_id": self.standin.updates.push_raw(update)})


class Calls(PersonSide):
    """GET /calls."""

    def get(self) -> None:
        """Count the bot's calls of each method."""
        self.answer(self.standin.calls)


class Files(PersonSide):
    """GET /files/{file_id}."""

    def get(self, file_id: str) -> None:
        """Give a file as it was sent; only pictures open in the page."""
        stored = self.standin.chats.files.get(file_id)
        if stored is None:
            raise HTTPError(404, "no such file")
        is_picture = stored.kind in {"image/png", "image/jpeg", "image/gif", "image/webp"}
        is_photo = stored.path.startswith("photos/")
        self.set_header("Content-Type", stored.kind if is_picture else "application/octet-stream")
        if not is_picture and not is_photo:
            name = "".join(c if c.isascii() and (c.isalnum() or c in "._- ") else "_" for c in stored.name)
            self.set_header("Content-Disposition", f'attachment; filename="{name}"')
        self.finish(stored.body)


class Page(PersonSide):
    """GET /."""

    async def get(self) -> None:
        """Serve the page."""
        self.set_header("Content-Type", "text/html; charset=utf-8")
        self.set_header("Content-Security-Policy", PAGE_POLICY)
        self.finish(await asyncio.to_thread(PAGE.read_bytes))


class Nowhere(PersonSide):
    """Every other address."""

    def prepare(self) -> None:
        """Say so."""
        raise HTTPError(404, "there is nothing at this address")


ROUTES: list[tuple[str, type[PersonSide]]] = [
    (r"/person/([^/]*)/messages", Messages),
    (r"/person/([^/]*)/say", Say),
    (r"/person/([^/]*)/photo", Photo),
    (r"/person/([^/]*)/location", Location),
    (r"/person/([^/]*)/press", Press),
    (r"/person/([^/]*)/edit", Edit),
    (r"/person/([^/]*)/react", React),
    (r"/about", About),
    (r"/person/([^/]*)/block", Block),
    (r"/files/([^/]*)", Files),
    (r"/clock", Clock),
    (r"/faults", Faults),
    (r"/updates", Push),
    (r"/calls", Calls),
    (r"/", Page),
    (r".*", Nowhere),
]


def whole(given: Any, name: str) -> int:
    """Read a whole number the platform could use as an id."""
    if isinstance(given, str) and given.isascii() and given.removeprefix("-").isdigit():
        given = int(given) if len(given) <= len(str(-LARGEST_ID)) else LARGEST_ID + 1
    if isinstance(given, bool) or not isinstance(given, int):
        raise BadInputError(f"{name} must be a whole number")
    if abs(given) > LARGEST_ID:
        raise BadInputError(f"{name} is too large")
    return given


def chat_id(raw: str) -> int:
    """Read a chat id: positive for a person, negative for a group."""
    chat = whole(raw, "the chat")
    if not chat:
        raise BadInputError("there is no chat 0")
    return chat


def number(given: Any, name: str, low: float, high: float) -> float:
    """Read a finite number between two bounds."""
    is_number = isinstance(given, int | float) and not isinstance(given, bool)
    if not is_number or not low <= given <= high:
        raise BadInputError(f"{name} must be a number from {low} to {high}")
    return float(given)


def typed(given: Any, name: str) -> str:
    """Read a text a person could have typed."""
    if not isinstance(given, str):
        raise BadInputError(f"{name} must be a text")
    if len(given) > LONGEST_TEXT:
        raise BadInputError(f"{name} is longer than {LONGEST_TEXT} characters")
    try:
        given.encode()
    except UnicodeEncodeError:
        raise BadInputError(f"{name} is not proper Unicode") from None
    return given.translate(BLANKS)


def moment(given: Any, name: str) -> datetime:
    """Read a moment with its offset from UTC; a plus sign may have become a space on the way."""
    try:
        at = datetime.fromisoformat(given.strip().replace(" 00:00", "+00:00"))
    except (AttributeError, ValueError):
        raise BadInputError(f"{name} must be a moment such as 2027-03-01T18:00:00+00:00") from None
    if at.tzinfo is None:
        raise BadInputError(f"{name} needs an offset from UTC, such as +00:00")
    return at


def clock_step(body: chats.Json, now: datetime) -> chats.Json:
    """Check a request to move the clock: one way of three, and forward."""
    if len(body) != 1:
        raise BadInputError("say one of: to, by_seconds, to_next_nudge")
    (way, given), *_ = body.items()
    if way == "to" and moment(given, "to") < now:
        raise BadInputError("the clock only moves forward")
    if way == "by_seconds":
        number(given, "by_seconds", 0, LONGEST_STEP_S)
    if way == "to_next_nudge" and given is not True:
        raise BadInputError("to_next_nudge must be true")
    if way not in {"to", "by_seconds", "to_next_nudge"}:
        raise BadInputError("say one of: to, by_seconds, to_next_nudge")
    return body


def fault_figures(one: chats.Json) -> chats.Json:
    """Check a fault's numbers."""
    figures: chats.Json = {
        "times": whole(one.get("times", 1), "times"),
        "delay_s": number(one.get("delay_s") or 0, "delay_s", 0, LONGEST_DELAY_S),
        "cut": one.get("cut"),
        "is_garbage": one.get("is_garbage") is True,
    }
    for name in ("status", "retry_after"):
        figures[name] = None if one.get(name) is None else whole(one[name], name)
    if not 0 < figures["times"] <= MOST_TIMES:
        raise BadInputError(f"times must be from 1 to {MOST_TIMES}")
    if figures["cut"] not in (None, "before", "after"):
        raise BadInputError("cut must be before, after or null")
    if figures["status"] is not None and figures["status"] not in ERROR_STATUSES:
        raise BadInputError("status must be from 400 to 599")
    if figures["retry_after"] is not None and figures["retry_after"] < 0:
        raise BadInputError("retry_after must not be negative")
    return figures


def chats_named(update: chats.Json) -> Iterable[int]:
    """Find the chats a raw update comes from."""
    for content in update.values():
        holder = content.get("message", content) if isinstance(content, dict) else None
        chat = holder.get("chat") if isinstance(holder, dict) else None
        found = chat.get("id") if isinstance(chat, dict) else None
        if isinstance(found, int) and found and not isinstance(found, bool):
            yield found
