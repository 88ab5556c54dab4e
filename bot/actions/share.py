"""Share the plants: invite somebody, join by a code, leave, hand over."""

from datetime import datetime
from enum import Enum

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.ask import Ask, Topic, answers
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.incoming import Incoming
from bot.actions.ports import Member, Store
from bot.domain.fold import fold
from bot.domain.identity import MemberId


class Refused(Enum):
    """Why an invitation lets nobody in."""

    OVER = "over"
    THERE = "there"
    OTHER_HOME = "other-home"


class Invite(Command):
    """Let somebody else share the plants."""


class Leave(Command):
    """Share the plants no longer; asked first."""

    is_confirmed: bool = False


class RemoveMember(Command):
    """Let somebody no longer share the plants; the owner's word, asked first; by name or number."""

    name: str = ""
    is_confirmed: bool = False
    member: MemberId | None = None


class HandOver(Command):
    """Make somebody else the owner; asked first; by name or number."""

    name: str = ""
    is_confirmed: bool = False
    member: MemberId | None = None


class Invited(Outcome):
    """A code for one person, and until when it holds."""

    code: str
    until: datetime


class Joined(Outcome):
    """To the newcomer: whose plants they share now, and how many."""

    others: tuple[str, ...]
    plants: int


class NotJoined(Outcome):
    """An invitation lets nobody in: not any more, not who is there, not in another home's chat."""

    why: Refused


class SomebodyJoined(Outcome):
    """To the others: who shares the plants now."""

    name: str


class LeaveAsked(Outcome):
    """Asked whether to go; the founder cannot while others share the plants."""

    is_founder: bool


class HasLeft(Outcome):
    """The membership is over."""


class MemberAsked(Outcome):
    """Whether somebody is to go, or to own the home."""

    name: str
    is_removal: bool


class MemberGone(Outcome):
    """Somebody no longer shares the plants; told to them too, as nobody's name."""

    name: str | None


class OwnerNow(Outcome):
    """Who owns the home now; to the new owner it is nobody's name."""

    name: str | None


class NoSuchMember(Outcome):
    """Nobody of that name shares the plants, or it is the speaker."""

    name: str
    others: tuple[str, ...]


class OwnerOnly(Outcome):
    owner: str


class MemberList(Outcome):
    """Who shares the plants; the first owns the home."""

    names: tuple[str, ...]
    is_owner: bool


class Stranger(Outcome):
    """Not of a household; one polite refusal an hour."""

    is_group: bool


@performs
def invite(_: Invite, desk: Desk) -> Invited:
    """Make a code for one person."""
    return Invited(*desk.store.new_invite(desk.member, desk.now))


def join(code: str, incoming: Incoming, store: Store, now: datetime) -> Member | NotJoined | None:
    """Let the bearer of a code share the plants; None when the code was never made."""
    household = store.invited_to(code)
    if household is None:
        return None
    if any(one.person == incoming.person for one in store.members(household)):
        return NotJoined(Refused.THERE)
    if incoming.is_group and store.is_home_of_another(incoming.chat, household):
        return NotJoined(Refused.OTHER_HOME)
    if store.take_invite(code, now) is None:
        return NotJoined(Refused.OVER)
    return store.join_household(household, incoming.person, incoming.chat, incoming.name)


def welcome_newcomer(member: Member, store: Store) -> Joined:
    """Tell a newcomer whose plants these are."""
    others = tuple(one.name for one in store.members(member.household) if one.id != member.id)
    return Joined(others, len(fold(store.entries(member.household)).living))


def tell_others(member: Member, store: Store) -> tuple[tuple[int, SomebodyJoined], ...]:
    members = store.members(member.household)
    name = next(one.name for one in members if one.id == member.id)
    chats = {one.chat for one in members} - {member.chat}
    return tuple((chat, SomebodyJoined(name)) for chat in sorted(chats))


@performs
def leave(command: Leave, desk: Desk) -> LeaveAsked | HasLeft:
    """End the membership once that is confirmed; the founder stays as long as others are there."""
    if desk.member.is_owner and desk.others:
        return LeaveAsked(is_founder=True)
    if command.is_confirmed:
        desk.store.leave_household(desk.member.person, desk.member.household, desk.now)
        return HasLeft()
    choices = (
        Choice(ButtonText.YES_LEAVE, (Leave(is_confirmed=True),)),
        Choice(ButtonText.STAY, (Decline(),)),
    )
    return LeaveAsked(is_founder=False, asking=Asking(choices))


@answers(Topic.MEMBERS)
def list_members(_: Ask, desk: Desk) -> MemberList:
    """Give who shares the plants, the owner first; with buttons where the owner asks."""
    members = sorted(desk.members, key=lambda one: not one.is_owner)
    offers = (_choice(kind, one) for one in members[1:] for kind in (RemoveMember, HandOver))
    return MemberList(
        tuple(one.name for one in members),
        desk.member.is_owner,
        offers=tuple(offers) if desk.member.is_owner else (),
    )


@performs
def remove_member(command: RemoveMember, desk: Desk) -> MemberAsked | MemberGone | NoSuchMember | OwnerOnly:
    """Let somebody no longer share the plants, once that is confirmed; only the owner may."""
    other = _other(command, desk)
    if not isinstance(other, Member):
        return other
    if command.is_confirmed:
        desk.store.leave_household(other.person, other.household, desk.now)
        desk.store.end_invites(other.household, desk.now)  # whoever goes may have one from before
        if other.chat != desk.member.chat:
            desk.elsewhere.append((other.chat, MemberGone(None)))
        return MemberGone(other.name)
    yes = Choice(ButtonText.YES_REMOVE, (RemoveMember(member=other.id, is_confirmed=True),), other.name)
    asking = Asking((yes, Choice(ButtonText.KEEP, (Decline(),))))
    return MemberAsked(other.name, is_removal=True, asking=asking)


@performs
def hand_over(command: HandOver, desk: Desk) -> MemberAsked | OwnerNow | NoSuchMember | OwnerOnly:
    """Make somebody else the owner, once that is confirmed."""
    other = _other(command, desk)
    if not isinstance(other, Member):
        return other
    if command.is_confirmed:
        desk.store.make_owner(desk.member.household, other.id)
        if other.chat != desk.member.chat:
            desk.elsewhere.append((other.chat, OwnerNow(None)))
        return OwnerNow(other.name)
    yes = Choice(ButtonText.YES_TO, (HandOver(member=other.id, is_confirmed=True),), other.name)
    asking = Asking((yes, Choice(ButtonText.NOT_NOW, (Decline(),))))
    return MemberAsked(other.name, is_removal=False, asking=asking)


def _other(command: RemoveMember | HandOver, desk: Desk) -> Member | NoSuchMember | OwnerOnly:
    """Find the other member that is pressed or named; only the owner asks for one."""
    others = desk.others
    if not desk.member.is_owner:
        return OwnerOnly(next((one.name for one in others if one.is_owner), ""))
    for one in others:
        if one.id == command.member or (command.name and one.name.casefold() == command.name.casefold()):
            return one
    offers = tuple(_choice(type(command), one) for one in others)
    return NoSuchMember(command.name, tuple(one.name for one in others), offers=offers)


def _choice(kind: type[RemoveMember | HandOver], other: Member) -> Choice:
    text = ButtonText.REMOVE if kind is RemoveMember else ButtonText.HAND_TO
    return Choice(text, (kind(member=other.id),), other.name)
