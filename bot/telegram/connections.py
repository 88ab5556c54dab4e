"""Calls by HTTP/1.1 over connections that are kept for the next one, by the interpreter's own streams."""

import asyncio
import ssl
from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus
from urllib.parse import SplitResult, urlsplit

CONNECT_S = 5.0
KEPT_S = 5.0
"""A connection unused for longer may have been dropped on the way without a word. [s]"""
EYEBALLS_S = 0.25
"""So long one way to a host may take before the next is tried beside it (RFC 8305). [s]"""


@dataclass(slots=True)
class _Connection:
    address: tuple[str, str]
    reader: asyncio.StreamReader
    writer: asyncio.StreamWriter
    free_since_s: float = 0.0

    def is_good(self, now_s: float) -> bool:
        is_open = not (self.reader.at_eof() or self.writer.is_closing())
        return is_open and now_s - self.free_since_s < KEPT_S

    def let_go(self) -> None:
        self.writer.transport.abort()


class Connections:
    """Each serves one call at a time, and is let go where a call fails."""

    def __init__(self, tls: ssl.SSLContext, agent: str) -> None:
        self._tls = tls
        self._agent = agent
        self._free: list[_Connection] = []

    def close(self) -> None:
        """Let go of those that are kept."""
        for connection in self._free:
            connection.let_go()
        self._free.clear()

    async def ask(self, method: str, url: str, body: bytes) -> tuple[int, bytes]:
        """
        Give status and body of the answer to a call, whose own body is JSON.

        Raises OSError, EOFError, ValueError or LimitOverrunError where there is none, or none that is HTTP.
        """
        at = urlsplit(url)
        connection = self._kept(at) or await self._opened(at)
        head = (
            f"{method} {at.path}{at.query and '?'}{at.query} HTTP/1.1\r\nHost: {at.netloc}\r\n"
            f"User-Agent: {self._agent}\r\nAccept: */*\r\nContent-Type: application/json\r\n"
            f"Content-Length: {len(body)}\r\n\r\n"
        )
        is_kept = False
        try:
            connection.writer.write(head.encode() + body)
            status, heads = await _head(connection.reader)
            content = await _content(connection.reader, status, heads)
            is_kept = heads.get("connection", "").lower() != "close" and not connection.reader.at_eof()
        finally:
            if is_kept:
                connection.free_since_s = asyncio.get_running_loop().time()
                self._free.append(connection)
            else:
                connection.let_go()
        return status, content

    def _kept(self, at: SplitResult) -> _Connection | None:
        now_s = asyncio.get_running_loop().time()
        while self._free:
            connection = self._free.pop()
            if connection.address == at[:2] and connection.is_good(now_s):
                return connection
            connection.let_go()
        return None

    async def _opened(self, at: SplitResult) -> _Connection:
        tls = self._tls if at.scheme == "https" else None
        port = at.port or (80 if tls is None else 443)
        async with asyncio.timeout(CONNECT_S):
            streams = await asyncio.open_connection(
                at.hostname, port, ssl=tls, happy_eyeballs_delay=EYEBALLS_S
            )
        return _Connection(at[:2], *streams)


async def _head(reader: asyncio.StreamReader) -> tuple[int, Mapping[str, str]]:
    status = 0
    while status < HTTPStatus.OK:  # what comes before says that an answer is to come
        first, *lines = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1").split("\r\n")
        version, _, rest = first.partition(" ")
        status = int(rest[:3])
    heads = {name.lower(): value.strip() for name, _, value in (line.partition(":") for line in lines)}
    return status, heads if version == "HTTP/1.1" else heads | {"connection": "close"}


async def _content(reader: asyncio.StreamReader, status: int, heads: Mapping[str, str]) -> bytes:
    if heads.get("transfer-encoding", "").lower() == "chunked":
        parts = []
        while size := int((await reader.readuntil(b"\r\n")).partition(b";")[0], 16):
            parts.append((await reader.readexactly(size + 2))[:size])
        while await reader.readuntil(b"\r\n") != b"\r\n":
            pass  # heads may stand behind the last part
        return b"".join(parts)
    if status in {HTTPStatus.NO_CONTENT, HTTPStatus.NOT_MODIFIED}:
        return b""
    length = heads.get("content-length")
    return await (reader.read() if length is None else reader.readexactly(int(length)))
