"""Words read into items with a meaning of their own, left to right, longest first."""

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise

from bot.actions.situation import Situation
from bot.domain.trade import Sign
from bot.domain.value import Value
from bot.phrases.days import Clock, Day, When, begins_a_time, when_at
from bot.phrases.kept import kept
from bot.phrases.lexicon import KNOWN, Listed, Word, is_begun, listed, phrase_at, words_of_class
from bot.phrases.names import Named, Names, OneOf, Plants, names_of
from bot.phrases.numbers import Count, Measure, count_at, measure_at, number_at

_POINTING = frozenset({"the", "this", "that", "other", "which", "each", "every", "no"})
_STEERING = frozenset({Word.DONE, Word.NOT, Word.ALL, Word.EXCEPT, Word.NOTHING, Word.HEDGE})


class Unknown(Value):
    """A word that stands for nothing known."""

    text: str


class OfMonth(Value):
    """A day of a month that is not named: "the 15th"."""

    day: int


class Span(Value):
    """A number of days, not said whether behind or ahead."""

    days: int


class Percent(Value):
    """A strength."""

    value: float


Meaning = Listed | When | Named | Count | Measure | Unknown | OfMonth | Span | Percent


class Item(Value):
    """A meaning and the words it was read from."""

    meaning: Meaning
    text: str


def is_group(item: Item) -> bool:
    """Whether a name means all plants of a kind here: "the violets"."""
    is_many = isinstance(item.meaning, Plants) and len(item.meaning.ids) > 1
    return is_many and number_at(tuple(item.text.split()[-1:]), 0) is None


def items_of(words: tuple[str, ...], situation: Situation) -> tuple[Item, ...]:
    """Read a whole message: several readers look at the same words of it."""
    return kept(_read, words, situation)


def _read(words: tuple[str, ...], situation: Situation) -> tuple[Item, ...]:
    items: list[Item] = []
    at = 0
    while at < len(words):
        meaning, size = next_at(words, at, situation)
        text = " ".join(words[at : at + size])
        items.append(Item(meaning, text))
        at += size
    return tuple(_doubted(_ranged(_timed(items, situation))))


def _ranged(items: list[Item]) -> list[Item]:
    """Take "6 or 7", "10-15" for as many as there may be, where neither is a measure nor a day."""
    for at, (few, joint, many) in enumerate(zip(items, items[1:], items[2:], strict=False)):
        is_between = joint.text == "and" and at > 0 and items[at - 1].text == "between"
        if is_between or joint.text in {"or", "-", "to"}:
            match few.meaning, many.meaning:
                case Count(value=least), Count(value=most) if 0 < least < most <= _WIDEST * least:
                    whole = Item(many.meaning, f"{few.text} {joint.text} {many.text}")
                    return [*items[:at], whole, *_ranged(items[at + 3 :])]
    return items


_WIDEST = 3
"""So many times the least is the most of "5 to 10". Judgement. [1]"""


def next_at(words: tuple[str, ...], at: int, situation: Situation) -> tuple[Meaning, int]:
    """Read what begins at a word, and how many words it took."""
    word = words[at]
    alone = alone_at(word, words[at + 1] if at + 1 < len(words) else ".")
    if alone is not None and word not in names_of(situation).begin:
        return alone, 1
    return kept(_next, (words, at), situation)


@lru_cache(maxsize=4096)
def alone_at(word: str, behind: str) -> Listed | None:
    """Give what is listed for a word that begins no number, no time and, with the one behind, no phrase."""
    is_timed = begins_a_time(word) and (word not in _BEFORE_A_TIME or begins_a_time(behind))
    phrase = None if is_timed or is_begun(word, behind) else phrase_at((word,), 0)
    return None if phrase is None or word == "one" else phrase[0]


_BEFORE_A_TIME = frozenset({"in", "for", "after", "the"})


def _next(place: tuple[tuple[str, ...], int], situation: Situation) -> tuple[Meaning, int]:
    words, at = place
    names = names_of(situation)
    ranged = names.range_at(words, at) if names.are_numbered else None
    if ranged is not None:
        return ranged
    is_number = begins_a_time(words[at])
    measured = is_number and (measure_at(words, at, situation.units) or when_at(words, at, situation))
    if measured:
        return measured
    count = count_at(words, at) if is_number and not _is_pronoun(words, at) else None
    phrase, name = phrase_at(words, at), names.exact_at(words, at)
    if count is not None and count[1] >= max(phrase[1] if phrase else 0, name[1] if name else 0):
        return count
    if name is not None and (phrase is None or _name_wins(name[1], phrase)):
        return name
    if phrase is not None:
        return phrase
    return _rest(words, at, names)


Read = Callable[[tuple[str, ...], int, Situation], tuple[object, int] | None]
"""Reads what begins at a word, and how many words it took; None where it means nothing to it."""


def laid_out(
    words: tuple[str, ...], situation: Situation, reads: Sequence[Read], around: frozenset[str]
) -> list[object] | None:
    """Lay a message out in what it tells; None where a word is of something else."""
    found, at = list[object](), 0
    while at < len(words):
        one = next((one for read in reads if (one := read(words, at, situation)) is not None), None)
        if one is None and words[at] not in around:
            return None
        found += [one[0]] if one is not None else []
        at += one[1] if one is not None else 1
    return found


def _rest(words: tuple[str, ...], at: int, names: Names) -> tuple[Meaning, int]:
    return _loose_name(words, at, names) or (Unknown(words[at]), 1)


def name_at(words: tuple[str, ...], at: int, names: Names) -> tuple[Named, int] | None:
    """Read a name that begins here, whole or in part, and how many words it took."""
    return names.exact_at(words, at) or _loose_name(words, at, names)


def _loose_name(words: tuple[str, ...], at: int, names: Names) -> tuple[Named, int] | None:
    is_known = words[at] in KNOWN and not (names.is_begun_by(words[at]) and words[at] not in _IDLE)
    is_of_another = words[at] in LOOKS_ALONE and not {*words[at + 1 : at + 2]} <= _BEHIND_A_NAME
    found = None if is_known or not words[at].isalpha() else names.loose_at(words, at)
    return None if found is not None and found[1] == 1 and is_of_another else found


LOOKS_ALONE = listed(
    "small big little large tall mini baby old new young white red pink purple green yellow brown black"
    " other second"
)
"""What tells a thing from another and names no plant by itself."""
_BEHIND_A_NAME = listed("one ones and is was has had got too still looks clean done , . ! ? ; n &") | {"\n"}
"""Behind a word of looks alone, these do not say of what else it is: "a small child" is no small hoya."""


_IDLE = words_of_class("idle", "words", "people")


def _is_pronoun(words: tuple[str, ...], at: int) -> bool:
    before = words[at - 1] if at else ""
    return words[at] == "one" and (before in _POINTING or (before != "" and before not in KNOWN))


def _name_wins(size: int, phrase: tuple[Listed, int]) -> bool:
    value, length = phrase
    return size > length or (size == length and value not in _STEERING and not isinstance(value, Sign))


def _timed(items: Sequence[Item], situation: Situation) -> list[Item]:
    """Take "at half past six this evening" as one: a clock time is of today anyway."""
    timed: list[Item] = []
    for item in items:
        before = timed[-1] if timed else None
        is_today = item.meaning == Day(situation.today)
        if before is not None and is_today and isinstance(before.meaning, Clock):
            timed[-1] = Item(before.meaning, f"{before.text} {item.text}")
        else:
            timed.append(item)
    return timed


def _doubted(items: list[Item]) -> list[Item]:
    """Doubt a name only begun right beside another plant: "small ivy" is a name nobody has."""
    doubted = list(items)
    named = [at for at, item in enumerate(items) if isinstance(item.meaning, (Plants, OneOf))]
    for left, right in pairwise(named):
        if right == left + 1:
            for at in (left, right):
                meaning = items[at].meaning
                if isinstance(meaning, OneOf) or (isinstance(meaning, Plants) and meaning.loose):
                    doubted[at] = Item(Unknown(items[at].text), items[at].text)
    return doubted
