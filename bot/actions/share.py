"""Share the plants: invite somebody, join by a code, leave, hand over, be forgotten."""

from datetime import datetime

from bot.actions.button_texts import ButtonText
from bot.actions.commands import (
    Choice,
    Decline,
    Erasing,
    Export,
    Forget,
    HandOver,
    Invite,
    Leave,
    RemoveMember,
)
from bot.actions.desk import Desk
from bot.actions.incoming import Incoming
from bot.actions.outcomes import (
    Erased,
    ForgetAsked,
    HasLeft,
    HomeErased,
    Invited,
    Joined,
    LeaveAsked,
    MemberAsked,
    MemberGone,
    MemberList,
    NoSuchMember,
    OwnerNow,
    OwnerOnly,
    SomebodyJoined,
)
from bot.actions.ports import Member, Store
from bot.actions.situation import Expecting
from bot.domain.household import fold


def invite(_: Invite, desk: Desk) -> Invited:
    """Make a code for one person."""
    return Invited(*desk.store.new_invite(desk.member.household, desk.now))


def join(code: str, incoming: Incoming, store: Store, now: datetime) -> Member | None:
    """Let the bearer of a code share the plants; None when the code is no good."""
    household = store.take_invite(code, now)
    if household is None:
        return None
    return store.join_household(household, incoming.person, incoming.chat, incoming.name)


def welcome_newcomer(member: Member, store: Store) -> Joined:
    """Tell a newcomer whose plants these are."""
    others = tuple(one.name for one in store.members(member.household) if one.id != member.id)
    return Joined(others, len(fold(store.entries(member.household)).living))


def tell_others(member: Member, store: Store) -> tuple[tuple[int, SomebodyJoined], ...]:
    """Tell the others who came."""
    chats = {one.chat for one in store.members(member.household) if one.id != member.id} - {member.chat}
    return tuple((chat, SomebodyJoined(member.name)) for chat in sorted(chats))


def leave(command: Leave, desk: Desk) -> LeaveAsked | HasLeft:
    """End the membership once that is confirmed; the founder stays as long as others are there."""
    others = [one for one in desk.store.members(desk.member.household) if one.id != desk.member.id]
    if desk.member.is_owner and others:
        return LeaveAsked(is_founder=True)
    if command.is_confirmed:
        desk.store.leave_household(desk.member.person, desk.member.household, desk.now)
        return HasLeft()
    choices = (
        Choice(ButtonText.YES_LEAVE, (Leave(is_confirmed=True),)),
        Choice(ButtonText.STAY, (Decline(),)),
    )
    desk.store.ask(desk.member.household, desk.member.chat, Expecting.CHOICE, choices, desk.now)
    return LeaveAsked(is_founder=False)


def list_members(desk: Desk) -> MemberList:
    """Give who shares the plants, the owner first."""
    members = sorted(desk.store.members(desk.member.household), key=lambda one: not one.is_owner)
    return MemberList(tuple(one.name for one in members), desk.member.is_owner)


def remove_member(command: RemoveMember, desk: Desk) -> MemberAsked | MemberGone | NoSuchMember | OwnerOnly:
    """Let somebody no longer share the plants, once that is confirmed; only the owner may."""
    other = _other(command.name, desk)
    if not isinstance(other, Member):
        return other
    if command.is_confirmed:
        desk.store.leave_household(other.person, other.household, desk.now)
        if other.chat != desk.member.chat:
            desk.say_elsewhere(other.chat, MemberGone(None))
        return MemberGone(other.name)
    yes = Choice(ButtonText.YES_REMOVE, (RemoveMember(command.name, is_confirmed=True),), other.name)
    _ask(desk, (yes, Choice(ButtonText.KEEP, (Decline(),))))
    return MemberAsked(other.name, is_removal=True)


def hand_over(command: HandOver, desk: Desk) -> MemberAsked | OwnerNow | NoSuchMember | OwnerOnly:
    """Make somebody else the owner, once that is confirmed."""
    other = _other(command.name, desk)
    if not isinstance(other, Member):
        return other
    if command.is_confirmed:
        desk.store.make_owner(desk.member.household, other.id)
        if other.chat != desk.member.chat:
            desk.say_elsewhere(other.chat, OwnerNow(None))
        return OwnerNow(other.name)
    yes = Choice(ButtonText.YES_TO, (HandOver(command.name, is_confirmed=True),), other.name)
    _ask(desk, (yes, Choice(ButtonText.NOT_NOW, (Decline(),))))
    return MemberAsked(other.name, is_removal=False)


def forget(command: Forget, desk: Desk) -> ForgetAsked | Erased | OwnerOnly:
    """
    Erase the member's account, or the whole home; only after a sentence that was asked for is typed.

    An owner others share with hands over first, or erases the home for all.
    """
    others = tuple(one for one in desk.store.members(desk.member.household) if one.id != desk.member.id)
    if command.what is Erasing.HOME and not desk.member.is_owner and others:
        return OwnerOnly(next((one.name for one in others if one.is_owner), ""))
    what = Erasing.HOME if not others else command.what
    must_hand_over = desk.member.is_owner and bool(others) and what is Erasing.ME
    question = desk.store.question(desk.member.household, desk.member.chat)
    was_asked = question is not None and question.expecting is Expecting.ERASE
    if not (command.is_typed and was_asked) or must_hand_over:
        choices = (
            Choice(ButtonText.EXPORT_FIRST, (Export(),)),
            Choice(ButtonText.KEEP_EVERYTHING, (Decline(),)),
        )
        desk.store.ask(desk.member.household, desk.member.chat, Expecting.ERASE, choices, desk.now)
        plants = len(desk.household.living)
        return ForgetAsked(what, plants, tuple(one.name for one in others), must_hand_over)
    if what is Erasing.HOME:
        for chat in sorted({one.chat for one in others} - {desk.member.chat}):
            desk.say_elsewhere(chat, HomeErased(desk.member.name))
        desk.store.forget_household(desk.member.household)
    else:
        desk.store.forget_member(desk.member.id, desk.now)
    desk.erased = what
    return Erased(what)


def _ask(desk: Desk, choices: tuple[Choice, ...]) -> None:
    desk.store.ask(desk.member.household, desk.member.chat, Expecting.CHOICE, choices, desk.now)


def _other(name: str, desk: Desk) -> Member | NoSuchMember | OwnerOnly:
    """Find the other member of that name; only the owner asks for one."""
    members = desk.store.members(desk.member.household)
    if not desk.member.is_owner:
        return OwnerOnly(next((one.name for one in members if one.is_owner), ""))
    others = [one for one in members if one.id != desk.member.id]
    named = [one for one in others if one.name.casefold() == name.casefold()]
    return named[0] if len(named) == 1 else NoSuchMember(name, tuple(one.name for one in others))
