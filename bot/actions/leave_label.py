"""A label is not at hand: until its word on eating is told, the product rests on what is eaten."""

from bot.actions.action import Command, Outcome, performs
from bot.actions.desk import Desk


class LeaveLabel(Command):
    """What is asked of a label cannot be told now; writes nothing."""

    ingredient: str


class LabelLeft(Outcome):
    """What follows from that, and how it is told later."""

    name: str


@performs
def leave_label(command: LeaveLabel, desk: Desk) -> LabelLeft:
    """Say that nothing of it goes on what is eaten until then."""
    desk.close_question()
    return LabelLeft(desk.knowledge.products[command.ingredient].name)
