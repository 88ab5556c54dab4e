"""What was read of the message at hand, for whoever reads the same words again."""

import threading
from collections.abc import Callable
from typing import Any, TypeVar

from bot.actions.situation import Situation
from bot.phrases.names import names_of

MOST_KEPT = 1024

T = TypeVar("T")
K = TypeVar("K")


class _Kept(threading.local):
    """Readings of this thread, and by what names, kinds, clock and units they were made."""

    def __init__(self) -> None:
        self.situation: Situation | None = None
        self.by: tuple[object, ...] = ()
        self.read: dict[object, Any] = {}
        self.of_situation: dict[object, Any] = {}


_KEPT = _Kept()


def kept(reader: Callable[[K, Situation], T], what: K, situation: Situation) -> T:
    """
    Give what a reader makes of something, from before where it read the same by the same.

    The reader may look at nothing of the situation but names, kinds, clock and units: what is asked and what
    is due tonight may differ.
    """
    if situation is not _KEPT.situation:
        _look_at(situation)
    return _found_in(_KEPT.read, reader, what, situation)


def kept_of_all(reader: Callable[[K, Situation], T], what: K, situation: Situation) -> T:
    """Give what a reader makes of something that may look at the whole situation: kept for the very same."""
    if situation is not _KEPT.situation:
        _look_at(situation)
    return _found_in(_KEPT.of_situation, reader, what, situation)


def _found_in(
    read: dict[object, Any], reader: Callable[[K, Situation], T], what: K, situation: Situation
) -> T:
    key = (reader, what)
    found: Any = read.get(key, _KEPT)
    if found is _KEPT:
        if len(read) > MOST_KEPT:
            read.clear()
        found = read[key] = reader(what, situation)
    return found  # type: ignore[no-any-return]


def _look_at(situation: Situation) -> None:
    by = (names_of(situation), situation.kinds, situation.now, situation.today, situation.units)
    if len(_KEPT.by) != len(by) or any(one is not other for one, other in zip(by, _KEPT.by, strict=True)):
        _KEPT.by = by
        _KEPT.read.clear()
    _KEPT.situation, _KEPT.of_situation = situation, {}
