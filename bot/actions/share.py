"""Share the plants: invite somebody, join by a code, leave, hand over."""

from dataclasses import dataclass
from datetime import datetime

from bot.actions.ask import Ask, Topic, answers
from bot.actions.button_texts import ButtonText
from bot.actions.choice import Choice
from bot.actions.command import Command, performs
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.incoming import Incoming
from bot.actions.outcome import Asking, Outcome
from bot.actions.ports import Member, Store
from bot.domain.fold import fold


@dataclass(frozen=True, slots=True)
class Invite(Command):
    """Let somebody else share the plants."""


@dataclass(frozen=True, slots=True)
class Leave(Command):
    """Share the plants no longer; asked first."""

    is_confirmed: bool = False


@dataclass(frozen=True, slots=True)
class RemoveMember(Command):
    """Let somebody no longer share the plants; the owner's word, asked first."""

    name: str
    is_confirmed: bool = False


@dataclass(frozen=True, slots=True)
class HandOver(Command):
    """Make somebody else the owner; asked first."""

    name: str
    is_confirmed: bool = False


@dataclass(frozen=True, slots=True)
class Invited(Outcome):
    """A code for one person, and until when it holds."""

    code: str
    until: datetime


@dataclass(frozen=True, slots=True)
class Joined(Outcome):
    """To the newcomer: whose plants they share now, and how many."""

    others: tuple[str, ...]
    plants: int


@dataclass(frozen=True, slots=True)
class SomebodyJoined(Outcome):
    """To the others: who shares the plants now."""

    name: str


@dataclass(frozen=True, slots=True)
class LeaveAsked(Outcome):
    """Asked whether to go; the founder cannot while others share the plants."""

    is_founder: bool


@dataclass(frozen=True, slots=True)
class HasLeft(Outcome):
    """The membership is over."""


@dataclass(frozen=True, slots=True)
class MemberAsked(Outcome):
    """Whether somebody is to go, or to own the home."""

    name: str
    is_removal: bool


@dataclass(frozen=True, slots=True)
class MemberGone(Outcome):
    """Somebody no longer shares the plants; told to them too, as nobody's name."""

    name: str | None


@dataclass(frozen=True, slots=True)
class OwnerNow(Outcome):
    """Who owns the home now; to the new owner it is nobody's name."""

    name: str | None


@dataclass(frozen=True, slots=True)
class NoSuchMember(Outcome):
    """Nobody of that name shares the plants, or it is the speaker."""

    name: str
    others: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OwnerOnly(Outcome):
    """Only the owner may do that."""

    owner: str


@dataclass(frozen=True, slots=True)
class MemberList(Outcome):
    """Who shares the plants; the first owns the home."""

    names: tuple[str, ...]
    is_owner: bool


@dataclass(frozen=True, slots=True)
class Stranger(Outcome):
    """Not of a household; one polite refusal an hour."""

    person: int


@performs
def invite(_: Invite, desk: Desk) -> Invited:
    """Make a code for one person."""
    return Invited(*desk.store.new_invite(desk.member, desk.now))


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


@performs
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
    return LeaveAsked(is_founder=False, asking=Asking(choices))


@answers(Topic.MEMBERS)
def list_members(_: Ask, desk: Desk) -> MemberList:
    """Give who shares the plants, the owner first."""
    members = sorted(desk.store.members(desk.member.household), key=lambda one: not one.is_owner)
    return MemberList(tuple(one.name for one in members), desk.member.is_owner)


@performs
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
    asking = Asking((yes, Choice(ButtonText.KEEP, (Decline(),))))
    return MemberAsked(other.name, is_removal=True, asking=asking)


@performs
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
    asking = Asking((yes, Choice(ButtonText.NOT_NOW, (Decline(),))))
    return MemberAsked(other.name, is_removal=False, asking=asking)


def _other(name: str, desk: Desk) -> Member | NoSuchMember | OwnerOnly:
    """Find the other member of that name; only the owner asks for one."""
    members = desk.store.members(desk.member.household)
    if not desk.member.is_owner:
        return OwnerOnly(next((one.name for one in members if one.is_owner), ""))
    others = [one for one in members if one.id != desk.member.id]
    named = [one for one in others if one.name.casefold() == name.casefold()]
    return named[0] if len(named) == 1 else NoSuchMember(name, tuple(one.name for one in others))
