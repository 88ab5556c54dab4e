"""The library's bot: calls go out by its own methods and objects, raw updates come in."""

import base64
import logging
import os
import warnings
from collections.abc import Mapping
from inspect import signature
from typing import Any

from httpx import create_ssl_context
from telegram import (
    Bot,
    ForceReply,
    InlineKeyboardMarkup,
    InputFile,
    LinkPreviewOptions,
    MessageEntity,
    ReplyKeyboardMarkup,
    ReplyKeyboardRemove,
    ReplyParameters,
)
from telegram.error import TelegramError
from telegram.request import HTTPXRequest
from telegram.warnings import PTBUserWarning

from bot.telegram.failures import named
from bot.telegram.parsed import Me

# The library's own switch for time spans instead of whole seconds; without it every 429 raises a warning.
os.environ.setdefault("PTB_TIMEDELTA", "true")  # noqa: TID251 - sets the library's switch, reads nothing
# Its own getUpdates fails on a whole batch for one bad update; that the raw call is used is warned of.
warnings.filterwarnings("ignore", "Please use 'Bot.getUpdates'", PTBUserWarning)

logger = logging.getLogger(__name__)

POLL_S = 25
CONNECTIONS = 16
ALLOWED = ("message", "edited_message", "callback_query", "message_reaction")
MARKUPS: Mapping[str, Any] = {
    "inline_keyboard": InlineKeyboardMarkup,
    "keyboard": ReplyKeyboardMarkup,
    "remove_keyboard": ReplyKeyboardRemove,
    "force_reply": ForceReply,
}


def _made(name: str, value: Any) -> Any:
    """Make the library's object of what a row keeps as JSON."""
    match name:
        case "reply_markup":
            return next(kind for key, kind in MARKUPS.items() if key in value).de_json(value)
        case "link_preview_options":
            return LinkPreviewOptions.de_json(value)
        case "reply_parameters":
            return ReplyParameters.de_json(value)
        case "entities":
            return MessageEntity.de_list(value)
        case "photo" | "document":
            return InputFile(base64.b64decode(value["base64"]), filename=value["name"])
        case _:
            return value


class Wire:
    """Calls the platform; every failure comes out under a name of `failures`."""

    def __init__(self, token: str, api_url: str, *, is_loopback: bool = False) -> None:
        # both clients by one: reading the authorities takes 20 ms and most of a megabyte
        wire: dict[str, Any] = {"verify": create_ssl_context()} | (
            {"trust_env": False} if is_loopback else {}
        )
        self.bot = Bot(
            token,
            base_url=f"{api_url}/bot",
            base_file_url=f"{api_url}/file/bot",
            request=HTTPXRequest(CONNECTIONS, pool_timeout=30, read_timeout=15, httpx_kwargs=wire),
            get_updates_request=HTTPXRequest(1, read_timeout=POLL_S + 10, httpx_kwargs=wire),
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
        """
        Call one method; the library has each under the platform's own name too.

        An answer that it cannot read is one all the same: the message was taken, and must not be sent again.
        """
        arguments = {name: _made(name, value) for name, value in body.items()}
        function = getattr(self.bot, method)
        try:
            return await function(**arguments)
        except TelegramError as error:
            raise named(error) from error
        except Exception as error:  # noqa: BLE001 - whatever its reading of the answer raises
            signature(function).bind(**arguments)  # raises where no call was made
            logger.warning("%s: an answer nobody can read (%s)", method, type(error).__name__)
            return None

    async def updates(self, offset: int) -> list[Any]:
        """Wait for raw updates from `offset` on, confirming all before it."""
        wanted = {"offset": offset, "timeout": POLL_S, "allowed_updates": list(ALLOWED)}
        try:
            given: Any = await self.bot.do_api_request("getUpdates", wanted)
        except TelegramError as error:
            raise named(error) from error
        return given if isinstance(given, list) else []

    async def file(self, file_id: str) -> bytes:
        """Fetch a file somebody sent."""
        try:
            return bytes(await (await self.bot.get_file(file_id)).download_as_bytearray())
        except TelegramError as error:
            raise named(error) from error
