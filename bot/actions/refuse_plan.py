"""A plan that would hurt somebody or the plant: a firm no, with the reason."""

from bot.actions.command import Command, performs
from bot.actions.desk import Desk
from bot.actions.outcome import Outcome
from bot.catalogue.cautions import load_cautions
from bot.domain.caution import Danger


class ConsiderPlan(Command):
    """A dangerous plan, told or asked about."""

    danger: Danger


class PlanRefused(Outcome):
    """Why not, and what instead."""

    text: str


@performs
def refuse_plan(command: ConsiderPlan, desk: Desk) -> PlanRefused:
    """Say no; nothing is written."""
    del desk
    return PlanRefused(load_cautions().refused[command.danger].text)
