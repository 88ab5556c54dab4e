from datetime import timedelta

import pytest
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Conflict,
    Forbidden,
    InvalidToken,
    NetworkError,
    RetryAfter,
    TelegramError,
    TimedOut,
)

from bot.telegram import failures
from bot.telegram.failures import named


@pytest.mark.parametrize(
    ("error", "kind"),
    [
        (Forbidden("Forbidden: bot was blocked by the user"), failures.UndeliverableError),
        (Forbidden("Forbidden: user is deactivated"), failures.UndeliverableError),
        (BadRequest("Bad Request: chat not found"), failures.UndeliverableError),
        (BadRequest("Bad Request: message is not modified: ..."), failures.AlreadySettledError),
        (BadRequest("Bad Request: message to edit not found"), failures.AlreadySettledError),
        (BadRequest("Bad Request: query is too old and ..."), failures.AlreadySettledError),
        (NetworkError("Bad Gateway"), failures.TryLaterError),
        (TimedOut(), failures.TryLaterError),
        (TelegramError("Invalid server response"), failures.TryLaterError),
        (Conflict("Conflict: ..."), failures.OtherPollerError),
        (InvalidToken("Unauthorized"), failures.RefusedTokenError),
    ],
)
def test_each_failure_has_one_name(error: TelegramError, kind: type[Exception]) -> None:
    assert type(named(error)) is kind


def test_a_wait_is_kept_in_seconds() -> None:
    later = named(RetryAfter(timedelta(seconds=7)))
    assert isinstance(later, failures.TryLaterError)
    assert later.after_s == 7


def test_a_moved_chat_tells_where() -> None:
    moved = named(ChatMigrated(-1005))
    assert isinstance(moved, failures.ChatMovedError)
    assert moved.to == -1005
