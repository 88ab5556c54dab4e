"""The listed words: every phrase that is known, and what it stands for, from one file."""

from collections.abc import Callable, Iterable, Iterator
from enum import Enum, auto
from functools import cache
from pathlib import Path
from sys import intern
from typing import TypeVar
from zlib import crc32

from bot.domain.trade import Form, Grade, Level, Method, Sign
from bot.domain.value import Value
from bot.phrases.text import LEXICON

T = TypeVar("T")


class Word(Enum):
    """A word that steers the meaning of its clause."""

    __hash__ = object.__hash__  # the library's goes by the name, in Python, a thousand times a message

    FILLER = auto()
    HEDGE = auto()
    AND = auto()
    BREAK = auto()
    BUT = auto()
    QUESTION = auto()
    AGAINST = auto()
    DONE = auto()
    NOT = auto()
    NOTHING = auto()
    YET = auto()
    NO_TIME = auto()
    LATER = auto()
    SKIP = auto()
    DO = auto()
    ALL = auto()
    BOTH = auto()
    IT = auto()
    THEM = auto()
    REST = auto()
    EXCEPT = auto()
    CLEAN = auto()
    NONE = auto()
    GONE = auto()
    SAW = auto()
    LEFT = auto()
    HAD = auto()
    BUGS = auto()
    CHECKED = auto()
    CHECK = auto()
    EMPTY = auto()
    FILL_TO = auto()
    ISOLATE = auto()
    MOVE = auto()
    RELEASE = auto()
    BACK = auto()
    PUT = auto()
    ANYWAY = auto()
    UNMOVABLE = auto()
    LOST = auto()
    MEANT = auto()
    IT_IS = auto()
    GOT = auto()
    LABEL = auto()
    NEW = auto()
    MIX = auto()
    AWAY = auto()
    UNTIL = auto()
    STOP = auto()
    DELETE = auto()
    RESUME = auto()


class Tool(Value):
    """A method named, not told as done: "spray", "a rinse"."""

    method: Method


JOINS = frozenset({Word.FILLER, Word.AND, Word.BREAK})
"""What only leads from one thing to the next."""


class Spot(Value):
    """Where on the plant something was seen."""

    name: str


Listed = Word | Tool | Spot | Method | Grade | Sign | Level | Form

_KINDS: dict[str, Callable[[str], Listed]] = {
    "words": lambda key: Word[key.replace("-", "_").upper()],
    "methods": Method,
    "tools": lambda key: Tool(Method(key)),
    "grades": Grade,
    "signs": Sign,
    "levels": Level,
    "spots": Spot,
    "forms": Form,
}


def _phrases(spellings: str) -> Iterator[tuple[str, ...]]:
    for phrase in spellings.split("|"):
        words = tuple("\n" if word == "NEWLINE" else intern(word) for word in phrase.split())
        if words:
            yield words


PHRASES: dict[tuple[str, ...], Listed] = {
    words: made(key)
    for kind, made in _KINDS.items()
    for key, spellings in LEXICON[kind].items()
    for words in _phrases(spellings)
}
FREE: dict[tuple[str, ...], Listed] = {
    words: made(key)
    for kind, made in _KINDS.items()
    for key, spellings in LEXICON["free"].get(kind, {}).items()
    for words in _phrases(spellings)
}
"""What is heard for an offer only."""
_BARE_VERBS = {
    "spray": Method.SPRAY,
    "swab": Method.SWAB,
    "wipe": Method.WIPE,
    "rinse": Method.RINSE,
    "wash": Method.RINSE,
    "repot": Method.REPOT,
}
for _verb, _method in _BARE_VERBS.items():  # "i did rinse to the ivy"
    for _spoken in (("did", _verb), ("i", "did", _verb)):
        PHRASES[_spoken] = PHRASES[(*_spoken, "to")] = _method

_LONGEST_FROM: dict[str, int] = {}
_LONGEST_FREE_FROM: dict[str, int] = {}
for _listed, _longest in ((PHRASES, _LONGEST_FROM), (FREE, _LONGEST_FREE_FROM)):
    for _phrase in _listed:
        _longest[_phrase[0]] = max(len(_phrase), _longest.get(_phrase[0], 0))
_PAIRS = frozenset(phrase[:2] for phrase in (*PHRASES, *FREE) if len(phrase) > 1)
KNOWN = frozenset(word for phrase in PHRASES for word in phrase)


def listed(words: str) -> frozenset[str]:
    """Split a plain row of words into a set of them."""
    return frozenset(map(intern, words.split()))


def sayings(row: str) -> tuple[str, ...]:
    """Split a plain row of phrases, with bars between them."""
    return tuple(one.strip() for one in row.split("|"))


def any_of(row: str) -> frozenset[str]:
    """Split a plain row of phrases into a set of them."""
    return frozenset(sayings(row))


def worded(row: str) -> tuple[tuple[str, ...], ...]:
    """Split a plain row of phrases, each into its words."""
    return tuple(tuple(one.split()) for one in row.split("|"))


def each_of(*rows: tuple[str, T]) -> dict[str, T]:
    """Give each phrase of some rows what its row means."""
    return {said: meant for row, meant in rows for said in sayings(row)}


def each_worded(*rows: tuple[str, T]) -> dict[tuple[str, ...], T]:
    """Give each phrase of some rows, as its words, what its row means."""
    return {tuple(said.split()): meant for said, meant in each_of(*rows).items()}


def words_in(phrases: Iterable[str]) -> frozenset[str]:
    """Give all words of some phrases."""
    return frozenset(intern(word) for phrase in phrases for word in phrase.split())


def phrase_at(words: tuple[str, ...], start: int) -> tuple[Listed, int] | None:
    """Longest listed phrase that begins here, and its length in words."""
    return _longest_at(words, start, _LONGEST_FROM, PHRASES)


def is_begun(word: str, behind: str) -> bool:
    """Whether a phrase of several words begins with these two."""
    return (word, behind) in _PAIRS


def free_at(words: tuple[str, ...], start: int) -> tuple[Listed, int] | None:
    """Give the same of what is heard for an offer only."""
    return _longest_at(words, start, _LONGEST_FREE_FROM, FREE)


def _longest_at(
    words: tuple[str, ...], start: int, longest: dict[str, int], phrases: dict[tuple[str, ...], Listed]
) -> tuple[Listed, int] | None:
    for size in range(longest.get(words[start], 0), 0, -1):
        value = phrases.get(words[start : start + size])
        if value is not None:
            return value, min(size, len(words) - start)
    return None


@cache
def common_words() -> frozenset[str]:
    """Give the words that many people type and that name nothing: they are no slips and no names."""
    return frozenset(Path(__file__).with_name("common.txt").read_text(encoding="utf-8").split())


@cache
def phrases_of(kind: str, *names: str) -> frozenset[tuple[str, ...]]:
    """Give the phrases of some classes that steer no clause: greetings, words of waiting."""
    return frozenset(words for name in names for words in _phrases(LEXICON[kind][name]))


@cache
def words_of_class(kind: str, *names: str) -> frozenset[str]:
    """Give the single words of some classes."""
    return frozenset(word for phrase in phrases_of(kind, *names) for word in phrase)


def is_made_of(words: tuple[str, ...], phrases: frozenset[tuple[str, ...]]) -> bool:
    """Whether a message can be laid out with these phrases, marks left out, and nothing is left."""
    said = tuple(word for word in words if word[:1].isalnum())
    longest = max(map(len, phrases), default=0)
    reached = {0}
    for at in range(len(said)):
        if at in reached:
            reached |= {at + n for n in range(1, longest + 1) if said[at : at + n] in phrases}
    return bool(said) and len(said) in reached


def classes_of(kind: str) -> tuple[str, ...]:
    """Name the classes of a kind."""
    return tuple(LEXICON[kind])


def is_ordinary(word: str) -> bool:
    """Whether a word is ordinary English, as one in sixty others seems to be [ordinary.bin]."""
    bits = _ordinary()
    places = (crc32(word.encode(), turn) % (8 * len(bits)) for turn in range(TURNS))
    return all(bits[at // 8] >> at % 8 & 1 for at in places)


TURNS = 5
"""Bits of the filter that a word sets. [1]"""


@cache
def _ordinary() -> bytes:
    """Read the filter, behind a line of its source and licence."""
    return Path(__file__).with_name("ordinary.bin").read_bytes().partition(b"\n")[2]
