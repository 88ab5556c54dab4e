"""Courtesies and pleas for help; nothing here writes."""

from bot.actions.action import Command, Outcome, performs


class Greet(Command):
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
    is_farewell: bool


@performs
def greet(command: Greet) -> Greeted:
    return Greeted(command.is_farewell)


@performs
def thank(_: Thanks) -> Welcomed:
    """Return a courtesy."""
    return Welcomed()


@performs
def give_help(_: Help) -> Helped:
    return Helped()
