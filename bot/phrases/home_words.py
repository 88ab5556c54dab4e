"""The words of a message that may tell of a home: as typed, as looked up, and what is listed of them."""

import re
from collections.abc import Iterator
from functools import lru_cache

from bot.actions.situation import Situation
from bot.catalogue.towns import find_towns
from bot.domain.trade import Form, Grade
from bot.domain.value import Value
from bot.phrases.days import every_at
from bot.phrases.kept import kept
from bot.phrases.lexicon import (
    Spot,
    Word,
    common_words,
    listed,
    phrase_at,
    phrases_of,
    sayings,
    words_in,
    words_of_class,
)
from bot.phrases.light import SPOKEN, WAYS, lamp_alone_at, sun_at, sun_hours_at
from bot.phrases.names import OneOf, Pest, Place, Plants, Product, names_of
from bot.phrases.numbers import UnclearVolume, Volume, measure_at, number_at
from bot.phrases.setup import lamp_at
from bot.phrases.spotting import slip_of
from bot.phrases.tagging import Token
from bot.phrases.text import SHORTENED, tidy, words_of

_LONGEST_KIND = 4
_SHORTEST_OWN = 3
_RAW = re.compile(
    r"\n[ \t]*(?:[-*•·–—>=#]+|(?:\d{1,3}|[a-l]|i{1,3}|iv|vi{0,3})[.)](?=\s))?[ \t]*"
    r"|(?<![\w(])(?:\d{1,2}|[a-l]|i{1,3}|iv|vi{0,3})\)(?=\s+\w)"
    r"|[-=]>|\d+(?:[.,]\d+)?|[^\W\d_]+(?:'[^\W\d_]+)*(?:-(?:in|to|on|up|out)\b(?!-))?|\S",
    re.IGNORECASE,
)
"""A line's end with the next one's bullet, “1)” within a line, an arrow, a number, a word, a mark."""
"""How a letter ends: who signs it is no plant."""
_STRETCHED = re.compile(r"([^\W\d_])\1{2,}")
ENDS = frozenset({"line", "stop"})
ROOMS = words_of_class("home", "rooms")
OF_TWO_WORDS = phrases_of("home", "rooms-of-two-words")
SORTS = words_of_class("home", "sorts-of-room")
LOOKS = words_of_class("home", "looks")
HEADS = words_of_class("home", "heads")
AROUND = words_of_class("home", "around")
_BUGS = words_of_class("home", "bugs")
_LISTED = (("bugs", _BUGS), ("room", ROOMS))
COURTESIES = words_of_class("talk", "greeting", "nod")
NOTHING = phrases_of("home", "nothing")
LIVES = phrases_of("home", "lives")
PREPOSITIONS = listed("in on at by im auf am dans sur near beside inside under behind outside upon pon inna")
ARTICLES = listed(
    "the a an my our his her its this that der die das dem den le la les un une ze di da dis ma"
)
_PASSED = AROUND | ARTICLES | PREPOSITIONS | COURTESIES
"""What only leads from one word to the next."""
_BODY = listed("pain hand hands finger fingers eye eyes grief misery disaster bath careful")
_IDLE = (
    frozenset(one for one in words_of_class("idle", "words", "people") if len(one) > len("mi"))
    | listed("um uh er ah oh ta mi ur")
) - _BODY
"""What carries nothing; but where somebody may be hurt, every word of it counts."""
_NUMBERED = {"couple": 2, "pair": 2, "dozen": 12}
_GREETED = listed("hi hey hello and then is are was were ,")
_EXISTS = listed("is are was were stands stand lives live")
_NEXT_TO = listed("in beside by near")
_OF_A_WINDOW = words_of_class("home", "of-a-window")
_WINDOWS = words_of_class("home", "window-as-spoken")
_GLUED = listed("a the my in on is has have and with")
Listed = tuple[tuple[str, tuple[str, ...]], ...]
Mends = tuple[frozenset[str], frozenset[str]]
"""Words that may be slips of anything, and words of plants' names, which may be slips of kinds only."""


class Event(Value):
    """A run of words and what is listed of it."""

    what: str
    value: object
    start: int
    end: int


class Words(Value):
    """A message word by word."""

    tokens: tuple[Token, ...]
    words: tuple[str, ...]
    events: tuple[Event, ...]
    is_mended: bool
    """Whether a slip was read into what it is most likely of."""

    ends: tuple[int, ...]
    """Where its sentences end."""

    def text(self, start: int, end: int) -> str:
        """Give a run of words as it was typed."""
        said = "".join(("-" if one.is_joined else " ") + one.raw for one in self.tokens[start:end])
        return re.sub(r" ([,.;:)!])", r"\1", said[1:])

    def before(self, at: int, count: int = 1) -> tuple[str, ...]:
        """Give the words before one."""
        return self.words[max(0, at - count) : at]

    def of(self, at: int) -> str:
        """Give what a word is listed as; the message's ends are ends of lines."""
        return self.tokens[at].of if 0 <= at < len(self.tokens) else "line"

    def within(self, start: int, end: int) -> list[Event]:
        """Give the events of a run of words."""
        return [one for one in self.events if start <= one.start < end]


def words_at(what: tuple[str, Mends | None], situation: Situation) -> Words:
    """Look at every word of a text once, with its slips mended or not."""
    text, mends = what
    typed = _typed(text)
    slips = _slips(tuple(word for _, word, _ in typed), mends, situation) if mends is not None else {}
    if slips:
        typed = [
            (part if word in slips else raw, part, is_joined)
            for raw, word, is_joined in typed
            for part in slips.get(word, word).split(" ")
        ]
    elif mends is not None:
        return kept(words_at, (text, None), situation)
    raw, words = [one for one, _, _ in typed], tuple(word for _, word, _ in typed)
    events, tokens, at = [], [], 0
    while at < len(words):
        what_is, value, size = _spotted(raw, words, at, situation)
        size = min(size, len(words) - at)
        events.append(Event(what_is, value, at, at + size))
        listed_as = {"own": "kind", "place": "room", "lamp": "facing"}.get(what_is, what_is)
        tokens += [
            Token(raw[n], words[n], f"{listed_as}{'+' * (n > at)}", typed[n][2]) for n in range(at, at + size)
        ]
        at += size
    ends = tuple(one.start for one in events if one.what in ENDS)
    return Words(tuple(tokens), words, tuple(events), bool(slips), ends)


def _typed(text: str) -> list[tuple[str, str, bool]]:
    """Give the words as typed, as they are looked up, and whether a hyphen joins each to the one before."""
    bare = "\n" + tidy(text)
    found: list[tuple[str, str, bool]] = []
    end, is_joined = 0, False
    for match in _RAW.finditer(bare):
        typed, gap = match[0], match.start() - end
        before, behind = bare[match.start() - 1 : match.start()], bare[match.end() : match.end() + 1]
        end = match.end()
        if typed == "-" and before.isalpha() and behind.isalpha():
            is_joined = True
            continue
        word = typed.lower()
        if typed[0] == "\n":
            found += [("\n", "\n", False)] if found else []
            continue
        last = found[-1][1] if found else ""
        spelt = _spelt(typed, word, last)
        if last == "an" and word in ARTICLES:
            found[-1] = (found[-1][0], "and", False)  # "the fern an the ivy"
        for one in spelt:
            found.append((one if len(spelt) > 1 else typed, one, is_joined and not gap))
            is_joined = False
    return found


def _spelt(typed: str, word: str, last: str) -> tuple[str, ...]:
    if typed in {"->", "=>", "→", "➜", "⇒"}:
        return (":",)
    if len(typed) > 1 and typed[-1] == ")":
        return (",",)  # "1) fern 2) ivy"
    if word == "w" and (typed == "W" or last in ROOMS):
        return ("w",)  # a window's way, not "with"
    if word in _WINDOWS or (word == "win" and (last in ROOMS or last in WAYS)):
        return ("window",)
    if "-" in typed[1:] or typed in {"'", '"'}:
        return ("'" if typed == '"' else word,)
    return words_of(_STRETCHED.sub(r"\1", word)) or ("",)


def _slips(words: tuple[str, ...], mends: Mends, situation: Situation) -> dict[str, str]:
    """Give what misspelt and shortened words are most likely meant for."""
    anything, of_kinds = mends
    known = _vocabulary(situation.kinds, situation.ingredients, situation.pests)
    listed_too = (known, _IDLE, common_words(), _OF_A_WINDOW, SHORTENED)
    strange = {one for one in words if one.isalpha() and not any(one in some for some in listed_too)}
    strange = {one for one in strange if phrase_at((one,), 0) is None and number_at((one,), 0) is None}
    near = (
        (one, _set_apart(one, known) or slip_of(one, known)) for one in strange if len(one) >= _SHORTEST_OWN
    )
    kinds = words_of_kinds(situation.kinds)
    return {
        one: meant
        for one, meant in near
        if meant is not None
        and (len(one) > _SHORTEST_OWN or meant not in kinds)
        and (len(meant) >= _SHORTEST_ROOM or meant not in ROOMS)
        and (
            one in anything
            or " " in meant
            or (({one, singular(one)} & of_kinds) and singular(meant) in kinds)
        )
        and not find_towns(one)
    }


_SHORTEST_ROOM = 7
"""A shorter room is not read out of a slip: "slower" is no shower. Judgement. [1]"""


def _set_apart(word: str, known: frozenset[str]) -> str | None:
    """Set two words apart that were typed as one: "livein", "thebreakfast", "onlya"."""
    for at in range(1, len(word)):
        first, second = word[:at], word[at:]
        is_led = (
            first in _GLUED and (second in known or second in common_words()) and len(second) >= _SHORTEST_OWN
        )
        if is_led or (second in _GLUED and first in known | common_words() and len(first) >= _SHORTEST_OWN):
            return f"{first} {second}"
    return None


@lru_cache(maxsize=2)
def _vocabulary(kinds: frozenset[str], ingredients: Listed, pests: Listed) -> frozenset[str]:
    named = words_in((*kinds, *(name for _, names in (*ingredients, *pests) for name in names)))
    said = words_in(name for one in LIVES | NOTHING for name in one) | SPOKEN
    several = frozenset(f"{one}s" for one in named if not one.endswith("s"))
    return named | several | said | ROOMS | AROUND | LOOKS | HEADS | SORTS | COURTESIES


_FIRST = sayings(
    "lit | lamp | nothing | own | place | facing | kind | product | pest | volume | every | bugs | room"
)
"""Of two readings of one length the first of these counts."""


def _spotted(
    raw: list[str], words: tuple[str, ...], at: int, situation: Situation
) -> tuple[str, object, int]:
    """Tell what begins at a word and how many words it takes; the longest reading wins."""
    mark = _mark(words[at])
    if mark and (words[at] != "n" or raw[at] == "n"):
        return mark, None, 1
    found = list(_readings(words, at, situation))
    if found:
        return max(found, key=lambda one: (one[2], -_FIRST.index(one[0])))
    what, value, size = _of_the_lexicon(words, at)
    is_named = what == "common" and raw[at][:1].isupper() and at > 0 and not _mark(words[at - 1])
    is_ones = size == 1 and raw[at].lower().endswith("'s") and words[at].isalpha() and words[at] not in AROUND
    return ("strange" if is_named or is_ones else what), value, size


def _readings(words: tuple[str, ...], at: int, situation: Situation) -> Iterator[tuple[str, object, int]]:
    """Give what a run of words that begins here may stand for."""
    named = names_of(situation).exact_at(words, at)
    if named is not None:
        what = {Plants: "own", OneOf: "own", Place: "place", Product: "product", Pest: "pest"}[type(named[0])]
        yield what, *named
    size = kind_at(words, at, situation.kinds)
    if size:
        yield "kind", None, size
    lit = lamp_at(words, at)
    if lit is not None:
        yield "lit", *lit
    sun = sun_at(words, at)
    if sun is not None:
        yield "facing", *sun
    elif words[at] in _LETTERS:
        yield "facing", None, 1
    if size := lamp_alone_at(words, at) or sun_hours_at(words, at):
        yield "lamp", None, size
    yield from (("nothing", None, size) for size in range(1, 6) if words[at : at + size] in NOTHING)
    yield from ((what, None, 1) for what, named_so in _LISTED if words[at] in named_so)
    yield from (("room", None, 2) for _ in range(words[at : at + 2] in OF_TWO_WORDS))
    measured = measure_at(words, at, situation.units)
    if measured is None and (repeated := every_at(words, at)) is not None:
        yield "every", *repeated
    elif measured is not None and isinstance(measured[0], Volume | UnclearVolume):
        yield "volume", *measured


_LETTERS = listed("n e s w ne nw se sw")


def _mark(word: str) -> str:
    if word == "\n":
        return "line"
    if word in {".", "!", ";", "?"}:
        return "stop"
    if word in {"and", "&", "+", "plus", "n"}:
        return "and"
    return "comma" if word in {",", "|", "-", "/"} else "colon" if word in {":", "="} else ""


def _of_the_lexicon(words: tuple[str, ...], at: int) -> tuple[str, object, int]:
    word = words[at]
    number = number_at(words, at)
    if number is not None and word not in {"a", "an", "one"}:
        return "count", int(number[0]), number[1]
    dozen = words[at + (word in ARTICLES) : at + 2]
    if dozen and dozen[0] in _NUMBERED:
        return "count", _NUMBERED[dozen[0]], 1 + (word in ARTICLES)
    phrase = phrase_at(words, at)
    if phrase is not None and isinstance(phrase[0], Grade | Form):
        return ("grade" if isinstance(phrase[0], Grade) else "form"), phrase[0], phrase[1]
    if phrase is not None and phrase[0] in {Word.NOT, Word.NOTHING, Word.NONE, Word.AGAINST}:
        return "telling", phrase[0], phrase[1]
    before, behind = words[max(0, at - 1) : at], words[at + 1 : at + 2]
    is_there = word == "there" and not (_GREETED & frozenset(before) or _EXISTS & frozenset(behind))
    is_there = is_there or (word in {"it", "them"} and bool(_NEXT_TO & frozenset(before)))
    if word == "same" or is_there:
        return "again", None, 1
    if word in LOOKS:
        return "looks", None, 1
    is_around = word in _PASSED or not word.strip(" '\"()[]~*…")
    if is_around or (phrase is not None and (phrase[0] is Word.FILLER or isinstance(phrase[0], Spot))):
        size = 1 if is_around or phrase is None else phrase[1]
        return "around", word, size
    if phrase is not None:
        return "telling", phrase[0], phrase[1]
    if word in _IDLE or not any(letter.isalpha() for letter in word):
        return "around", word, 1
    return ("common" if word in common_words() else "strange"), word, 1


@lru_cache(maxsize=4)
def _kinds_begun(kinds: frozenset[str]) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Give the words of the kinds by the first of them."""
    named = [tuple(kind.split()) for kind in kinds]
    owned = (tuple(word.removesuffix("s") for word in words[:-1]) + words[-1:] for words in named)
    begun: dict[str, tuple[tuple[str, ...], ...]] = {}
    for words in dict.fromkeys((*named, *owned)):  # "burro's tail" is looked up as "burro tail"
        begun[words[0]] = (*begun.get(words[0], ()), words)
    return begun


def kind_at(words: tuple[str, ...], at: int, kinds: frozenset[str]) -> int:
    """Count the words of the longest kind of plant that begins here."""
    begun = _kinds_begun(kinds)
    known = begun.get(words[at], ()) + begun.get(singular(words[at]), ())
    for size in range(min(_LONGEST_KIND, len(words) - at) if known else 0, 0, -1):
        run = words[at : at + size]
        if run in known or (*run[:-1], singular(run[-1])) in known:
            # what two kinds share is of one plant: "chinese elm" and "elm bonsai"
            return max([size, *(n + kind_at(words, at + n, kinds) for n in range(1, size))])
    return 0


@lru_cache(maxsize=4)
def words_of_kinds(kinds: frozenset[str]) -> frozenset[str]:
    """Give the words that kinds of plants are named by."""
    return words_in(kinds)


def names_a_kind(words: tuple[str, ...], situation: Situation) -> bool:
    """Whether a kind of plant is named that is not here: "fern 3" or "a second fern" beside a fern."""
    names, at = names_of(situation), 0
    while at < len(words):
        own = names.exact_at(words, at)
        size = own[1] if own is not None and isinstance(own[0], Plants | OneOf) else 0
        is_here = size and words[max(0, at - 1)] not in _ONE_MORE | LOOKS
        is_here = is_here and not "".join(words[at + size : at + size + 1]).isdigit()
        if not is_here and kind_at(words, at, situation.kinds):
            return True
        at += size or 1
    return False


_ONE_MORE = listed("a an another second third new")


@lru_cache(maxsize=4096)
def singular(name: str) -> str:
    """Give one of several: "two hoyas" are "hoya" 1 and 2."""
    head, _, last = name.rpartition(" ")
    low = last.lower()
    if low.endswith("ies") and len(low) > len("pies"):
        last = f"{last[:-3]}y"
    elif low == "cacti":
        last = "cactus"
    elif low.endswith(("sses", "uses", "xes", "shes", "oes")) and low not in {"aloes", "toes"}:
        last = last[:-2]
    elif low.endswith("s") and not low.endswith(("ss", "us", "is", "pearls", "hearts", "toes")):
        last = last[:-1]
    return f"{head} {last}" if head else last
