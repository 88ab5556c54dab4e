"""A message as a row of letters: one for each name that is known, and each word that tells of names."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from bot.actions.situation import Situation
from bot.domain.value import Value, replace
from bot.phrases.home_words import ARTICLES, COURTESIES, PREPOSITIONS, ROOMS, Event, Words, kind_at
from bot.phrases.homes import runs_told
from bot.phrases.lexicon import each_of, listed, phrases_of
from bot.phrases.tagging import Span
from bot.phrases.text import plain, words_of

_LETTERS = {
    "not": "n",
    "is": "i",
    "has": "a",
    "called": "e",
    "plant": "g",
    "room": "h",
    "being": "v",
    "slip": "m",
    "drop": "d",
    "without": "d",
    "take": "l",
    "out": "o",
    "one": "1",
    "only": "y",
    "they": "t",
    "it": "j",
    "swap": "z",
    "rename": "R",
    "but": "B",
    "at": "w",
    "idle": "",
}
"""Classes of words by what they stand as; p is a plant that is known, r a room, k all else that is."""
_OF_SPANS = {"plant": "q", "place": "s", "side": "f", "person": "v"}
_OF_EVENTS = each_of(
    ("kind | own", "q"),
    ("room | place", "s"),
    ("facing | lit", "f"),
    ("count | grade", "c"),
    ("pest | bugs | product", "b"),
    ("line | stop", "."),
    ("comma", ","),
    ("and", "&"),
    ("colon", ":"),
    ("strange", "x"),
    ("around", ""),
)
"""What is told anew: a plant, a room, a way, a number, an animal, a mark, a strange word; u is all else."""
_WORDS = {phrase: letter for key, letter in _LETTERS.items() for phrase in phrases_of("right", key)}
_WORDS |= dict.fromkeys(((one,) for one in PREPOSITIONS), "w")
_WORDS |= {(*one, "two"): "t" for one in (*phrases_of("right", "they"), ("the",))}
_LONGEST = max(map(len, _WORDS))
_MOST_WORDS = 6
_SHORTEST, _SHORTEST_PART = 2, 3
_IDLE = ARTICLES | COURTESIES | listed("nah naw nay other others rest right correct really actually probably")
_IS_SO = {(one,) for one in ARTICLES | PREPOSITIONS | {"not", "no"}}
"""What stands behind "the fern's" where that is no name's."""
_ENDING_A_NAME = frozenset("ieRnBwya")
_TOO_GENERAL = listed("plant plants plt tree trees room rooms window spot place one step steps")
_WITHIN_A_NAME = frozenset({"strange", "common", "looks", "kind"})
_ALONE = re.compile("(?:^|(?<=[.,]))n(?=[.,]|$)")
"""“No, ...” denies nothing that is named."""
Named = dict[str, tuple[str, set[str]]]


def is_idle(said: str) -> bool:
    """Whether words tell nothing by themselves where a home is put right."""
    return all((word,) in _WORDS or word in _IDLE or not word.isalnum() for word in words_of(plain(said)))


class Item(Value):
    """A word or a run of words that tells something of names, and what stands idle before it."""

    sort: str
    text: str
    start: int = 0
    end: int = 0
    before: str = ""
    names: tuple[str, ...] = ()
    """What that is known it may mean."""


def letters_of(name: str) -> str:
    """Give a name without what people type or leave out between its words."""
    return re.sub(r"[\s'-]+", "", name.casefold())


@dataclass(slots=True)
class Lettering:
    """The names that are known, and a message that speaks of them."""

    told: Words
    known: Situation
    named: Named = field(default_factory=dict)
    """Names by their letters."""
    parts: Named = field(default_factory=dict)
    """Parts of them."""
    items: list[Item] = field(default_factory=list)

    def note(self, sort: str, names: Iterable[str]) -> None:
        """Note names that are known, and parts of them: the last word, or the first where it is no kind's."""
        for name in names:
            base = re.sub(r" \d+$", "", name.casefold()).split()
            self.named.setdefault(letters_of(name), (sort, set()))[1].add(name)
            is_begun = sort == "k" or base[0] in self.known.kinds or not is_kind(name, self.known)
            first = base[0] if sort != "r" and is_begun else base[-1]
            no_part = _TOO_GENERAL | (ROOMS if sort == "p" else frozenset())
            for part in {" ".join(base), base[-1], first} - no_part:
                self.parts.setdefault(letters_of(part), (sort, set()))[1].add(name)

    def read(self) -> list[Item]:
        """Look at the words one after the other: names first, then what is told of them."""
        told = self.told
        runs = {one.start: one for one in runs_told(told, self.known) if one.key in _OF_SPANS}
        events = {one.start: one for one in told.events}
        at = idle = 0
        while at < len(told.words):
            item = self._item_at(at, runs, events)
            if item.sort and not (item.sort == "v" and self.said[-1:] not in {"i", "n", "u", "v", "y"}):
                before = told.text(idle, at)
                if before == "an" and item.sort in "pq" and self.said[-1:] in {"p", "q"}:
                    self.items.append(Item("&", "and"))  # "the ivy an the fern"
                self.items.append(replace(item, before=before))
                if (
                    item.names
                    and told.tokens[item.end - 1].raw.endswith("'s")
                    and told.words[item.end : item.end + 1] in _IS_SO
                ):
                    self.items.append(Item("i", "is"))
                idle = item.end
            at = item.end
        while found := _ALONE.search(self.said):
            del self.items[found.start()]
        return self.items

    @property
    def said(self) -> str:
        """Give the letters of all items."""
        return "".join(one.sort for one in self.items)

    def _item_at(self, at: int, runs: dict[int, Span], events: dict[int, Event]) -> Item:
        told, run, event = self.told, runs.get(at), events.get(at)
        known, word = self._known_at(at), self._word_at(at)
        what, end = (event.what, event.end) if event is not None else ("", at + 1)
        longest = kind_at(told.words, at, self.known.kinds)
        if run is not None:
            inner = range(at + max(1, longest), run.end)
            end = next((n for n in inner if _WORDS.get(self._word_at(n), "o") in _ENDING_A_NAME), run.end)
        if (
            run is not None
            and run.key == "place"
            and not word
            and (known is None or (known.sort == "r" and known.end < end and self.said[-1:] != "R"))
        ):
            return Item("s", told.text(at, end), at, end)
        if known is not None:
            return known
        is_sort = told.words[at].isalpha() and not (word or is_idle(told.words[at]))
        if is_sort and told.words[at + 1 : at + 2] == ("room",):
            return Item("s", told.text(at, at + 2), at, at + 2)
        if word and longest < len("xy"):
            return Item(_WORDS[word], told.text(at, at + len(word)), at, at + len(word))
        if longest > 1:
            return Item("q", told.text(at, at + longest), at, at + longest)
        sort = _OF_EVENTS.get(what, "u")
        if run is not None:
            stop = next((n for n in range(at + 1, end) if self._known_at(n) is not None), end)
            sort, end = _OF_SPANS[run.key] if stop == end else "x", stop
        return Item(sort, told.text(at, end), at, end)

    def _word_at(self, at: int) -> tuple[str, ...]:
        """Give the words that tell something of names and begin here."""
        words = (self.told.words[at : at + size] for size in range(_LONGEST, 0, -1))
        is_ones = self.told.tokens[at].raw.endswith("'s")
        return () if is_ones else next((one for one in words if one in _WORDS), ())

    def _known_at(self, at: int) -> Item | None:
        """Give the longest name, or the part of one, that begins at a word."""
        words = self.told.words
        longest = kind_at(words, at, self.known.kinds)
        for size in range(min(_MOST_WORDS, len(words) - at) if words[at][:1].isalnum() else 0, 0, -1):
            typed = self.told.text(at, at + size)
            for key in dict.fromkeys(letters_of(typed.removesuffix(end)) for end in ("", "s", "es", "'s")):
                sort, names = self.named.get(key) or self.parts.get(key) or ("", set())
                is_part = key not in self.named
                if not sort or len(key) < (_SHORTEST_PART if is_part else _SHORTEST):
                    continue
                if size < longest and not _TOO_GENERAL.issuperset(words[at + size : at + longest]):
                    return None  # a longer kind
                is_within = self.told.of(at - 1) in _WITHIN_A_NAME
                if is_part and is_within and words[at - 1 : at] not in _WORDS:
                    continue  # a part of a strange name
                is_one = len(names) == 1 and sort != "k"
                text = next(iter(names)) if is_one else typed
                return Item(sort, text, at, at + max(size, longest), names=tuple(sorted(names)))
        return None


def is_kind(name: str, situation: Situation) -> bool:
    """Whether a name begins with a kind of plant that is known."""
    words = words_of(plain(name))
    return bool(words) and kind_at(words, 0, situation.kinds) > 0
