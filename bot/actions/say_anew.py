"""A message that was edited says anew what it said before."""

from bot.actions.desk import Desk
from bot.actions.show_history import OfEntries, described
from bot.domain.fold import valid
from bot.domain.journal import Entry, Heard, OfAPlant


class SaidAnew(OfEntries):
    """Beside what the edited message says now: what it said before, taken back."""


def written_by(source: str, desk: Desk) -> list[Entry]:
    """Give what still stands of what a message of this member told."""
    return [
        entry
        for entry in valid(desk.entries)
        if entry.source == source and entry.member == desk.member.id and not isinstance(entry.payload, Heard)
    ]


def may_be_replaced(entries: list[Entry]) -> bool:
    """Whether nothing told later hangs on them, as it does on a new plant or place."""
    return all(isinstance(entry.payload, OfAPlant) for entry in entries)


def take_back(entries: list[Entry], desk: Desk) -> SaidAnew:
    """Take back what the message said before it was edited."""
    what = described(entries, desk)
    desk.write(desk.voids(entries))
    return SaidAnew(what)
