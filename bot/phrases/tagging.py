"""
What each word of a message tells of a home, and which of two things belongs to which: learned, not listed.

Two linear models over what stands around a word, each with the likeliest whole row of labels (Viterbi). The
weights are made by `tests/tools/tagging.py` from messages with their spans marked, and read at the first use.
"""

from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from itertools import pairwise
from pathlib import Path

from bot.domain.value import Value
from bot.phrases.guess import added, buckets_of, raised, unpacked
from bot.phrases.lexicon import is_ordinary, listed

FILE = Path(__file__).with_name("tagging.bin")
KEYS = ("plant", "count", "place", "side", "town", "product", "seen", "rest", "person")
LABELS = ("o", *(f"{begins}{key}" for key in KEYS for begins in ("", "+")))
"""Of each kind its first word, and with a plus what goes on with it."""
LINKS = ("before", "behind", "none")
"""Where what a thing belongs to stands: the last one before it, the next behind it, nowhere."""
_MOST_WEIGHED = 5
"""So many labels of a word are weighed with those of its neighbours. Judgement. [1]"""
_LEADING = listed(
    "in on at by near beside inside under behind outside from of with to upon along around im auf am dans sur"
    " has have had got holds is are faces facing"
)
_MARKS = frozenset({"line", "stop", "comma", "and", "colon"})
_THINGS = frozenset({"kind", "room", "facing", "lit", "pest", "bugs", "product", "strange"})
_ENDS = frozenset({"line", "stop"})
_PART = 3
"""Letters of a word's beginning and end that are looked at. [1]"""


class Token(Value):
    """A word as typed, as it is looked up, and what listed words it is of: "kind", "kind+" within one."""

    raw: str
    word: str
    of: str
    is_joined: bool = False
    """Whether a hyphen joins it to the word before."""


class Span(Value):
    """A run of words that tells a thing, with how far its labels stand above all others."""

    key: str
    start: int
    end: int
    margin: int


class Row(Value):
    """Weights of each label for each bucket of marks, and for each label behind another."""

    labels: tuple[str, ...]
    buckets: int
    weights: bytes
    moves: tuple[tuple[int, ...], ...]

    def best(self, items: Sequence[Sequence[int]]) -> list[tuple[str, int]]:
        """Give the likeliest labels of a row of items, each with its margin."""
        size = len(self.labels)
        by_mark = [b"".join(rows) for rows in zip(*map(self._rows, items), strict=True)]
        sums = added(by_mark) if items else []  # of each label alike too much, which tells nothing
        rows = [sums[at : at + size] for at in range(0, len(sums), size)]
        likely = [sorted(range(size), key=row.__getitem__, reverse=True)[:_MOST_WEIGHED] for row in rows]
        ways: list[dict[int, int]] = []
        scores = {size: 0}
        for row, labels in zip(rows, likely, strict=True):
            way: dict[int, int] = {}
            now: dict[int, int] = {}
            for label in labels:
                move = self.moves[label]
                best, before = max([(score + move[before], -before) for before, score in scores.items()])
                way[label], now[label] = -before, best + row[label]
            ways.append(way)
            scores = now
        path = [max(scores, key=scores.__getitem__)] if rows else []
        for way in ways[:0:-1]:
            path.append(way[path[-1]])
        path.reverse()
        return [(self.labels[label], self._margin(rows, path, at)) for at, label in enumerate(path)]

    def _rows(self, found: Iterable[int]) -> list[bytes]:
        size = len(self.labels)
        return [self.weights[at * size : (at + 1) * size] for at in found]

    def _margin(self, rows: list[list[int]], path: list[int], at: int) -> int:
        """Tell how far a label stands above the best other one between the same neighbours."""
        before = path[at - 1] if at else len(self.labels)
        behind = path[at + 1] if at + 1 < len(path) else None
        scores = [
            row + self.moves[label][before] + (self.moves[behind][label] if behind is not None else 0)
            for label, row in enumerate(rows[at])
        ]
        return scores.pop(path[at]) - max(scores)


class Model(Value):
    """Both rows, and the SHA-256 of what they were made from."""

    words: Row
    links: Row
    sources: str


@cache
def model() -> Model:
    """Read the weights, once."""
    return load(FILE.read_bytes())


def load(packed: bytes) -> Model:
    """Read a line of JSON, then a signed byte a bucket and label of one row and the other."""
    told, body = unpacked(packed)
    weights = raised(body)
    rows = []
    for labels, buckets, moves in zip((LABELS, LINKS), told["buckets"], told["moves"], strict=True):
        size = buckets * len(labels)
        rows.append(Row(labels, buckets, weights[:size], tuple(tuple(one) for one in moves)))
        weights = weights[size:]
    return Model(rows[0], rows[1], told["sources"])


def spans_in(tokens: Sequence[Token], asked: str) -> list[Span]:
    """Give the runs of words that tell something of a home."""
    words = model().words
    marked = words.best([buckets_of(marks, words.buckets) for marks in marks_of(tokens, asked)])
    return list(joined(marked))


def joined(labels: Iterable[tuple[str, int]]) -> Iterator[Span]:
    """Put labels together to runs."""
    found: list[Span] = []
    for at, (label, margin) in enumerate(labels):
        key, last = label.removeprefix("+"), found[-1] if found else None
        if key == "o":
            continue
        if label[0] == "+" and last is not None and (last.key, last.end) == (key, at):
            found[-1] = Span(key, last.start, at + 1, min(last.margin, margin))
        else:
            found.append(Span(key, at, at + 1, margin))
    yield from found


def linked(spans: Sequence[Span], tokens: Sequence[Token]) -> dict[Span, Span]:
    """Give what each span belongs to: a plant and a light to a place, a number and an animal to a plant."""
    items = [one for one in spans if one.key in BELONGS]
    links = model().links
    best = links.best([buckets_of(link_marks(one, spans, tokens), links.buckets) for one in items])
    found: dict[Span, Span] = {}
    for one, (label, _) in zip(items, best, strict=True):
        before, behind = beside(one, spans)
        meant = before if label == "before" else behind if label == "behind" else None
        if meant is not None:
            found[one] = meant
    return found


BELONGS = {"plant": "place", "rest": "place", "side": "place", "count": "plant", "seen": "plant"}
"""To what each kind of span may belong."""


def beside(one: Span, spans: Sequence[Span]) -> tuple[Span | None, Span | None]:
    """Give what may be meant: the last before a span, and the next behind it."""
    key = BELONGS[one.key]
    before = [each for each in spans if each.key == key and each.end <= one.start]
    behind = (each for each in spans if each.key == key and each.start >= one.end)
    return before[-1] if before else None, next(behind, None)


def marks_of(tokens: Sequence[Token], asked: str) -> Iterator[list[str]]:
    """Give the marks of each word: itself, its letters, its class and those around it."""
    size = len(tokens)
    words = ["^^", "^", *(one.word for one in tokens), "$", "$$"]
    of = ["^^", "^", *(_class_of(one) for one in tokens), "$", "$$"]
    behind = _next_things(tokens)
    thing, lead, begins, colon = "^", "", 0, ""
    for at, one in enumerate(tokens):
        if not at or tokens[at - 1].of in _ENDS:
            begins, lead = at, ""
            end = next((n for n in range(at, size) if tokens[n].of in _ENDS), size)
            colon = next(
                (str(tokens[n].of == "colon") for n in range(at, end) if tokens[n].of == "colon"), ""
            )
        left2, left, word, right, right2 = words[at : at + 5]
        of_left2, of_left, of_word, of_right, of_right2 = of[at : at + 5]
        first = min(at - begins, 2)
        shape = _shape(one.raw, is_first=at == begins)
        yield [
            f"w {word}",
            f"c {of_word}",
            f"w-1 {left}",
            f"w+1 {right}",
            f"w-2 {left2}",
            f"w+2 {right2}",
            f"c-1 {of_left}",
            f"c+1 {of_right}",
            f"c-2 {of_left2}",
            f"c+2 {of_right2}",
            f"w-1w {left} {word}",
            f"ww+1 {word} {right}",
            f"c-1c {of_left} {of_word}",
            f"cc+1 {of_word} {of_right}",
            f"c-1cc+1 {of_left} {of_word} {of_right}",
            f"cc+1c+2 {of_word} {of_right} {of_right2}",
            f"c-2c-1c {of_left2} {of_left} {of_word}",
            f"w-1c {left} {of_word}",
            f"cw+1 {of_word} {right}",
            f"w-2w-1c {left2} {left} {of_word}",
            f"b {word[:_PART]}",
            f"e {word[-_PART:]}",
            f"e2 {word[-2:]}",
            f"s {shape} {of_word}",
            f"s-1 {shape} {of_left}",
            f"t {thing} {of_word}",
            f"t+1 {behind[at]} {of_word}",
            f"tt {thing} {of_word} {behind[at]}",
            f"l {lead} {of_word}",
            f"lt {lead} {thing} {of_word} {of_right}",
            f"f {first} {of_word} {colon}",
            f"fr {first} {of_word} {of_right}",
            f"a {asked} {of_word} {int(at == 0)}",
            f"n {min(size, 8)} {of_word}",
        ]
        if of_word in _THINGS:
            thing = of_word
        elif of_word in _MARKS:
            thing, lead = of_word, ""
        elif one.word in _LEADING:
            lead = one.word


def _class_of(one: Token) -> str:
    """Give what a word is listed as; of what is nowhere listed, whether it is ordinary English."""
    return "plain" if one.of == "strange" and is_ordinary(one.word) else one.of


def _next_things(tokens: Sequence[Token]) -> list[str]:
    """Give for each word the mark or thing that comes next behind it."""
    found, behind = [], "$"
    for one in reversed(tokens):
        found.append(behind)
        if one.of in _MARKS | _THINGS:
            behind = one.of
    return found[::-1]


def _shape(raw: str, *, is_first: bool) -> str:
    case = "A" if raw.isupper() and len(raw) > 1 else "a" if raw[:1].islower() else raw[:1].isupper() * "Aa"
    return f"{case}{int(is_first)}{int(any(letter.isdigit() for letter in raw))}"


def link_marks(one: Span, spans: Sequence[Span], tokens: Sequence[Token]) -> list[str]:
    """Give the marks of a thing that belongs to another: what stands between it and the two it may be of."""
    before, behind = beside(one, spans)
    key = one.key
    left = _between(before, one, spans, tokens) if before else ["-"]
    right = _between(one, behind, spans, tokens) if behind else ["-"]
    heads = _heads(before, tokens), _heads(behind, tokens)
    leads = _lead(before, tokens), _lead(behind, tokens), _lead(one, tokens)
    beyond = _follows(behind, spans, tokens)
    first = next((each.key for each in spans if each.key in {key, BELONGS[key]}), "")
    begins = _first_of_sentence(before, tokens), _first_of_sentence(behind, tokens)
    crossed = f"{'line' in left} {'stop' in left} {'line' in right} {'stop' in right}"
    marks = [
        f"b {' '.join(left)}",
        f"h {' '.join(right)}",
        f"b4 {' '.join(left[-4:])} {heads[0]}",
        f"h4 {' '.join(right[:4])} {heads[1]}",
        f"bh {' '.join(sorted(set(left)))} | {' '.join(sorted(set(right)))}",
        f"bs {' '.join(sorted(set(left)))} {heads[0]}",
        f"hs {' '.join(sorted(set(right)))} {heads[1]}",
        f"hd {heads} {beyond}",
        f"ld {leads[0]} {leads[1]} {heads}",
        f"ll {leads[1]} {' '.join(right[:2])}",
        f"lb {leads[0]} {' '.join(left[-2:])}",
        f"l1 {leads[2]} {heads}",
        f"f {first} {heads}",
        f"fb {first} {' '.join(sorted(set(left) & _ENDS))} {' '.join(sorted(set(right) & _ENDS))} {beyond}",
        f"n {begins[0]} {begins[1]} {beyond}",
        f"nb {begins[0]} {crossed}",
    ]
    return [f"{key} {mark}" for mark in marks]


def _between(one: Span, other: Span, spans: Sequence[Span], tokens: Sequence[Token]) -> list[str]:
    """Say what stands between two spans: other spans, marks, and words that lead."""
    inner = {at: each.key for each in spans for at in range(each.start, each.end)}
    told = [
        inner.get(at)
        or (tokens[at].of if tokens[at].of in _MARKS else "")
        or (tokens[at].word if tokens[at].word in _LEADING | _BRACKETS else "")
        for at in range(one.end, other.start)
    ]
    said = [word for word in told if word]
    return [word for word, after in pairwise([*said, ""]) if word != after]


_BRACKETS = frozenset("()-")


def _heads(one: Span | None, tokens: Sequence[Token]) -> str:
    """Say which mark stands before a span's line and behind it: of a heading a colon or a line's end."""
    if one is None:
        return "-"
    before = tokens[one.start - 1].of if one.start else "line"
    behind = tokens[one.end] if one.end < len(tokens) else None
    end = (
        "line"
        if behind is None
        else behind.of
        if behind.of in _MARKS
        else behind.word
        if behind.word in _BRACKETS
        else "o"
    )
    return f"{before if before in _MARKS else 'o'}{end}"


def _lead(one: Span | None, tokens: Sequence[Token]) -> str:
    """Give the word that leads to a span: "in the", "on"."""
    if one is None:
        return "-"
    words = [tokens[at].word for at in range(max(0, one.start - 3), one.start) if tokens[at].of not in _ENDS]
    return next((word for word in reversed(words) if word in _LEADING), "")


def _follows(one: Span | None, spans: Sequence[Span], tokens: Sequence[Token]) -> str:
    """Say what comes behind the next one in its sentence: plants of its own, or none."""
    if one is None:
        return "-"
    end = next((at for at in range(one.end, len(tokens)) if tokens[at].of in _ENDS), len(tokens))
    return next((each.key for each in spans if one.end <= each.start < end and each.key != "side"), "none")


def _first_of_sentence(one: Span | None, tokens: Sequence[Token]) -> str:
    """Tell how many words into its sentence a span begins."""
    if one is None:
        return "-"
    begins = next((at + 1 for at in range(one.start - 1, -1, -1) if tokens[at].of in _ENDS), 0)
    return str(min(one.start - begins, 3))
