"""What was typed, made plain: one case, plain quotes, no invisible characters, whole words."""

import re
import tomllib
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

LONGEST = 600
"""Characters of an ordinary message."""

_PLAIN = str.maketrans(
    {
        "\u2018": "'",
        "\u2019": "'",
        "\u02bc": "'",
        "`": "'",
        "\u00b4": "'",
        "\u201c": '"',
        "\u201d": '"',
        "\u2010": "-",
        "\u2011": "-",
        "\u2012": "-",
        "\u2013": "-",
        "\u2014": "-",
        "\u2212": "-",
        "\u2044": "/",
        "\u2753": "?",
        "\u2754": "?",
        "\u00bf": "?",
        "\u00d7": "x",
        "\u00ba": "\u00b0",
        "\r": "\n",
    }
)
_YES = frozenset("\U0001f44d\u2705\u2714\u2611\U0001f44c")
_AGAINST = frozenset("\u274c\U0001f44e\U0001f6ab\u2716\u26d4\U0001f645")
_SILENT = frozenset({"Cf", "Mn", "Me", "Cc", "Cs", "Co", "Cn"})

# Every alternative is one run of disjoint characters: no alternative can be split two ways.
_TOKEN = re.compile(
    r"\d{4}-\d{1,2}-\d{1,2}"
    r"|\d{1,2}:\d{2}"
    r"|\d{1,2}/\d{1,2}(?:/\d{2,4})?"
    r"|(?<!\w)-\d+(?:[.,]\d+)?"
    r"|(?<![\w.])\.\d+"
    r"|\d+(?:[.,]\d+)?"
    r"|[^\W\d_]+(?:'[^\W\d_]+)*"
    r"|[^\s'\"]"
)

_UNHYPHENED = re.compile(r"(?<=[^\W\d_])-(?=[^\W\d_])")

_DIGIT_WORDS = {"2nite": "tonight", "2moro": "tomorrow", "2morrow": "tomorrow", "2day": "today"}
_DIGIT_FOR_A_WORD = re.compile(rf"\b({'|'.join(_DIGIT_WORDS)})\b")
LEXICON = tomllib.loads(Path(__file__).with_name("lexicon.toml").read_text(encoding="utf-8"))
_SHORT = {
    one.strip(): tuple(meant.split()) for meant, words in LEXICON["short"].items() for one in words.split("|")
}
SHORTENED = frozenset(_SHORT).union(*_SHORT.values())
"""What people type for other words, "mins", and those."""
_ENDINGS = {"'ve": "have", "'ll": "will", "'re": "are", "'d": "had"}
_SPELT_IS = frozenset(
    {"it", "that", "what", "who", "when", "where", "how", "there", "here", "why"}
    | {"everything", "nothing", "all", "let", "which", "he", "she"}
)


@lru_cache(maxsize=512)
def plain(text: str) -> str:
    """Return the message tidied and in lower case."""
    return _ISH.sub("", _DIGIT_FOR_A_WORD.sub(lambda found: _DIGIT_WORDS[found[1]], tidy(text).lower()))


_ISH = re.compile(
    r"(?<=\d)[ -]?ish\b|(?<=\b(?:six|ten))[ -]?ish\b|(?<=\bdozen)[ -]?ish\b|(?<=[a-z]{3}ty)[ -]?ish\b"
)
"""“6ish”, “twenty-ish”: as good as the number."""


_PARTS = {"½": ".5", "¼": ".25", "¾": ".75"}
_PART = re.compile(r"(?<=\d) ?[½¼¾]")
"""Joined to a whole number they would become digits of it: "21½"."""
_LOGICAL_NOT = re.compile(r"(?<!\S)!(?=[^\W\d])")
"""As programmers write "all done, !jade"."""


_WITH = re.compile(r"(?<!\S)w/(?!o\b) ?", re.IGNORECASE)


@lru_cache(maxsize=1024)
def tidy(text: str) -> str:
    """Return the message with compatibility forms and quotes unified and invisible marks gone, case kept."""
    spelt = _WITH.sub("with ", _LOGICAL_NOT.sub("not ", text))
    typed = _PART.sub(lambda found: _PARTS[found[0].strip()], spelt)
    kept = (_kept(mark) for mark in unicodedata.normalize("NFKC", typed).translate(_PLAIN))
    lines = "".join(kept).split("\n")
    return "\n".join(" ".join(line.split()) for line in lines).strip()


def is_thumb_up(text: str) -> bool:
    """Whether the message is nothing but signs of agreement."""
    marks = {mark for mark in text if not mark.isspace() and mark not in "!."}
    marks = {mark for mark in marks if unicodedata.category(mark) not in _SILENT | {"Sk"}}
    return bool(marks) and marks <= _YES


def is_signed(text: str) -> bool:
    """Whether a message in words ends with a sign of agreement."""
    if text.rstrip(" !.")[-1:].isalnum():
        return False
    marks = [mark for mark in text.rstrip(" !.") if unicodedata.category(mark) not in _SILENT | {"Sk"}]
    return bool(marks) and marks[-1] in _YES


@lru_cache(maxsize=4096)
def words_of(text: str) -> tuple[str, ...]:
    """Words, numbers and punctuation of a plain message, contractions written out."""
    return tuple(word for word, _ in placed_words_of(text))


def placed_words_of(text: str) -> Iterator[tuple[str, int]]:
    """Give the words of a plain message, each with where it begins in it."""
    for token in _TOKEN.finditer(_UNHYPHENED.sub(" ", text)):
        spelt = (word for word in _spelt_out(token[0]) if word)  # "'s" alone leaves nothing
        yield from ((word, token.start()) for word in spelt)


def _kept(mark: str) -> str:
    if mark == "\n":
        return mark
    if mark.isspace() or mark == "\t":
        return " "
    return "" if unicodedata.category(mark) in _SILENT else mark


def _spelt_out(typed: str) -> tuple[str, ...]:
    if typed in _AGAINST:
        return (typed,)
    if len(typed) == 1 and unicodedata.category(typed) in {"So", "Sk"} and typed != "\u00b0":
        return ()
    if typed in _SHORT:
        return _SHORT[typed]
    if "'" not in typed:
        return (typed,)
    return _without_apostrophe(typed)


_SHORTEST_LED = 5
"""Letters of a word behind the northern article, with it. [1]"""


def _without_apostrophe(typed: str) -> tuple[str, ...]:
    if typed.endswith("n't"):
        return (typed[:-3], "not")
    for ending, word in _ENDINGS.items():
        if typed.endswith(ending):
            return (typed.removesuffix(ending), word)
    if typed.startswith("t'") and len(typed) > _SHORTEST_LED:
        return (typed[2:],)  # "t'lemongrass"
    stem, _, ending = typed.rpartition("'")
    if ending != "s":
        return (typed.replace("'", ""),)
    return (stem, "is") if stem in _SPELT_IS else (stem,)
