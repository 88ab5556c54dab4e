"""The library's requests, made over asyncio's own streams: a quarter of the work of its HTTP client."""

import asyncio
import ssl
from asyncio import StreamReader, StreamWriter
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlsplit
from urllib.request import getproxies

import h11
from telegram.error import NetworkError, TimedOut
from telegram.request import HTTPXRequest, RequestData

CONNECT_S = 5.0
KEPT_S = 5.0
"""A connection unused for longer may have been dropped on the way without a word. [s]"""
AT_ONCE = 65_536


@dataclass(slots=True)
class _Connection:
    reader: StreamReader
    writer: StreamWriter
    http: h11.Connection = field(default_factory=lambda: h11.Connection(h11.CLIENT))
    used_s: float = 0.0

    def is_usable(self, now_s: float) -> bool:
        is_clean = self.http.our_state is h11.IDLE and not self.reader.at_eof()
        return is_clean and now_s - self.used_s < KEPT_S

    async def exchange(self, request: h11.Request, body: bytes, patience_s: float) -> tuple[int, bytes]:
        told = (request, h11.Data(body), h11.EndOfMessage())
        self.writer.write(b"".join(self.http.send(one) or b"" for one in told))
        status, parts = 0, []
        while not isinstance(event := self.http.next_event(), h11.EndOfMessage):
            if event is h11.NEED_DATA:
                async with asyncio.timeout(patience_s):
                    self.http.receive_data(await self.reader.read(AT_ONCE))
            elif isinstance(event, h11.Response):
                status = event.status_code
            elif isinstance(event, h11.Data):
                parts.append(bytes(event.data))
        if self.http.our_state is self.http.their_state is h11.DONE:
            self.http.start_next_cycle()
        return status, b"".join(parts)


class StreamRequest(HTTPXRequest):
    """Files, and everything where the environment names a proxy, go by the library's own client."""

    def __init__(self, patience_s: float, tls: ssl.SSLContext, *, is_loopback: bool) -> None:
        super().__init__(read_timeout=patience_s, httpx_kwargs={"verify": tls, "trust_env": not is_loopback})
        self._patience_s, self._tls = patience_s, tls
        self._is_proxied = not is_loopback and not getproxies().keys().isdisjoint({"http", "https", "all"})
        self._idle: list[_Connection] = []

    async def shutdown(self) -> None:
        """Let go of the connections."""
        while self._idle:
            self._idle.pop().writer.transport.abort()
        await super().shutdown()

    async def do_request(
        self, url: str, method: str, request_data: RequestData | None = None, *limits: Any, **named: Any
    ) -> tuple[int, bytes]:
        """Give status and body of the answer; raises what the library's own does."""
        if self._is_proxied or (request_data is not None and request_data.contains_files):
            return await super().do_request(url, method, request_data, *limits, **named)
        where = urlsplit(url)
        body = b"" if request_data is None else request_data.url_encoded_parameters().encode()
        request = h11.Request(
            method=method,
            target=where._replace(scheme="", netloc="").geturl(),
            headers=[
                ("Host", where.netloc),
                ("User-Agent", self.USER_AGENT),
                ("Content-Type", "application/x-www-form-urlencoded"),
                ("Content-Length", str(len(body))),
            ],
        )
        try:
            connection = await self._connected(
                where.hostname or "", where.port, is_safe=where.scheme == "https"
            )
            try:
                answered = await connection.exchange(request, body, self._patience_s)
            except BaseException:
                connection.writer.transport.abort()
                raise
        except TimeoutError as error:
            raise TimedOut from error
        except (OSError, h11.ProtocolError) as error:
            raise NetworkError(f"{type(error).__name__}: {error}") from error
        connection.used_s = asyncio.get_running_loop().time()
        self._idle.append(connection)
        return answered

    async def _connected(self, host: str, port: int | None, *, is_safe: bool) -> _Connection:
        now_s = asyncio.get_running_loop().time()
        while self._idle:
            connection = self._idle.pop()
            if connection.is_usable(now_s):
                return connection
            connection.writer.transport.abort()
        tls = self._tls if is_safe else None
        async with asyncio.timeout(CONNECT_S):
            streams = await asyncio.open_connection(host, port or (443 if is_safe else 80), ssl=tls)
        return _Connection(*streams)
