"""How long an answer is on a phone, and what of it waits behind a button."""

import textwrap
from collections.abc import Iterable
from functools import lru_cache

PHONE = 38
"""Characters of a line on a narrow phone. Judgement. [1]"""
_WRAPPED = textwrap.TextWrapper(PHONE, break_on_hyphens=False)
SHORT, LONG = 6, 10
"""Lines of an answer given often, and of any other. [1]"""
AFTER = "\f"
"""Around what may wait for [More] where it does not fit: always this, \f this if there is room, \f always this."""


@lru_cache(maxsize=1024)  # of an evening's message each is asked four times
def height(line: str) -> int:
    """Count the lines of a phone that one line takes."""
    return 1 if len(line) <= PHONE else len(_WRAPPED.wrap(line))


def heights(lines: Iterable[str]) -> int:
    """Count the lines of a phone that several take."""
    return sum(map(height, lines))


def fitted(text: str, most: int) -> tuple[str, str]:
    """Cut a text at a line's end to so many lines of a phone: what is shown, and what waits."""
    first, *rest = text.split(AFTER)
    if not rest:
        first, rest = "", [first]
    shown, may, last = ([line for line in part.split("\n") if line] for part in (first, *rest, "")[:3])
    left = most - heights((*shown, *last))
    for number, line in enumerate(may):
        left -= height(line)
        if left < 0 and (shown or last):
            return "\n".join((*shown, *last)), "\n".join(may[number:])
        shown.append(line)
    return "\n".join((*shown, *last)), ""
