"""Understood in part: what is left open is asked."""

from enum import Enum

from bot.actions.action import Asking, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.identity import PlantId


class Missing(Enum):
    """What a clause leaves open."""

    METHOD = "method"
    WHICH_PLANT = "which"
    SHOWN = "shown"
    UNKNOWN_PLANT = "plant"
    WHICH_PEST = "pest"
    NONE_SEEN = "none"
    LOST = "lost"
    DELETE = "delete"
    LATER = "later"
    ADD = "add"
    TOWN_OR_PLANT = "town"
    MEANT = "meant"
    WRONG = "wrong"
    EXPORT = "export"
    WHICH_PLACE = "place"
    WHEN = "when"
    AMOUNT = "amount"
    WHICH_PRODUCT = "product"
    FORM = "form"
    PERCENT_OF = "percent"
    FORWARDED = "forwarded"
    EDITED = "edited"
    OF_A_DAY = "of-a-day"
    WHY_ASKED = "why-asked"
    SEEN = "seen"
    SEEN_WHERE = "seen-where"
    AT_HAND = "at-hand"


class Incomplete(Command, kw_only=True):
    """Understood in part: asks, writes nothing of this clause."""

    missing: Missing
    plants: tuple[PlantId, ...] = ()
    text: str = ""
    choices: tuple[Choice, ...] = ()


class Asks(Outcome):
    """The clause leaves something open."""

    missing: Missing
    plants: tuple[str, ...] = ()
    text: str = ""


@performs
def ask(command: Incomplete, desk: Desk) -> Asks:
    asking = Asking(command.choices) if command.choices else None
    plants = command.plants or _offered_of(command)
    return Asks(command.missing, desk.names(plants), command.text, asking=asking)


def _offered_of(command: Incomplete) -> tuple[PlantId, ...]:
    """Give the plants that "none seen", or a find without its number, is offered of."""
    is_one_look = command.missing is Missing.NONE_SEEN and len(command.choices) == 1
    is_offered = is_one_look or command.missing is Missing.AMOUNT
    told = (each for one in command.choices[:1] for each in one.commands) if is_offered else ()
    return tuple(plant for one in told for plant in getattr(one, "plants", ()))
