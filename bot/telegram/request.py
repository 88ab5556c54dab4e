"""The library's requests, made by the very pool its HTTP client stands on: four fifths of the work."""

import json
import ssl
from typing import Any
from urllib.request import getproxies

from httpcore import AsyncConnectionPool, NetworkError, ProtocolError, TimeoutException
from telegram import error as platform
from telegram.request import HTTPXRequest, RequestData

from bot.telegram.network import Network

CONNECT_S = 5.0
KEPT_S = 5.0
"""A connection unused for longer may have been dropped on the way without a word. [s]"""
CONNECTIONS = 16


class PooledRequest(HTTPXRequest):
    """Files, and everything where the environment names a proxy, go by the library's own client."""

    def __init__(self, patience_s: float, tls: ssl.SSLContext, *, is_loopback: bool) -> None:
        super().__init__(read_timeout=patience_s, httpx_kwargs={"verify": tls, "trust_env": not is_loopback})
        self._is_proxied = not is_loopback and not getproxies().keys().isdisjoint({"http", "https", "all"})
        self._pool = AsyncConnectionPool(
            tls, max_connections=CONNECTIONS, keepalive_expiry=KEPT_S, network_backend=Network()
        )
        limits = {"connect": CONNECT_S, "read": patience_s, "write": patience_s, "pool": patience_s}
        self._more = {"timeout": limits}

    async def shutdown(self) -> None:
        """Let go of the connections."""
        await self._pool.aclose()
        await super().shutdown()

    async def do_request(
        self, url: str, method: str, request_data: RequestData | None = None, *limits: Any, **named: Any
    ) -> tuple[int, bytes]:
        """Give status and body of the answer; raises what the library's own does."""
        if self._is_proxied or (request_data is not None and request_data.contains_files):
            return await super().do_request(url, method, request_data, *limits, **named)
        body = b"" if request_data is None else json.dumps(request_data.parameters).encode()
        heads = [("User-Agent", self.USER_AGENT), ("Content-Type", "application/json")]
        try:
            answer = await self._pool.request(method, url, headers=heads, content=body, extensions=self._more)
        except TimeoutException as error:
            raise platform.TimedOut from error
        except (NetworkError, ProtocolError) as error:
            raise platform.NetworkError(f"{type(error).__name__}: {error}") from error
        return answer.status, answer.content
