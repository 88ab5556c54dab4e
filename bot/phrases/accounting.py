"""Whether what was read leaves no word over that carries meaning: then it is no mere likelihood."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

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
from bot.phrases.setting import DATES
from bot.phrases.values import numbers_of, plants_of, values_of

_GENERAL = words_of_class("idle", "words")
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
    "correct.pest": frozenset({Word.MEANT, Word.IT_IS}),
    "correct.count": frozenset({Word.MEANT, Word.NOT, Word.IT_IS}),
}
"""Words that call a form by themselves, or kinds of mentions."""
_OF_THE_PAST = frozenset({Word.ISOLATE, Word.DONE, Word.CLEAN, Word.NONE, Word.NOTHING, Count, Grade})
_NEEDED = frozenset({"done", "mix", "stock"})
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
    if _tells_twice(parts) or _puts_off_more(parts):
        return None
    told = [item for part in parts for item in part.told.items]
    return sum(isinstance(one.meaning, Unknown) and one.text not in _IDLE_ANYWHERE | GIVING for one in told)


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
    if not is_plain or is_led or word.endswith(_DENYING) or word in told.situation.kinds:
        return False
    return not any(isinstance(one.meaning, _NAMES) for one in (before, behind) if one is not None)


_CAREFUL = words_of_class("idle", "careful")
_LEADS = listed("the my our in on at to into onto from with and or , & + n")
_DENYING = ("nt", "nae", "nna", "not", "ept")
_NAMES = (Plants, OneOf, Place, Product)
_SHORTEST_WORD = 4


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
    if part.head == "done" and not told.days() and all(map(_is_bare, told.items)) and not is_done:
        return False
    if (
        len(told.days()) > _MOST_DAYS
        or told.names_another()
        or (part.head == "routine" and not told.every(Every))
    ):
        return False
    if part.head == "stock" and told.has(Word.LABEL, Word.NOT) and _is_silent(part.commands):
        return False  # what the label says was not read
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


def _is_miscounted(part: Part, values: frozenset[object]) -> bool:
    """Whether "a few: 4 on the hoya" are told, or one number of several plants: it may be all there are."""
    if numbers_of(part.commands) and any(isinstance(value, Grade) for value in values):
        return True
    counted = [one for one in part.commands if isinstance(one, LogFind) and one.count is not None]
    return not part.told.words & _EACH and any(len(one.plants) > 1 for one in counted)


_EACH = listed("each apiece every")


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
            if head == "done" and item.text in GIVING:
                return told.is_given()  # "fed the hoya" is another thing
            return is_idle(item.text, head) or _could_mean_nothing(told, at)
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
                return 0.0 in numbers_of(part.commands)  # "no soap left"
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
        case Moment() | Clock():
            return (
                head in _TIMED and not any(day != Day(told.situation.today) for day in told.days())
            ) or head == "done"
        case Weekday() if head == "routine":
            return True
        case Weekday() if head == "lost" or (head == "done" and len(plants) > 1 and item is told.items[-1]):
            before = told.items[at - 1].text if at else ""
            return before == "on" or item.text.startswith(("on ", "last "))  # "did hoya and orchid saturday"
        case Span() if head == "isolate":
            return True
        case Span(days=days):
            return float(days) in numbers_of(part.commands) or (
                head in _AHEAD and told.situation.today + timedelta(days=days) in _days_of(part.commands)
            )
        case UnclearVolume():
            return head == "mix"
        case meaning if isinstance(meaning, (*DATES, OfMonth)):
            return _is_dated(part)
    return False


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
