"""Who shares the plants, and what is erased, in words."""

from bot.actions.erasing import Erasing
from bot.actions.forget import Erased, ForgetAsked
from bot.actions.share import (
    MemberList,
    NotJoined,
    Refused,
)
from bot.wording.days import counted, listed
from bot.wording.saying import says


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


_NOT_JOINED = {
    Refused.OVER: "That invitation is no longer good: it was used, taken back or is older than two days. Ask for a new one.",
    Refused.THERE: "You share these plants already.",
    Refused.OTHER_HOME: "Another home is talked of in this group: open the invitation in a chat with me alone. It is still good.",
}


@says
def _not_joined(told: NotJoined) -> str:
    return _NOT_JOINED[told.why]
