"""Words that many hands type are no slips of others, and the file of them is made from the hands."""

from tests.tools.common import FILE, common


def test_the_common_words_are_those_of_the_hands_as_they_stand() -> None:
    assert FILE.read_text("utf-8") == common(), "python -m tests.tools.common"
