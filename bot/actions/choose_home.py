"""Which home is meant, where somebody belongs to several and speaks of them in one private chat."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from bot.actions.action import ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.ports import Member, Store

HOME_HOLDS = timedelta(hours=1)
"""So long what is said is about the home that was meant last; then it is asked again. Judgement."""


class EnterHome(Command):
    """Speak of this home from now on; the words that made it asked are heard there."""

    words: str = ""


class WhichHome(Outcome):
    """Asked which home is meant; what cannot be heard again by a button has to be sent again."""

    must_send_again: bool


class HomeEntered(Outcome):
    """What is said now is about this home; whose it is, nobody's name for one's own."""

    owner: str | None


@performs
def enter_home(_: EnterHome, desk: Desk) -> HomeEntered:
    return HomeEntered(owner_of(desk.member, desk.store))


def home_last_meant(members: Sequence[Member], now: datetime) -> Member | None:
    """Give the home that was spoken of a short while ago."""
    recent = [(one.chosen_at, one) for one in members if one.chosen_at and now - one.chosen_at <= HOME_HOLDS]
    return max(recent, key=lambda each: each[0], default=(now, None))[1]


def home_choice(member: Member, words: str, store: Store) -> Choice:
    """Offer one of several homes, by whose it is."""
    owner = owner_of(member, store)
    text = ButtonText.MY_HOME if owner is None else ButtonText.HOME_OF
    return Choice(text, (EnterHome(words),), owner or "")


def owner_of(member: Member, store: Store) -> str | None:
    """Name the owner of a member's home; None where it is the member."""
    if member.is_owner:
        return None
    return next((one.name for one in store.members(member.household) if one.is_owner), "")
