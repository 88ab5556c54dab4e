"""What tells nothing writes nothing with slips, other marks, case or fillers either."""

import random

from tests.tools.slipping import slipped, wrongly_written

READ = 1_500
"""`python -m tests.tools.slipping` reads 200,000 and prints each that is written."""


def test_nothing_is_written_of_what_tells_nothing_with_slips_in_it() -> None:
    assert wrongly_written(READ, random.Random(7)) == []


def test_a_message_is_changed_in_many_ways() -> None:
    source = random.Random(3)
    changed = [slipped("is the calathea getting better?", source) for _ in range(50)]
    assert len(set(changed)) > 20
