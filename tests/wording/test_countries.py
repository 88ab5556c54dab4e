"""A home is spoken to in its own units, order of dates and clock: a whole story in three countries, and every prompt."""

import re

import pytest

from bot.actions.outcome import Outcome
from bot.actions.set_units import UnitsSet
from bot.actions.show_settings import SettingsTold
from bot.wording.sentences import say
from bot.wording.voice import Voice
from tests.wording.tabulate import play

FOREIGN = {
    "Gent": r"°F|\d in(?=[,.;)]|$)|\d (?:gal|qt|fl oz|tbsp|tsp)\b|\b\d{1,2}(?::\d\d)? [ap]m\b|[A-Z][a-z]{2} [A-Z][a-z]{2} \d",
    "London": r"°F|\d in(?=[,.;)]|$)|\bUS gal|\b\d{1,2}(?::\d\d)? [ap]m\b|[A-Z][a-z]{2} [A-Z][a-z]{2} \d",
    "Chicago": r"\d ?°C|\d cm\b|\b\d\d:\d\d\b|(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d{1,2} [A-Z][a-z]{2}\b|imperial gal",
}
"""What a home there never reads: units, order of dates, clock. Common practice, no source."""
ABOUT_UNITS = (UnitsSet, SettingsTold)
"""They name what can be chosen."""


@pytest.mark.parametrize("town", FOREIGN)
def test_no_text_has_a_foreign_unit_date_or_clock(town: str) -> None:
    found: dict[str, str] = {}

    def noted(outcome: Outcome, voice: Voice) -> None:
        text = re.sub("“[^”]*”", "", say(outcome, voice))  # a person's own words stay as they are
        match = re.search(FOREIGN[town], text)
        if match is not None and not isinstance(outcome, ABOUT_UNITS):
            found.setdefault(f"{type(outcome).__name__}: {match[0]}", text)

    play(noted, lambda text: _moved(text, town))
    assert not found, "\n\n".join(f"{kind}\n{text}" for kind, text in found.items())


def _moved(prompt: str, town: str) -> str:
    """Let a home of the prompts lie in another town, and leave its units as they come with it."""
    text = re.sub(r"(?i)\b(?:gent|gemt|leeds)\b", town, prompt)
    return re.sub(r"^> (?:us units|metric|12 hour clock|I live in Springfield)$", "> thanks", text)
