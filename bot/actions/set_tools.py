"""What small amounts are measured with here."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk
from bot.domain.journal import HouseholdSet
from bot.domain.measure import Tool


class SetTools(Command):
    """Measuring tools at hand, besides those told before; or gone."""

    tools: tuple[Tool, ...]
    gone: tuple[Tool, ...] = ()


class ToolsKept(Outcome):
    """The measuring tools as they are now, the finest first."""

    tools: tuple[Tool, ...]


@performs
def set_tools(command: SetTools, desk: Desk) -> ToolsKept:
    """Keep what is measured with; the finest that is large enough decides the rounding."""
    kept = (desk.household.tools | set(command.tools)) - set(command.gone)
    tools = tuple(tool for tool in Tool if tool in kept)
    desk.write([desk.draft(HouseholdSet(tools=tuple(tool.value for tool in tools)))])
    return ToolsKept(tools)
