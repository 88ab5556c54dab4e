"""A bare no, and its kin."""

import re

_NO = re.compile(
    r"no|nope|nah|wrong|wrong one|(?:no )?not that(?: one)?"
    r"|(?:no )?(?:that is|thats|that's) (?:wrong|not it|not right)"
)


def is_bare_no(text: str) -> bool:
    """Whether a message denies what was said before it, and says nothing else."""
    return _NO.fullmatch(re.sub(r"[,.!]+", "", text.casefold().replace("’", "'")).strip()) is not None
