"""Understood in part: what is left open is asked."""

from dataclasses import dataclass
from enum import Enum

from bot.actions.choice import Choice, Command
from bot.actions.outcome import Outcome
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
    EXPORT = "export"
    WHICH_PLACE = "place"
    WHEN = "when"
    AMOUNT = "amount"
    WHICH_PRODUCT = "product"
    FORM = "form"
    PERCENT_OF = "percent"


@dataclass(frozen=True, slots=True, kw_only=True)
class Incomplete(Command):
    """Understood in part: asks, writes nothing of this clause."""

    missing: Missing
    plants: tuple[PlantId, ...] = ()
    text: str = ""
    choices: tuple[Choice, ...] = ()


@dataclass(frozen=True, slots=True)
class Asks(Outcome):
    """The clause leaves something open; choices become buttons."""

    missing: Missing
    plants: tuple[str, ...]
    text: str
    choices: tuple[Choice, ...]
