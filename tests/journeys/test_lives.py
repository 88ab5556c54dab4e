"""
Lives: weeks of the clock as played readers lived them with the bot, replayed with what the journal must hold at the end.

Each `lives/NAME.txt` is a talk kept by `python -m tests.tools.playing`; `NAME.holds.txt` beside it was compared, line by
line, with what its person had told. The bot's own words may change; what is written of what was told may not.
"""

from pathlib import Path

import pytest

from tests.journeys.holding import holds
from tests.journeys.talking import PARTNER, Talk
from tests.journeys.transcribe import replayed, steps

FILES = sorted(file for file in (Path(__file__).parent / "lives").glob("*.txt") if file.suffixes == [".txt"])


@pytest.mark.parametrize("file", FILES, ids=[file.stem for file in FILES])
def test_what_was_told_is_what_is_held(stranger_talk: Talk, file: Path) -> None:
    stranger_talk.names[PARTNER] = "Bo"
    replayed(steps(file.read_text("utf-8")), stranger_talk)
    held = file.with_suffix(".holds.txt").read_text("utf-8").splitlines()
    assert holds(stranger_talk) == held
