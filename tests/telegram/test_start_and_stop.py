"""The bot as a process: a start says that it runs and where, a wrong address is one line, a stop is an exit of 0."""

import signal
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.tools.measuring import begin, bot_settings, end, stand_in


@pytest.fixture
def platform() -> Iterator[str]:
    process, url = stand_in()
    yield url
    end(process)


def test_a_start_says_where_it_runs_and_a_stop_is_clean(platform: str, tmp_path: Path) -> None:
    bot = begin("bot", environment=bot_settings(platform, tmp_path), stdout=subprocess.PIPE)
    line = bot.stdout.readline()
    bot.send_signal(signal.SIGTERM)
    assert bot.wait(timeout=20) == 0
    end(bot)
    assert line == f"Duskround runs as @duskround_bot: polls {platform}, keeps its data in {tmp_path}\n"


def test_an_address_that_knows_no_bot_api_is_one_line(platform: str, tmp_path: Path) -> None:
    settings = bot_settings(f"{platform}/nowhere", tmp_path)
    bot = begin("bot", environment=settings, stderr=subprocess.PIPE)
    _, complaint = bot.communicate(timeout=30)
    assert bot.returncode == 2
    assert complaint == (
        f"The bot does not start: {platform}/nowhere answers, but knows no such bot: "
        "DUSKROUND_API_URL or the form of DUSKROUND_TOKEN is wrong\n"
    )
