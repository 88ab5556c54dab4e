"""A message cut into its tellings and questions, so that each can be looked at by itself."""

import re
from itertools import pairwise

from bot.actions.situation import Situation
from bot.domain.trade import Grade, Method, Sign
from bot.phrases.clause import DATES
from bot.phrases.days import Clock
from bot.phrases.items import Item, Unknown
from bot.phrases.lexicon import Word
from bot.phrases.mentions import mentioned
from bot.phrases.names import Pest, Place, Plants, Product
from bot.phrases.numbers import Count, Warmth
from bot.phrases.text import plain, words_of

MOST_PARTS = 6
MOST_PIECES = 16
_JOINTS = re.compile(r"\n+|[,;.!?](?=\s|$)|\s(?:and|but|then|also|plus|&|so|though|n|-)\s", re.IGNORECASE)
_CALLS = frozenset(
    {
        *(Word.DONE, Word.CHECKED, Word.SAW, Word.CLEAN, Word.NOTHING, Word.NONE, Word.MOVE, Word.ISOLATE),
        *(Word.RELEASE, Word.LOST, Word.LATER, Word.GOT, Word.NO_TIME, Word.SKIP, Word.EMPTY, Word.LEFT),
    }
)


def parts_of(text: str, situation: Situation) -> list[tuple[str, tuple[Item, ...]]]:
    """Cut at marks and joints where both sides tell something of their own: each part's text and items."""
    joints = list(_JOINTS.finditer(text))
    if len(joints) > MOST_PIECES:
        return []
    ends = [0, *(joint.end() for joint in joints), len(text)]
    pieces = [text[start:end] for start, end in pairwise(ends) if text[start:end].strip()]
    merged: list[str] = []
    waiting = ""
    for piece in pieces:
        items = _items(piece, situation)
        waiting += piece
        if _calls(items) or (is_strange(items) and piece[-1:] in "\n.!"):
            merged.append(waiting)
            waiting = ""
        elif merged and not _opens(items):
            merged[-1] += waiting
            waiting = ""
    if waiting.strip():
        if merged:
            merged[-1] += waiting
        else:
            merged.append(waiting)
    return [(part.strip(), _items(part, situation)) for part in merged if part.strip()]


def _items(text: str, situation: Situation) -> tuple[Item, ...]:
    return mentioned(words_of(plain(text)), situation)


def is_strange(items: tuple[Item, ...]) -> bool:
    """Whether it names nothing at all, but for words nobody knows."""
    told = [item.meaning for item in items if not isinstance(item.meaning, Word)]
    return bool(told) and all(isinstance(one, Unknown) for one in told)


def _opens(items: tuple[Item, ...]) -> bool:
    """Whether it may be the beginning of what the next piece tells: it names plants."""
    return any(isinstance(item.meaning, Plants | Place) for item in items)


def _calls(items: tuple[Item, ...]) -> bool:
    """Whether it tells something by itself."""
    meanings = [item.meaning for item in items]
    if any(isinstance(one, Method | Warmth | Sign) or one in _CALLS for one in meanings):
        return True
    has_plants = any(isinstance(one, Plants) for one in meanings)
    if has_plants and any(isinstance(one, (*DATES, Clock)) or one is Word.NOT for one in meanings):
        return True
    has_seen = any(isinstance(one, Pest | Count | Grade) for one in meanings)
    return has_seen and any(isinstance(one, Plants | Product) for one in meanings)
