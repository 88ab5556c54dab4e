"""How many slips of the finger lie between two words: optimal string alignment, as a typist slips."""

from collections.abc import Callable
from functools import cache


@cache
def _distance() -> Callable[..., int]:
    from rapidfuzz.distance import OSA  # noqa: PLC0415 - 4 MB that only a misspelt word pays for

    return OSA.distance


def slips_between(typed: str, meant: str, at_most: int) -> int:
    """Count the slips between two words; more than at_most counts as one more than that."""
    return _distance()(typed, meant, score_cutoff=at_most)
