"""Slips of the finger: how many lie between two words, and a message with its one slip mended."""

from collections.abc import Callable, Iterator
from functools import cache

_LONG_WORD = 6
"""Words as long as this may have two slips. Judgement. [1]"""
_LEAST_LETTERS = 2
_MOST_WORDS = 12
_MOST_TRIED = 6


@cache
def _distance() -> Callable[..., int]:
    from rapidfuzz.distance import OSA  # noqa: PLC0415 - 4 MB that only a misspelt word pays for

    return OSA.distance


def slips_between(typed: str, meant: str, at_most: int) -> int:
    """Count the slips between two words; more than at_most counts as one more than that."""
    return _distance()(typed, meant, score_cutoff=at_most)


def mended(words: tuple[str, ...], strange: list[str], known: frozenset[str]) -> Iterator[tuple[str, ...]]:
    """Give the message with its one strange word as each known word that is nearest to it."""
    if len(words) > _MOST_WORDS or len(strange) != 1 or len(strange[0]) < _LEAST_LETTERS:
        return
    at = words.index(strange[0])
    for word in _alike(strange[0], known)[:_MOST_TRIED]:
        yield (*words[:at], word, *words[at + 1 :])


def _alike(typed: str, known: frozenset[str]) -> list[str]:
    """Give the known words a slip or two away, the nearest first; the first letter is seldom wrong."""
    slips = 2 if len(typed) >= _LONG_WORD else 1
    near = [
        ((slips_between(typed, word, slips), word[0] != typed[0]), -len(word), word)
        for word in known
        if abs(len(word) - len(typed)) <= slips and word.isalpha()
    ]
    return [word for (count, is_led), _, word in sorted(near) if count + (count > 1 and is_led) <= slips]
