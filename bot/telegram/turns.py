"""Who is heard next: chats take turns, so that one that floods is heard last and holds up no other."""

from collections import defaultdict
from collections.abc import Sequence

from bot.telegram.parsed import Parsed


def in_turn(updates: Sequence[Parsed]) -> list[Parsed]:
    """Sort updates so that every chat's first comes before any chat's second; a chat's own order stays."""
    said: dict[int | None, int] = defaultdict(int)
    turns = []
    for update in updates:
        turns.append(said[update.chat])
        said[update.chat] += 1
    if len(said) <= 1:
        return list(updates)
    return [updates[at] for at in sorted(range(len(updates)), key=lambda at: (turns[at], at))]
