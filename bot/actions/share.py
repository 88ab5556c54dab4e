"""Share the plants: invite somebody, join by a code, leave."""

from datetime import datetime

from bot.actions.commands import Choice, Decline, Invite, Leave
from bot.actions.desk import Desk
from bot.actions.incoming import Incoming
from bot.actions.outcomes import HasLeft, Invited, Joined, LeaveAsked, SomebodyJoined
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
    choices = (Choice("Yes, leave", (Leave(is_confirmed=True),)), Choice("Stay", (Decline(),)))
    desk.store.ask(desk.member.household, desk.member.chat, Expecting.CHOICE, choices, desk.now)
    return LeaveAsked(is_founder=False)
