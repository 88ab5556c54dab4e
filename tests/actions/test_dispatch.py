"""Every command is done by some action, and an action that is new has to be one."""

from importlib import import_module

from bot.actions.command import PERFORMERS
from tests.actions.declared import commands


def test_every_command_is_performed() -> None:
    import_module("bot.actions.perform")
    assert set(PERFORMERS) == set(commands())
