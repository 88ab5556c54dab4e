"""Write down a sign without a living pest."""

from datetime import date, timedelta

from bot.actions.action import ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.identify import Identify
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
    offers = _find_out(command) if command.sign in _LOOKS else ()
    return SignLogged(desk.names(command.plants), command.sign, on, by, offers=offers)


_LOOKS = {Sign.FLUFF: "fluff", Sign.WEBBING: "webbing", Sign.HONEYDEW: "sticky", Sign.SPECKS: "patches"}
"""What a sign looks like, as the key asks for it."""


def _find_out(command: LogSign) -> tuple[Choice, ...]:
    """Offer to find out what it is of."""
    seen = (("look", _LOOKS[command.sign]),)
    return (Choice(ButtonText.FIND_OUT, (Identify(plants=command.plants, answers=seen),)),)
