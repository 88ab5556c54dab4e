"""Courtesies and pleas for help; nothing here writes."""

from bot.actions.action import Command, Outcome, performs


class Greet(Command):
    is_farewell: bool = False


class Thanks(Command):
    """A courtesy, or word of things at hand that no list is kept of; answers nothing."""

    is_at_hand: bool = False


class Help(Command):
    """A plea for what can be said."""


class Helped(Outcome):
    """What can be said."""


class Welcomed(Outcome):
    """A courtesy was returned."""

    is_at_hand: bool = False


class Greeted(Outcome):
    is_farewell: bool


@performs
def greet(command: Greet) -> Greeted:
    return Greeted(command.is_farewell)


@performs
def thank(command: Thanks) -> Welcomed:
    """Return a courtesy."""
    return Welcomed(command.is_at_hand)


@performs
def give_help(_: Help) -> Helped:
    return Helped()
