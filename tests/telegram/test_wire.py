"""The library's bot as the door uses it, where the platform answers otherwise than the library thinks."""

import contextlib
import json
from collections.abc import AsyncIterator
from typing import Any

import pytest
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from tornado.web import Application, RequestHandler

from bot.telegram.failures import RefusedTokenError, UndeliverableError
from bot.telegram.wire import Wire

pytestmark = pytest.mark.asyncio
FILES: dict[str, Any] = {}
FIELDS: dict[str, list[bytes]] = {}
"""What the last call carried."""
ME = {"id": 100, "is_bot": True, "first_name": "Bot", "username": "bot"}


@contextlib.asynccontextmanager
async def wired(answer: Any) -> AsyncIterator[tuple[Wire, list[str]]]:
    """A platform that answers one thing to every message, and the wire to it."""
    calls: list[str] = []

    class Answers(RequestHandler):
        def post(self, method: str) -> None:
            calls.append(method)
            FILES.update(self.request.files)
            FIELDS.update(self.request.arguments)
            if method != "getMe" and "error_code" in answer:
                self.set_status(answer["error_code"])
            self.finish({"ok": True, "result": ME} if method == "getMe" else answer)

    sockets = bind_sockets(0, "127.0.0.1")
    server = HTTPServer(Application([(r"/bot[^/]+/(\w+)", Answers)], log_function=lambda _: None))
    server.add_sockets(sockets)
    wire = Wire("100:token", f"http://127.0.0.1:{sockets[0].getsockname()[1]}", is_loopback=True)
    await wire.open()
    yield wire, calls
    await wire.close()
    server.stop()
    await server.close_all_connections()


@pytest.mark.parametrize("result", [None, {"message_id": 7}, {"date": "soon"}, 7, [1]])
async def test_any_answer_is_an_answer(result: Any) -> None:
    async with wired({"ok": True, "result": result}) as (wire, calls):
        assert await wire.call("sendMessage", {"chat_id": 1, "text": "x"}) == result
        assert calls == ["getMe", "sendMessage"]


async def test_a_call_goes_out_as_its_row_has_it_and_files_as_files() -> None:
    async with wired({"ok": True, "result": True}) as (wire, _):
        markup = {"inline_keyboard": [[{"text": "Done", "callback_data": "q1.0"}]]}
        held = {"name": "plan.ics", "base64": "QkVHSU4="}  # "BEGIN", RFC 4648
        await wire.call("sendDocument", {"chat_id": 1, "document": held, "reply_markup": markup})
        (sent,) = FILES["document"]
        assert (sent.filename, sent.body) == ("plan.ics", b"BEGIN")
        assert json.loads(FIELDS["reply_markup"][0]) == markup
        assert FIELDS["chat_id"] == [b"1"]


async def test_a_token_that_is_refused_later_is_no_message_refused() -> None:
    async with wired({"ok": False, "error_code": 401, "description": "Unauthorized"}) as (wire, _):
        with pytest.raises(RefusedTokenError):
            await wire.call("sendMessage", {"chat_id": 1, "text": "x"})
        with pytest.raises(RefusedTokenError):
            await wire.updates(0)


async def test_a_refusal_has_its_name() -> None:
    refusal = {"ok": False, "error_code": 403, "description": "Forbidden: bot was blocked by the user"}
    async with wired(refusal) as (wire, _):
        with pytest.raises(UndeliverableError):
            await wire.call("sendMessage", {"chat_id": 1, "text": "x"})
