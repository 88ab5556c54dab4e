"""Clauses that put tonight's work off, and the refusals that mean the same."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

from bot.actions.action import ButtonText, Choice
from bot.actions.correct_entry import DeleteEntry, Entered, Kind
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.postpone import Postpone
from bot.domain.identity import PlantId
from bot.domain.trade import Method
from bot.phrases.asking import Meant, bad_day, not_understood
from bot.phrases.clause import DATES, Clause, Setting, excepted, named
from bot.phrases.days import (
    Clock,
    Day,
    Moment,
    MonthDay,
    Trouble,
    Weekday,
    day_ahead,
    day_behind,
    meant_hour,
)
from bot.phrases.items import Item
from bot.phrases.lexicon import Tool, Word
from bot.phrases.names import Place, Plants

_ALLOWED = (
    Word.NOT,
    Word.NO_TIME,
    Word.LATER,
    Word.FILL_TO,
    Word.NOTHING,
    Word.DONE,
    Word.DO,
    Word.ALL,
    Word.BOTH,
    Word.IT,
    Word.THEM,
    Word.EXCEPT,
    Word.YET,
    Word.SKIP,
    Word.CHECK,
    Word.CHECKED,
    Word.REST,
    Word.IT_IS,
)
_KINDS = (Method, Tool, Plants, Place, *DATES, Moment, Clock)
_TASKS = (Word.DONE, Word.DO, Word.CHECKED, Word.CHECK)
_ASKS_TO_BE_TOLD = frozenset({"nudge me", "remind me", "remind us", "ask me", "ask again"})
"""Words that want to hear of it, and do not say when."""
_PAIR = 2

_Until = tuple[date | None, datetime | None]


def read_postponement(clause: Clause, setting: Setting) -> Meant | None:
    """Read "not tonight", "later hoya", "coffee tomorrow"; None when nothing in it puts off."""
    undone = _undone_before(clause, setting)
    if undone is not None:
        return (undone,)
    # "the ivy was wednesday, not today" tells of the past
    was = clause.every(DATES) and any(item.text in {"was", "were"} for item in clause.items)
    if not clause.only(*_ALLOWED, *_KINDS) or not _puts_off(clause) or was:
        return None
    plants = _plants(clause, setting)
    if plants is not None:
        plants = tuple(plant for plant in plants if plant not in excepted(clause))
    if clause.has(Word.YET, Word.SKIP) or _is_promise(clause) or _is_open(clause, setting):
        return (_ask_when(named(clause), plants or (), setting),)
    if clause.has(Word.EXCEPT) and clause.has(Word.NOT, Word.NOTHING):
        return None
    until = _until(clause, setting)
    if until is None or not plants:
        if plants:
            return None
        is_nothing_open = not setting.tonight() and not named(clause) and not clause.every(Place)
        return not_understood(clause, "nothing open" if is_nothing_open else "plants")
    denied, day = _denied(clause, setting), clause.day()
    if isinstance(until, Trouble):
        on = None if day is None else day_behind(day, setting.situation)
        if denied is not None and isinstance(on, date):
            return (DeleteEntry(of=replace(denied, on=on)),)
        is_denied = clause.has(Word.NOT) and (clause.has(Word.DONE) or bool(clause.every(Method)))
        return not_understood(clause) if is_denied else bad_day(clause, until)
    return (Postpone(plants=plants, on=until[0], at=until[1], denied=None if day else denied),)


def _puts_off(clause: Clause) -> bool:
    if clause.has(Word.FILL_TO) and not (clause.has(Word.LATER) and clause.every(DATES)):
        return False
    if clause.has(Word.NOT) and clause.has(Word.DO) and not clause.has(Word.DONE):
        return False  # "don't spray the hoya" forbids, it does not put off
    if _denies_one_of_two(clause) or _denies_something(clause):
        return False
    if clause.has(Word.NOT, Word.NO_TIME, Word.LATER, Word.YET, Word.SKIP) or _is_promise(clause):
        return True
    is_done = clause.has(Word.DONE, Word.CHECKED) or bool(clause.every(Method))
    if clause.has(Word.NOTHING):
        return is_done
    if clause.only(Clock):
        return True  # "at 9 pm", and nothing else
    return not is_done and bool(clause.every((*DATES, Moment)))


def _denies_one_of_two(clause: Clause) -> bool:
    """Read "done hoya not orchid": which of them is done is not for us to guess."""
    content = clause.content()
    pairs = pairwise(content)
    is_told = clause.has(Word.DONE) or bool(clause.every(Method))
    return is_told and any(left is Word.NOT and isinstance(right, Plants) for left, right in pairs)


def _denies_something(clause: Clause) -> bool:
    """Read "not a plant": what is denied is not said to be tonight's."""
    is_bare = all(meaning is Word.NOT for meaning in clause.content())
    return is_bare and any(item.text.endswith("not") for item in clause.items[:-1])


def _denied(clause: Clause, setting: Setting) -> Entered | None:
    """Read "i did not spray the lemon": it may be written as done."""
    plants = tuple(plant for plant in named(clause) if plant not in excepted(clause))
    tools = {*clause.every(Method), *(tool.method for tool in clause.every(Tool))}
    is_denied = clause.has(Word.NOT) and (clause.has(Word.DONE) or bool(tools))
    if not is_denied or len(plants) != 1:
        return None
    method = next(iter(tools)) if len(tools) == 1 else None
    return Entered(kind=Kind.TREATED, plant=plants[0], on=setting.situation.today, method=method)


def _undone_before(clause: Clause, setting: Setting) -> DeleteEntry | None:
    """Read "i did not spray the lemon on monday": that monday is over, and nothing is put off by it."""
    denied, day = _denied(clause, setting), clause.day()
    if denied is None or day is None or clause.has(Word.EXCEPT) or not speaks_of_before(clause.items):
        return None
    on = day_behind(day, setting.situation)
    is_over = isinstance(on, date) and on < setting.situation.today
    return DeleteEntry(of=replace(denied, on=on)) if is_over and isinstance(on, date) else None


_BEHIND = frozenset({"did", "was", "were", "have", "has", "had", "never"})


def speaks_of_before(items: Sequence[Item]) -> bool:
    """Whether what is denied is of the past: "did not", "was not"."""
    return any(
        before.text.split()[-1] in _BEHIND and item.meaning is Word.NOT for before, item in pairwise(items)
    )


def _is_promise(clause: Clause) -> bool:
    """Read "will do", without a day: asked when."""
    return clause.has(Word.DO) and clause.only(Word.DO, Word.IT, Plants)


def _is_open(clause: Clause, setting: Setting) -> bool:
    """Whether it refuses without saying till when in a way that could mean something else."""
    if clause.has(Word.NOT) and clause.has(Word.ALL):
        return True
    is_timed = bool(clause.every((Clock, Moment)))
    laters = {item.text for item in clause.items if item.meaning is Word.LATER}
    if laters and laters <= _ASKS_TO_BE_TOLD and not is_timed and clause.day() is None:
        return True
    if clause.has(Word.LATER) and Day(setting.situation.today) in clause.every(Day) and not is_timed:
        return True
    is_task = clause.has(*_TASKS) or bool(clause.every((Method, Tool)))
    return clause.has(Word.NOT) and bool(named(clause)) and not is_task


def _plants(clause: Clause, setting: Setting) -> tuple[PlantId, ...] | None:
    plants, place = named(clause), clause.one(Place)
    if plants:
        return plants if place is None else None
    if place is not None:
        return tuple(p for p in setting.tonight() if p in setting.of_place(place))
    if clause.has(Word.REST):
        return tuple(p for p in setting.tonight() if p not in setting.mentioned)
    if clause.has(Word.BOTH):
        return setting.before if len(setting.before) == _PAIR else None
    if setting.before and not clause.has(Word.ALL):
        return setting.before if clause.has(Word.IT, Word.THEM) else None
    if not setting.is_first and not clause.has(Word.ALL):
        return None
    return setting.tonight()


def _until(clause: Clause, setting: Setting) -> _Until | Trouble | None:
    situation = setting.situation
    moment, clock, day = clause.one(Moment), clause.one(Clock), clause.day()
    if moment is not None:
        return _this_evening(moment.at, setting)
    if clock is not None:
        told = datetime.combine(situation.today, meant_hour(clock), situation.zone)
        return _this_evening(told, setting)
    if day is None or (day == Day(situation.today) and clause.has(Word.NOT, Word.NOTHING, Word.NO_TIME)):
        return situation.today + timedelta(days=1), None
    if clause.has(Word.NOT) and _denies_the_day(clause):
        return None
    on = day_ahead(day, situation)
    return on if isinstance(on, Trouble) else (on, None)


def _denies_the_day(clause: Clause) -> bool:
    """Whether "not" stands right before the day: "not saturday", but never "no, saturday"."""
    meanings = [item.meaning for item in clause.items if item.text == "," or item.meaning is not Word.FILLER]
    pairs = pairwise(meanings)
    return any(left is Word.NOT and isinstance(right, Day | Weekday | MonthDay) for left, right in pairs)


def _this_evening(at: datetime, setting: Setting) -> _Until | Trouble:
    situation = setting.situation
    if at <= situation.now:
        return Trouble.PAST
    local, now = at.astimezone(situation.zone), situation.now.astimezone(situation.zone)
    if (
        local.date() != now.date()
        or local.date() != situation.today
        or local.hour >= situation.quiet_from_hour
    ):
        return situation.today + timedelta(days=1), None
    return None, at.astimezone(UTC)


def _ask_when(told: tuple[PlantId, ...], plants: tuple[PlantId, ...], setting: Setting) -> Incomplete:
    plants = told or plants or setting.tonight()
    tomorrow = setting.situation.today + timedelta(days=1)
    choices = tuple(
        Choice(text, (Postpone(plants=plants, on=tomorrow + timedelta(days=days)),))
        for text, days in (
            (ButtonText.TOMORROW, 0),
            (ButtonText.IN_TWO_DAYS, 1),
            (ButtonText.IN_THREE_DAYS, 2),
        )
        if plants
    )
    return Incomplete(missing=Missing.LATER, plants=told, choices=choices)
