"""
`python -m tests.tools.train`: makes bot/phrases/guess.bin from tables, opened drawers and templates, in a minute.

The same tables give the same bytes. `--leave-out` trains without one hand after the other and says how often the form
of that hand's lines comes first, among the first three, and how far its chances can be trusted.
"""

import argparse
import hashlib
import json
import random
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import numpy.typing as npt

from bot.actions.situation import Situation
from bot.phrases import guess
from tests.phrases.hands import DRAWERS, SITUATIONS, Hand, opened, situation_of, tables
from tests.phrases.meanings import parts
from tests.phrases.situation import EVENING, table

PHRASES = Path(__file__).parent.parent / "phrases"
TEMPLATES = PHRASES / "templates"
QUESTIONS = PHRASES / "questions"
"""Templates of questions, which only the model of questions meets."""
BUCKETS = 8192
MOST_BYTES = 660_000
ROUNDS = 8
STEP = 0.4
SHRINK = 2e-5
SEED = 11
FEWEST = 6
"""Lines from which two forms told in one message are a form of their own. [1]"""
TIMES = 2
"""How often a template is filled, each time in another home. [1]"""
USUAL = ("quiet-t1", "nudge-t1", "quiet-t2", "nudge-t2", "us-t3", "sixty-t9")
CALIBRATED = (0.95, 0.8, 0.5, 0.3, 0.0)
_Floats = npt.NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class Example:
    """A line's buckets, its form, and the hand it is from."""

    buckets: npt.NDArray[np.int64]
    form: str
    hand: str


def main() -> int:
    """Make the weights, or say how good they are on hands left out."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.train")
    parser.add_argument("--leave-out", action="store_true", help="leave one hand out after the other")
    options = parser.parse_args()
    examples = list(all_examples())
    if options.leave_out:
        leave_out(examples)
        return 0
    started = time.process_time()
    for file, lines in ((guess.FILE, examples), (guess.ASKED, asked_of(examples))):
        packed = pack(lines)
        if len(packed) > MOST_BYTES:
            print(f"{len(packed)} bytes, more than {MOST_BYTES}")
            return 1
        file.write_bytes(packed)
        spent = time.process_time() - started
        print(f"{len(lines)} lines, {len(forms_of(lines))} forms, {len(packed)} bytes, {spent:.0f} s")
    return 0


def sources() -> list[Path]:
    """Give the files that the weights are made from."""
    found = [PHRASES / "golden.tsv", PHRASES / "wordings.tsv"]
    found += sorted(PHRASES.glob("tables/*.tsv")) + sorted(TEMPLATES.glob("*.txt"))
    found += sorted(QUESTIONS.glob("*.txt"))
    return found + sorted(SITUATIONS.glob("*.toml")) + sorted(DRAWERS.rglob("*.t*"))


def tables_hash() -> str:
    """Give the SHA-256 of all that the weights are made from."""
    sums = hashlib.sha256()
    for file in sources():
        sums.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return sums.hexdigest()


def form_of(meaning: str) -> str:
    """
    Name the form of a meaning: its head, with what sets kinds of it apart; of several, all, in the order of names.

    A question's form is "ask." and its topic, a correction's "correct." and what it puts right.
    """
    told = [part for part in parts(meaning.split(" | ", maxsplit=1)[0]) if part.is_needed]
    names = sorted({_name(part.head, part.must) for part in told} - {"thanks"})
    return "+".join(names) or ("thanks" if told else "nothing")


def _name(head: str, words: frozenset[str]) -> str:
    options = {word.partition("=")[0] for word in words if "=" in word}
    match head:
        case "unclear":
            return "nothing"
        case "ask" if "term" in words:
            return f"ask.term.{min(words - {'term'})}"
        case "ask":
            topics = sorted(word for word in words if word in TOPICS)
            return f"ask.{topics[0]}" if topics else "nothing"
        case "correct":
            return f"correct.{next((one for one in ('pest', 'count', 'plant') if one in options), 'plant')}"
        case "hours":
            return "hours.evening" if "evening" in options else "hours.quiet"
        case "isolate":
            return "isolate.stays" if "apart" in options else "isolate"
        case _:
            return head


TOPICS = frozenset(
    "isolated due why release log trend ants dish-soap safety eating stock settings routines members photos plants"
    " places fit sun buy pest pests with steps order late instead heat after waste looking".split()
)


def all_examples() -> Iterator[Example]:
    """Give the lines of all tables and templates, a situation's words masked."""
    for name in ("golden.tsv", "wordings.tsv"):
        for text, meaning in table(name):
            if not _asks_back(meaning):
                yield _example(text, EVENING, form_of(meaning), name)
    for hand in (*tables(), *opened()):
        yield from examples_of(hand)
    source = random.Random(SEED)
    for file in sorted(TEMPLATES.glob("*.txt")):
        yield from _filled(file, source)


def asked_of(examples: Sequence[Example]) -> list[Example]:
    """Give the same lines for a model that knows kinds of questions, and of all else that it is told or idle."""
    told = [replace(one, form=one.form if is_asked(one.form) else "tell") for one in examples]
    source = random.Random(SEED)
    return told + [one for file in sorted(QUESTIONS.glob("*.txt")) for one in _filled(file, source)]


def is_asked(form: str) -> bool:
    """Whether a form is a question's, or says nothing."""
    return (form.startswith("ask.") and "+" not in form) or form in {"help", "mix", "nothing"}


def examples_of(hand: Hand) -> Iterator[Example]:
    """Give one hand's lines."""
    for line in hand.lines:
        yield _example(line.text, line.situation, form_of(line.meaning), hand.name)


def _asks_back(meaning: str) -> bool:
    """Whether a meaning is a question of the bot's own: no form of what people say."""
    words = meaning.split()
    return words[0] == "ask" and words[1] not in TOPICS


def _example(text: str, situation: Situation, form: str, hand: str) -> Example:
    return Example(
        np.array(sorted(guess.marks_of(guess.masked(text, situation), situation, BUCKETS))), form, hand
    )


def _filled(file: Path, source: random.Random) -> Iterator[Example]:
    """Fill a file of templates, a form each ("later@nudge" is later), with names of homes it is for, or of any."""
    form = file.stem.partition("@")[0]
    rows = file.read_text("utf-8").splitlines()
    told = [row.removeprefix("# in:").split() for row in rows if row.startswith("# in:")]
    kinds = told[0] if told else list(USUAL)
    for row in rows:
        if row and not row.startswith("#"):
            for _ in range(TIMES):
                situation = situation_of(source.choice(kinds))
                yield _example(filled(row, situation, source), situation, form, "templates")


def filled(template: str, situation: Situation, source: random.Random) -> str:
    """Fill {p} {q} {r} with plants, {l} {m} places, {s} products, {b} pests, {n} {k} numbers, {d} {f} days, {t} times."""
    plants = [source.choice(plant.names) for plant in situation.plants] or ["hoya", "jade", "ivy"]
    first = source.sample(plants, min(3, len(plants)))
    places = [place.name for place in situation.places] or ["kitchen", "study"]
    stood = source.sample(places, min(2, len(places)))
    products = [words for _, words in situation.ingredients]
    pests = [word for _, words in situation.pests for word in words]
    names = {
        **dict(zip("pqr", (*first, *first), strict=False)),
        **dict(zip("lm", (*stood, *stood), strict=False)),
        "s": source.choice(source.choice(products)),
        "b": source.choice(pests),
        "n": source.choice(("2", "3", "5", "12", "20", "four", "a dozen", "seven", "30")),
        "k": source.choice(("1", "4", "6", "8", "ten", "15")),
        "d": source.choice(
            ("yesterday", "on monday", "two days ago", "last night", "on sunday", "3 days ago")
        ),
        "f": source.choice(("tomorrow", "on friday", "saturday", "in two days", "the day after tomorrow")),
        "t": source.choice(("19:30", "8 pm", "half past seven", "7", "20:00")),
    }
    return template.replace("\\n", "\n").format(**names)


def forms_of(examples: Sequence[Example]) -> tuple[str, ...]:
    """Give the forms; of two told together only those that are told so often enough."""
    often = Counter(example.form for example in examples)
    return tuple(sorted(form for form, count in often.items() if "+" not in form or count >= FEWEST))


def pack(examples: Sequence[Example], made_from: str = "") -> bytes:
    """Train on lines and pack the weights as bytes, with the SHA-256 of what they are made from."""
    forms = forms_of(examples)
    weights = fitted(examples, forms)
    scale = float(np.abs(weights).max()) / 127 or 1.0
    body = np.clip(np.rint(weights / scale), -127, 127).astype(np.int8)
    head = {"forms": forms, "buckets": BUCKETS, "scale": round(scale, 8)}
    head["tables"] = made_from or tables_hash()
    packed: bytes = body.tobytes()
    return json.dumps(head).encode() + b"\n" + packed


def fitted(examples: Sequence[Example], forms: tuple[str, ...]) -> _Floats:
    """
    Fit a softmax by one line at a time, steps by how far a weight has moved (AdaGrad).

    References
    ----------
    .. Duchi, Hazan, Singer 2011, Adaptive subgradient methods, J. Mach. Learn. Res. 12, 2121-2159; from memory.
    """
    at = {form: number for number, form in enumerate(forms)}
    lines = [(one.buckets, at.get(one.form, at.get(one.form.split("+")[0], -1))) for one in examples]
    known = [(buckets, form) for buckets, form in lines if form >= 0]
    weights = np.zeros((BUCKETS, len(forms)), np.float32)
    moved = np.full((BUCKETS, len(forms)), 1e-6, np.float32)
    order = np.random.default_rng(SEED)
    for _ in range(ROUNDS):
        for number in order.permutation(len(known)):
            buckets, form = known[number]
            share = np.float32(1 / np.sqrt(len(buckets)))
            chances = _softmax(weights[buckets].sum(axis=0) * share)
            chances[form] -= 1
            slope = chances * share + SHRINK * weights[buckets]
            moved[buckets] += slope * slope
            weights[buckets] -= STEP * slope / np.sqrt(moved[buckets])
    return weights


def _softmax(scores: _Floats) -> _Floats:
    shares = np.exp(scores - scores.max())
    chances: _Floats = shares / shares.sum()
    return chances


def leave_out(examples: Sequence[Example]) -> None:
    """Print, for each hand, how its forms are ranked by a model that has not seen it."""
    print("hand\tlines\tfirst\tfirst three")
    trusted: list[tuple[float, bool]] = []
    hits = [0, 0, 0]
    for name in sorted({one.hand for one in examples} - {"golden.tsv", "wordings.tsv", "templates"}):
        rest = [one for one in examples if one.hand != name]
        forms = forms_of(rest)
        weights = fitted(rest, forms)
        own = [one for one in examples if one.hand == name]
        ranks = []
        for one in own:
            chances = _softmax(weights[one.buckets].sum(axis=0) / np.float32(np.sqrt(len(one.buckets))))
            best = [forms[number] for number in np.argsort(-chances, kind="stable")]
            ranks.append(best.index(one.form) if one.form in best else len(best))
            trusted.append((float(chances.max()), ranks[-1] == 0))
        first, three = sum(rank == 0 for rank in ranks), sum(rank < len(hits) for rank in ranks)
        hits = [hits[0] + len(own), hits[1] + first, hits[2] + three]
        print(f"{name}\t{len(own)}\t{first / len(own):.0%}\t{three / len(own):.0%}")
    if hits[0]:
        print(f"all\t{hits[0]}\t{hits[1] / hits[0]:.1%}\t{hits[2] / hits[0]:.1%}")
    above = 1.01
    for least in CALIBRATED:
        inside = [is_right for chance, is_right in trusted if least <= chance < above]
        print(f"chance from {least}: right {sum(inside)} of {len(inside)}")
        above = least


if __name__ == "__main__":
    sys.exit(main())
