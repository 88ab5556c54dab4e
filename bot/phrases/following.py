"""What goes on with the message before: "and the orchid too", "the bottle says 5 ml per litre"."""

import re

from bot.actions.action import Command, Expecting
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_find import LogFind
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Situation
from bot.domain.value import replace
from bot.phrases.hearing import understand
from bot.phrases.offered_homes import offered_home

_GOES_ON = re.compile(
    r"^\W*(?:and|also|plus|same|ditto|(?:it|(?:the|its) (?:label|bottle|tub|can|pack(?:et|age)?)) says)\b"
    r"|\b(?:too|also|as well)\b",
    re.IGNORECASE,
)
_LONGEST = 12
"""More words than this say by themselves what they are about. Judgement."""


def read_on(text: str, before: str, situation: Situation) -> tuple[Command, ...] | None:
    """
    Read words as the end of what the same person said just before; None where they are none.

    Only what is understood to the last word counts, and only what the words before did not mean alone.
    """
    if not before or not _GOES_ON.search(text) or len(text.split()) > _LONGEST:
        return None
    if offered_home(situation) is not None:
        return None  # what goes on with that is read into it
    alone = replace(situation, expecting=Expecting.NOTHING, choices=(), choice_texts=())
    first, both = understand(before, alone), understand(f"{before.rstrip(' .!')}. {text}", alone)
    if any(lacks_something(one) and not _asks_how_many(one) for one in (*first, *both)):
        return None
    more = tuple(rest for one in both if (rest := _beyond(one, first)) is not None)
    return more or None


def lacks_something(command: Command) -> bool:
    """Whether a command by itself asks back: what it is, which pest."""
    return isinstance(command, Incomplete | NotUnderstood) or (
        isinstance(command, LogFind) and command.pest is None
    )


def _asks_how_many(command: Command) -> bool:
    return isinstance(command, Incomplete) and command.missing is Missing.AMOUNT


def _beyond(command: Command, before: tuple[Command, ...]) -> Command | None:
    """Give what a command means besides those before: other plants of the same, or all of it."""
    plants = getattr(command, "plants", ())
    for one in before:
        if type(one) is type(command) and plants and _without(one) == _without(command):
            plants = tuple(plant for plant in plants if plant not in one.plants)  # type: ignore[attr-defined]
            return replace(command, plants=plants) if plants else None  # type: ignore[call-arg]
    return None if command in before else command


def _without(command: Command) -> Command:
    return replace(command, plants=())  # type: ignore[call-arg]
