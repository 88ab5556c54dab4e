"""Outcome to answer: every outcome has its sentence in a file by subject. Understood, written, next; plain words, no blame."""

import pkgutil
from collections.abc import Callable, Iterable, Mapping
from importlib import import_module
from typing import Any

from bot import wording
from bot.actions.action import Outcome
from bot.actions.export import AllExported, CalendarMade, TableMade
from bot.actions.show_photos import PhotosShown
from bot.actions.show_trend import TrendShown
from bot.wording.answer import Attachment
from bot.wording.files import calendar_file, everything_file, table_file
from bot.wording.photos import before_and_after
from bot.wording.saying import SAYERS
from bot.wording.trending import trend_chart
from bot.wording.voice import Voice

for _one in pkgutil.iter_modules(wording.__path__):
    if _one.name != "sentences":
        import_module(f"{wording.__name__}.{_one.name}")


_Maker = Callable[[Any, Voice], Attachment | None]
PICTURES: Mapping[type[Outcome], _Maker] = {TrendShown: trend_chart, PhotosShown: before_and_after}
FILES: Mapping[type[Outcome], _Maker] = {
    CalendarMade: calendar_file,
    TableMade: table_file,
    AllExported: everything_file,
}


def say(outcome: Outcome, voice: Voice) -> str:
    """Word one outcome, in the household's own units and order of dates."""
    function, needs_voice = SAYERS[type(outcome)]
    return voice.local(function(outcome, voice) if needs_voice else function(outcome))


def attached(
    outcomes: Iterable[Outcome], voice: Voice, makers: Mapping[type[Outcome], _Maker]
) -> Attachment | None:
    """Make the picture, or the file, that goes with an answer, where any does."""
    made = (makers[type(one)](one, voice) for one in outcomes if type(one) in makers)
    return next((one for one in made if one is not None), None)
