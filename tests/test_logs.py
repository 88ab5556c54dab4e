"""What is logged: one line an event, and never a person's words."""

import logging

import pytest

from bot.logs import LineFormatter, Troubles, without_values

SECRET = "hoya of Ada at 51.0, 3.7"


def _record(message: str, *values: object, error: BaseException | None = None) -> logging.LogRecord:
    told = None if error is None else (type(error), error, error.__traceback__)
    return logging.LogRecord("bot.app", logging.ERROR, "app.py", 1, message, values, told)


def _raised() -> ValueError:
    try:
        int(SECRET)
    except ValueError as error:
        return error
    raise AssertionError("a number after all")


def test_an_event_is_one_line_of_pairs() -> None:
    line = LineFormatter().format(_record('update %d "failed"\nbadly', 7))
    assert "\n" not in line
    assert ' level=error at=bot.app event="update 7 \\"failed\\" badly"' in line
    assert line.startswith("ts=")


def test_a_failure_is_told_by_its_kind_and_place_and_not_by_its_text() -> None:
    line = LineFormatter().format(_record("it failed", error=_raised()))
    assert SECRET not in line
    assert "ValueError at " in line
    assert "test_logs.py" in line
    assert SECRET not in without_values(_raised())


def test_troubles_are_counted_and_taken_once() -> None:
    troubles = Troubles()
    for number in range(3):
        troubles.handle(_record("update %d failed: %s", number, SECRET, error=_raised()))
    count, last = troubles.take()
    assert count == 3
    assert last == "bot.app: update %d failed: %s (ValueError)"
    assert troubles.take()[0] == 0
    assert troubles.count == 3


def test_warnings_are_no_troubles(caplog: pytest.LogCaptureFixture) -> None:
    troubles = Troubles()
    logger = logging.getLogger("bot.of_a_test")
    logger.addHandler(troubles)
    logger.warning("the platform is slow")
    logger.removeHandler(troubles)
    assert troubles.count == 0
    assert "slow" in caplog.text
