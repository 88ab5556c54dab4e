"""The library's bot: calls go out as their rows have them, raw updates come in."""

import base64
import os
import warnings
from collections.abc import Mapping
from typing import Any

from httpx import create_ssl_context
from telegram import Bot, InputFile
from telegram.error import TelegramError
from telegram.warnings import PTBUserWarning

from bot.telegram.failures import named
from bot.telegram.parsed import Me
from bot.telegram.request import PooledRequest

# The library's own switch for time spans instead of whole seconds; without it every 429 raises a warning.
os.environ.setdefault("PTB_TIMEDELTA", "true")  # noqa: TID251 - sets the library's switch, reads nothing
# Its own methods read every answer into objects, of which a number is wanted, and its getUpdates fails on a
# whole batch for one bad update; that the raw call is used is warned of.
warnings.filterwarnings("ignore", "Please use 'Bot", PTBUserWarning)

POLL_S, CALL_S = 25, 15
ALLOWED = ("message", "edited_message", "callback_query", "message_reaction")


def _sendable(value: Any) -> Any:
    """Make a file of what a row keeps as JSON."""
    if isinstance(value, dict) and "base64" in value:
        return InputFile(base64.b64decode(value["base64"]), filename=value["name"])
    return value


class Wire:
    """Calls the platform; every failure comes out under a name of `failures`."""

    def __init__(self, token: str, api_url: str, *, is_loopback: bool = False) -> None:
        tls = create_ssl_context()  # both by one: reading the authorities takes 20 ms and most of a megabyte
        self.bot = Bot(
            token,
            base_url=f"{api_url}/bot",
            base_file_url=f"{api_url}/file/bot",
            request=PooledRequest(CALL_S, tls, is_loopback=is_loopback),
            get_updates_request=PooledRequest(POLL_S + 10, tls, is_loopback=is_loopback),
        )

    async def open(self) -> Me:
        """Ask the platform who the bot is."""
        try:
            await self.bot.initialize()
        except TelegramError as error:
            raise named(error) from error
        return Me(self.bot.id, self.bot.username)

    async def close(self) -> None:
        """Let go of the connections."""
        await self.bot.shutdown()

    async def call(self, method: str, body: Mapping[str, Any]) -> Any:
        """Call one method and give the platform's answer."""
        arguments = {name: _sendable(value) for name, value in body.items()}
        try:
            return await self.bot.do_api_request(method, arguments)
        except TelegramError as error:
            raise named(error) from error

    async def updates(self, offset: int) -> list[Any]:
        """Wait for raw updates from `offset` on, confirming all before it."""
        wanted = {"offset": offset, "timeout": POLL_S, "allowed_updates": list(ALLOWED)}
        given = await self.call("getUpdates", wanted)
        return given if isinstance(given, list) else []

    async def file(self, file_id: str) -> bytes:
        """Fetch a file somebody sent."""
        try:
            return bytes(await (await self.bot.get_file(file_id)).download_as_bytearray())
        except TelegramError as error:
            raise named(error) from error
