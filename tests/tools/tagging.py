"""
`python -m tests.tools.tagging`: makes bot/phrases/tagging.bin from the marked messages, in some minutes.

The same messages give the same bytes. `--leave-out` trains without some hands after the others and says how much of
what those tell is read.
"""

import argparse
import hashlib
import json
import random
import re
import sys
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
import numpy.typing as npt

from bot.domain.value import replace
from bot.phrases import tagging
from bot.phrases.guess import buckets_of
from bot.phrases.home_words import ARTICLES, LOOKS, PREPOSITIONS, ROOMS, SORTS, words_at
from bot.phrases.homes import ASKED, read_home
from bot.phrases.lexicon import common_words
from bot.phrases.tagging import KEYS, LABELS, LINKS, Span, Token
from tests.phrases.homes_measured import KINDS, measured, situation_of
from tests.phrases.marked import FOLDER, Marked, hands, read_line, templates
from tests.phrases.situation import EVENING

BUCKETS = (20_000, 4_096)
MOST_BYTES = 400_000
ROUNDS = 7
SETTLING = 2
"""So many rounds are left out of the mean of the weights, which changes less with every message added. [1]"""
RATE = 0.15
FIRST_STEP = 1.0
SHRINK = 0.02
SETTLED = 1e-3
"""A word whose labels are so near to what was marked teaches no more. [1]"""
COPIES = 3
"""How often each message is met, each time with other names unknown. [1]"""
UNKNOWN = 0.4
"""Share of plants and places that are met as words nobody listed. Judgement. [1]"""
ALL_UNKNOWN = 0.25
"""Share of messages of which no name is known. Judgement. [1]"""
OTHERS_UNKNOWN = 0.2
SHOUTED, LOWERED = 0.08, 0.25
TALK_UNKNOWN = 0.08
"""Share of the words that tell nothing which are met so: what is strange is not for that a name. [1]"""
_TALK = frozenset({"around", "common", "strange", "telling", "looks"})
TIMES = 16
"""How often a template is filled. [1]"""
LISTED = (0.0, 0.5, 0.9)
"""Shares of the names in a template that are listed; all others are invented. Judgement. [1]"""
SEED = 7
FOLDS = 4
_KEY_OF = dict(zip("PNLSTBFRX", KEYS, strict=True))
_ALL = frozenset("PLT")
_Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Example:
    """Rows of buckets, an item each, and their labels by number."""

    items: npt.NDArray[np.int64]
    labels: list[int]


def main() -> int:
    """Make the weights, or say how well they read hands left out."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.tagging")
    parser.add_argument("--leave-out", nargs="*", metavar="HAND", help="train without these, then read them")
    options = parser.parse_args()
    told = hands()
    if options.leave_out is not None:
        return leave_out(told, options.leave_out)
    started = time.process_time()
    packed = pack([one for each in told.values() for one in each], templates())
    if len(packed) > MOST_BYTES:
        print(f"{len(packed)} bytes, more than {MOST_BYTES}")
        return 1
    tagging.FILE.write_bytes(packed)
    print(f"{len(packed)} bytes, {time.process_time() - started:.0f} s")
    return 0


def sources_hash() -> str:
    """Give the SHA-256 of the marked messages."""
    sums = hashlib.sha256()
    for file in sorted(FOLDER.iterdir()):
        sums.update(file.name.encode() + b"\0" + file.read_bytes() + b"\0")
    return sums.hexdigest()


def leave_out(told: dict[str, list[Marked]], names: Sequence[str]) -> int:
    """Say how much is read of hands that the model has not met."""
    planned = [name for name, each in told.items() if each[0].is_planned]
    groups = [list(names)] if names else [planned[at::FOLDS] for at in range(FOLDS)]
    counts: Counter[str] = Counter()
    for group in groups:
        met = [one for name, each in told.items() if name not in group for one in each]
        shipped = tagging.FILE.read_bytes()
        tagging.FILE.write_bytes(pack(met, templates()))
        tagging.model.cache_clear()
        tagging.model()
        tagging.FILE.write_bytes(shipped)
        for one in (one for name in group for one in told[name]):
            counts += measured(one, read_home(one.text, situation_of(one)))
    print(said(counts))
    return 0


def said(counts: Counter[str]) -> str:
    """Say what was read right, what is missing and what is wrong."""
    whole = counts["whole"], counts["whole and sure"], counts["sure though not whole"]
    lines = [
        f"{counts['messages']} messages, whole {whole[0]}, sure {whole[1]}, sure though not whole {whole[2]}"
    ]
    lines += [
        f"{kind}: " + ", ".join(f"{counts[f'{kind} {how}']} {how}" for how in ("right", "missing", "wrong"))
        for kind in KINDS
    ]
    return "\n".join(lines)


def pack(told: Iterable[Marked], shapes: Sequence[tuple[str, str]]) -> bytes:
    """Train both rows and give the file's bytes."""
    source = random.Random(SEED)
    told = list(told)
    words, links = [], []
    for one in (*told, *filled(told, shapes, source)):
        spelt = words_at((one.text, None), situation_of(one)).tokens
        spans = spans_of(one, spelt)
        asked = situation_of(one).expecting.value
        for copy in range(1 if one.hand == "templates" else COPIES):
            is_met_anew = copy or one.hand == "templates"
            tokens = spelt if not is_met_anew else _with_unknown(spelt, [each for each, _ in spans], source)
            which = (
                source.choice([asked, asked, "town", ""])
                if one.of("T")
                else source.choice([*ASKED_WORDS, ""])
            )
            words.append(_of_words(tokens, [each for each, _ in spans], which))
        if one.is_planned:
            links.append(_of_links(one, spans, spelt))
    rows = [
        _trained(examples, labels, buckets)
        for examples, labels, buckets in zip((words, links), (LABELS, LINKS), BUCKETS, strict=True)
    ]
    head = {"buckets": BUCKETS, "moves": [moves for _, moves in rows], "sources": sources_hash()}
    return json.dumps(head).encode() + b"\n" + b"".join(weights for weights, _ in rows)


ASKED_WORDS = sorted(one.value for one in ASKED)


def spans_of(told: Marked, tokens: Sequence[Token]) -> list[tuple[Span, int]]:
    """Give the marked spans as runs of words, each with its number."""
    words = [one.word for one in tokens]
    situation = situation_of(told)
    found: list[tuple[Span, int]] = []
    last = 0
    for one in told.spans:
        run = [each.word for each in words_at((told.text[one.start : one.end], None), situation).tokens]
        near = len(words_at((told.text[: one.start] or ".", None), situation).tokens) if one.start else 0
        places = [at for at in range(last, len(words) - len(run) + 1) if words[at : at + len(run)] == run]
        if not run or not places:
            continue
        at = min((abs(each - near), each) for each in places)[1]
        last = at + len(run)
        found.append((Span(_KEY_OF[one.key], at, last, 0), one.number))
    return found


def _with_unknown(tokens: Sequence[Token], spans: Sequence[Span], source: random.Random) -> list[Token]:
    """Meet some names as words that nobody listed: without their class, half of them in invented letters."""
    loud = source.random()
    shown = str.upper if loud < SHOUTED else str.lower if loud < LOWERED else str
    met = [replace(one, raw=shown(one.raw)) for one in tokens]
    is_all = source.random() < ALL_UNKNOWN
    told = {at for span in spans for at in range(span.start, span.end)}
    for at, one in enumerate(tokens):
        is_talk = at not in told and one.of in _TALK and one.word.isalpha() and len(one.word) > 1
        if is_talk and one.word not in PREPOSITIONS | ARTICLES and source.random() < TALK_UNKNOWN:
            word = _invented(source)
            met[at] = Token(_as_typed(word, met[at].raw), word, "strange")
    for span in spans:
        share = 1.0 if is_all else UNKNOWN if span.key in {"plant", "place", "town"} else OTHERS_UNKNOWN
        if span.key in {"count", "side", "rest"} or source.random() > share:
            continue
        is_invented = source.random() < 1 / 2
        for at in range(span.start, span.end):
            one = met[at]
            if one.word.isalpha():
                word = _invented(source) if is_invented else one.word
                listed_as = "common" if word in common_words() else "strange"
                met[at] = Token(_as_typed(word, one.raw), word, listed_as, one.is_joined)
    return met


def _as_typed(word: str, raw: str) -> str:
    return (
        word.upper() if raw.isupper() and len(raw) > 1 else word.capitalize() if raw[:1].isupper() else word
    )


def filled(
    told: Sequence[Marked], shapes: Sequence[tuple[str, str]], source: random.Random
) -> Iterator[Marked]:
    """Fill each template several times with kinds, rooms and towns that are listed, and with invented names."""
    towns = sorted({name for one in told for name in one.said("T", 0)})
    for plan, line in shapes:
        for _ in range(TIMES):
            lower = source.random() < 1 / 5
            known = source.choice(LISTED)
            text = re.sub(r"\{(\w+)\}", partial(_slot, known=known, towns=towns, source=source), line)
            yield read_line(plan, _lowered(text) if lower else text, "templates")


def _slot(found: re.Match[str], known: float, towns: list[str], source: random.Random) -> str:
    """Fill one slot: as its key is typed, in capitals or not."""
    key = found[1]
    is_known = source.random() < known
    match key.lower():
        case "kind" | "kinds":
            name = source.choice(_KINDS) if is_known else _invented_plant(source)
            said = f"{name}s" if key == "kinds" and not name.endswith("s") else name
        case "room":
            said = source.choice(_ROOMS) if is_known else _invented(source)
            said = f"{source.choice(_SORTS)} {said}" if source.random() < 1 / 4 else said
            said = f"{source.choice(_LOOKS)} {said}" if source.random() < 1 / 12 else said
            said += f" {source.choice(_ROOMS)}" if source.random() < 1 / 8 else ""
            said = f"{_invented(source)} {said}" if source.random() < 1 / 10 else said
            said += f" {_invented(source)}" if source.random() < 1 / 10 else ""
        case "town":
            said = source.choice(towns) if is_known else _invented(source).capitalize()
            return said if key == "Town" else said.lower()
        case "name":
            said = source.choice(_FILLINGS["given"]) if source.random() < 1 / 3 else _invented(source)
        case other:
            said = source.choice(_FILLINGS[other])
    return said.title() if key[0].isupper() else said


_KINDS, _ROOMS, _SORTS, _LOOKS = map(sorted, (EVENING.kinds, ROOMS, SORTS, LOOKS))
_FILLINGS = {
    "way": "north;south;east;west;north-east;south east;northwest;SW;N;S;E;W;NE;north west;south".split(";"),
    "n": "2 3 4 5 6 8 12 18 two three four five six ten twelve".split(),
    "which": "front back side upper lower inner outer far rear old cold dry long upstairs downstairs west north east".split(),
    "bye": "warmly;cheers;love;warm regards;regards;best;all the best;yours;yours truly;truly yours;sincerely;respectfully;"
    "thanks;many thanks;thank you;with love;greetings;with good wishes;hugs;take care;ciao;bye;so long;cordially;faithfully;"
    "lots of love;kisses;ta;with thanks;your friend;cheerio;till soon;much love;gratefully;humbly yours".split(
        ";"
    ),
    "given": "Anna Peter Maria Tom Lucy Sam Rosa Karl Emma Jack Ingrid Pablo Yuki Amara Leon Nora Fritz Claire Ali Joan".split(),
    "land": "France Ireland Denmark Belgium Germany Oregon Ontario Spain".split(),
    "pest": [name for _, names in EVENING.pests for name in names],
    "product": [name for _, names in EVENING.ingredients for name in names],
}


def _lowered(line: str) -> str:
    return re.sub(
        r"\[\w\d*=|[A-Z]+", lambda found: found[0] if found[0][0] == "[" else found[0].lower(), line
    )


def _invented_plant(source: random.Random) -> str:
    """Invent a plant's name: of one word, or with what many names end in or are joined by."""
    name = _invented(source)
    ends = ("", "", f" {_invented(source)}", " plant", " fern", " palm", " vine", " tree", " lily", " grass")
    of = (f"{name} of {_invented(source)}s", f"{name}'s {_invented(source)}")
    return name + source.choice(ends) if source.random() < 8 / 10 else source.choice(of)


def _invented(source: random.Random) -> str:
    parts = "a e i o u ai ea oo or an el in um".split()
    begins = "b br c ch d dr f fl g gr h j k l m n p pl qu r s sh st t th tr v w z".split()
    word = "".join(source.choice(begins) + source.choice(parts) for _ in range(source.choice((1, 2, 2, 3))))
    return word + source.choice(["", "n", "l", "t", "ra", "s", "x", "nd", "rk"])


def _of_words(tokens: Sequence[Token], spans: Sequence[Span], asked: str) -> Example:
    labels = ["o"] * len(tokens)
    for span in spans:
        labels[span.start : span.end] = [span.key, *[f"+{span.key}"] * (span.end - span.start - 1)]
    items = np.array([buckets_of(marks, BUCKETS[0]) for marks in tagging.marks_of(tokens, asked)])
    return Example(items, [LABELS.index(one) for one in labels])


def _of_links(told: Marked, spans: list[tuple[Span, int]], tokens: Sequence[Token]) -> Example:
    """
    Give what belongs to what: by the plan's places of plants, and by the numbers of the marks.

    A plant that is named several times stands where it is named nearest to its place.
    """
    numbers = dict(spans)
    bare = [span for span, _ in spans]
    meant = {
        span: told.stands.get(number, -1) if span.key == "plant" else number
        for span, number in spans
        if span.key in tagging.BELONGS
    }
    ways = {span: _ways(span, bare, numbers, meant[span], tokens) for span in meant}
    items, labels = [], []
    for span in meant:
        same = [one for one in meant if (one.key, numbers[one]) == (span.key, numbers[span])]
        is_there = span.key != "plant" or span == min(same, key=lambda one: min(ways[one])[0])
        items.append(buckets_of(tagging.link_marks(span, bare, tokens), BUCKETS[1]))
        labels.append(LINKS.index(min(ways[span])[1] if is_there else "none"))
    return Example(np.array(items), labels)


def _ways(
    span: Span, spans: list[Span], numbers: dict[Span, int], meant: int, tokens: Sequence[Token]
) -> list[tuple[tuple[int, int], str]]:
    """Give where what is meant stands, and how far: sentences between, then words."""
    before, behind = tagging.beside(span, spans)
    found = [((len(tokens), 0), "none")]
    for label, other in (("before", before), ("behind", behind)):
        if other is not None and numbers[other] == meant:
            first, last = sorted((span, other), key=lambda one: one.start)
            stops = sum(one.of in {"line", "stop"} for one in tokens[first.end : last.start])
            found.append(((stops, last.start - first.end), label))
    return found


def _trained(examples: list[Example], labels: tuple[str, ...], buckets: int) -> tuple[bytes, list[list[int]]]:
    """Train a conditional random field, each weight with a step of its own, and round to a signed byte."""
    size = len(labels)
    weights, steps = np.zeros((buckets, size)), np.full((buckets, size), FIRST_STEP)
    moves, move_steps = np.zeros((size, size + 1)), np.full((size, size + 1), FIRST_STEP)
    source = random.Random(SEED)
    order = [at for at, one in enumerate(examples) if len(one.items)]
    met, met_moves = np.zeros_like(weights), np.zeros_like(moves)
    for again in range(ROUNDS):
        source.shuffle(order)
        for at in order:
            one = examples[at]
            slope, move_slope = _slopes(weights[one.items].sum(axis=1), moves, one.labels)
            wrong = np.abs(slope).max(axis=1) > SETTLED
            rows = one.items[wrong].ravel()
            each = np.repeat(slope[wrong], one.items.shape[1], axis=0)
            np.add.at(steps, rows, each * each)
            np.add.at(weights, rows, -RATE * each / np.sqrt(steps[rows]))
            move_steps += move_slope * move_slope
            moves -= RATE * move_slope / np.sqrt(move_steps)
        weights *= 1 - SHRINK
        if again >= SETTLING:
            met, met_moves = met + weights, met_moves + moves
    scale = 127 / max(1.0, float(np.abs(met).max()))
    rounded = np.clip(np.rint(met * scale), -127, 127).astype(np.int8)
    return rounded.tobytes(), np.rint(met_moves * scale).astype(int).tolist()


def _slopes(scores: _Floats, moves: _Floats, labels: list[int]) -> tuple[_Floats, _Floats]:
    """Give how likely each label is, and each move from label to label, beyond what was marked."""
    chances = np.exp(scores - scores.max(axis=1, keepdims=True))
    ways = np.exp(moves)
    inner = ways[:, :-1]
    ahead, back, whole = np.empty_like(scores), np.ones_like(scores), np.empty(len(scores))
    for at in range(len(scores)):
        row = chances[at] * (inner @ ahead[at - 1] if at else ways[:, -1])
        whole[at] = row.sum()
        ahead[at] = row / whole[at]
    behind = chances / whole[:, None]
    for at in range(len(scores) - 1, 0, -1):
        behind[at] *= back[at]
        back[at - 1] = behind[at] @ inner
    slope = ahead * back
    move_slope = np.zeros_like(moves)
    move_slope[:, -1] = slope[0]
    move_slope[:, :-1] = inner * (behind[1:].T @ ahead[:-1])
    np.subtract.at(move_slope, (labels, [len(moves), *labels[:-1]]), 1)
    slope[np.arange(len(scores)), labels] -= 1
    return slope, move_slope


if __name__ == "__main__":
    sys.exit(main())
