"""How the platform fails, in one place: what is settled, what to try later, what to give up."""

from datetime import timedelta
from http import HTTPStatus

from telegram.error import (
    BadRequest,
    ChatMigrated,
    Conflict,
    EndPointNotFound,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
)

SETTLED = (
    "message is not modified",
    "message to edit not found",
    "message can't be edited",
    "query is too old",
    "query id is invalid",
)


class UndeliverableError(Exception):
    """The platform will never take it: blocked, chat gone, refused for good."""


class TryLaterError(Exception):
    """The platform may take it later; after_s is what it asked for [s], None if it did not say."""

    def __init__(self, why: str, after_s: float | None = None) -> None:
        super().__init__(why)
        self.after_s = after_s


class ChatMovedError(Exception):
    """The chat has another id now."""

    def __init__(self, to: int) -> None:
        super().__init__("the chat has another id")
        self.to = to


class RefusedTokenError(Exception):
    """The platform does not know the bot's token; nothing will work before it is set right."""


class NothingThereError(Exception):
    """The address knows no such bot or no such method: a wrong address, a misshaped token, an old server."""


class OtherPollerError(Exception):
    """Somebody else takes this bot's updates, or a webhook is still set."""


class AlreadySettledError(Exception):
    """Nothing is left to do: the text stands already, the message or the press is gone."""


def named(error: TelegramError) -> Exception:
    """Give the platform's failure the name under which we act on it; the text is the platform's own."""
    match error:
        case RetryAfter():
            return TryLaterError("asked to wait", _seconds(error.retry_after))
        case ChatMigrated():
            return ChatMovedError(error.new_chat_id)
        case EndPointNotFound() | InvalidToken():  # the library gives them for 401 and 404 alike
            refusal = error.__cause__ if isinstance(error.__cause__, InvalidToken) else error
            is_refused = refusal.message == HTTPStatus.UNAUTHORIZED.phrase
            return RefusedTokenError("token refused") if is_refused else NothingThereError("nothing there")
        case Forbidden():
            return UndeliverableError(error.message)
        case Conflict():
            return OtherPollerError(error.message)
        case BadRequest():
            return _refused(error.message)
        case NetworkError():
            return TryLaterError(f"{type(error.__cause__ or error).__name__}")
        case _:
            return TryLaterError(type(error).__name__)


def _refused(message: str) -> Exception:
    if any(text in message.lower() for text in SETTLED):
        return AlreadySettledError(message)
    return UndeliverableError(message)


def _seconds(wait: int | timedelta) -> float:
    return wait.total_seconds() if isinstance(wait, timedelta) else float(wait)
