"""Habits in words: "check on sundays", "inspect every first saturday", "look them over every 10 days"."""

import re

from bot.actions.ask import Ask, Topic
from bot.actions.set_routine import SetRoutine
from bot.domain.agenda import CHECK_ROUTINE
from bot.phrases.asking import Meant
from bot.phrases.days import BYDAY, WEEKDAYS
from bot.phrases.lexicon import any_of, each_of, each_worded, listed, sayings, words_in
from bot.phrases.numbers import number_at

_VERBS = sayings(
    "check | checks | inspect | look | look at | look over | look them over | check walk | walk"
    " | weekly check | weekly look | weekly walk | inspection | routine check | i check | we check"
    " | remind me to check | remind me | remind us | look after | i look at | i want to check"
    " | i will check | let us check | check up on | i inspect"
)
_OBJECTS = listed("plants plant everything all them my our the on at : please is me")
_ENDS = any_of(
    "stop checks | stop checking | stop the checks | no more checks | no checks"
    " | stop the weekly check | no weekly check | stop weekly checks | stop weekly check"
    " | end the habit | stop the habit | stop my routine | stop routine | no routine"
    " | forget the routine | cancel the weekly check | stop the routine | stop routines | end routine"
    " | end the routine | no more weekly checks"
)
_ASKS = any_of("routine | routines | habit | habits | my routine | my routines | my habits | schedule")
_NTH = each_of(("first | 1st", 1), ("second | 2nd", 2), ("third | 3rd", 3), ("fourth | 4th", 4), ("last", -1))
_OF_A_MONTH = (
    *(("of", "the", "month"), ("of", "each", "month"), ("of", "every", "month"), ("of", "a", "month")),
    *(("in", "the", "month"), ("each", "month"), ("every", "month"), ("a", "month"), ("per", "month")),
)
_WORDS_FOR_A_RULE = each_worded(
    ("daily | every day | every evening | each day", "FREQ=DAILY"),
    ("every other day | every second day", "FREQ=DAILY;INTERVAL=2"),
    ("weekly | once a week | every week | each week", "FREQ=WEEKLY"),
    ("every other week | every second week | fortnightly | every fortnight", "FREQ=WEEKLY;INTERVAL=2"),
    ("monthly | once a month | every month", "FREQ=MONTHLY;BYMONTHDAY=1"),
    ("weekdays | every weekday", "FREQ=WEEKLY;BYDAY=MO,TU,WE,TH,FR"),
    ("weekends | every weekend | at weekends", "FREQ=WEEKLY;BYDAY=SA,SU"),
)
_OPENINGS = tuple(tuple(verb.split()) for verb in sorted(_VERBS, key=len, reverse=True))
SPOKEN = words_in((*_VERBS, *_ENDS, *_ASKS, *_NTH, *(word for rule in _WORDS_FOR_A_RULE for word in rule)))
"""Words known here, that a slip may be a slip of."""
_ORDINAL = re.compile(r"\b(\d+) (st|nd|rd|th)\b")
_MOST_DAYS = 366
_LATEST_MONTH_DAY = 28
"""A later one would be missing in some months; the last day stands for it."""


def read_habit(words: tuple[str, ...]) -> Meant | None:
    """Read a habit set, ended or asked about; None where the message is none."""
    text = _ORDINAL.sub(r"\1\2", " ".join(word for word in words if word not in {".", "!", "please"}))
    said = tuple(text.split(" "))
    if text in _ENDS:
        return (SetRoutine(CHECK_ROUTINE, ""),)
    if text.removesuffix(" ?") in _ASKS:
        return (Ask(topic=Topic.ROUTINES),)
    behind = (said[len(opening) :] for opening in _OPENINGS if said[: len(opening)] == opening)
    rule = next(filter(None, map(_after_objects, behind)), None)
    return None if rule is None else (SetRoutine(CHECK_ROUTINE, rule),)


def _after_objects(words: tuple[str, ...]) -> str | None:
    """Read the schedule behind what is to be looked at."""
    behind = (words[at:] for at in range(len(words)) if _OBJECTS.issuperset(words[:at]))
    rules = (
        _WORDS_FOR_A_RULE.get(one) or _every_few(one) or _of_a_month(one) or _weekdays(one) for one in behind
    )
    return next(filter(None, rules), None)


def _every_few(words: tuple[str, ...]) -> str | None:
    """Read "every 10 days", "every 2 weeks on tuesday", "every other sunday"."""
    if words[:1] not in {("every",), ("each",)} or len(words) < len(("every", "2", "weeks")):
        return None
    if words[1] in {"other", "second", "2nd"} and _weekday(words[2]) is not None and len(words) == 3:  # noqa: PLR2004
        return f"FREQ=WEEKLY;INTERVAL=2;BYDAY={_weekday(words[2])}"
    number = None if words[1] == "other" else number_at(words, 1)
    count, size = (2, 1) if number is None else (int(number[0]), number[1])
    if number is None and words[1] != "other":
        return None
    unit, rest = words[1 + size : 2 + size], words[2 + size :]
    if number is not None and (number[0] != count or not 0 < count <= _MOST_DAYS):
        return None
    if unit in {("day",), ("days",), ("evenings",)} and not rest:
        return "FREQ=DAILY" + (f";INTERVAL={count}" if count > 1 else "") if count % 7 else _weeks(count // 7)
    if unit in {("week",), ("weeks",)}:
        on = rest[1:] if rest[:1] == ("on",) else rest
        day = _weekday(on[0]) if len(on) == 1 else None
        return _weeks(count, day) if not rest or day is not None else None
    return None


def _weeks(count: int, day: str | None = None) -> str:
    return "FREQ=WEEKLY" + (f";INTERVAL={count}" if count > 1 else "") + (f";BYDAY={day}" if day else "")


def _of_a_month(words: tuple[str, ...]) -> str | None:
    """Read "every first saturday", "on the last sunday of the month", "on the 15th of each month"."""
    ending = next((one for one in _OF_A_MONTH if words[-len(one) :] == one), ())
    kept, is_month = words[: len(words) - len(ending)], bool(ending)
    bare = tuple(word for word in kept if word not in {"every", "each", "on", "the"})
    is_every = bool({"every", "each"} & set(kept)) or is_month
    if len(bare) == 2 and bare[0] in _NTH and _weekday(bare[1]) is not None and is_every:  # noqa: PLR2004
        return f"FREQ=MONTHLY;BYDAY={_NTH[bare[0]]}{_weekday(bare[1])}"
    if len(bare) == 1 and is_every and bare[0][:-2].isdigit() and bare[0][-2:] in {"st", "nd", "rd", "th"}:
        day = int(bare[0][:-2])
        if 1 <= day <= 31:  # noqa: PLR2004 - days of a month
            return f"FREQ=MONTHLY;BYMONTHDAY={day if day <= _LATEST_MONTH_DAY else -1}"
    return None


def _weekdays(words: tuple[str, ...]) -> str | None:
    """Read "on sundays", "every monday and thursday"; a single sunday is a day, no habit."""
    is_every = words[:1] in {("every",), ("each",)}
    bare = [word for word in words if word not in {"every", "each", "on", "and", ",", "&"}]
    days = [_weekday(word) for word in bare]
    is_plural = all(word.endswith("s") and word not in WEEKDAYS for word in bare)
    told = [day for day in days if day is not None]
    if not days or len(told) < len(days) or not (is_every or is_plural):
        return None
    return f"FREQ=WEEKLY;BYDAY={','.join(day for day in BYDAY if day in told)}"


def _weekday(word: str) -> str | None:
    index = WEEKDAYS.get(word, WEEKDAYS.get(word.removesuffix("s")))
    return None if index is None else BYDAY[index]
