"""The library's bot as the door uses it, where the platform answers otherwise than the library thinks."""

import asyncio
import contextlib
import json
import re
import ssl
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import pytest
from tornado.httpserver import HTTPServer
from tornado.netutil import bind_sockets
from tornado.web import Application, RequestHandler

from bot.telegram.failures import RefusedTokenError, TryLaterError, UndeliverableError
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


ANSWER = b'HTTP/1.1 200 OK\r\nContent-Length: 28\r\n\r\n{"ok": true, "result": 1234}'
CHUNKED = b"HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n%s0\r\n\r\n" % b"".join(
    b"%x\r\n%s\r\n" % (len(part), part) for part in (b'{"ok": true, "re', b'sult": 1234}')
)


@contextlib.asynccontextmanager
async def speaking(
    *answers: bytes, tls: ssl.SSLContext | None = None
) -> AsyncIterator[tuple[Wire, list[int]]]:
    """A platform that gives each call the next of these bytes as they are, then hangs up where asked to."""
    left, connections = list(answers), []

    async def heard(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        connections.append(0)
        with contextlib.suppress(asyncio.IncompleteReadError):
            while left:
                head = await reader.readuntil(b"\r\n\r\n")
                await reader.readexactly(int(re.findall(rb"Content-Length: (\d+)", head)[0]))
                connections[-1] += 1
                answer = left.pop(0)
                writer.write(answer.removesuffix(HANGS_UP))
                if answer.endswith(HANGS_UP):
                    break
        writer.close()
        with contextlib.suppress(ConnectionError):
            await writer.wait_closed()

    server = await asyncio.start_server(heard, "127.0.0.1", 0, ssl=tls)
    address = f"{'http' if tls is None else 'https'}://127.0.0.1:{server.sockets[0].getsockname()[1]}"
    wire = Wire("100:token", address, is_loopback=True)
    await wire.bot.request.initialize()
    try:
        yield wire, connections
    finally:
        await wire.bot.request.shutdown()
        server.close()
        await asyncio.sleep(0.01)  # both sides let go


HANGS_UP = b"hangs up"


async def test_one_connection_serves_calls_until_it_is_closed() -> None:
    async with speaking(ANSWER, CHUNKED, ANSWER + HANGS_UP, ANSWER) as (wire, connections):
        for _ in range(3):
            assert await wire.call("sendMessage", {"chat_id": 1, "text": "x"}) == 1234
        await asyncio.sleep(0.05)  # the platform's goodbye is on its way
        assert await wire.call("sendMessage", {"chat_id": 1, "text": "x"}) == 1234
    assert connections == [3, 1]


@pytest.mark.parametrize("cut", [b"", b"HTTP/1.1 200 OK\r\nContent-Le", ANSWER[:-5], b"hello\r\n\r\n"])
async def test_an_answer_cut_off_or_garbled_is_asked_for_again_on_another_connection(cut: bytes) -> None:
    async with speaking(cut + HANGS_UP, ANSWER) as (wire, connections):
        with pytest.raises(TryLaterError):
            await wire.call("sendMessage", {"chat_id": 1, "text": "x"})
        assert await wire.call("sendMessage", {"chat_id": 1, "text": "x"}) == 1234
    assert connections == [1, 1]


async def test_nobody_is_waited_for_for_ever(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("bot.telegram.wire.CALL_S", 0.05)
    async with speaking(b"", ANSWER) as (wire, connections):
        with pytest.raises(TryLaterError):
            await wire.call("sendMessage", {"chat_id": 1, "text": "x"})
        assert await wire.call("sendMessage", {"chat_id": 1, "text": "x"}) == 1234
    assert connections == [1, 1]


PLATFORM = Path(__file__).with_name("platform.pem")
"""A key of nothing but these tests, and its certificate for 127.0.0.1."""
LONG = "word " * 60_000


async def test_calls_go_encrypted_and_long_answers_come_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SSL_CERT_FILE", str(PLATFORM))
    tls = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    tls.load_cert_chain(PLATFORM)
    body = json.dumps({"ok": True, "result": LONG}).encode()
    long = b"HTTP/1.1 200 OK\r\nContent-Length: %d\r\n\r\n%s" % (len(body), body)
    async with speaking(long, ANSWER, ANSWER + HANGS_UP, ANSWER, tls=tls) as (wire, connections):
        assert await wire.call("sendMessage", {"chat_id": 1, "text": LONG}) == LONG
        for _ in range(2):
            assert await wire.call("sendMessage", {"chat_id": 1, "text": "x"}) == 1234
        await asyncio.sleep(0.05)
        assert await wire.call("sendMessage", {"chat_id": 1, "text": "x"}) == 1234
    assert connections == [3, 1]


async def test_a_platform_that_cannot_show_who_it_is_hears_nothing() -> None:
    tls = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    tls.load_cert_chain(PLATFORM)
    async with speaking(ANSWER, tls=tls) as (wire, connections):
        with pytest.raises(TryLaterError):
            await wire.call("sendMessage", {"chat_id": 1, "text": "x"})
    assert sum(connections) == 0


async def test_where_nobody_listens_is_tried_later(unused_tcp_port: int) -> None:
    wire = Wire("100:token", f"http://127.0.0.1:{unused_tcp_port}", is_loopback=True)
    with pytest.raises(TryLaterError):
        await wire.call("sendMessage", {"chat_id": 1, "text": "x"})


async def test_a_proxy_of_the_environment_is_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    async with speaking(ANSWER) as (wire, connections):
        monkeypatch.setenv("http_proxy", wire.bot.base_url.partition("/bot")[0])
        elsewhere = Wire("100:token", "http://platform.invalid")
        await elsewhere.bot.request.initialize()
        assert await elsewhere.call("sendMessage", {"chat_id": 1, "text": "x"}) == 1234
        await elsewhere.bot.request.shutdown()
    assert connections == [1]
