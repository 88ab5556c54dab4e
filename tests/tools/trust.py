"""
`python -m tests.tools.trust`: makes bot/phrases/trust.bin from hands, opened drawers and what is only near to a telling.

Each message is read as if whatever is left over in it carried nothing; where that writes what was told, and no more, the
words left over were of no matter. `--folds` says how many of a fifth of the people left out are trusted, and how rightly.
"""

import argparse
import hashlib
import random
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from unittest.mock import patch

import numpy as np

from bot.phrases import guess, telling, trusting
from bot.phrases.trusting import HELD, SURE, Weighed
from tests.phrases.hands import APART, DRAWERS, TABLES, Hand, Line, opened, see, situation_of, tables
from tests.tools.train import BUCKETS, SEED, USUAL, Example, filled, pack

NEAR = Path(__file__).parent.parent / "phrases" / "near"
"""Messages that tell nothing, in words of tellings: the home they are of, and what was typed."""
THINGS = NEAR.with_name("near_things.tsv")
"""Shapes of such messages, and what they may write all the same."""
UNSEEN = NEAR.with_name("near_unseen.tsv")
"""More of them, by other writers, that nothing is trained on: 540 messages of 24 people."""
WRONG_COUNTS = 3
"""What would be written wrongly weighs so much more than what would be rightly. Judgement. [1]"""
FOLDS = 5


def main() -> int:
    """Make the weights, or say how good they are on people left out."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.trust")
    parser.add_argument("--folds", action="store_true", help="leave a fifth of the people out, in turn")
    options = parser.parse_args()
    hands = (*tables(), *opened(), *opened(APART), *near())
    examples = [one for hand in hands for one in examples_of(hand)]
    if options.folds:
        leave_out(examples)
        return 0
    packed = pack(weighted(examples), sources_hash())
    trusting.FILE.write_bytes(packed)
    print(f"{len(examples)} messages, {sum(one.form == HELD for one in examples)} held, {len(packed)} bytes")
    return 0


def sources_hash() -> str:
    """Give the SHA-256 of the lines that the weights are made from."""
    files = [
        *TABLES.glob("*.tsv"),
        *DRAWERS.rglob("*.tsv"),
        *APART.rglob("*.tsv"),
        *NEAR.glob("*.tsv"),
        THINGS,
    ]
    sums = hashlib.sha256()
    for file in sorted(files):
        sums.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return sums.hexdigest()


def near() -> Iterator[Hand]:
    """Give what is only near to a telling, by who wrote it, and of shapes that tell nothing."""
    for file in sorted(NEAR.glob("*.tsv")):
        yield Hand(f"near-{file.stem}", "", tuple(lines_of(file)))
    source = random.Random(SEED)
    rows = [row.split("\t") for row in THINGS.read_text("utf-8").splitlines() if row and row[0] != "#"]
    kinds = [(template, kind) for template, *may in rows if not may for kind in USUAL[:2]]
    filled_in = ((filled(template, situation_of(kind), source), kind) for template, kind in kinds)
    yield Hand(
        "things", "", tuple(Line(text, situation_of(kind), kind, "telling", "-") for text, kind in filled_in)
    )


def lines_of(file: Path) -> Iterator[Line]:
    """Give what tells nothing, each in the evening, when something is asked for, and on a quiet day."""
    for row in file.read_text("utf-8").splitlines():
        home, text = row.split("\t")
        for kind in (f"nudge-{home}", f"quiet-{home}"):
            yield Line(text.replace("\\n", "\n"), situation_of(kind), kind, "telling", "-")


def examples_of(hand: Hand) -> Iterator[Example]:
    """Give the messages in which words are left over, and whether the rest may be written."""
    for line in hand.lines:
        found: list[Weighed] = []

        def trusted(weighed: Weighed, found: list[Weighed] = found) -> bool:
            found.append(weighed)
            return True

        with patch.object(telling, "is_trusted", trusted):
            seen = see(line)
        if found and seen.sure:
            form = SURE if seen.is_at_once and not seen.untold else HELD
            for weighed in found:
                marks = trusting.marks_of(weighed, BUCKETS)
                yield Example(np.array(sorted(marks)), form, hand.name)


def weighted(examples: Sequence[Example]) -> list[Example]:
    """Repeat what is held."""
    return [one for one in examples for _ in range(WRONG_COUNTS if one.form == HELD else 1)]


def leave_out(examples: Sequence[Example]) -> None:
    """Print how many are trusted of people the weights have not met, and how many of these wrongly."""
    names = sorted({one.hand for one in examples})
    print("least\ttrusted\twrongly")
    found: list[tuple[float, bool]] = []
    for fold in range(FOLDS):
        out = set(names[fold::FOLDS])
        model = guess.load(pack(weighted([one for one in examples if one.hand not in out])))
        own = [one for one in examples if one.hand in out]
        found += [(_chance_of(model, one), one.form == SURE) for one in own]
    for least in (0.5, 0.8, 0.9, 0.95, 0.97, 0.98, 0.99, 0.995):
        trusted = [is_right for chance, is_right in found if chance >= least]
        print(f"{least}\t{len(trusted)}\t{len(trusted) - sum(trusted)}")


def _chance_of(model: guess.Model, example: Example) -> float:
    ranked = model.weigh(frozenset(int(one) for one in example.buckets))
    return next(one.chance for one in ranked if one.form == SURE)


if __name__ == "__main__":
    sys.exit(main())
