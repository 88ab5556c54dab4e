"""Every line of the golden set means what it says."""

import pytest

from bot.phrases.hearing import understand
from bot.phrases.notation import notation
from tests.phrases.situation import EVENING, clauses, said_or_offered, table

SLIPS = {"dnoe", "hoia done"}
"""What may be offered instead of being written."""


@pytest.mark.parametrize(
    ("wording", "meaning"),
    list(table("golden.tsv")),
)
def test_a_short_reply_means_what_the_golden_set_says(wording: str, meaning: str) -> None:
    meant = notation(understand(wording, EVENING), EVENING)
    if wording in SLIPS:
        meant = said_or_offered(wording, EVENING)
    assert clauses(meant) == clauses(meaning), meant
