"""
`python -m tests.tools.alarm`: makes bot/phrases/alarm.bin from emergencies and from usual messages, in seconds.

The same lines give the same bytes. `--leave-out` trains without one hand after the other and prints, for several
scores, how many emergencies of that hand are heard and how many other messages are taken for one.
"""

import argparse
import hashlib
import json
import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt

from bot.phrases import emergencies
from tests.phrases.hands import opened, tables
from tests.phrases.situation import EVENING, KNOWLEDGE, table

FOLDER = Path(__file__).parent.parent / "phrases" / "emergencies"
TALKS = Path(__file__).parent.parent / "journeys"
SAID = re.compile(r"^(?:Ada|Bo): (.+)$", re.MULTILINE)
BUCKETS = 98304
ROUNDS = 15
STEP = 0.3
SHRINK = 2e-5
LEAST_ERROR = 0.005
"""What teaches less is passed over. Judgement. [1]"""
OF_A_PART = 0.5
"""What an error at a message's worst sentence costs beside one at the whole. Judgement. [1]"""
HEAVIER = 2.0
"""How much more a missed emergency costs than one too many. Judgement. [1]"""
NEARER = 5.0
"""How much more an error at what comes near to one costs than at other talk. Of EM4, 5, 6, 8 and 9, each left out, 986 of
1,000 emergencies are heard and 137 near-misses of 500 helped; thresholds were chosen on the same lines. [1]"""
HARMED = ("went up me bloody nose", "my arm is aching from it", "holding my breath")
"""What tells of harm in lines that were written for another meaning: neither an emergency nor none. Judgement."""
PLANTS = (
    "{0}", "{0} and {1}", "kitchen: {0}, {1}", "i have a {0}", "my {0} stands on the sill, {1} too",
    "the {0} came from my aunt", "there is {0} in the hall, also {1}", "{0} died and went in the bin",
)  # fmt: skip
PRODUCTS = (
    "{0} i have", "i have {0}", "{0}", "at hand: {0}. nothing more.", "and {0}", "i have {0} and {1}",
    "{2} looks north and I have {0}", "my mother in law gave me {0}", "got {0} n {1} off my brother",
    "watered both with {0}", "there is {0} under the sink", "only {0}, that is all", "{2} is there also, and {0} i own",
)  # fmt: skip
"""How a plant or a product, a second one and a plant are told as somebody's: common shapes of talk. Judgement."""
SHAPES_EACH = 3
SEED = 3
SCORES = (-3.0, -2.5, -2.0, -1.5, -1.0, -0.5, 0.0, 0.5)
_Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Line:
    """A message's buckets and its sentences', whether it is an emergency, and whose it is."""

    buckets: npt.NDArray[np.int64]
    parts: tuple[npt.NDArray[np.int64], ...]
    is_emergency: bool
    hand: str
    text: str
    weight: float
    """What an error costs. [1]"""


def main() -> int:
    """Make the weights, or say how good they are on hands left out."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.alarm")
    parser.add_argument("--leave-out", action="store_true", help="leave one hand out after the other")
    parser.add_argument("--failures", action="store_true", help="with --leave-out: print what is missed")
    options = parser.parse_args()
    lines = list(all_lines())
    if options.leave_out:
        leave_out(lines, shows=options.failures)
        return 0
    packed = pack(lines)
    emergencies.FILE.write_bytes(packed)
    print(f"{len(lines)} lines, {sum(one.is_emergency for one in lines)} emergencies, {len(packed)} bytes")
    return 0


def all_lines() -> Iterator[Line]:
    """Give the emergencies with what comes near to one, and everybody's usual messages."""
    for file in sorted(FOLDER.glob("*.tsv")):
        for text, what in rows_of(file):
            yield _line(text, what == "exposure", file.stem, NEARER)
    for name in ("golden.tsv", "wordings.tsv"):
        for text, meaning in table(name):
            yield _line(text, meaning.startswith("exposure"), name)
    for hand in (*tables(), *opened()):
        for one in hand.lines:
            if not any(part in one.text for part in HARMED):
                yield _line(one.text, "exposure" in one.meaning, hand.name)
    yield from _harmless()


def _harmless() -> Iterator[Line]:
    """Give what players said in kept talks, and what people own."""
    for file in sorted(TALKS.glob("*/first_runs/*.txt")):
        for text in SAID.findall(file.read_text("utf-8")):
            yield _line(text.replace("\\n", "\n"), is_emergency=False, hand=f"talk-{file.stem}")
    for text in owned():
        yield _line(text, is_emergency=False, hand="owned")


def owned() -> Iterator[str]:
    """Tell every kind of plant and every product as people list what is theirs, by all its names."""
    plants = sorted({word for kind in KNOWLEDGE.kinds.values() for word in kind.words})
    products = sorted({word for one in KNOWLEDGE.products.values() for word in one.words})
    for names, shapes in ((plants, PLANTS), (products, PRODUCTS)):
        for number, name in enumerate(names):
            other = names[number * 7 % len(names)]
            for step in range(SHAPES_EACH):
                shape = shapes[(number + step * len(shapes) // SHAPES_EACH) % len(shapes)]
                yield shape.format(name, other, plants[number * 11 % len(plants)])


def rows_of(file: Path) -> Iterator[tuple[str, str]]:
    """Give the messages of a hand, each with what must be heard: exposure, bleach, flame, none."""
    for row in file.read_text("utf-8").splitlines():
        if row and not row.startswith("#"):
            text, what = row.rsplit("\t", 1)
            yield text.replace("\\n", "\n"), what


def _line(text: str, is_emergency: bool, hand: str, weight: float = 1.0) -> Line:  # noqa: FBT001 - a column of the table
    buckets, *parts = (
        np.array(sorted(each), np.int64) for each in emergencies.marks_of(text, EVENING, BUCKETS)
    )
    return Line(buckets, tuple(parts), is_emergency, hand, text, HEAVIER if is_emergency else weight)


def hash_of(lines: Iterable[Line]) -> str:
    """Give the SHA-256 of the messages and classes that the weights are made from."""
    sums = hashlib.sha256()
    for one in lines:
        sums.update(one.text.encode("utf-8", "surrogatepass") + str(one.is_emergency).encode() + b"\0")
        sums.update(one.buckets.astype("<i8").tobytes())
    return sums.hexdigest()


def pack(lines: Sequence[Line]) -> bytes:
    """Train on lines and pack the weights as bytes."""
    weights, middle = fitted(lines)
    scale = float(np.abs(weights).max()) / 127 or 1.0
    body = np.clip(np.rint(weights / scale), -127, 127).astype(np.int8)
    head = {
        "buckets": BUCKETS,
        "scale": round(scale, 8),
        "middle": round(middle, 6),
        "tables": hash_of(lines),
    }
    packed: bytes = body.tobytes()
    return json.dumps(head).encode() + b"\n" + packed


def fitted(lines: Sequence[Line]) -> tuple[_Floats, float]:
    """
    Fit a logistic line by one message and its worst sentence at a time, steps by how far a weight has moved (AdaGrad).

    References
    ----------
    .. Duchi, Hazan, Singer 2011, Adaptive subgradient methods, J. Mach. Learn. Res. 12, 2121-2159; from memory.
    """
    weights, moved = np.zeros(BUCKETS), np.full(BUCKETS, 1e-6)
    middle, middle_moved = 0.0, 1e-6
    order = np.random.default_rng(SEED)
    known = [one for one in lines if len(one.buckets)]
    for _ in range(ROUNDS):
        for number in order.permutation(len(known)):
            one = known[number]
            worst = max(one.parts, key=lambda part: weights[part].sum() / np.sqrt(len(part)), default=None)
            for buckets, weight in ((one.buckets, one.weight), (worst, one.weight * OF_A_PART)):
                if buckets is None:
                    continue
                share = 1 / np.sqrt(len(buckets))
                chance = 1 / (1 + np.exp(-(weights[buckets].sum() * share + middle)))
                error = (chance - one.is_emergency) * weight
                if abs(error) < LEAST_ERROR:
                    continue
                slope = error * share + SHRINK * weights[buckets]
                moved[buckets] += slope * slope
                weights[buckets] -= STEP * slope / np.sqrt(moved[buckets])
                middle_moved += error * error
                middle -= STEP * error / np.sqrt(middle_moved)
    return weights, float(middle)


def score(line: Line, weights: _Floats, middle: float) -> float:
    """Weigh a message as the alarm does."""
    whole, *parts = (
        float(weights[each].sum() / np.sqrt(len(each)) + middle) for each in (line.buckets, *line.parts)
    )
    return whole + emergencies.OF_THE_WORST * (max(parts, default=whole) - whole)


def leave_out(lines: Sequence[Line], *, shows: bool) -> None:
    """Print what a model hears of hands it has not seen."""
    hands = sorted({one.hand for one in lines} - {"golden.tsv", "wordings.tsv"})
    groups = [hands[at::5] for at in range(5)]
    scored: list[tuple[Line, float]] = []
    for group in groups:
        weights, middle = fitted([one for one in lines if one.hand not in group])
        scored += [
            (one, score(one, weights, middle)) for one in lines if one.hand in group and len(one.buckets)
        ]
    told = [(one, score) for one, score in scored if one.is_emergency]
    near = [(one, score) for one, score in scored if one.weight == NEARER]
    usual = [(one, score) for one, score in scored if not one.is_emergency and one.weight != NEARER]
    drawer = [(one, score) for one, score in told if one.hand.startswith("drawer")]
    print("score from\tdrawers heard\tall heard\tnear-misses taken\tusual messages taken")
    for least in SCORES:
        counts = [
            f"{sum(score >= least for _, score in of)} of {len(of)}" for of in (drawer, told, near, usual)
        ]
        print("\t".join((str(least), *counts)))
    if shows:
        for one, score in scored:
            if one.is_emergency != (score >= emergencies.LEAST_SCORES["victim"][0]):
                print(f"{one.hand}\t{score:.2f}\t{one.text}")


if __name__ == "__main__":
    sys.exit(main())
