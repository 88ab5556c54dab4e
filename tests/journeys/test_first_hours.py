"""
The first hours of newcomers, replayed: what each typed and pressed, and what the home must hold at the end.

The file of each ends in the lines that its teller's plan of a home comes to, written down before it was played.
"""

from pathlib import Path

import pytest

from tests.journeys.holding import holds
from tests.journeys.talking import Talk
from tests.journeys.transcribe import replayed, steps

FOLDER = Path(__file__).parent / "hours"
MOST_MESSAGES = 10


@pytest.mark.parametrize("file", sorted(FOLDER.glob("*.talk")), ids=lambda file: file.stem)
def test_a_newcomer_s_home_is_told_within_ten_messages(file: Path, stranger_talk: Talk) -> None:
    told, _, expected = file.read_text("utf-8").partition("=== holds\n")
    done = steps(told)
    typed = [one for one in done if one.startswith("Ada: ") and one != "Ada: /start"]
    assert len(typed) <= MOST_MESSAGES
    shown = replayed(done, stranger_talk)
    assert "\n".join(holds(stranger_talk)) + "\n" == expected, shown
