"""How much spray an evening took."""

from datetime import date
from decimal import Decimal

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.domain.consumption import FACTOR, spray_factor, sprayed_on, usual_ml
from bot.domain.journal import SprayUsed


class LogUse(Command, kw_only=True):
    """Spray a whole evening took; far from what was reckoned only if it is sure. [mL]."""

    ml: Decimal
    on: date | None = None
    is_sure: bool = False


class UnlikelyUse(Outcome):
    """An amount far from what those plants take: asked before later mixtures are reckoned by it. [mL]."""

    ml: Decimal
    usual_ml: Decimal
    on: date
    plants: tuple[str, ...]


class UseLogged(Outcome):
    """What an evening took, and for each millilitre reckoned. [mL], [1]."""

    ml: Decimal
    on: date
    plants: tuple[str, ...]
    factor: Decimal


class NothingSprayed(Outcome):
    """No spray is written for that day, so nothing can be said of how much it took."""

    on: date


@performs
def log_use(command: LogUse, desk: Desk) -> UseLogged | UnlikelyUse | NothingSprayed:
    """Keep what an evening took, so that later ones are reckoned by it."""
    on = command.on or desk.today
    plants = sprayed_on(desk.household, on)
    if not plants:
        return NothingSprayed(on)
    usual = usual_ml(desk.household, on)
    if not command.is_sure and not FACTOR[0] <= command.ml / usual <= FACTOR[1]:
        choices = (
            Choice(ButtonText.WRITE_IT, (LogUse(ml=command.ml, on=on, is_sure=True),)),
            Choice(ButtonText.LEAVE_OUT, (Decline(),)),
        )
        names = tuple(plant.name for plant in plants)
        return UnlikelyUse(command.ml, usual, on, names, asking=Asking(choices))
    desk.write([desk.draft(SprayUsed(command.ml), on=on)])
    return UseLogged(command.ml, on, tuple(plant.name for plant in plants), spray_factor(desk.household))
