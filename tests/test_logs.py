"""What is logged: one line an event, and never a person's words."""

import logging
import re
import time
from pathlib import Path

import pytest

from bot.logs import LineFormatter, Troubles, without_values
from demo.story import ASIDES, OUTBREAK, SET_UP
from tests.tools.measuring import begin, bot_settings, end, person, said, say, stand_in
from tests.tools.standing_in import TOKEN

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


def test_a_whole_story_leaves_no_token_text_or_place_in_the_log(tmp_path: Path) -> None:
    """Everything is logged that ever is, at the level of debugging, and the platform fails now and then."""
    standing, url = stand_in()
    environment = bot_settings(url, tmp_path / "data") | {"DUSKROUND_LOG": "debug"}
    with (tmp_path / "log.txt").open("w") as log, person(url) as client:
        bot = begin("tests.tools.unpaced", environment=environment, stderr=log)
        try:
            asides = [text for texts in ASIDES.values() for text in texts]
            for number, text in enumerate((*SET_UP, *OUTBREAK, *asides, COORDINATES, "invite")):
                before = len(said(client, 1))
                faults = [
                    {"method": "sendMessage", "status": 502},
                    {"method": "getUpdates", "is_garbage": True},
                ]
                client.post("/faults", json=faults if number % 7 == 3 else []).raise_for_status()
                say(client, 1, text)
                until = time.monotonic() + 30
                while len(said(client, 1)) == before and time.monotonic() < until:
                    time.sleep(0.01)
            client.post(
                "/updates", json={"message": {"chat": {"id": 1}, "text": ["a poisoned secret"], "from": 7}}
            )
            say(client, 99, "a stranger speaks")
            until = time.monotonic() + 30
            while not said(client, 99) and time.monotonic() < until:
                time.sleep(0.01)
        finally:
            end(bot)
            end(standing)
    logged = (tmp_path / "log.txt").read_text("utf-8")
    assert len(logged.splitlines()) >= 5, "the failures were logged"
    assert "put aside" in logged
    told = {word for text in (*SET_UP, *OUTBREAK, *asides) for word in re.findall(r"[a-z]{5,}", text.lower())}
    private = {
        TOKEN,
        TOKEN.partition(":")[2],
        *COORDINATES.split(", "),
        "Gent",
        "Brussels",
        "poisoned",
        "stranger",
    }
    found = {word for word in (told - OUR_WORDS) | private if word in logged}
    assert found == set()


COORDINATES = "51.0543, 3.7174"
OUR_WORDS = {"after", "their", "there", "start", "until", "light", "other", "today"}
"""Words our own lines may hold; none tells of a home."""
