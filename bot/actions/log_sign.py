"""Write down a sign without a living pest."""

from datetime import date, timedelta

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.agenda import SIGN_CHECK_WITHIN_DAYS
from bot.domain.identity import PlantId
from bot.domain.journal import SignSeen
from bot.domain.trade import Sign


class LogSign(Command, kw_only=True):
    plants: tuple[PlantId, ...]
    sign: Sign
    on: date | None = None


class SignLogged(Outcome):
    """A sign: a check is due within two days."""

    plants: tuple[str, ...]
    sign: Sign
    on: date
    check_by: date


@performs
def log_sign(command: LogSign, desk: Desk) -> SignLogged:
    """Write a sign; it resets nothing and asks for a look."""
    desk.write(desk.draft(SignSeen(command.sign), plant=plant, on=command.on) for plant in command.plants)
    on = command.on or desk.today
    by = max(on + timedelta(days=SIGN_CHECK_WITHIN_DAYS), desk.today)
    return SignLogged(desk.names(command.plants), command.sign, on, by)
