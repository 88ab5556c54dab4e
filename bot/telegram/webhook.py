"""The webhook: updates posted to us, believed only with the secret, confirmed after the commit."""

import hmac
import json
import logging
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlsplit

from tornado.httpserver import HTTPServer
from tornado.web import Application, RequestHandler

SECRET_HEADER = "X-Telegram-Bot-Api-Secret-Token"  # noqa: S105 - the header's name, not a secret
LARGEST_BODY_BYTES = 1_000_000

Accept = Callable[[Any], Awaitable[None]]
logger = logging.getLogger(__name__)


@dataclass(slots=True)
class Webhook:
    """Where the platform posts (url), where we listen, and the secret both know."""

    url: str
    secret: str = field(repr=False)
    host: str
    port: int
    _server: HTTPServer | None = None

    async def open(self, accept: Accept) -> None:
        """Listen; opening twice does nothing."""
        if self._server is not None:
            return
        path = urlsplit(self.url).path or "/"
        routes = [(path, _Post, {"accept": accept, "secret": self.secret})]
        self._server = HTTPServer(Application(routes, log_function=_silent), max_body_size=LARGEST_BODY_BYTES)
        self._server.listen(self.port, self.host)

    def close(self) -> None:
        """Listen no more."""
        if self._server is not None:
            self._server.stop()
            self._server = None


class _Post(RequestHandler):
    def initialize(self, accept: Accept, secret: str) -> None:
        self._accept = accept
        self._secret = secret

    async def post(self) -> None:
        told = self.request.headers.get(SECRET_HEADER, "")
        if not hmac.compare_digest(told.encode(), self._secret.encode()):
            self.set_status(403)
            return
        try:
            raw = json.loads(self.request.body)
        except (ValueError, RecursionError):
            self.set_status(400)
            return
        try:
            await self._accept(raw)
        except Exception as error:  # noqa: BLE001 - whatever it was, the platform must bring it again
            logger.warning("an update was not taken: %s", type(error).__name__)
            self.set_status(500)


def _silent(_handler: RequestHandler) -> None:
    """Log no request: the body is a person's."""
