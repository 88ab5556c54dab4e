"""A bare no, and its kin."""

import re

_NO = re.compile(
    r"no|nope|nah|wrong|wrong one|(?:no )?not that(?: one)?"
    r"|(?:(?:no|nope|nah) )*(?:(?:that is|thats|that's|it is|its|it's|is) )?(?:not it|not right|wrong)"
    r"|(?:(?:no|nope|nah) )*(?:(?:that is|thats|that's|it is|its|it's|is) )?(?:not an?|no) plant(?: at all)?"
)


_PLAIN = frozenset({"no", "nope", "nah"})


def is_bare_no(text: str) -> bool:
    """Whether a message denies what was said before it, and says nothing else."""
    return _NO.fullmatch(_words(text)) is not None


def is_plain_no(text: str) -> bool:
    """Whether it is no more than a no, which under an evening's message means not tonight."""
    return _words(text) in _PLAIN


def _words(text: str) -> str:
    return re.sub(r"[,.!]+", "", text.casefold().replace("’", "'")).strip()
