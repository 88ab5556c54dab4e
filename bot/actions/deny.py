"""A bare "no": it speaks of the last exchange, postpones nothing and answers no older question."""

from bot.actions.action import Command, performs
from bot.actions.decline import Declined
from bot.actions.desk import Desk
from bot.actions.show_history import OfEntries, described
from bot.actions.undo import ask_to_take_back, last_group
from bot.domain.journal import evening_of


class Deny(Command):
    """No, not that: whatever was said last."""


class LastTold(OfEntries):
    """What this person told last, to be taken back on one tap."""


@performs
def deny(_: Deny, desk: Desk) -> LastTold | Declined:
    """Leave what is being asked; else show what was told last this evening, and offer to take it back."""
    question = desk.question
    if question is not None and question.choices and not question.answered:
        desk.close_question()
        return Declined()
    group = last_group(desk)
    if not group or evening_of(group[-1].recorded_at, desk.household.zone) != desk.today:
        return Declined()
    return LastTold(described(group, desk), asking=ask_to_take_back(group))
