"""Courtesies and pleas for help; nothing here writes."""

from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome


class Greet(Command):
    """A greeting or a farewell; writes nothing."""

    is_farewell: bool = False


class Thanks(Command):
    """A courtesy; answers nothing."""


class Help(Command):
    """A plea for what can be said."""


class Helped(Outcome):
    """What can be said."""


class Welcomed(Outcome):
    """A courtesy was returned."""


class Greeted(Outcome):
    """A greeting or a farewell was returned."""

    is_farewell: bool


@performs
def greet(command: Greet, desk: Desk) -> Greeted:
    """Return a greeting."""
    del desk
    return Greeted(command.is_farewell)


@performs
def thank(_: Thanks, desk: Desk) -> Welcomed:
    """Return a courtesy."""
    del desk
    return Welcomed()


@performs
def give_help(_: Help, desk: Desk) -> Helped:
    """Tell what can be said."""
    del desk
    return Helped()
