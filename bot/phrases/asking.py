"""What is asked back, with the answers offered for it."""

from datetime import date, datetime

from bot.actions.action import ButtonText, Choice, Command
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_check import LogCheck
from bot.actions.log_find import grade_choices
from bot.actions.log_round import LogRound
from bot.domain.identity import PlantId
from bot.domain.trade import Method

Meant = tuple[Command, ...]
_OFFERED = {
    ButtonText.SPRAYED: Method.SPRAY,
    ButtonText.SWABBED: Method.SWAB,
    ButtonText.WIPED: Method.WIPE,
    ButtonText.RINSED: Method.RINSE,
}


def ask_method(plants: tuple[PlantId, ...], *, on: date | None, at: datetime | None) -> Incomplete:
    """Ask what was done to plants that tonight's nudge asked nothing for."""
    choices = tuple(
        Choice(text, (LogRound(plants=plants, method=method, on=on, at=at),))
        for text, method in _OFFERED.items()
    )
    return Incomplete(missing=Missing.METHOD, plants=plants, choices=choices)


def ask_seen(plants: tuple[PlantId, ...], on: date | None = None) -> Incomplete:
    """Ask what a look found."""
    if not plants:
        return Incomplete(missing=Missing.NONE_SEEN)
    none_seen = Choice(ButtonText.NONE_SEEN, (LogCheck(plants=plants, on=on),))
    return Incomplete(
        missing=Missing.NONE_SEEN, plants=plants, choices=(none_seen, *grade_choices(plants, None, on))
    )


def ask_none_seen(plants: tuple[PlantId, ...], on: date | None = None) -> Incomplete:
    """Ask whether all of these were looked at, with none seen."""
    plants = tuple(dict.fromkeys(plants))
    none_seen = Choice(ButtonText.NONE_SEEN_ON_THEM, (LogCheck(plants=plants, on=on),))
    return Incomplete(missing=Missing.NONE_SEEN, plants=plants, choices=(none_seen,) if plants else ())


def ask_amount(plants: tuple[PlantId, ...], pest: str | None, on: date | None = None) -> Incomplete:
    """Ask how many were seen."""
    return Incomplete(missing=Missing.AMOUNT, plants=plants, choices=grade_choices(plants, pest, on))
