"""Whether what was read leaves no word over that carries meaning: then it is no mere likelihood."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from itertools import pairwise, takewhile

from bot.actions.action import Command
from bot.actions.incomplete import Incomplete
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.stock_product import StockProduct
from bot.domain.identity import PlantId
from bot.domain.label import Label
from bot.domain.trade import Form, Grade, Level, Method, Sign
from bot.domain.value import Value, replace
from bot.phrases.days import Clock, Day, Every, Moment, Weekday
from bot.phrases.forms.filling import is_all_but, is_standing
from bot.phrases.items import Item, OfMonth, Percent, Span, Unknown, is_group
from bot.phrases.lexicon import Spot, Tool, Word, classes_of, listed, words_of_class
from bot.phrases.mentions import GIVING, Mentions, leaves_out
from bot.phrases.names import OneOf, Pest, Place, Plants, Product
from bot.phrases.numbers import Count, Length, UnclearVolume, Volume, Warmth
from bot.phrases.setting import DATES, TIMES
from bot.phrases.values import numbers_of, plants_of, values_of

_GENERAL = words_of_class("idle", "words", "people")
"""Words that carry nothing: courtesies, what leads from one thing to the next, how somebody felt about it."""
_LINKS = frozenset(
    [Word.FILLER, Word.AND, Word.BREAK, Word.BUT, Word.IT, Word.THEM, Word.IT_IS, Word.FILL_TO, Word.SAW]
)
_MANY = frozenset({Word.ALL, Word.REST, Word.BOTH})
_CALLED: dict[str, frozenset[Word]] = {
    "done": _MANY | {Word.DONE, Word.DO, Word.GOT, Word.HAD, Word.MIX, Word.NEW, Word.PUT},
    "tick": _MANY | {Word.DONE, Word.DO},
    "find": _MANY | {Word.SAW, Word.HAD, Word.GOT, Word.LEFT, Word.BUGS, Word.CHECKED},
    "sign": frozenset({Word.SAW, Word.HAD, Word.GOT, Word.CHECKED}),
    "none": _MANY | {Word.CHECKED, Word.CHECK, Word.CLEAN, Word.NONE, Word.NOTHING, Word.BUGS}
    | {Word.SAW, Word.GONE, Word.HAD, Word.LEFT},
    "later": _MANY | {Word.LATER, Word.NO_TIME, Word.SKIP, Word.NOT, Word.UNTIL, Word.DO, Word.DONE, Word.YET}
    | {Word.NOTHING, Word.NONE, Word.MOVE},
    "isolate": frozenset({Word.ISOLATE, Word.AWAY, Word.PUT, Word.MOVE, Word.REST, Word.EXCEPT}),
    "isolate.stays": frozenset({Word.UNMOVABLE}),
    "move": _MANY | frozenset({Word.MOVE, Word.PUT, Word.FILL_TO, Word.GOT}),
    "release": frozenset({Word.RELEASE, Word.BACK, Word.PUT, Word.REST, Word.ANYWAY, Word.MOVE, Word.UNTIL})
    | {Word.ISOLATE, Word.NOT, Word.NOTHING, Word.NONE, Word.LEFT},
    "lost": frozenset({Word.LOST, Word.GONE, Word.PUT, Word.DELETE}),
    "temperature": frozenset({Word.SAW}),
    "stock": frozenset({Word.GOT, Word.LABEL, Word.NEW, Word.EMPTY, Word.LEFT, Word.MIX, Word.NONE})
    | {Word.GONE},
    "use": frozenset({Word.MIX, Word.ALL}),
    "mix": frozenset({Word.MIX, Word.GOT, Word.DO}),
    "hold": frozenset({Word.AWAY, Word.UNTIL, Word.BACK, Word.RESUME, Word.STOP, Word.GONE}),
    "routine": frozenset({Word.CHECK, Word.ALL}),
    "correct.pest": frozenset({Word.NOT, Word.NOTHING, Word.MEANT}),
    "correct.count": frozenset({Word.NOT, Word.MEANT, Word.BUGS, Word.SAW}),
    "correct.plant": frozenset({Word.NOT, Word.MEANT}),
    "endwalk": frozenset({Word.STOP}),
    "endwork": frozenset({Word.STOP, Word.DONE}),
    "pass": frozenset({Word.SKIP, Word.NOT, Word.LATER}),
    "hours.evening": frozenset({Word.LATER}),
    "hours.quiet": frozenset({Word.STOP, Word.UNTIL}),
    "place": frozenset(),
    "pot": frozenset(),
    "tell": frozenset({Word.NOT}),
    "animals": frozenset({Word.GOT}),
    "undo": frozenset(),
    "walk": _MANY | {Word.CHECK, Word.CHECKED, Word.DO},
    "work": _MANY | {Word.DONE, Word.DO},
}  # fmt: skip
"""The forms that may be sure, and the words that call each or go with it."""
_IDLE = {head: words_of_class("idle", head) for head in _CALLED if head in classes_of("idle")}
_IDLE_ANYWHERE = _GENERAL.union(*_IDLE.values())
_DATED = frozenset(
    ["done", "find", "sign", "none", "isolate", "move", "release", "lost", "temperature", "use"]
)
_AHEAD = frozenset({"later", "hold"})
_TIMED = frozenset({"later", "hours.evening", "hours.quiet"})
_CALLS: dict[str, frozenset[object]] = {
    "done": frozenset({Word.DONE, *Method}),
    "mix": frozenset({Word.MIX}),
    "stock": frozenset({Word.GOT, Word.LABEL, Word.NEW, Word.EMPTY, Word.GONE, Word.LEFT, Word.NONE}),
    "find": frozenset({Count, Grade, Pest, Word.BUGS}),
    "none": frozenset({Word.NOTHING, Word.CLEAN, Word.NONE, Word.CHECKED}),
    "later": frozenset({Word.LATER, Word.NO_TIME, Word.NOT, Word.YET, Word.SKIP, Word.NOTHING}),
    "isolate": frozenset({Word.ISOLATE}),
    "isolate.stays": frozenset({Word.UNMOVABLE}),
    "move": frozenset({Word.MOVE}),
    "release": frozenset({Word.RELEASE, Word.BACK}),
    "lost": frozenset({Word.LOST, Word.GONE}),
    "hold": frozenset({Word.AWAY, Word.STOP, Word.RESUME, Word.BACK}),
    "sign": frozenset({Sign}),
    "temperature": frozenset({Warmth}),
    "correct.plant": frozenset({Word.MEANT}),
    "correct.pest": frozenset({Word.MEANT, Word.IT_IS, Word.NOT}),
    "correct.count": frozenset({Word.MEANT, Word.NOT, Word.IT_IS}),
}
"""Words that call a form by themselves, or kinds of mentions."""
_OF_THE_PAST = frozenset({Word.ISOLATE, Word.DONE, Word.CLEAN, Word.NONE, Word.NOTHING, Count, Grade})
_NEEDED = frozenset({"done", "mix", "stock", "correct.count", "correct.pest", "correct.plant"})
"""Forms that what they name does not tell without such a word: "hoya neem" is no round."""
_MOST_DAYS = 6
_MOST_AT_A_WORD = 12
"""Looks at more plants are not written by a word that names none of them. [1]"""
_ROUNDED = 0.06
_SOON = timedelta(days=1)
_ALL_BUT = frozenset({"done", "tick", "none", "later"})
"""The forms that may leave plants out."""
_UNCOUNTED = frozenset({"walk", "work", "animals"})
_WAS = frozenset({"it was", "that was", "that was for"})
_BY_MEANS_OF = frozenset({"with", "using"})
_SPOKEN_OF = frozenset({"find", "none", "sign", "done"})


class Part(Value):
    """A part of a message, the form it tells, and what that would do."""

    head: str
    told: Mentions
    commands: tuple[Command, ...]


def is_called(head: str, told: Mentions) -> bool:
    """Whether a word that calls the form stands in a part."""
    if head == "done" and (told.is_let_loose() or told.is_given()):
        return True
    if head == "move" and is_standing(told):
        return True
    if head == "later" and told.is_ahead() and isinstance(told.ahead(), date):
        is_one = told.calling.isdisjoint({Word.BREAK, Word.AND, Word.BUT})
        is_past = any(isinstance(one.meaning, Method) and one.text.endswith("ed") for one in told.items)
        return not is_one or (told.calling.isdisjoint(_OF_THE_PAST) and not is_past)
    return not told.calling.isdisjoint(_CALLS.get(head, ()))


def strange_words(head: str, told: Mentions) -> int:
    """Count the steering words of a part that its form does not know."""
    known = _LINKS | _CALLED.get(head, frozenset())
    return sum(isinstance(one.meaning, Word) and one.meaning not in known for one in told.items)


def strangers(parts: Sequence[Part], skipped: Sequence[Item]) -> int | None:
    """
    Count the words nobody listed in a message of which all else is accounted for; None where more is left.

    What is accounted for calls its form, is in what it would do, or carries nothing. A word that may be a
    name, a denial or a number is left over.
    """
    if not all(_is_nothing(item) for item in skipped) or not all(_is_told(part) for part in parts):
        return None
    if _tells_twice(parts) or _puts_off_more(parts) or _is_named_again(parts) or _points_elsewhere(parts):
        return None
    told = [item for part in parts for item in part.told.items]
    return sum(isinstance(one.meaning, Unknown) and one.text not in _IDLE_ANYWHERE | GIVING for one in told)


def _points_elsewhere(parts: Sequence[Part]) -> bool:
    """Whether "it" would stand for several plants, or for one not named where others are."""
    groups = [one.ids for part in parts for one in part.told.every(Plants)]
    named = {plant for ids in groups for plant in ids}
    for part in parts:
        told, plants = part.told, set(plants_of(part.commands))
        is_pointed = (
            told.has(Word.IT) and not told.has(*_MANY, Word.EXCEPT) and not told.every((Plants, Place, OneOf))
        )
        if (
            is_pointed
            and part.head != "later"
            and (len(plants) > 1 or (named and not plants <= named))
            and not (told.has(Word.DONE) and not told.methods())
        ):
            return True
        is_of_all = part.head == "none" and told.has(Word.ALL) and not told.every((Plants, Place))
        if is_of_all and any(len(ids) > 1 for ids in groups) and not plants <= named:
            return True  # "the violets looked at. All clean"
    return False


def _is_named_again(parts: Sequence[Part]) -> bool:
    """Whether one of a group is named again, and not left out: "sprayed 4 to 6, I went round the 5"."""
    for part in parts:
        groups: set[PlantId] = set()
        for one in part.told.every(Plants) if part.head in _ALL_BUT else ():
            if groups.issuperset(one.ids) and not set(one.ids) <= set(part.told.sides()[1]):
                return True
            groups.update(one.ids if len(one.ids) > 1 else ())
    return False


def _tells_twice(parts: Sequence[Part]) -> bool:
    """Whether plants are told two things of which one may be of another: "mint cut, monstera clean"."""
    about: dict[str, set[PlantId]] = {}
    for part in parts:
        about.setdefault(part.head, set()).update(plants_of(part.commands))
    lost, clean, done = (about.get(head, set()) for head in ("lost", "none", "done"))
    is_named = any(one.told.every((Plants, Place)) for one in parts)  # "all done none seen"
    is_of_several = is_named and len(done | clean) > 1 and bool(done & clean)
    return is_of_several or bool(lost & (clean | done))


def _puts_off_more(parts: Sequence[Part]) -> bool:
    """Whether of a plant more would be put off than the one way that was told to wait: "soap tomorrow"."""
    rounds = [one for part in parts for one in part.commands if isinstance(one, LogRound)]
    done = {(plant, one.method) for one in rounds for plant in one.plants}
    for part in parts:
        steps = part.told.steps() if part.head == "later" else ()
        open_now = {(one.plant, one.method) for one in part.told.situation.tonight if not one.is_done} - done
        plants = set(plants_of(part.commands)) if part.head == "later" else set()
        put_off = {one for one in open_now if one[0] in plants}
        if plants & {plant for plant, _ in done} - {plant for plant, _ in put_off}:
            return True  # all of it is told as done
        if steps and not put_off <= {(one.plant, one.method) for one in steps}:
            return True
    return False


def _is_nothing(item: Item) -> bool:
    if isinstance(item.meaning, Unknown):
        return item.text in _GENERAL
    return item.meaning in _LINKS


def is_idle(word: str, head: str) -> bool:
    """Whether a word carries nothing beside a form."""
    return word in _GENERAL or word in _IDLE.get(head, ())


def _could_mean_nothing(told: Mentions, at: int) -> bool:
    """Whether a word nobody listed stands where neither a name nor a denial would."""
    word = told.items[at].text
    before = told.items[at - 1] if at else None
    behind = told.items[at + 1] if at + 1 < len(told.items) else None
    is_plain = word.isalpha() and len(word) >= _SHORTEST_WORD and word not in _CAREFUL
    is_led = before is not None and frozenset(before.text.split()[-1:]) <= _LEADS
    is_heading = behind is not None and behind.text == ":"  # "aim: ivy clean"
    if not is_plain or is_led or is_heading or word.endswith(_DENYING) or word in told.situation.kinds:
        return False
    return not any(isinstance(one.meaning, _NAMES) for one in (before, behind) if one is not None)


def _is_of_somebody_else(told: Mentions, at: int) -> bool:
    """Whether a plant is called somebody's: "my friend's hoya"."""
    behind = told.items[at + 1 : at + 2]
    return (
        told.items[at].text in _PEOPLE
        and bool(behind)
        and isinstance(behind[0].meaning, Plants | OneOf | Place)
    )


_BEHIND_A_CLOCK = listed("- : . , ; |")
_PEOPLE = words_of_class("idle", "people")


def _is_beside_a_day(told: Mentions, at: int, head: str) -> bool:
    """Whether a word stands beside a day that it may set right: "the day fore yesterday"."""
    item = told.items[at]
    near = (*told.items[at + 1 : at + 3 - (item.text not in _OF_DAYS)], *told.items[max(0, at - 1) : at])
    return (item.text in _OF_DAYS or not is_idle(item.text, head)) and any(
        isinstance(one.meaning, (*DATES, OfMonth, Span)) for one in near
    )


_OF_DAYS = listed("day days hour hours week weeks month year last next fore before after since ago")


_CAREFUL = words_of_class("idle", "careful")
_LEADS = listed("the my our in on at to into onto from with and or , & + n")
_DENYING = ("nt", "nae", "nna", "not", "ept")
_NAMES = (Plants, OneOf, Place, Product)
_SHORTEST_WORD = 4


def _is_meant(part: Part) -> bool:
    """Whether a part says what its form must say besides being filled."""
    told = part.told
    if part.head == "stock" and told.has(Word.LABEL, Word.NOT) and _is_silent(part.commands):
        return False  # what the label says was not read
    if part.head == "done" and (_speaks_of_others(part) or ("do" in told.words and told.every(Weekday))):
        return False
    return _MEANT.get(part.head, _always)(told) and not _tells_of_another_beside(part)


def _is_told(part: Part) -> bool:
    told = part.told
    if part.head not in _CALLED or (part.head == "undo" and len(told.items) == 1 and told.has(Word.BACK)):
        return False
    if part.head == "isolate" and len(told.items) == 1 and told.items[0].text == "isolated":
        return False  # "isolated" alone asks for the list
    is_of_tonight = len(told.items) == 1 or told.has(Word.LATER)
    if part.head == "hours.evening" and told.situation.tonight and is_of_tonight:
        return False  # "at 9 pm", "remind me at 9" may put tonight off
    is_done = is_all_but(told) or told.is_let_loose() or told.is_given()
    if part.head in _NEEDED and not is_called(part.head, told) and not is_done:
        return False
    is_plan = all(map(_is_bare, told.items)) and told.words.isdisjoint(GIVING)
    if part.head == "done" and not told.days() and is_plan and not is_done:
        return False
    if (
        len(told.days()) > _MOST_DAYS
        or told.names_another()
        or (part.head == "routine" and not told.every(Every))
    ):
        return False
    if not _is_meant(part):
        return False
    is_written = any(isinstance(one, LogCheck) for one in part.commands)
    part = replace(part, commands=tuple(whole(part.commands)))
    plants = frozenset(plants_of(part.commands))
    is_many = len(plants) > _MOST_AT_A_WORD and not plants <= set(told.setting.looks())
    if is_written and is_many and not told.every((Plants, Place)):
        return False
    values = values_of(part.commands)
    if part.head == "find" and _is_miscounted(part, values):
        return False
    return all(_is_in(item, at, part, plants, values) for at, item in enumerate(told.items))


def _tells_of_another_beside(part: Part) -> bool:
    """Whether of two sentences that name plants one is in words nobody listed alone: "fig ded. Ivy clean"."""
    ends = [at for at, one in enumerate(part.told.items) if one.text in _STRONG]
    cuts = pairwise((0, *ends, len(part.told.items))) if ends and part.head in _CALLS else ()
    told = [replace(part.told, items=part.told.items[begin:end]) for begin, end in cuts]
    named = [one for one in told if one.every(Plants)]
    return len(named) > 1 and any(
        (part.head == "later" or one.every(Unknown))
        and not (is_called(part.head, one) or any(map(leaves_out, one.items)))
        for one in named
    )


_STRONG = frozenset({".", "!", ";", "\n"})


def _always(_told: Mentions) -> bool:
    return True


def _steers(told: Mentions) -> list[Item]:
    return [one for one in told.items if one.meaning not in _PLAIN]


_PLAIN = frozenset({Word.FILLER, Word.AND, Word.BREAK})


def _is_put_off(told: Mentions) -> bool:
    """
    Whether something is put off, and not only denied, said good-bye with, or put off no longer.

    "The ivy not" does; "nothing on the ivy", "until tomorrow then", "do not put it off" do not.
    """
    said = _steers(told)
    if all(one.meaning is Word.NOT for one in said):
        return True
    if any(
        one.meaning in {Word.LATER, Word.PUT} and before.meaning is Word.NOT for before, one in pairwise(said)
    ):
        return False
    is_done = told.has(Word.DO, Word.DONE) or bool(told.every((Method, Tool, Product)))
    is_of_work = is_done or bool(told.every((Plants, Place))) or told.has(*_MANY, Word.IT, Word.THEM)
    is_empty = told.has(Word.NOTHING, Word.NONE) and not told.words & _HAVING
    is_strange = any(
        (isinstance(one.meaning, Unknown) and one.text not in _IDLE["later"]) or one.meaning is Word.HEDGE
        for one in said
    )
    is_when = bool(told.every((*TIMES, Span))) or told.has(*_PUTTING_OFF)
    is_farewell = told.has(Word.UNTIL) or is_strange or not (is_empty or is_when)
    if not is_of_work and is_farewell and not told.has(Word.NO_TIME, Word.SKIP):
        return False
    if told.has(*_PUTTING_OFF) or isinstance(told.ahead(), date) or told.hour(latest=12) is not None:
        return True
    is_look = told.has(Word.CHECKED, Word.CLEAN, Word.BUGS, Word.SAW) or bool(told.every((Pest, Sign)))
    is_told = is_done or bool(told.days()) or not (is_look or is_strange)
    return is_told and not (is_strange and told.words & _WHY)


_PUTTING_OFF = (Word.LATER, Word.NO_TIME, Word.SKIP, Word.YET)
_HAVING = listed("have got had has")


def _is_seen_clean(told: Mentions) -> bool:
    """Whether nothing was seen, and not only nothing given or had: "the ivy got nothing"."""
    if told.has(Word.CHECKED, Word.CLEAN, Word.NONE, Word.BUGS, Word.SAW, Word.GONE) or told.every(
        (Pest, Sign)
    ):
        return True
    return not (told.has(Word.HAD, Word.GOT) or told.words & _GIVEN) or bool(told.words & _ON)


_GIVEN = listed("had got get gets gave given works work helps help")
_ON = listed("on in there inside under found seen see saw left anymore")


def _is_of_the_plant(told: Mentions) -> bool:
    """Whether what was done was done to plants, and not to what stands behind the verb: "washed my hands"."""
    for at, item in enumerate(told.items):
        is_verb = isinstance(item.meaning, Method)
        behind = told.items[at + 1 :] if is_verb or item.text in _DID else ()
        led = sum(1 for _ in takewhile(lambda one: one.text in _ARTICLES, behind))
        thing, *more = (*behind[led : led + 2], None) if led else (None,)
        if thing is None or any(one is not None and isinstance(one.meaning, Plants) for one in more):
            continue
        is_ours = is_idle(thing.text, "done") if not is_verb else thing.text in _IDLE["done"] - _POTS
        if not is_ours and (thing.text in _POTS or isinstance(thing.meaning, Unknown)):
            return False
    return True


_DID = listed("did") | {"i did"}


def _speaks_of_others(part: Part) -> bool:
    """Whether others are told done and only what is named would be: "ivy is left, the others are done"."""
    named = {plant for one in part.told.every(Plants) for plant in one.ids}
    return part.told.has(Word.REST) and bool(named) and set(plants_of(part.commands)) <= named


def _are_crossed(told: Mentions) -> bool:
    """Whether of two ways and two plants each way may be of one: "hoya with a cotton bud + cut back ivy"."""
    at_ways = [at for at, one in enumerate(told.items) if isinstance(one.meaning, Method | Tool)]
    left = set(told.sides()[1])
    at_plants = [
        at
        for at, one in enumerate(told.items)
        if isinstance(one.meaning, Plants) and not left.issuperset(one.meaning.ids)
    ]
    is_parted = bool(at_ways and at_plants) and at_plants[0] < at_ways[-1] and at_ways[0] < at_plants[-1]
    return len(told.methods()) > 1 and is_parted


_US = listed("i we us me our")
_TAKING_BACK = listed(
    "undo oops back take wrong scratch cancel delete revert reverse strike mistake remove erase"
)
_NEXT = listed("next ready over")
_ARTICLES = listed("the my our his her their a an some that this")
_POTS = listed("pot pots saucer saucers tray trays")


_MEANT: dict[str, Callable[[Mentions], bool]] = {
    "later": _is_put_off,
    "none": _is_seen_clean,
    "done": lambda told: _is_of_the_plant(told) and not _are_crossed(told),
    "hold": lambda told: not (told.words & _PEOPLE and told.words.isdisjoint(_US)),
    "undo": lambda told: bool(told.words & _TAKING_BACK),
    "tick": lambda told: (
        told.has(*_MANY, Word.DONE, Word.DO, Word.EXCEPT, Word.SKIP) or bool(told.words & _NEXT)
    ),
}
"""What a form must say besides being filled."""


def _is_miscounted(part: Part, values: frozenset[object]) -> bool:
    """Whether "a few: 4 on the hoya" are told, or one number of several plants: it may be all there are."""
    if numbers_of(part.commands) and any(isinstance(value, Grade) for value in values):
        return True
    counted = [one for one in part.commands if isinstance(one, LogFind) and one.count is not None]
    return not part.told.words & _EACH and any(len(one.plants) > 1 for one in counted)


_EACH = listed("each apiece every")


def _counts_something_else(told: Mentions, at: int) -> bool:
    """Whether a number counts flowers or sides, or is of a room or a step: "two things: …", "step 2"."""
    before, behind = told.items[at - 1] if at else None, told.items[at + 1 : at + 3]
    first = behind[0] if behind else None
    if at > 1 and told.items[at - 1].text == "the" and isinstance(told.items[at - 2].meaning, DATES):
        return True  # "yesterday, the 22"
    if before is not None and before.text in _NUMBERING:
        return True  # "round 2 hoya"
    if first is not None and (isinstance(first.meaning, Spot) or first.text in _THINGS):
        return True
    is_animal = told.has(Word.BUGS) or bool(told.every(Pest))
    if isinstance(first.meaning if first else None, Unknown) and not is_idle(behind[0].text, "find"):
        return not any(isinstance(one.meaning, Pest) or one.meaning is Word.BUGS for one in behind[1:])
    is_named = before is not None and isinstance(before.meaning, Unknown) and not is_idle(before.text, "find")
    return is_named and not is_animal


_NUMBERING = listed("round step room stage part day week page")
_THINGS = listed("things thing jobs plants pots places questions")


def _is_bare(item: Item) -> bool:
    """Whether an item does not say that something was done: "wipe the ivy" may be a wish or a plan."""
    return item.text == "made" or not (
        item.meaning is Word.DONE or (isinstance(item.meaning, Method) and item.text not in _BARE)
    )


_BARE = listed(
    "spray mist spritz dab swab wipe sponge rinse shower bath bathe hose dunk dip wash scrub drench prune"
    " trim clip snip chop repot transplant"
)


def _is_denied(told: Mentions, at: int) -> bool:
    """Whether a denial stands beside what is said to be done, one for each: "hoya done, orchid not done"."""
    done = sum(one.meaning is Word.DONE for one in told.items)
    denials = [one for one in told.items if leaves_out(one) or one.meaning in {Word.NOTHING, Word.NONE}]
    return told.is_denied_beside(at) and done <= sum("done" not in one.text.split() for one in denials)


def _is_silent(commands: Iterable[Command]) -> bool:
    """Whether nothing is told of a product but that it is there."""
    return all(
        isinstance(one, StockProduct) and one.stock_ml is None and one.label == Label() for one in commands
    )


def whole(commands: Iterable[Command]) -> Iterator[Command]:
    """Give what commands would do; a question what its first answer would."""
    for one in commands:
        if isinstance(one, Incomplete) and one.choices:
            yield from one.choices[0].commands
        else:
            yield one


def _is_in(  # noqa: C901, PLR0912, PLR0915 - one arm a kind of mention
    item: Item, at: int, part: Part, plants: frozenset[PlantId], values: frozenset[object]
) -> bool:
    """Whether one mention stands in what a part would do."""
    head, told = part.head, part.told
    match item.meaning:
        case Unknown():
            if leaves_out(item):
                return told.has_left_out(at)
            if head == "done" and item.text in GIVING:  # "fed the hoya" is another thing
                return told.is_given() or (bool(told.methods()) and told.words.isdisjoint(_GIVING_UP))
            if _is_of_somebody_else(told, at) or (head in _DATED and _is_beside_a_day(told, at, head)):
                return False
            return is_idle(item.text, head) or (head not in _VALUED and _could_mean_nothing(told, at))
        case Word.HEDGE if head in _FINAL and item.text not in _WHY | _LIKE:
            return False  # "looks dead", "may come back"
        case Word() as word:
            is_day_denied = word is Word.NOT and told.has_day_at(at + 1)
            if word is Word.LATER and Day(told.situation.today) in told.days() and told.ahead() is not None:
                return isinstance(told.ahead(), date)  # "later today"
            is_promised = word is Word.DO and "will" in item.text.split()
            if head == "later" and word in {Word.DONE, Word.DO} and not (is_promised or _is_denied(told, at)):
                return False  # "the geranium is done, the kalanchoe can wait"
            if head == "later" and word is Word.NOT and told.forbids:
                return False
            if head == "done" and word is Word.IT and at and told.items[at - 1].text in _BY_MEANS_OF:
                return False  # "bought soap, sprayed the ivy with it"
            if is_day_denied or (word is Word.UNTIL and head == "later" and not told.days()):
                return False
            if word is Word.NOT and head == "stock":
                return 0.0 in numbers_of(part.commands) and all(
                    one.meaning is not Word.EMPTY for one in told.items[at + 1 : at + 2]
                )  # "no soap left"
            behind = told.items[at + 1].meaning if at + 1 < len(told.items) else None
            if head == "find" and word in {Word.NOTHING, Word.NONE, Word.CLEAN}:
                return any(isinstance(one, LogCheck) for one in part.commands)  # "hoya 3, ivy clean"
            if word is Word.NOT and head == "none" and behind in {Word.CLEAN, Word.NONE}:
                return False
            if word is Word.EXCEPT and behind in {Word.NONE, Word.NOTHING}:
                return head == "none"  # "all clean except none"
            if leaves_out(item) and (word is Word.EXCEPT or (head in _ALL_BUT and head != "later")):
                is_again = word is Word.YET and bool(told.sides()[1])  # "haven't done the orchid yet"
                is_left_out = head in _ALL_BUT and (told.has_left_out(at) or is_again)
                return is_left_out or (head == "find" and at == 0)
            return (
                word in _LINKS
                or (head == "done" and word is Word.RELEASE and told.is_let_loose())
                or (word is Word.MEANT and item.text in _WAS)
                or (head == "move" and item.text == "moved to")
                or word in _CALLED[head]
                or all(is_idle(word, head) for word in item.text.split())
            )
        case Plants(ids=ids, slip=slip):
            left = set(told.sides()[1]) if head in _ALL_BUT else set()
            due = set(ids).intersection(told.due()) if head == "done" and is_group(item) else set(ids)
            return not slip and bool(due) and due <= plants | left
        case OneOf():
            return False
        case Place(id=place):
            if head == "move" and at and told.items[at - 1].text == "from":
                return False  # where it stood is not looked at
            if not told.is_named_in_full(item):
                return False
            of_place = frozenset(told.setting.of_place(item.meaning)) - set(told.sides()[1])
            return place in values or (bool(of_place) and (of_place <= plants or plants <= of_place))
        case Count(value=value):
            is_denied = head == "correct.count" and at > 0 and told.items[at - 1].meaning is Word.NOT
            if head in _UNCOUNTED or is_denied:
                return True
            if head == "find" and _counts_something_else(told, at):
                return False
            is_of_none = value == 0 and any(isinstance(one, LogCheck) for one in part.commands)
            is_of_these = head in {"done", "none"} and value == len(plants) > 1
            return is_of_none or is_of_these or float(value) in numbers_of(part.commands)
        case Method() | Tool() as way:
            is_told = (way.method if isinstance(way, Tool) else way) in values or head in {"use", "mix"}
            return is_told or (
                head == "later"
                and (told.has(Word.DONE, Word.NOT) or _is_a_step(told, plants))
                and (not item.text.endswith("ed") or told.is_denied_beside(at))  # "swabbed" is done
            )
        case Product():
            is_told = bool({item.meaning.id, item.meaning.ingredient} & (values - {None}))
            return is_told or (head == "later" and _is_a_step(told, plants))
        case Pest(key=key):
            return key in values or head in {"none", "done"}
        case Grade() | Sign() as seen:
            return seen in values
        case Spot(name=name):
            return head in _SPOKEN_OF and (name in values or name not in {"roots", "soil"})
        case Level() as level:
            return level in values or head == "find"
        case Volume(ml=amount) | Length(cm=amount) | Warmth(celsius=amount):
            return any(abs(float(amount) - number) < _ROUNDED for number in numbers_of(part.commands))
        case Form() as form:
            is_its_name = (
                form is Form.CONCENTRATE and at > 0 and isinstance(told.items[at - 1].meaning, Product)
            )
            return form in values or head in {"done", "stock"} or is_its_name
        case Percent():
            return head == "done"
        case Every():
            return head in {"routine", "stock"}
        case Moment() if head == "later":
            return item.meaning.at - told.situation.now < _SOON  # not "in 30 hours"
        case Clock() if (
            head == "later" and at == 0 and told.items[1:2] and told.items[1].text in _BEHIND_A_CLOCK
        ):
            return False  # "20:59 - did not do the ivy"
        case Moment() | Clock():
            return (
                head in _TIMED and not any(day != Day(told.situation.today) for day in told.days())
            ) or head == "done"
        case Weekday() if head == "routine":
            return True
        case Weekday() if head in _DATED and (
            item.text.endswith("days") or not _is_told_of_a_day(told, at, head)
        ):
            return False  # "sprays it on sundays", "hoya done. Orchid on thursday"
        case Weekday() if head == "lost" or (head == "done" and len(plants) > 1 and item is told.items[-1]):
            before = told.items[at - 1].text if at else ""
            return before == "on" or item.text.startswith(("on ", "last "))
        case Span() if head == "isolate":
            return told.words.isdisjoint(_UP_TO_NOW)  # not "apart already since five days"
        case Span(days=days):
            return float(days) in numbers_of(part.commands) or (
                head in _AHEAD and told.situation.today + timedelta(days=days) in _days_of(part.commands)
            )
        case UnclearVolume():
            return head == "mix"
        case meaning if isinstance(meaning, (*DATES, OfMonth)):
            return _is_dated(part)
    return False


def _is_told_of_a_day(told: Mentions, at: int, head: str) -> bool:
    """Whether the clause of a weekday tells something by itself, or names nothing."""
    begin = next((n + 1 for n in range(at - 1, -1, -1) if told.items[n].meaning is Word.BREAK), 0)
    end = next(
        (n for n in range(at, len(told.items)) if told.items[n].meaning is Word.BREAK), len(told.items)
    )
    clause = replace(told, items=told.items[begin:end])
    is_diary = end < len(told.items) and told.items[end].text in _STRONG and len(_steers(clause)) == 1
    return is_called(head, clause) or not (
        is_diary or clause.every(Plants) or (told.every(Plants) and begin and end < len(told.items))
    )


_VALUED = frozenset({"routine", "place"})
"""Forms in which a word nobody listed may be the very value that is told."""
_GIVING_UP = listed("up in fed watered")
_LIKE = listed("like where which who")
_UP_TO_NOW = listed("since already ago")
_FINAL = frozenset({"lost", "release"})
_WHY = listed("because since by near from same when before")


def _is_a_step(told: Mentions, plants: frozenset[PlantId]) -> bool:
    """Whether what is named is a part of tonight's line of each of the plants."""
    steps = told.steps()
    is_one = len({one.method for one in steps}) == 1 or told.calling.isdisjoint({Word.BREAK, Word.BUT})
    return is_one and plants <= {one.plant for one in steps}


def _is_dated(part: Part) -> bool:
    """Whether each day told is a day it is written for; today needs no saying."""
    told, today = part.told, part.told.situation.today
    if part.head in _AHEAD:
        written = _days_of(part.commands)
        weekdays = {Weekday(on.weekday()) for on in written if part.head == "hold" and isinstance(on, date)}
        return all(
            told.date_of(day, ahead=True) in written or day == Day(today) or day in weekdays
            for day in told.days()
        )
    behind = told.behind()
    if any(getattr(one, "quarantine_days", None) for one in part.commands):
        return True
    if part.head in _DATED:
        return isinstance(behind, date) and (_on(part.commands) or today) == behind
    return behind == today


def _on(commands: Iterable[Command]) -> date | None:
    return next((on for one in commands if (on := getattr(one, "on", None)) is not None), None)


def _days_of(commands: Iterable[Command]) -> frozenset[object]:
    return frozenset(getattr(one, name, None) for one in commands for name in ("on", "until", "since")) - {
        None
    }
