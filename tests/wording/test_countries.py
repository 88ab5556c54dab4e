"""A home is spoken to in its own units, order of dates and clock: a whole story in three countries, and every prompt."""

import csv
import io
import re

import icalendar
import pytest

from bot.actions.action import Outcome
from bot.actions.export import CalendarMade, TableMade
from bot.actions.set_tools import ToolsKept
from bot.actions.set_units import UnitsSet
from bot.actions.show_settings import SettingsTold
from bot.actions.show_trend import TrendShown
from bot.wording.files import calendar_file, table_file
from bot.wording.sentences import say
from bot.wording.trending import ticks
from bot.wording.voice import Voice
from tests.wording.tabulate import play

FOREIGN = {
    "Gent": r"°F|\d in(?=[,.;)]|$)|\d (?:gal|qt|fl oz|tbsp|tsp)\b|\b\d{1,2}(?::\d\d)? [ap]m\b|[A-Z][a-z]{2} [A-Z][a-z]{2} \d",
    "London": r"°F|\d in(?=[,.;)]|$)|\bUS gal|\b\d{1,2}(?::\d\d)? [ap]m\b|[A-Z][a-z]{2} [A-Z][a-z]{2} \d",
    "Chicago": r"\d ?°C|\d cm\b|\b\d\d:\d\d\b|(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d{1,2} [A-Z][a-z]{2}\b|imperial gal|\d (?:mL|L)\b|per litre",
}
"""What a home there never reads: units, order of dates, clock. Common practice, no source."""
ABOUT_UNITS = (UnitsSet, SettingsTold, ToolsKept)
"""They name what can be chosen."""
SYRINGED = re.compile(r"[\d.]+ mL (?=neem)")
"""Syringes are marked in mL everywhere; who has told of one is answered by it."""


@pytest.mark.parametrize("town", FOREIGN)
def test_no_text_has_a_foreign_unit_date_or_clock(town: str) -> None:
    found: dict[str, str] = {}

    def noted(outcome: Outcome, voice: Voice) -> None:
        said = "\n".join([say(outcome, voice), *written(outcome, voice)])
        text = SYRINGED.sub("", re.sub("“[^”]*”", "", said))  # a person's own words stay as they are
        match = re.search(FOREIGN[town], text)
        if match is not None and not isinstance(outcome, ABOUT_UNITS):
            found.setdefault(f"{type(outcome).__name__}: {match[0]}", text)

    play(noted, lambda text: _moved(text, town))
    assert not found, "\n\n".join(f"{kind}\n{text}" for kind, text in found.items())


def written(outcome: Outcome, voice: Voice) -> list[str]:
    """Give what a file or a picture of an answer says in words."""
    match outcome:
        case CalendarMade():
            calendar = icalendar.Calendar.from_ical(calendar_file(outcome, voice).content)
            return [
                str(one[key])
                for one in calendar.walk("VEVENT")
                for key in ("summary", "description")
                if key in one
            ]
        case TableMade():
            rows = csv.reader(io.StringIO(table_file(outcome, voice).content.decode("utf-8-sig")))
            return [
                "; ".join(row[1:]) for row in rows
            ]  # days are written as table programs read them, ISO 8601
        case TrendShown() if outcome.points:
            return list(ticks(outcome, voice).values())
        case _:
            return []


def _moved(prompt: str, town: str) -> str:
    """Let a home of the prompts lie in another town, and leave its units as they come with it."""
    text = re.sub(r"(?i)\b(?:gent|gemt|leeds)\b", town, prompt)
    return re.sub(r"^> (?:us units|metric|12 hour clock|I live in Springfield)$", "> thanks", text)
