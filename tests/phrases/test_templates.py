"""Templates are whole: each can be filled in every home it is for, stands once under its form, and there are many."""

import random

from tests.phrases.hands import situation_of
from tests.tools.train import QUESTIONS, TEMPLATES, USUAL, filled

FILES = [*sorted(TEMPLATES.glob("*.txt")), *sorted(QUESTIONS.glob("*.txt"))]
AT_LEAST = 2_000


def test_every_template_can_be_filled_and_stands_once() -> None:
    seen: set[tuple[str, str]] = set()
    source = random.Random(1)
    for file in FILES:
        rows = file.read_text("utf-8").splitlines()
        told = [row.removeprefix("# in:").split() for row in rows if row.startswith("# in:")]
        for row in (row for row in rows if not row.startswith("#")):
            assert (file.stem, row) not in seen, (file.name, row)
            seen.add((file.stem, row))
            for kind in told[0] if told else USUAL:
                text = filled(row, situation_of(kind), source)
                assert text.strip(), (file.name, row)
                assert "{" not in text, (file.name, row)
    assert len(seen) >= AT_LEAST


def test_the_same_seed_fills_alike() -> None:
    situation = situation_of("quiet-t1")
    once, again = (
        [filled("{p} {q} {s} {n} {d}", situation, source) for _ in range(20)]
        for source in (random.Random(3), random.Random(3))
    )
    assert once == again
    assert len(set(once)) > 10
