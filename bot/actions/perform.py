"""One command to its outcomes."""

import pkgutil
from importlib import import_module

from bot import actions
from bot.actions.action import PERFORMERS, Command, Outcome
from bot.actions.ask import Ask, Topic
from bot.actions.begin_talk import BeginTalk
from bot.actions.desk import Desk
from bot.actions.hold import Paused
from bot.actions.incomplete import Asks
from bot.actions.log_find import LogFind

for _one in pkgutil.iter_modules(actions.__path__):
    import_module(f"{actions.__name__}.{_one.name}")

KNOWN = tuple(PERFORMERS)
"""All commands there are."""


def perform(command: Command, desk: Desk) -> list[Outcome]:
    """Do one command at the desk; what somebody expects an evening for says when evenings rest."""
    done = PERFORMERS[type(command)](command, desk)
    outcomes: list[Outcome] = [done] if isinstance(done, Outcome) else list(done or ())
    desk.is_asking |= any(isinstance(one, Asks) and one.asking is not None for one in outcomes)
    household = desk.household
    if _expects_an_evening(command) and household.is_held(desk.today):
        outcomes.append(Paused(household.held_until))
    return outcomes


def _expects_an_evening(command: Command) -> bool:
    return isinstance(command, BeginTalk | LogFind) or (
        isinstance(command, Ask) and command.topic is Topic.DUE
    )
