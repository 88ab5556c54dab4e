"""
No pattern is written for the line that measures it: of several words, at most one in twenty serves one hand only.

Those that do stand in one_hand.txt by name. The list can only shrink: what is new must serve two hands or none, and what
serves more by now, or is gone, is taken off it by `python -m tests.tools.answer_sheets --shorten`.
"""

from functools import cache

import pytest

from tests.tools.answer_sheets import (
    NAMED,
    alternatives,
    hands,
    served_by_phrases,
    served_by_templates,
    serving,
)

MOST_NAMED = 152
MOST = 0.05
"""Of all patterns of several words: phrases, alternatives of expressions, templates."""
MOST_OF_PHRASES = 0.1
"""Of phrases and expressions alone. To be brought to .05 as well."""


@cache
def _single() -> dict[tuple[str, str, str], str]:
    return {one: next(iter(served)) for one, served in serving().items() if len(served) == 1}


def test_few_patterns_serve_one_hand_only() -> None:
    found = serving()
    assert len(_single()) <= MOST * len(found)
    code = [one for one in found if one[0] != "template"]
    assert sum(one in _single() for one in code) <= MOST_OF_PHRASES * len(code)


def test_those_that_do_are_named() -> None:
    named = NAMED.read_text("utf-8").splitlines()
    assert {pattern for _, _, pattern in _single()} <= set(named)
    assert len(named) == len(set(named)) <= MOST_NAMED


def test_no_template_is_one_person_s_message() -> None:
    assert [one for one in _single() if one[0] == "template"] == []


def test_all_hands_are_counted() -> None:
    names = hands()
    assert len([name for name in names if name.startswith("hand-")]) >= 90
    assert {"golden"} < names.keys()
    assert any(name.startswith("D4-") for name in names)


def test_a_phrase_serves_the_hands_that_say_it() -> None:
    assert len(served_by_phrases(["good night"])["good night"]) > 1
    assert served_by_phrases(["with a silver trowel"]) == {"with a silver trowel": set()}


def test_a_template_serves_the_hands_that_say_it_with_any_names() -> None:
    assert served_by_templates(["{p} done"])["{p} done"]
    assert not served_by_templates(["{p} has been read to by candlelight"]).popitem()[1]


@pytest.mark.parametrize(
    ("pattern", "alone"),
    [
        (r"\b(?:no idea|dunno|no clue)\b", (r"\b(?:no idea)\b", r"\b(?:no clue)\b")),
        (r"not (?:a|the) word", (r"not (?:a|the) word",)),
        (r"dunno", ()),
    ],
)
def test_an_alternative_counts_as_a_pattern(pattern: str, alone: tuple[str, ...]) -> None:
    assert alternatives(pattern) == alone
