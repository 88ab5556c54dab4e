"""The library's bot as the door uses it, where the platform answers otherwise than the library thinks."""

import contextlib
from collections.abc import AsyncIterator
from typing import Any

import pytest
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from tornado.web import Application, RequestHandler

from bot.telegram.failures import UndeliverableError
from bot.telegram.wire import Wire

pytestmark = pytest.mark.asyncio
ME = {"id": 100, "is_bot": True, "first_name": "Bot", "username": "bot"}


@contextlib.asynccontextmanager
async def wired(answer: Any) -> AsyncIterator[tuple[Wire, list[str]]]:
    """A platform that answers one thing to every message, and the wire to it."""
    calls: list[str] = []

    class Answers(RequestHandler):
        def post(self, method: str) -> None:
            calls.append(method)
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
async def test_an_answer_nobody_can_read_is_an_answer(result: Any) -> None:
    async with wired({"ok": True, "result": result}) as (wire, calls):
        assert await wire.call("sendMessage", {"chat_id": 1, "text": "x"}) is None
        assert calls == ["getMe", "sendMessage"]


async def test_a_call_that_was_never_made_is_none() -> None:
    async with wired({"ok": True, "result": True}) as (wire, calls):
        with pytest.raises(TypeError):
            await wire.call("sendMessage", {"chat_id": 1, "words": "x"})
        assert calls == ["getMe"]


async def test_a_refusal_has_its_name() -> None:
    refusal = {"ok": False, "error_code": 403, "description": "Forbidden: bot was blocked by the user"}
    async with wired(refusal) as (wire, _):
        with pytest.raises(UndeliverableError):
            await wire.call("sendMessage", {"chat_id": 1, "text": "x"})
