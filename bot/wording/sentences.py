"""Outcome to answer: every outcome has its sentence in a file by subject. Understood, written, next; plain words, no blame."""

import pkgutil
from collections.abc import Iterable
from importlib import import_module

from bot import wording
from bot.actions.export import AllExported, CalendarMade, TableMade
from bot.actions.outcome import Outcome
from bot.actions.show_photos import PhotosShown
from bot.actions.show_trend import TrendShown
from bot.wording.answer import Attachment
from bot.wording.chart import trend_chart
from bot.wording.files import calendar_file, everything_file, table_file
from bot.wording.photos import before_and_after
from bot.wording.saying import SAYERS
from bot.wording.voice import Voice

for _one in pkgutil.iter_modules(wording.__path__):
    if _one.name != "sentences":
        import_module(f"{wording.__name__}.{_one.name}")


def say(outcome: Outcome, voice: Voice) -> str:
    """Word one outcome, in the household's own units and order of dates."""
    function, needs_voice = SAYERS[type(outcome)]
    return voice.local(function(outcome, voice) if needs_voice else function(outcome))


def picture(outcomes: Iterable[Outcome]) -> Attachment | None:
    """Draw what goes with an answer, where anything does."""
    for one in outcomes:
        match one:
            case TrendShown():
                return trend_chart(one)
            case PhotosShown():
                return before_and_after(one)
            case _:
                pass
    return None


def document(outcomes: Iterable[Outcome]) -> Attachment | None:
    """Write the file that goes with an answer, where any does."""
    for one in outcomes:
        match one:
            case CalendarMade():
                return calendar_file(one)
            case TableMade():
                return table_file(one)
            case AllExported():
                return everything_file(one)
            case _:
                pass
    return None
