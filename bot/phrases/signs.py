"""Thumbs and ticks: what answers an evening without a word."""

DONE_SIGNS = frozenset("👍👌✅✔☑💯🫡")
"""Signs that answer an evening's message. Judgement."""
SIGN_PARTS = frozenset("\ufe0f\u200d🏻🏼🏽🏾🏿 ")
"""What a sign may be put together with: its colour, a joint, a space."""


NODS = frozenset({"ok", "okay", "k", "yes", "yep", "cool", "great", "fine", "alright"})
"""Words that say no more than the sign beside them."""


def is_sign(text: str) -> bool:
    """Whether a text is nothing but a thumb or a tick, and a nod at most."""
    signs = "".join(one for one in text.split() if one.casefold().strip(",.!") not in NODS)
    return bool(signs) and all(one in DONE_SIGNS or one in SIGN_PARTS for one in signs)
