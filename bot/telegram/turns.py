"""Who is heard next: chats take turns, so that one that floods is heard last and holds up no other."""

from collections import defaultdict
from collections.abc import Sequence
from typing import Any

from bot.telegram.incoming import chat_of


def in_turn(raws: Sequence[Any]) -> list[Any]:
    """Sort updates so that every chat's first comes before any chat's second; a chat's own order stays."""
    said: dict[int | None, int] = defaultdict(int)
    turns = []
    for raw in raws:
        chat = chat_of(raw)
        turns.append(said[chat])
        said[chat] += 1
    if len(said) <= 1:
        return list(raws)
    return [raws[at] for at in sorted(range(len(raws)), key=lambda at: (turns[at], at))]
