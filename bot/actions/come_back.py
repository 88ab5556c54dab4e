"""Somebody is heard again after a silence: first a look, for what was planned is a guess by now."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.log_check import LogCheck


class ComeBack(Command):
    """Go on after a silence."""


class LookFirst(Outcome):
    """Somebody is back: plants to look at before anything is treated."""

    plants: tuple[str, ...]


@performs
def come_back(_: ComeBack, desk: Desk) -> LookFirst:
    """Ask for a look at the plants with a case."""
    return look_first(desk)


def look_first(desk: Desk) -> LookFirst:
    """Ask for this evening's looks now: those with a case that nobody looked at since are among them."""
    plants = tuple(line.plant for line in desk.evening.looks if line.left and line.plant)
    clean = Choice(ButtonText.NONE_SEEN, (LogCheck(plants=plants, on=desk.today),))
    return LookFirst(desk.names(plants), asking=Asking((clean,), Expecting.LINES) if plants else None)
