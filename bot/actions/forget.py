"""Erase a member or the whole home, at their wish."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome, performs
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.erasing import Erasing
from bot.actions.export import Export
from bot.actions.share import OwnerOnly


class Forget(Command):
    """Erase the member's account, or the whole home; is_typed: the sentence asked for was written."""

    what: Erasing = Erasing.ME
    is_typed: bool = False


class ForgetAsked(Outcome):
    """Asked to write a sentence before anything is erased; others share the home of an owner."""

    what: Erasing
    plants: int
    others: tuple[str, ...]
    must_hand_over: bool


class Erased(Outcome):
    """Nothing is left of what was to be erased; in another home the person is known as before."""

    what: Erasing
    is_elsewhere: bool


class HomeErased(Outcome):
    """To the others: the home is gone, by whom."""

    by: str


@performs
def forget(command: Forget, desk: Desk) -> ForgetAsked | Erased | OwnerOnly:
    """
    Erase the member's account, or the whole home; only after a sentence that was asked for is typed.

    An owner others share with hands over first, or erases the home for all.
    """
    others = desk.others
    if command.what is Erasing.HOME and not desk.member.is_owner and others:
        return OwnerOnly(next((one.name for one in others if one.is_owner), ""))
    what = Erasing.HOME if not others else command.what
    must_hand_over = desk.member.is_owner and bool(others) and what is Erasing.ME
    question = desk.question
    was_asked = question is not None and question.expecting is Expecting.ERASE
    if not (command.is_typed and was_asked) or must_hand_over:
        choices = (
            Choice(ButtonText.EXPORT_FIRST, (Export(),)),
            Choice(ButtonText.KEEP_EVERYTHING, (Decline(),)),
        )
        plants = len(desk.household.living)
        return ForgetAsked(
            what,
            plants,
            tuple(one.name for one in others),
            must_hand_over,
            asking=Asking(choices, Expecting.ERASE),
        )
    erased = desk.members if what is Erasing.HOME else (desk.member,)
    desk.memory.forget_words(one.id for one in erased)
    if what is Erasing.HOME:
        desk.tell_others(HomeErased(desk.speaker))
        desk.store.forget_household(desk.member.household)
        desk.is_home_erased = True
    else:
        desk.store.forget_member(desk.member.id, desk.now)
    return Erased(what, desk.member.homes > 1)
