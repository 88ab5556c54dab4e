"""A bare "no": it speaks of the last exchange, postpones nothing and answers no older question."""

from bot.actions.action import ButtonText, Command, performs
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
    """
    Leave what is being asked; else show what was told last this evening, and offer to take it back.

    What was written in the same breath as it was asked goes on with is the last exchange, not its buttons.
    """
    question, group = desk.question, last_group(desk)
    if question is not None and question.choices and not question.answered:
        is_offer = question.choices[0].text is ButtonText.YES
        if is_offer or not group or group[-1].recorded_at < question.asked_at:
            desk.close_question()
            return Declined()
    if not group or evening_of(group[-1].recorded_at, desk.household.zone) != desk.today:
        return Declined()
    return LastTold(described(group, desk), asking=ask_to_take_back(group))
