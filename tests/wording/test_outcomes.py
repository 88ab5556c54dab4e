"""The table of what the bot says is what it says, and lacks nothing."""

import re

from tests.wording.tabulate import TABLE, kinds, table


def test_the_table_is_up_to_date_and_holds_every_outcome() -> None:
    written = TABLE.read_text("utf-8")
    assert written == table(), "`python -m tests.wording.tabulate` writes it anew; read the difference"
    headings = set(re.findall(r"^## (.*)$", written, re.MULTILINE))
    assert set(kinds()) <= headings


def test_no_sentence_shouts_blames_or_speaks_in_numbers_nobody_measures() -> None:
    written = TABLE.read_text("utf-8")
    assert "!" not in written
    for word in ("forgot", "should have", "failed", "invalid", "error", "None", "null", "nan"):
        assert not re.search(rf"\b{word}\b(?! seen)", written), word
    assert not re.search(r"\d\.\d{3,} (?!mL)", written), "three decimals are no figure of the trade"
