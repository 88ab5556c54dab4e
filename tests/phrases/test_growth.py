"""
The grammar's work grows no faster than the message: counted in calls, not in time.

An exponent of 1 is work in proportion to the length; a little above is allowed for what is looked up by length.
"""

import math
import sys
from types import FrameType

import pytest

from bot.actions.not_understood import NotUnderstood
from bot.phrases import grammar
from bot.phrases.hearing import understand
from bot.phrases.text import LONGEST, plain, tidy, words_of
from tests.phrases.situation import EVENING

STEEPEST = 1.25
MOST_READINGS = 40
"""A message is read again without courtesies, by sentences, with a slip mended: so often at most."""
PATTERNS = (
    *(
        "hoya ",
        "done ",
        "done, ",
        "hoya done, ",
        "hoya and ",
        "and ",
        "not ",
        "no, ",
        "1 ",
        "3 4 ",
        "a ",
        "half ",
    ),
    *(
        "twenty ",
        "hundred and ",
        "next fri 8 may ",
        "on sunday, ",
        "in 3 days ",
        "until ",
        "except ",
        "both ",
        "the ",
    ),
    *(
        "sprayd ",
        "xyzzy ",
        "hoya? ",
        "hoya. ",
        "what ",
        "could you ",
        "please ",
        "hi, ",
        "(soap) ",
        "- ",
        "; ",
        "\n",
    ),
    *(
        "small ",
        "small hoya ",
        "small hoyaa ",
        "moth ",
        "'s ",
        "\u2019",
        "\U0001f335 ",
        "mix 1 l of neem, ",
        "5 ml per ",
    ),
    *(
        "5 % ",
        "1:",
        "1:20 ",
        "every ",
        "first second ",
        "got soap, ",
        "isolate ",
        "moved hoya to the ",
        "is called ",
    ),
)


def calls(text: str) -> tuple[int, int]:
    """Count the Python calls of understanding a message, nothing remembered from before, and its readings."""
    for remembered in (plain, tidy, words_of):
        remembered.cache_clear()
    count = readings = 0

    def counted(frame: FrameType, event: str, _told: object) -> None:
        nonlocal count, readings
        count += event == "call"
        readings += event == "call" and frame.f_code is grammar._read.__code__  # noqa: SLF001 - counted, not called

    sys.setprofile(counted)
    try:
        understand(text, EVENING)
    finally:
        sys.setprofile(None)
    return count, readings


@pytest.mark.parametrize("pattern", PATTERNS)
def test_work_grows_no_faster_than_the_message(pattern: str) -> None:
    times = LONGEST // len(pattern)
    half, whole = (pattern * (times // 2)).rstrip(" "), (pattern * times).rstrip(" ")
    for text in (half, whole):
        understand(text, EVENING)  # so that what is built and loaded once is there
    (less, few), (more, many) = calls(half), calls(whole)
    assert max(few, many) <= MOST_READINGS
    steepness = min(math.log2(more / less), math.log2((more / max(many, 1)) / (less / max(few, 1))))
    assert steepness <= STEEPEST, f"{less} calls for {len(half)} characters, {more} for {len(whole)}"


def test_of_a_message_beyond_the_longest_no_more_is_read_than_its_length() -> None:
    assert calls("hoya done, " * 10_000)[0] < 3 * calls("hoya done, " * 100)[0]
    assert understand("hoya done, " * 100, EVENING) == (
        NotUnderstood(("hoya done, " * 100)[:600], "too long"),
    )
