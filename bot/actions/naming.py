"""Names of people as they may be shown: in one line, in one direction, never empty."""

import unicodedata

LONGEST_NAME = 64
NOBODY = "Somebody"


def shown_name(name: str) -> str:
    """
    Give a name without what breaks a line or turns the text around it: controls, format and private marks.

    An override such as U+202E lets the rest of a line read backwards.
    """
    kept = (" " if one.isspace() else one for one in name if one.isspace() or _is_visible(one))
    return " ".join("".join(kept).split())[:LONGEST_NAME].strip() or NOBODY


def _is_visible(letter: str) -> bool:
    return unicodedata.category(letter)[0] != "C"
