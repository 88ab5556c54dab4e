"""What actions are made of: a command in, an outcome out, and what an outcome asks and offers."""

from collections.abc import Callable
from enum import Enum
from types import UnionType
from typing import Any, TypeVar, get_args

from bot.domain.value import Value

_F = TypeVar("_F", bound=Callable[..., Any])

PERFORMERS: dict[type["Command"], Callable[[Any, Any], Any]] = {}
"""Filled by the files of the actions as they are read; `bot.actions.perform` reads them all."""


class Command(Value):
    """Something a person can tell or ask the bot: what the reading and the buttons produce."""


def performs(function: _F) -> _F:
    """Let a function do the commands that its first parameter is annotated with, at a desk or without."""
    annotated = next(iter(function.__annotations__.values()))
    needs_desk = function.__code__.co_argcount > 1
    for command in get_args(annotated) if isinstance(annotated, UnionType) else (annotated,):
        PERFORMERS[command] = function if needs_desk else lambda told, _: function(told)
    return function


ButtonText = Enum(
    "ButtonText",
    "NAMED YES SOMETHING_ELSE SOMETHING_DONE SOMETHING_SEEN SOMETHING_LATER SOMETHING_MOVED"
    " A_QUESTION ABOUT_MY_HOME SOMEBODY_HURT MORE WHY ABOUT WHEN_FREE TOLD_OF WHATS_DUE WHAT_TO_SAY"
    " HOW WHY_THIS_MUCH SAFETY ALL_DONE MORNING_DONE ALL_TONIGHT ONE_BY_ONE REST_TOMORROW WHAT_FIRST"
    " NOT_TONIGHT DEGREES_C DEGREES_F IS_USUAL JUST_NOW GO_ON ONCE_ENOUGH QUIET_TILL_HEARD TOMORROW"
    " IN_TWO_DAYS IN_THREE_DAYS SPRAYED SWABBED WIPED RINSED NONE_SEEN NONE_BY_LENS NONE_TAPPED"
    " NONE_ON_CARD NONE_BY_TAPE NONE_AT_ROOTS ALL_DONE_NONE_BY_LENS ALL_DONE_NONE_TAPPED"
    " ALL_DONE_NONE_ON_CARD ALL_DONE_NONE_BY_TAPE ALL_DONE_NONE_SEEN CLEAN_TOO NONE_SEEN_ON_THEM A_FEW"
    " SOME MANY UP_TO_5 UP_TO_30 LAST_NIGHT TODAY NOT_TODAY STOP_NOW PLAIN_LOOK WITH_A_LENS GLANCE"
    " DONE LEAVE_OUT STOP_TODAY ANOTHER FIND_OUT NOT_SURE IT_IS APART_NOW ALL_APART_NOW CANNOT_BE_MOVED"
    " BACK_ANYWAY PUT_BACK WIPED_FIRST SWABBED_FIRST RINSED_FIRST KEEP_APART SIX_WEEKS_APART"
    " THREE_WEEKS_APART NOT_NEW DISCARDED PLANT_LOST TAKE_OFF TAKE_THEM_OFF KEEP TAKE_BACK WRITE_IT"
    " NOT_WRITTEN PASSED_BY ADD ADD_PLANTS MY_TOWN_IS PLANT_CALLED NORTH NORTH_EAST EAST SOUTH_EAST"
    " SOUTH SOUTH_WEST WEST NORTH_WEST NO_WINDOW DONT_KNOW THE_FIRST THE_SECOND NOT_EATEN EATEN_AFTER"
    " CONCENTRATE READY_TO_USE OF_THE_BOTTLE OF_THE_INGREDIENT US_MEASURE IMPERIAL_MEASURE LABEL_OF"
    " CALENDAR TABLE EVERYTHING EXPORT_FIRST KEEP_EVERYTHING YES_LEAVE STAY REMOVE HAND_TO MY_HOME"
    " HOME_OF YES_REMOVE YES_TO NOT_NOW INSTEAD BESIDES CLEANED_OUT TO_PLACE STAYS_AT AS_ASKED"
    " NOTE_FOR_OTHERS ON_A_PLANT AT_HAND NOTHING_YET CHANGE_IT DELETE_IT DELETE_THEM"
    " LEAVE_ONE_OUT ALL_WRONG",
)
"""One thing a button can say; the names are kept with open questions, so they stay as they are."""


class Choice(Value):
    """One offered answer: what its button says and what it would do."""

    text: ButtonText
    commands: tuple[Command, ...]
    of: str = ""
    """The name, the number or the words that the text is filled with."""


class Expecting(Enum):
    """What the open question waits for, when a bare answer would not say it."""

    NOTHING = "nothing"
    TOWN = "town"
    EVENING = "evening"
    QUIET = "quiet"
    PLANTS = "plants"
    PLACE = "place"
    WHERE = "where"
    CHOICE = "choice"
    LINES = "lines"
    WORK = "work"
    WALK = "walk"
    ERASE = "erase"


class Asking(Value):
    """A question: what may be answered by button, and what an answer in words would mean."""

    choices: tuple[Choice, ...] = ()
    expecting: Expecting = Expecting.CHOICE


class Outcome(Value, kw_only=True):
    """What came of a command: the wording makes sentences of it, nobody else does."""

    asking: Asking | None = None
    """The question it opens; nothing else says whether one is open."""
    offers: tuple[Choice, ...] = ()
    """Buttons beside the answer that nothing waits for."""
