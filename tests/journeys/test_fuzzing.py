"""A short round of the fuzzing, with a seed of its own; `python -m tests.tools.fuzzing` does it at length."""

import random

from tests.tools.fuzzing import hold_talks, read_texts, read_updates


def test_torn_and_glued_texts_never_break_the_grammar() -> None:
    assert read_texts(3_000, random.Random(11)) == []


def test_whatever_people_and_buttons_do_is_answered_and_nothing_unclear_is_written() -> None:
    assert hold_talks(600, random.Random(12)) == []


def test_broken_updates_are_put_aside() -> None:
    assert read_updates(2_000, random.Random(13)) == []
