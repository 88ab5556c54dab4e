"""Every command is done by some action, and every outcome is worded."""

from importlib import import_module

from bot.actions.action import PERFORMERS
from bot.wording.saying import SAYERS
from tests.actions.declared import commands, outcomes


def test_every_command_is_performed() -> None:
    import_module("bot.actions.perform")
    assert set(PERFORMERS) == set(commands())


def test_every_outcome_has_its_sentence() -> None:
    import_module("bot.wording.sentences")
    assert set(SAYERS) == set(outcomes())
