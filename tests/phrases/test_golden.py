"""Every line of the golden set means what it says."""

import pytest

from bot.phrases.grammar import understand
from bot.phrases.notation import notation
from tests.phrases.situation import EVENING, clauses, said_or_offered, table

SLIPS = {"dnoe", "hoia done"}
"""What may be offered instead of being written."""

NOT_YET = {
    "all clean": "takes plants asked to be treated for looked at, too",
}
"""Lines not read right yet. The list only shrinks: a line that holds and still stands here fails."""


@pytest.mark.parametrize(
    ("wording", "meaning"),
    [
        pytest.param(
            wording,
            meaning,
            marks=[pytest.mark.xfail(reason=NOT_YET[wording], strict=True)] if wording in NOT_YET else [],
        )
        for wording, meaning in table("golden.tsv")
    ],
)
def test_a_short_reply_means_what_the_golden_set_says(wording: str, meaning: str) -> None:
    meant = notation(understand(wording, EVENING), EVENING)
    if wording in SLIPS:
        meant = said_or_offered(wording, EVENING)
    assert clauses(meant) == clauses(meaning), meant


def test_only_lines_of_the_golden_set_are_not_read_yet() -> None:
    assert set(NOT_YET) <= {wording for wording, _ in table("golden.tsv")}
