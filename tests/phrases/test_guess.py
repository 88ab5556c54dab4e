"""The guess ships as it is made: from the tables as they stand, and ranks them as a model made anew does."""

import random

from bot.phrases import guess
from tests.tools.train import MOST_BYTES, all_examples, pack, tables_hash

COMPARED = 200
ALIKE_AT_LEAST = 198
"""Another processor may round the last bit otherwise, and a weight of a tie with it."""


def test_the_weights_are_made_from_the_tables_as_they_stand() -> None:
    assert guess.model().tables == tables_hash(), "python -m tests.tools.train"
    assert len(guess.FILE.read_bytes()) <= MOST_BYTES


def test_lines_are_ranked_as_by_a_model_made_anew() -> None:
    examples = list(all_examples())
    anew, shipped = guess.load(pack(examples)), guess.model()
    assert anew.forms == shipped.forms
    some = examples[:: max(1, len(examples) // COMPARED)][:COMPARED]
    assert len(some) == COMPARED
    alike = [
        anew.weigh(list(one.buckets))[0].form == shipped.weigh(list(one.buckets))[0].form for one in some
    ]
    assert sum(alike) >= ALIKE_AT_LEAST


def test_the_lines_it_was_made_from_are_mostly_ranked_first() -> None:
    examples = [one for one in all_examples() if one.form in guess.model().forms]
    right = [guess.model().weigh(list(one.buckets))[0].form == one.form for one in examples[::7]]
    assert sum(right) / len(right) > 0.9


def test_both_models_weigh_the_same_buckets() -> None:
    assert guess.asked_model().buckets == guess.model().buckets


def test_rows_of_any_number_and_width_are_added_column_by_column() -> None:
    source = random.Random(5)
    for number, width in ((1, 1), (2, 3), (7, 44), (34, 17), (256, 80), (257, 17), (600, 2)):
        rows = [source.randbytes(width) for _ in range(number - 1)] + [b"\xff" * width]
        assert guess.added(rows) == [sum(column) for column in zip(*rows, strict=True)]
    assert guess.added([b"\xff\xff\xff"] * 256) == [65_280] * 3
