"""Who shares the plants, and what is erased, in words."""

from bot.actions.choose_home import HomeEntered, WhichHome
from bot.actions.erasing import Erasing
from bot.actions.forget import Erased, ForgetAsked, HomeErased
from bot.actions.share import (
    HasLeft,
    Invited,
    Joined,
    LeaveAsked,
    MemberAsked,
    MemberGone,
    MemberList,
    NoSuchMember,
    NotJoined,
    OwnerNow,
    OwnerOnly,
    Refused,
    SomebodyJoined,
    Stranger,
)
from bot.actions.tell_privacy import PrivacyTold
from bot.wording.days import counted, day, listed
from bot.wording.lines import SHORT
from bot.wording.saying import says, says_shortly, spoken
from bot.wording.voice import Voice


@says
def _member_asked(told: MemberAsked) -> str:
    if told.is_removal:
        return f"Shall {told.name} no longer share these plants? What {told.name} told stays. Nothing is written yet."
    return f"Shall {told.name} own this home, and invite, remove and erase in your place? Nothing is written yet."


@says
def _member_gone(told: MemberGone) -> str:
    if told.name is None:
        return "You no longer share these plants, and I do not write to you any more. Take care."
    return f"{told.name} no longer shares these plants."


@says_shortly
def _owner_now(told: OwnerNow) -> str:
    return "You own this home now." if told.name is None else f"{told.name} owns this home now."


@says
def _no_such_member(told: NoSuchMember) -> str:
    if not told.others:
        return "Nobody else shares these plants. “invite” makes a code for somebody."
    if not told.name:
        return f"Whoever that was for shares these plants no longer. Here are {listed(told.others)}. Nothing is written."
    return (
        f"I know nobody else called “{told.name[:40]}” here, only {listed(told.others)}. Nothing is written."
    )


@says
def _member_list(told: MemberList) -> str:
    owner, *others = told.names
    if not others:
        return f"Only {owner}. “invite” makes a code for somebody."
    rest = f"{owner} (owner), {listed(others)}."
    return rest if told.is_owner else f"{rest} “leave” ends your part."


@says
def _forget_asked(told: ForgetAsked) -> str:
    if told.must_hand_over:
        return (
            f"{listed(told.others)} {'shares' if len(told.others) == 1 else 'share'} this home and you own it. “hand over to {told.others[0]}”, then “forget me”; "
            "or erase it for all of you: “erase this home”. Nothing is erased yet."
        )
    if told.what is Erasing.HOME:
        whose = f" for you and {listed(told.others)}" if told.others else ""
        return (
            f"That erases this home{whose} for good: {counted(told.plants, 'plant')}, everything told, every photo, "
            "your accounts. Nightly copies forget it within two weeks. To do it, write: erase this home for good"
        )
    return (
        "That erases your name, your account and our messages for good. What was told of the plants stays with "
        f"{listed(told.others)}, without your name. To do it, write: forget me for good"
    )


@says
def _erased(told: Erased) -> str:
    end = (
        "You still share another home; say “forget me” there too if you wish."
        if told.is_elsewhere
        else "Take care."
    )
    if told.what is Erasing.HOME:
        return f"Erased: this home, its plants, everything told. {end}"
    return f"Erased: your name, your account, our messages. {end}"


@says_shortly
def _invited(told: Invited, voice: Voice) -> str:
    when = f"{day(told.until.astimezone(voice.zone).date())}, {voice.clock(told.until)}"
    return f"For one person, once, until {when}. The link opens me; or let them write this to me:\n/start {told.code}"


@says
def _joined(told: Joined) -> str:
    return (
        f"Welcome. You share {counted(told.plants, 'plant')} with {listed(told.others)} from now on: whoever answers the "
        "evening answers for both, and “undo” takes back only your own words."
    )


@says
def _leave_asked(told: LeaveAsked) -> str:
    if told.is_founder:
        return "You own this home and others share it. Hand it over first: “members” has the buttons. Nothing is written."
    return "Leave this home? What you told stays with its plants. Nothing is written yet."


@says
def _owner_only(told: OwnerOnly) -> str:
    return f"Only {told.owner or 'the owner'} may do that. Nothing is written."


_NOT_JOINED = {
    Refused.OVER: "That invitation is no longer good: it was used, taken back or is older than two days. Ask for a new one.",
    Refused.THERE: "You share these plants already.",
    Refused.OTHER_HOME: "Another home is talked of in this group: open the invitation in a chat with me alone. It is still good.",
}


@says
def _not_joined(told: NotJoined) -> str:
    return _NOT_JOINED[told.why]


@says
def _stranger(told: Stranger) -> str:
    refusal = (
        "This bot keeps one home's plants and I do not know you. Who shares them can write “invite” for you"
    )
    if told.is_group:
        return f"{refusal}."
    return f"{refusal}; if the bot is yours, send /start with the founding code it printed when it started."


@says
def _which_home(told: WhichHome) -> str:
    again = " Then please send it again." if told.must_send_again else ""
    return f"You share more than one home. Which is this about?{again}"


@says
def _home_entered(told: HomeEntered) -> str:
    return f"This is about {'your own home' if told.owner is None else f'the home with {told.owner}'} now."


spoken(SomebodyJoined, "{0.name} shares your plants from now on.", SHORT)
spoken(HasLeft, "You no longer share these plants, and I do not write to you any more. Take care.")
spoken(
    HomeErased,
    "{0.by} erased this home with all its plants and everything told. I do not write here any more.",
)
spoken(
    PrivacyTold,
    "Kept on this bot's own machine: what is told of plants, with who told it and when, photos, your "
    "name and chat here, the town to a tenth of a degree. Nothing goes to anybody else.\nMessages are "
    "dropped after 30 days; copies of the database are kept for two weeks.\n“export” gives you "
    "everything; “forget me” erases your name and messages, the owner's “erase this home” all of it.",
)
