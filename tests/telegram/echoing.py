"""A bot that journals one entry a message and says the message back: the real doors with a trivial middle."""

import asyncio
import sys
from datetime import datetime, timedelta

from bot.actions.incoming import Incoming, Press, Text
from bot.app import App, Middle
from bot.clock import Clock
from bot.conversation import Evenings, Said, SaidTonight
from bot.domain.identity import HouseholdId
from bot.domain.journal import Draft, HeldUntil
from bot.logs import set_up_logging
from bot.settings import read_settings
from bot.storage.store import SqlStore
from bot.wording.answer import Answer, Button


def echo(incoming: Incoming, store: SqlStore, now: datetime) -> Said:
    """Write one entry and answer; `break` fails after writing, a press edits its message."""
    if not incoming.addressed:
        return Said()
    member = store.member(incoming.person, incoming.chat)
    member = member or store.found_household(incoming.person, incoming.chat, incoming.name, now)
    held = Draft(payload=HeldUntil(None), happened_at=now, happened_on=now.date(), member=member.id)
    store.append(member.household, [held], f"update:{incoming.update_id}", now)
    store.set_next_evening(member.household, now + timedelta(hours=1))
    match incoming.kind:
        case Text("break"):
            raise RuntimeError(incoming.kind.text)
        case Text(text):
            buttons = ((Button("again", "again"),),) if text == "buttons" else ()
            return Said([(incoming.chat, Answer(text=f"echo: {text}", buttons=buttons))])
        case Press(data, int(message_id), _):
            return Said([], [(incoming.chat, message_id, Answer(text=f"pressed {data}"))])
        case other:
            return Said([(incoming.chat, Answer(text=f"echo of {type(other).__name__}"))])


def remind(store: SqlStore, now: datetime) -> Evenings:
    """Nudge every household once a day, ten at a time."""
    due = store.due_households(now, 10)
    nudges = []
    for household in due:
        store.set_next_evening(household, None)
        (member, *_) = store.members(household)
        key = f"nudge:{household}:{now.date()}:1:{member.chat}"
        nudges.append(
            SaidTonight(key=key, household=household, chat=member.chat, answer=Answer(text="tonight"))
        )
    return Evenings(nudges, more=len(due) == 10)


def plan_anew(household: HouseholdId, store: SqlStore, now: datetime) -> None:
    """Make every evening due at once."""
    store.set_next_evening(household, now)


def never(_store: SqlStore, _now: datetime) -> Evenings:
    return Evenings([], more=False)


async def main() -> None:
    set_up_logging()
    app = App(read_settings(), Clock(), Middle(echo, never, plan_anew), pacing="--unpaced" not in sys.argv)
    await app.run()


if __name__ == "__main__":
    asyncio.run(main())
