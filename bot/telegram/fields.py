"""Fields of an update: what the library takes as it comes, checked for its kind and its range."""

import math
from typing import Any

LARGEST_ID = 2**63 - 1


class BadFieldError(Exception):
    """A field that is missing or of the wrong kind, by its name."""


def is_id(value: Any) -> bool:
    """Whether it is a number that may name something."""
    return isinstance(value, int) and not isinstance(value, bool) and abs(value) <= LARGEST_ID


def id_of(value: Any) -> int:
    """Give a number that names a chat, a person, a message."""
    if not is_id(value):
        raise BadFieldError("an id is missing or no number")
    return int(value)


def text_of(value: Any) -> str:
    """Drop what a database refuses: the NUL character and half surrogate pairs."""
    if not isinstance(value, str):
        raise BadFieldError("a text is missing or none")
    return value.replace("\0", "").encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def degrees_of(value: Any, bound: float) -> float:
    """Give a latitude or longitude. [deg]."""
    if not isinstance(value, int | float) or not (math.isfinite(value) and abs(value) <= bound):
        raise BadFieldError(f"a location is no number or beyond {bound} degrees")
    return float(value)
