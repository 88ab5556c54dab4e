"""A message of several things, cut where one of them may end."""

import re

MOST_PIECES = 8
"""More are a letter, which is read as one. Judgement. [1]"""
LONGEST_PIECE = 300
"""A longer piece is not cut at its joints. Judgement. [characters]"""
MOST_JOINTS = 5
FEWEST_WORDS = 2
_END = re.compile(
    r"(?<=[.!?…])[\"')\]]*\s+|\s*\n+\s*|\s*;\s+|\s+[-–—]+\s+|(?<=\w)\.{2,}\s*(?=\w)"
    r"|\s*[\u2600-\u27bf\U0001f000-\U0001faff][\u2600-\u27bf\ufe0f\u200d\U0001f000-\U0001faff\s]*(?=\w)"
)
_JOINT = re.compile(
    r"\s*,\s*(?:(?:and|but|so|also|plus|then|oh|while)\b\s*(?:also|then|btw|by the way)?\s*)?"
    r"|\s+(?:and|but|also|plus|then|while|though|whereas|btw|by the way|oh)\s+"
    r"|\s+(?=(?:what|where|which|how|when|why|who)(?:'s|'re|s|ve|'ve|ll|'ll)?\s)",
    re.IGNORECASE,
)


def pieces(text: str) -> tuple[str, ...]:
    """Cut a message behind each sentence, line and dash; a letter is left whole."""
    found: list[str] = []
    for one in _END.split(text):
        is_short = bool(found) and min(len(one.split()), len(found[-1].split())) < FEWEST_WORDS
        found[len(found) - is_short :] = [f"{found[-1]} {one}" if is_short else one]
    found = [one for one in found if any(map(str.isalnum, one))]
    return tuple(found) if len(found) <= MOST_PIECES else (text,)


def halves(piece: str) -> tuple[tuple[str, str], ...]:
    """Give the ways to cut a piece in two at a comma, a joint or the beginning of a question."""
    if len(piece) > LONGEST_PIECE:
        return ()
    cuts = ((piece[: one.start()].strip(), piece[one.end() :].strip()) for one in _JOINT.finditer(piece))
    found = [both for both in cuts if all(len(half.split()) >= FEWEST_WORDS for half in both)]
    return tuple(found[:MOST_JOINTS])
