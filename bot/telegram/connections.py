"""Calls by HTTP/1.1, spoken by h11 over the interpreter's own streams, which are kept for the next call."""

import asyncio
import ssl
from typing import Any
from urllib.parse import SplitResult, urlsplit

import h11

CONNECT_S = 5.0
KEPT_S = 5.0
"""A connection unused for longer may have been dropped on the way without a word. [s]"""
EYEBALLS_S = 0.25
"""So long one way to a host may take before the next is tried beside it (RFC 8305). [s]"""
MOST_READ = 65_536


class Connections:
    """Each serves one call at a time, and is let go where a call fails."""

    def __init__(self, tls: ssl.SSLContext, agent: str, patience_s: float) -> None:
        self._tls = tls
        self._heads = [("User-Agent", agent), ("Content-Type", "application/json")]
        self._patience_s = patience_s
        self._free: list[_Connection] = []

    def close(self) -> None:
        """Let go of those that are kept."""
        for connection in self._free:
            connection.let_go()
        self._free.clear()

    async def ask(self, method: str, url: str, body: bytes) -> tuple[int, bytes]:
        """
        Give status and body of the answer to a call, whose own body is JSON.

        Raises OSError, of which TimeoutError is one, or h11.ProtocolError where there is none that is HTTP.
        """
        at = urlsplit(url)
        heads = [("Host", at.netloc), *self._heads, ("Content-Length", str(len(body)))]
        target = f"{at.path}?{at.query}" if at.query else at.path
        request = h11.Request(method=method, target=target, headers=heads)
        connection = self._kept(at) or await self._opened(at)
        try:
            return await connection.ask(request, body, self._patience_s)
        finally:
            if connection.is_done():
                self._free.append(connection)
            else:
                connection.let_go()

    def _kept(self, at: SplitResult) -> "_Connection | None":
        kept, self._free = self._free, []
        for connection in kept:
            if connection.is_good(at):
                self._free.append(connection)
            else:
                connection.let_go()
        return self._free.pop() if self._free else None

    async def _opened(self, at: SplitResult) -> "_Connection":
        tls = self._tls if at.scheme == "https" else None
        port = at.port or (80 if tls is None else 443)
        async with asyncio.timeout(CONNECT_S):
            streams = await asyncio.open_connection(
                at.hostname, port, ssl=tls, happy_eyeballs_delay=EYEBALLS_S
            )
        return _Connection(at, *streams)


class _Connection:
    def __init__(self, at: SplitResult, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self._at, self._reader, self._writer = at[:2], reader, writer
        self._http = h11.Connection(h11.CLIENT)
        self._now_s = asyncio.get_running_loop().time
        self._free_since_s = 0.0

    async def ask(self, request: h11.Request, body: bytes, patience_s: float) -> tuple[int, bytes]:
        events = (request, h11.Data(data=body), h11.EndOfMessage())
        async with asyncio.timeout(patience_s):
            self._writer.write(b"".join(self._http.send(event) or b"" for event in events))
            await self._writer.drain()
        status, parts = 0, list[bytes]()
        while type(event := await self._heard(patience_s)) is not h11.EndOfMessage:
            if isinstance(event, h11.Response):
                status = event.status_code
            elif isinstance(event, h11.Data):
                parts.append(event.data)
        return status, b"".join(parts)

    async def _heard(self, patience_s: float) -> Any:
        while (event := self._http.next_event()) is h11.NEED_DATA:
            async with asyncio.timeout(patience_s):
                self._http.receive_data(await self._reader.read(MOST_READ))
        return event

    def is_done(self) -> bool:
        """Whether a call is over and another may follow, as from now on."""
        if not self._http.our_state is self._http.their_state is h11.DONE:
            return False
        self._http.start_next_cycle()
        self._free_since_s = self._now_s()
        return True

    def is_good(self, at: SplitResult) -> bool:
        """Whether it goes there, and nobody has hung up or may have."""
        is_open = not (self._reader.at_eof() or self._writer.is_closing())
        return is_open and self._at == at[:2] and self._now_s() - self._free_since_s < KEPT_S

    def let_go(self) -> None:
        self._writer.transport.abort()
