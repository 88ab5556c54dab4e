"""The pinned message: how things stand, in three lines."""

from bot.actions.keep_status import StatusNow
from bot.wording.days import day, some
from bot.wording.saying import says
from bot.wording.voice import Voice

SHOWN = 12


@says
def _status_now(told: StatusNow, voice: Voice) -> str:
    lines = [f"Apart: {some(told.apart, SHOWN)}." if told.apart else "Nothing is apart."]
    lines.append(f"Left tonight: {some(told.left, SHOWN)}." if told.left else "Nothing is left tonight.")
    if told.next_at is not None:
        at = told.next_at.astimezone(voice.zone)
        lines.append(f"I write next on {day(at.date())}, {voice.clock(told.next_at)}.")
    return "\n".join(lines)
