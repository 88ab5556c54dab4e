"""The library's bot as a plain caller: a method's name and a body go out, JSON comes back."""

import base64
import logging
import os
from typing import Any

from telegram import Bot, InputFile
from telegram.error import TelegramError
from telegram.request import HTTPXRequest

from bot.telegram.failures import named
from bot.telegram.incoming import Me

# The library's own switch for time spans instead of whole seconds; without it every 429 raises a warning.
os.environ.setdefault("PTB_TIMEDELTA", "true")  # noqa: TID251 - sets the library's switch, reads nothing

POLL_S = 25
CONNECTIONS = 16
ALLOWED = ("message", "edited_message", "callback_query", "message_reaction")

logger = logging.getLogger(__name__)


def _with_files(body: dict[str, Any]) -> dict[str, Any]:
    """Make uploads of what a row holds as text."""
    return {key: _upload(value) if _is_held(value) else value for key, value in body.items()}


def _is_held(value: object) -> bool:
    return isinstance(value, dict) and value.keys() == {"name", "base64"}


def _upload(held: dict[str, str]) -> InputFile:
    return InputFile(base64.b64decode(held["base64"]), filename=held["name"])


class Wire:
    """Calls the platform; every failure comes out under a name of `failures`."""

    def __init__(self, token: str, api_url: str, *, is_loopback: bool = False) -> None:
        direct = {"trust_env": False} if is_loopback else {}
        self._bot = Bot(
            token,
            base_url=f"{api_url}/bot",
            base_file_url=f"{api_url}/file/bot",
            request=HTTPXRequest(CONNECTIONS, pool_timeout=30, read_timeout=15, httpx_kwargs=direct),
            get_updates_request=HTTPXRequest(1, read_timeout=POLL_S + 10, httpx_kwargs=direct),
        )

    async def open(self) -> Me:
        """Ask the platform who the bot is."""
        try:
            await self._bot.initialize()
        except TelegramError as error:
            raise named(error) from error
        return Me(self._bot.id, self._bot.username)

    async def close(self) -> None:
        """Let go of the connections."""
        await self._bot.shutdown()

    async def call(self, method: str, body: dict[str, Any]) -> Any:
        """Call one method with raw JSON."""
        # The library warns about a raw call of a method it has a wrapper for, and the wrapper of getUpdates
        # fails on a whole batch for one bad update. With an underscore behind it the name is the same to the
        # platform (the library turns snake case into camel case) and no wrapper's name.
        try:
            return await self._bot.do_api_request(f"{method}_", _with_files(body))
        except TelegramError as error:
            raise named(error) from error

    async def updates(self, offset: int) -> list[Any]:
        """Wait for raw updates from `offset` on, confirming all before it."""
        body = {"offset": offset, "timeout": POLL_S, "allowed_updates": list(ALLOWED)}
        given = await self.call("getUpdates", body)
        return given if isinstance(given, list) else []

    async def file(self, file_id: str) -> bytes:
        """Fetch a file somebody sent."""
        try:
            return bytes(await (await self._bot.get_file(file_id)).download_as_bytearray())
        except TelegramError as error:
            raise named(error) from error
