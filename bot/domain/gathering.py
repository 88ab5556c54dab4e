"""Things gathered under what they have in common."""

from collections.abc import Hashable, Iterable
from typing import TypeVar

_K = TypeVar("_K", bound=Hashable)
_V = TypeVar("_V")


def gathered(pairs: Iterable[tuple[_K, _V]]) -> dict[_K, list[_V]]:
    """Gather values by their keys, both in the order in which they come."""
    found: dict[_K, list[_V]] = {}
    for key, value in pairs:
        found.setdefault(key, []).append(value)
    return found
