"""Every hint of the bot, and every phrase README teaches, can be said to it literally."""

import pytest

from tests.wording.said_back import COMPLETED, UNITS, shown_phrases, taught_phrases

LEAST_HINTS = 40
"""Fewer would mean that hints are no longer found in the texts."""


@pytest.mark.parametrize("units", UNITS)
def test_what_is_quoted_is_understood_where_it_is_shown(units: str) -> None:
    answers = [one for one in shown_phrases(units) if one.phrase not in COMPLETED]
    assert len(answers) > LEAST_HINTS
    assert [(one.phrase, one.kinds, one.text) for one in answers if not one.is_understood] == []


@pytest.mark.parametrize("units", UNITS)
def test_what_is_taught_is_understood(units: str) -> None:
    answers = [one for one in taught_phrases(units) if one.phrase not in COMPLETED]
    assert len(answers) > LEAST_HINTS
    assert [(one.phrase, one.kinds, one.text) for one in answers if not one.is_understood] == []
