"""The library's requests, made over connections of the interpreter's own: a fifth of the work."""

import json
import ssl
from typing import Any
from urllib.request import getproxies

import h11
from telegram import error as platform
from telegram.request import HTTPXRequest, RequestData

from bot.telegram.connections import Connections


class KeptRequest(HTTPXRequest):
    """Files, and everything where the environment names a proxy, go by the library's own client."""

    def __init__(self, patience_s: float, tls: ssl.SSLContext, *, is_loopback: bool) -> None:
        super().__init__(read_timeout=patience_s, httpx_kwargs={"verify": tls, "trust_env": not is_loopback})
        self._is_proxied = not is_loopback and not getproxies().keys().isdisjoint({"http", "https", "all"})
        self._connections = Connections(tls, self.USER_AGENT, patience_s)

    async def shutdown(self) -> None:
        """Let go of the connections."""
        self._connections.close()
        await super().shutdown()

    async def do_request(
        self, url: str, method: str, request_data: RequestData | None = None, *limits: Any, **named: Any
    ) -> tuple[int, bytes]:
        """Give status and body of the answer; raises what the library's own does."""
        if self._is_proxied or (request_data is not None and request_data.contains_files):
            return await super().do_request(url, method, request_data, *limits, **named)
        body = b"" if request_data is None else json.dumps(request_data.parameters).encode()
        try:
            return await self._connections.ask(method, url, body)
        except TimeoutError as error:
            raise platform.TimedOut from error
        except (OSError, h11.ProtocolError) as error:
            raise platform.NetworkError(f"{type(error).__name__}: {error}") from error
