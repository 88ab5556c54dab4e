"""A plan that would hurt somebody or the plant: a firm no, with the reason."""

from bot.actions.action import Command, Outcome, performs
from bot.catalogue.cautions import load_cautions
from bot.domain.caution import Danger


class ConsiderPlan(Command):
    """A dangerous plan, told or asked about."""

    danger: Danger


class PlanRefused(Outcome):
    """Why not, and what instead."""

    text: str


@performs
def refuse_plan(command: ConsiderPlan) -> PlanRefused:
    """Say no; nothing is written."""
    return PlanRefused(load_cautions().refused[command.danger].text)
