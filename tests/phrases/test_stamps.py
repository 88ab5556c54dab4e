"""What is written before an entry of a log, and words that look like a day."""

import pytest

from bot.phrases.hearing import understand
from bot.phrases.notation import notation
from tests.phrases.situation import EVENING


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("20:05 - hoya done", "done hoya"),  # EVENING is at 20:10
        ("7:50 PM: ivy clean", "none ivy"),
        ("on the hoya sat 8 mealybugs", "find hoya 8 pest=mealybug"),  # no Saturday
    ],
)
def test_a_clock_before_an_entry_tells_no_hour(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning


def test_three_temperatures_of_one_room_are_no_reading() -> None:
    assert "temperature" not in notation(understand("16°C 17°C 18°C study", EVENING), EVENING)
