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


class ButtonText(Enum):
    """One thing a button can say; the values are kept with open questions, so they stay as they are."""

    NAMED = "named"
    YES = "yes"
    SOMETHING_ELSE = "something-else"
    SOMETHING_DONE = "something-done"
    SOMETHING_SEEN = "something-seen"
    SOMETHING_LATER = "something-later"
    SOMETHING_MOVED = "something-moved"
    A_QUESTION = "a-question"
    ABOUT_MY_HOME = "about-my-home"
    SOMEBODY_HURT = "somebody-hurt"
    MORE = "more"
    WHY = "why"
    ABOUT = "about"
    WHEN_FREE = "when-free"
    TOLD_OF = "told-of"
    WHATS_DUE = "whats-due"
    WHAT_TO_SAY = "what-to-say"
    HOW = "how"
    WHY_THIS_MUCH = "why-this-much"
    SAFETY = "safety"
    ALL_DONE = "all-done"
    MORNING_DONE = "morning-done"
    ALL_TONIGHT = "all-tonight"
    ONE_BY_ONE = "one-by-one"
    REST_TOMORROW = "rest-tomorrow"
    WHAT_FIRST = "what-first"
    NOT_TONIGHT = "not-tonight"
    DEGREES_C = "degrees-c"
    DEGREES_F = "degrees-f"
    IS_USUAL = "is-usual"
    JUST_NOW = "just-now"
    GO_ON = "go-on"
    ONCE_ENOUGH = "once-enough"
    QUIET_TILL_HEARD = "quiet-till-heard"
    TOMORROW = "tomorrow"
    IN_TWO_DAYS = "in-two-days"
    IN_THREE_DAYS = "in-three-days"
    SPRAYED = "sprayed"
    SWABBED = "swabbed"
    WIPED = "wiped"
    RINSED = "rinsed"
    NONE_SEEN = "none-seen"
    NONE_BY_LENS = "none-by-lens"
    NONE_TAPPED = "none-tapped"
    NONE_ON_CARD = "none-on-card"
    NONE_BY_TAPE = "none-by-tape"
    NONE_AT_ROOTS = "none-at-roots"
    ALL_DONE_NONE_BY_LENS = "all-done-none-by-lens"
    ALL_DONE_NONE_TAPPED = "all-done-none-tapped"
    ALL_DONE_NONE_ON_CARD = "all-done-none-on-card"
    ALL_DONE_NONE_BY_TAPE = "all-done-none-by-tape"
    ALL_DONE_NONE_SEEN = "all-done-none-seen"
    CLEAN_TOO = "clean-too"
    NONE_SEEN_ON_THEM = "none-seen-on-them"
    A_FEW = "a-few"
    SOME = "some"
    MANY = "many"
    UP_TO_5 = "up-to-5"
    UP_TO_30 = "up-to-30"
    LAST_NIGHT = "last-night"
    TODAY = "today"
    NOT_TODAY = "not-today"
    STOP_NOW = "stop-now"
    PLAIN_LOOK = "plain-look"
    WITH_A_LENS = "with-a-lens"
    GLANCE = "glance"
    DONE = "done"
    LEAVE_OUT = "leave-out"
    STOP_TODAY = "stop-today"
    FIND_OUT = "find-out"
    NOT_SURE = "not-sure"
    IT_IS = "it-is"
    APART_NOW = "apart-now"
    ALL_APART_NOW = "all-apart-now"
    CANNOT_BE_MOVED = "cannot-be-moved"
    BACK_ANYWAY = "back-anyway"
    PUT_BACK = "put-back"
    WIPED_FIRST = "wiped-first"
    SWABBED_FIRST = "swabbed-first"
    RINSED_FIRST = "rinsed-first"
    KEEP_APART = "keep-apart"
    SIX_WEEKS_APART = "six-weeks-apart"
    THREE_WEEKS_APART = "three-weeks-apart"
    NOT_NEW = "not-new"
    DISCARDED = "discarded"
    PLANT_LOST = "plant-lost"
    TAKE_OFF = "take-off"
    TAKE_THEM_OFF = "take-them-off"
    KEEP = "keep"
    TAKE_BACK = "take-back"
    WRITE_IT = "write-it"
    NOT_WRITTEN = "not-written"
    PASSED_BY = "passed-by"
    ADD = "add"
    ADD_PLANTS = "add-plants"
    MY_TOWN_IS = "my-town-is"
    PLANT_CALLED = "plant-called"
    NORTH = "north"
    NORTH_EAST = "north-east"
    EAST = "east"
    SOUTH_EAST = "south-east"
    SOUTH = "south"
    SOUTH_WEST = "south-west"
    WEST = "west"
    NORTH_WEST = "north-west"
    NO_WINDOW = "no-window"
    DONT_KNOW = "dont-know"
    THE_FIRST = "the-first"
    THE_SECOND = "the-second"
    NOT_EATEN = "not-eaten"
    EATEN_AFTER = "eaten-after"
    CONCENTRATE = "concentrate"
    READY_TO_USE = "ready-to-use"
    OF_THE_BOTTLE = "of-the-bottle"
    OF_THE_INGREDIENT = "of-the-ingredient"
    US_MEASURE = "us-measure"
    IMPERIAL_MEASURE = "imperial-measure"
    LABEL_OF = "label-of"
    CALENDAR = "calendar"
    TABLE = "table"
    EVERYTHING = "everything"
    EXPORT_FIRST = "export-first"
    KEEP_EVERYTHING = "keep-everything"
    YES_LEAVE = "yes-leave"
    STAY = "stay"
    REMOVE = "remove"
    HAND_TO = "hand-to"
    MY_HOME = "my-home"
    HOME_OF = "home-of"
    YES_REMOVE = "yes-remove"
    YES_TO = "yes-to"
    NOT_NOW = "not-now"
    INSTEAD = "instead"
    BESIDES = "besides"
    CLEANED_OUT = "cleaned-out"
    TO_PLACE = "to-place"
    STAYS_AT = "stays-at"
    ALL_OF_THAT = "as-asked"
    NOTE_FOR_OTHERS = "note-for-others"
    ON_A_PLANT = "on-a-plant"
    AT_HAND = "at-hand"
    NOTHING_YET = "nothing-yet"
    CHANGE_IT = "change-it"
    DELETE_IT = "delete-it"
    DELETE_THEM = "delete-them"


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
