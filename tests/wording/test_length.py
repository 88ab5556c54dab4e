"""Answers are short enough for a tired person on a narrow phone."""

import re
from functools import cache

from bot.actions.action import Outcome
from bot.wording.lines import LONG, PHONE, SHORT, fitted, heights
from bot.wording.manner import most_lines
from bot.wording.saying import MOST_LINES
from bot.wording.sentences import say
from bot.wording.voice import Voice
from tests.wording.counting import COMMONEST, commonest
from tests.wording.tabulate import kind_of, play

NAMES = {
    "small hoya": "small hoya wax",
    "moth orchid": "moth orchid 12",
    "coffee plant": "coffee planter",
    "hoya": "hoya australis",
    "ivy": "ivy pittsburgh",
    "pilea": "pilea mollisia",
    "ficus": "ficus benjamin",
    "dracaena": "dracaena marga",
    "monstera": "monstera thaix",
    "pothos": "pothos marblex",
}
"""The homes played, as if each plant had a name of fourteen characters."""
_NAME = re.compile(rf"(?:(?<=\\n)|\b)({'|'.join(NAMES)})\b")


@cache
def answers() -> tuple[tuple[Outcome, str], ...]:
    """Give every outcome the prompts bring about with what would be shown of it, were names long."""
    found: list[tuple[Outcome, str]] = []

    def noted(outcome: Outcome, voice: Voice) -> None:
        found.append((outcome, fitted(say(outcome, voice), most_lines(outcome))[0]))

    play(noted, lambda text: _NAME.sub(lambda match: NAMES[match[1]], text))
    return tuple(found)


def lines_of(text: str) -> int:
    """Count the lines of a phone a text takes."""
    return heights(text.split("\n"))


def test_the_names_are_as_long_as_they_are_meant_to_be() -> None:
    assert {len(name) for name in NAMES.values()} == {14}


def test_the_commonest_answers_fit_six_lines_with_long_names_and_ten_plants_due() -> None:
    too_long = [text for one, text in answers() if most_lines(one) == SHORT and lines_of(text) > SHORT]
    assert not too_long, "\n\n".join([f"{len(too_long)} of them:", *dict.fromkeys(too_long)])


def test_any_other_answer_fits_ten() -> None:
    too_long = [text for one, text in answers() if not _is_at_length(one) and lines_of(text) > LONG]
    assert not too_long, "\n\n".join(dict.fromkeys(too_long))


def test_the_thirty_that_were_counted_are_among_the_short_ones() -> None:
    counted = commonest()
    assert len(counted) == COMMONEST
    short = {one.__name__ for one, most in MOST_LINES.items() if most == SHORT}
    # how long a history is depends on how far back one wants to read
    assert {kind.partition(",")[0] for kind in counted} - short <= {"History"}


def test_what_is_counted_is_played_too() -> None:
    assert set(commonest()) <= {kind_of(one) for one, _ in answers()}


def test_a_long_answer_is_cut_at_a_lines_end_and_nothing_of_it_is_lost() -> None:
    text = "\n".join(f"{number} " + "x" * PHONE for number in range(9))
    shown, waits = fitted(text, SHORT)
    assert lines_of(shown) == SHORT
    assert f"{shown}\n{waits}" == text


def test_what_must_be_seen_is_shown_whatever_its_length() -> None:
    assert fitted("a\n" * 8 + "\fb", SHORT) == ("\n".join("a" * 8), "b")


def _is_at_length(outcome: Outcome) -> bool:
    return most_lines(outcome) > LONG
