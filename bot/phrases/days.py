"""Days and times in words, read without deciding yet whether they lie behind or ahead."""

import re
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from enum import Enum
from functools import lru_cache

from bot.actions.situation import Situation
from bot.domain.measure import Units
from bot.domain.value import Value
from bot.phrases.lexicon import each_worded, listed
from bot.phrases.numbers import OPENING, number_at

OLDEST = timedelta(days=400)
FARTHEST = timedelta(days=400)
HALF_A_YEAR = timedelta(days=183)
_WEEK = 7
_LONGEST_GAP = 10_000  # days, read so that the answer can say why it is refused
_MONTH_NAMES = (
    *("january jan", "february feb", "march mar", "april apr", "may", "june jun", "july jul", "august aug"),
    *("september sep sept", "october oct", "november nov", "december dec"),
)
MONTHS_OF_THE_YEAR = tuple(names.split()[0] for names in _MONTH_NAMES)
MONTHS = {name: number for number, names in enumerate(_MONTH_NAMES, start=1) for name in names.split()}
_DAY_NAMES = (
    *("monday mon", "tuesday tue tues", "wednesday wed weds", "thursday thu thur thurs"),
    *("friday fri", "saturday sat saterday", "sunday sun"),
)
WEEKDAYS = {name: number for number, names in enumerate(_DAY_NAMES) for name in names.split()}
DAYS_OF_THE_WEEK = tuple(names.split()[0] for names in _DAY_NAMES)
_FULL_DAYS = frozenset(names.split()[0] for names in _DAY_NAMES)
_BEFORE_A_DAY = frozenset({"on", "until", "till", "til", "for", "to", "every"})
_WHICH = listed("last next this coming")
_ORDERED = (
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth"
    " fifteenth sixteenth seventeenth eighteenth nineteenth twentieth"
)
ORDINALS = {word: number for number, word in enumerate(_ORDERED.split(), start=1)}
_SPELT_DAYS: dict[tuple[str, ...], int] = {(word,): number for word, number in ORDINALS.items()}
_SPELT_DAYS |= {("twenty", *word): 20 + number for word, number in tuple(_SPELT_DAYS.items())[:9]}
_SPELT_DAYS |= {("thirtieth",): 30, ("thirty", "first"): 31}
BYDAY = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
_RELATIVE = each_worded(
    ("day before yesterday | the day before yesterday", -2),
    ("day after tomorrow | the day after tomorrow", 2),
    ("yesterday evening | yesterday morning | yesterday | yesteday | last night | last evening", -1),
    ("this morning | this afternoon | this evening | tonight | today", 0),
    ("tomorrow evening | tomorrow night | tomorrow | tommorow | tomorow | tmrw | tmr", 1),
)
_PERIODS = each_worded(
    ("this week", "week"),
    ("next week", "next-week"),
    ("last week", "last-week"),
    ("this weekend | the weekend | weekend", "weekend"),
    ("last month", "last-month"),
    ("this month", "month"),
)
_OPENING = frozenset(said[0] for said in (*_RELATIVE, *_PERIODS, *_SPELT_DAYS)) | MONTHS.keys() | _WHICH
_OPENING |= OPENING | listed(
    "daily weekly fortnightly every each weekends weekdays in for after at half quarter"
)
"""Words that a day or a time may begin with, but for weekdays."""
_MARKS = frozenset({",", ".", "!", "?", ";", "\n"})
"""With these none begins."""
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_SLASHED = re.compile(r"(\d{1,2})/(\d{1,2})(?:/(\d{2,4}))?")
_CLOCK = re.compile(r"(\d{1,2})[:.](\d{2})")
_DOTTED = re.compile(r"(\d{1,2})\.(\d{1,2})")
_BEFORE_A_DATE = frozenset({"on", "since", "until", "till", "from", "by", ",", ".", "\n", ";", "(", "the"})
_DAY_OF_MONTH = re.compile(r"\d{1,2}")
_ORDINAL = frozenset({"st", "nd", "rd", "th"})
_SPANS = {"minute": 1, "min": 1, "hour": 60, "hr": 60, "h": 60}
_DAY_SPANS = {"day": 1, "night": 1, "evening": 1, "week": _WEEK, "fortnight": 2 * _WEEK}
_HOURS, _MINUTES, _NOON = 24, 60, 12


class Day(Value):
    """A certain day."""

    on: date


class Weekday(Value):
    """A day of the week; last or next only where said."""

    index: int
    which: str = ""


class MonthDay(Value):
    """A day of an unnamed year."""

    month: int
    day: int


class Moment(Value):
    """A certain moment, told by hours or minutes from now."""

    at: datetime


class Clock(Value):
    """A time of day."""

    time: time
    is_morning: bool = False
    """Whether the half of the day was told, and is the first: "9 am", "09:00"."""


class Murky(Value):
    """A day that can be read two ways, or not at all."""

    text: str


class Period(Value):
    """A week or a month as a whole."""

    name: str


class Every(Value):
    """A repetition: a number of days, or days of the week by their index."""

    days: int | None = None
    weekday: int | None = None
    otherwise: str = ""
    """An RFC 5545 rule that is neither: "every first saturday"."""

    @property
    def rule(self) -> str:
        """The repetition as an RFC 5545 rule."""
        if self.otherwise:
            return self.otherwise
        if self.weekday is not None:
            return f"FREQ=WEEKLY;BYDAY={BYDAY[self.weekday]}"
        if self.days is not None and self.days % _WEEK == 0:
            weeks = self.days // _WEEK
            return "FREQ=WEEKLY" + (f";INTERVAL={weeks}" if weeks > 1 else "")
        return "FREQ=DAILY" + (f";INTERVAL={self.days}" if self.days not in {None, 1} else "")


class Trouble(Enum):
    """Why a day cannot be taken."""

    FUTURE = "future"
    PAST = "past"
    UNCLEAR = "when"
    NO_SUCH_DAY = "no such day"


When = Day | Weekday | MonthDay | Moment | Clock | Murky | Period | Every


def when_at(words: tuple[str, ...], start: int, situation: Situation) -> tuple[When, int] | None:
    """Read a day, a time or a repetition that begins here, and how many words it took."""
    if not begins_a_time(words[start]):
        return None
    return (
        every_at(words, start)
        or _phrase(words, start, situation)
        or _ago_or_ahead(words, start, situation)
        or _calendar(words, start, situation)
        or _weekday_and_date(words, start, situation)
        or _weekday(words, start)
        or clock_at(words, start)
    )


@lru_cache(maxsize=4096)
def begins_a_time(word: str) -> bool:
    """Whether a number, a day or a time may begin with a word."""
    is_other = word.isalpha() and not (word in _OPENING or word.removesuffix("s") in WEEKDAYS)
    return not (is_other or word in _MARKS)


def day_behind(when: When, situation: Situation) -> date | Trouble:
    """Turn what was told of something done into a day no later than today and at most 400 days old."""
    today = situation.today
    day: date | None
    match when:
        case Weekday(which="next"):
            return Trouble.FUTURE
        case Weekday(index, which):
            back = (today.weekday() - index) % _WEEK
            day = today - timedelta(days=back or (_WEEK if which == "last" else 0))
        case Day() | MonthDay():
            day = _nearest(when, today, -1)
        case _:
            return Trouble.UNCLEAR
    if day is None:
        return Trouble.NO_SUCH_DAY
    if day > today:
        return Trouble.FUTURE
    return Trouble.PAST if today - day > OLDEST else day


def day_ahead(when: When, situation: Situation) -> date | Trouble:
    """Turn what was told of something to come into a day after today."""
    today = situation.today
    day: date | None
    match when:
        case Weekday(index, which=""):
            day = today + timedelta(days=(index - today.weekday()) % _WEEK or _WEEK)
        case Day() | MonthDay():
            day = _nearest(when, today, 1)
        case Period(name="next-week"):
            day = today + timedelta(days=_WEEK - today.weekday())
        case _:
            return Trouble.UNCLEAR
    if day is None:
        return Trouble.NO_SUCH_DAY
    if day <= today:
        return Trouble.PAST
    return Trouble.FUTURE if day - today > FARTHEST else day


def is_ahead(when: Day | MonthDay, today: date) -> bool:
    """Whether a day with its date is still to come; without a year it is the nearest one of that name."""
    day = _nearest(when, today, -1)
    return day is not None and day > today


def clock_at(words: tuple[str, ...], start: int) -> tuple[Clock, int] | None:
    """Read a time of day: 20:00, 8 pm, at 8, half past eight; never a bare number."""
    begin = start + 1 if words[start] in {"at", "@"} else start
    told = _past_or_to(words, begin) or _hour(words, begin, bare=begin > start)
    return None if told is None else (told[0], told[1] + begin - start)


def evening_hour(clock: time, *, latest: int = 12) -> time:
    """Read an hour up to `latest` as one of the evening, as people do for an evening time."""
    return clock.replace(hour=clock.hour + _NOON) if 0 < clock.hour < latest else clock


def meant_hour(clock: Clock, *, latest: int = 12) -> time:
    """Read an hour up to `latest` as one of the evening, unless the morning was told."""
    return clock.time if clock.is_morning else evening_hour(clock.time, latest=latest)


def _phrase(words: tuple[str, ...], start: int, situation: Situation) -> tuple[When, int] | None:
    # after midnight the evening still goes on, and "last night" is that evening
    calendar = situation.now.astimezone(situation.zone).date()
    for size in (4, 3, 2, 1):
        phrase = words[start : start + size]
        if len(phrase) < size:
            continue
        if phrase in _RELATIVE:
            days = _RELATIVE[phrase]
            return Day((calendar if days < 0 else situation.today) + timedelta(days=days)), size
        if phrase in _PERIODS:
            return Period(_PERIODS[phrase]), size
    return None


def every_at(words: tuple[str, ...], start: int) -> tuple[Every, int] | None:
    """Read a repetition that begins here, and how many words it took."""
    word = words[start]
    if word in {"daily", "weekly", "fortnightly"}:
        return Every(days={"daily": 1, "weekly": _WEEK, "fortnightly": 2 * _WEEK}[word]), 1
    if word.endswith("s") and word[:-1] in WEEKDAYS and len(word) > len("suns"):
        return Every(weekday=WEEKDAYS[word[:-1]]), 1
    told = _OTHERWISE.match(" ".join(words[start : start + _LONGEST_RULE]))
    rule = None if told is None else _rule_of(told)
    if told is not None and rule is not None:
        return Every(otherwise=rule), len(told[0].split())
    if word not in {"every", "each"} or start + 1 >= len(words):
        return None
    following = words[start + 1]
    if following in WEEKDAYS:
        return Every(weekday=WEEKDAYS[following]), 2
    if following in {"day", "evening", "week", "fortnight", "other"}:
        if following == "other":
            days = {"day": 2, "week": 2 * _WEEK}.get(" ".join(words[start + 2 : start + 3]))
            return None if days is None else (Every(days=days), 3)
        return Every(days=_DAY_SPANS[following]), 2
    return _every_few(words, start + 1)


_OTHERWISE = re.compile(
    r"(?P<every>every |each )?(?:(?P<group>weekend|weekday|month)s?|(?P<which>[a-z]+|\d (?:st|nd|rd|th))"
    rf" (?P<day>{'|'.join(WEEKDAYS)})|(?P<date>\d{{1,2}}) (?:st|nd|rd|th))"
    r"(?P<month> (?:(?:of|in) )?(?:the|each|every|a|per) month)?(?= |$)"
)
_LONGEST_RULE = 7
_GROUPS = {
    "weekend": "WEEKLY;BYDAY=SA,SU",
    "weekday": "WEEKLY;BYDAY=MO,TU,WE,TH,FR",
    "month": "MONTHLY;BYMONTHDAY=1",
}
_WHICH_OF_A_MONTH = {**ORDINALS, "1 st": 1, "2 nd": 2, "3 rd": 3, "4 th": 4, "last": -1}
_MOST_OF_A_DAY, _LATEST, _LAST = 4, 28, 31
"""A later day of a month is missing in some: its last stands for it."""


def _rule_of(told: re.Match[str]) -> str | None:
    """Give the rule of "every other sunday", "the last sunday of the month", "every 31st", "weekends"."""
    is_of_month, which = bool(told["month"]), told["which"]
    if told["group"]:
        return "FREQ=" + _GROUPS[told["group"]] if told["every"] or told[0].endswith("s") else None
    if not (told["every"] or is_of_month):
        return None
    if told["date"]:
        date_told = int(told["date"])
        day = date_told if date_told <= _LATEST else -1
        return f"FREQ=MONTHLY;BYMONTHDAY={day}" if 0 < date_told <= _LAST else None
    on = BYDAY[WEEKDAYS[told["day"]]]
    if which in {"other", "second", "2 nd"} and not is_of_month:
        return f"FREQ=WEEKLY;INTERVAL=2;BYDAY={on}"
    number = _WHICH_OF_A_MONTH.get(which, 0)
    return f"FREQ=MONTHLY;BYDAY={number}{on}" if 0 != number <= _MOST_OF_A_DAY else None


def _every_few(words: tuple[str, ...], start: int) -> tuple[Every, int] | None:
    found = number_at(words, start)
    if found is None or found[0] != int(found[0]) or not 0 <= found[0] <= _LONGEST_GAP:
        return None
    unit = words[start + found[1] : start + found[1] + 1]
    days = _DAY_SPANS.get(unit[0].removesuffix("s")) if unit else None
    return None if days is None else (Every(days=days * int(found[0])), found[1] + 2)


def _ago_or_ahead(words: tuple[str, ...], start: int, situation: Situation) -> tuple[When, int] | None:
    ahead = words[start] in {"in", "for", "after"}
    begin = start + ahead
    found = number_at(words, begin) if begin < len(words) else None
    if found is None:
        return None
    value, size = found
    tail = words[begin + size : begin + size + 2]
    if not tail or not (ahead or tail[1:] == ("ago",)):
        return None
    length = size + 1 + (0 if ahead else 1) + ahead
    sign = 1 if ahead else -1
    unit = tail[0].removesuffix("s")
    if unit in _SPANS and value >= 0:
        return _moment(situation.now, sign * value * _SPANS[unit]), length
    if unit in _DAY_SPANS and value == int(value) and 0 <= value <= FARTHEST.days * 2:
        return Day(situation.today + timedelta(days=sign * int(value) * _DAY_SPANS[unit])), length
    return None


def _moment(now: datetime, minutes: Decimal) -> Moment | Murky:
    if abs(minutes) > _HOURS * _MINUTES:
        return Murky("hours")
    # In UTC: across a clock change an hour on the wall is not an hour.
    return Moment(now.astimezone(UTC) + timedelta(minutes=float(minutes)))


def _calendar(words: tuple[str, ...], start: int, situation: Situation) -> tuple[When, int] | None:
    word = words[start]
    iso = _ISO.fullmatch(word)
    if iso is not None:
        day = _date(int(iso[1]), int(iso[2]), int(iso[3]))
        return (Murky(word) if day is None else Day(day)), 1
    slashed = _SLASHED.fullmatch(word)
    if slashed is not None:
        return _slashed(word, int(slashed[1]), int(slashed[2]), slashed[3], situation), 1
    return _dotted(words, start) or _month_first(words, start) or _day_first(words, start)


def _slashed(word: str, first: int, second: int, year: str | None, situation: Situation) -> When:
    """Read "3/5" in the order of the home, where that day is the nearer one too; else it is unclear."""
    usual, other = (first, second), (second, first)
    if situation.units is not Units.US:
        usual, other = other, usual
    told, swapped = (
        _month_day(*pair, None if year is None else int(year) % 100 + 2000) for pair in (usual, other)
    )
    if isinstance(told, Murky) or isinstance(swapped, Murky):
        return swapped if isinstance(told, Murky) else told
    nearer = _from_today(told, situation.today) <= _from_today(swapped, situation.today)
    return told if nearer else Murky(word)


def _from_today(told: MonthDay | Day, today: date) -> timedelta:
    """Give how far the nearest day of that name lies."""
    days = [told.on] if isinstance(told, Day) else _of_the_years_around(told, today)
    return min(abs(one - today) for one in days)


def _dotted(words: tuple[str, ...], start: int) -> tuple[When, int] | None:
    """Read "10.6", "28.01" where a day may stand: what may be an hour too is unclear."""
    dotted = _DOTTED.fullmatch(words[start])
    before = words[start - 1 : start]
    if dotted is None or not (before == () or before[0] in _BEFORE_A_DATE or before[0] in WEEKDAYS):
        return None
    told = _month_day(int(dotted[2]), int(dotted[1]), None)
    if isinstance(told, Murky):
        return None
    is_hour = len(dotted[2]) > 1 and int(dotted[1]) < _HOURS
    return Murky(words[start]) if is_hour else told, 1


def _month_day(month: int, day: int, year: int | None) -> MonthDay | Day | Murky:
    # 2028 is a leap year: 29 February is a day people may name.
    if _date(2028 if year is None else year, month, day) is None:
        return Murky(f"{day} {month}")
    return MonthDay(month, day) if year is None else Day(date(year, month, day))


def _spelt_day(words: tuple[str, ...], start: int) -> tuple[int, int] | None:
    """Read "first", "thirtieth", "twenty third": the day of a month in words, and how many there are."""
    pair, single = words[start : start + 2], words[start : start + 1]
    if pair in _SPELT_DAYS:
        return _SPELT_DAYS[pair], 2
    return (_SPELT_DAYS[single], 1) if single in _SPELT_DAYS else None


def spelt_alone(words: tuple[str, ...], start: int) -> tuple[int, int] | None:
    """Read a day in words that counts nothing, as in "april twenty second time"."""
    spelt = _spelt_day(words, start)
    return None if spelt is None or words[start + spelt[1] :][:1] in {("time",), ("of",)} else spelt


def _day_first(words: tuple[str, ...], start: int) -> tuple[When, int] | None:
    spelt = _spelt_day(words, start)
    if spelt is not None:
        at = start + spelt[1] + (words[start + spelt[1] : start + spelt[1] + 1] == ("of",))
        named = MONTHS.get(words[at]) if at < len(words) else None
        return None if named is None else (_month_day(named, spelt[0], None), at + 1 - start)
    if not _DAY_OF_MONTH.fullmatch(words[start]):
        return None
    size = 2 if words[start + 1 : start + 2] and words[start + 1] in _ORDINAL else 1
    size += words[start + size : start + size + 1] == ("of",)
    month = words[start + size : start + size + 1]
    if not month or month[0] not in MONTHS:
        return None
    year, longer = _year(words, start + size + 1)
    return _month_day(MONTHS[month[0]], int(words[start]), year), size + 1 + longer


def _month_first(words: tuple[str, ...], start: int) -> tuple[When, int] | None:
    if words[start] not in MONTHS:
        return None
    begin = start + 1 + (words[start + 1 : start + 2] == ("the",))
    spelt = spelt_alone(words, begin)
    if spelt is not None:
        return _month_day(MONTHS[words[start]], spelt[0], None), begin + spelt[1] - start
    day = words[start + 1 : start + 2]
    if not day or not _DAY_OF_MONTH.fullmatch(day[0]):
        return None
    size = 3 if words[start + 2 : start + 3] and words[start + 2] in _ORDINAL else 2
    year, longer = _year(words, start + size)
    return _month_day(MONTHS[words[start]], int(day[0]), year), size + longer


def _year(words: tuple[str, ...], start: int) -> tuple[int | None, int]:
    word = words[start] if start < len(words) else ""
    is_year = word.isdecimal() and len(word) == len("2000") and word.startswith("20")
    return (int(word), 1) if is_year else (None, 0)


def _weekday_and_date(words: tuple[str, ...], start: int, situation: Situation) -> tuple[When, int] | None:
    """Read "next fri 8 may", "sunday, the 3rd of may": the nearest such day, unclear where they disagree."""
    at = start + (words[start] in _WHICH)
    name = words[at] if at < len(words) else ""
    if name not in WEEKDAYS:
        return None
    at += 1
    while words[at : at + 1] in {(",",), ("the",)}:
        at += 1
    told = _calendar(words, at, situation) if at < len(words) else None
    if told is None or not isinstance(told[0], MonthDay | Day):
        return None
    day, size = told[0], told[1] + at - start
    if isinstance(day, Day):
        return (day if day.on.weekday() == WEEKDAYS[name] else Murky(name)), size
    years = _of_the_years_around(day, situation.today)
    fitting = [one for one in years if one.weekday() == WEEKDAYS[name]]
    if not fitting:
        return Murky(name), size
    return Day(min(fitting, key=lambda one: abs(one - situation.today))), size


def _of_the_years_around(told: MonthDay, today: date) -> list[date]:
    years = (_date(today.year + off, told.month, told.day) for off in (-1, 0, 1))
    return [one for one in years if one is not None]


def _weekday(words: tuple[str, ...], start: int) -> tuple[Weekday, int] | None:
    which = words[start] if words[start] in {"last", "next", "this"} else ""
    at = start + bool(which)
    name = words[at] if at < len(words) else ""
    if name not in WEEKDAYS:
        return None
    size = 1 + bool(which)
    if name not in _FULL_DAYS and not which and not _stands_as_a_day(words, at):
        return None
    if words[at + 1 : at + 2] in {("evening",), ("morning",), ("night",), ("afternoon",)}:
        size += 1
    return Weekday(WEEKDAYS[name], "" if which == "this" else which), size


def _stands_as_a_day(words: tuple[str, ...], at: int) -> bool:
    """Tell a short name of a day from a slip: "tue coffee is dead" was meant as "the"."""
    is_led_in = at > 0 and words[at - 1] in _BEFORE_A_DAY
    return is_led_in or at + 1 == len(words) or not words[at + 1].isalnum()


_PARTS_OF_AN_HOUR = (
    (("half", "past"), 30),
    (("quarter", "past"), 15),
    (("quarter", "to"), -15),
    (("half",), 30),
)
_CLOCK_HOURS = listed(
    "one two three four five six seven eight nine ten eleven twelve 1 2 3 4 5 6 7 8 9 10 11 12"
)


def _past_or_to(words: tuple[str, ...], start: int) -> tuple[Clock, int] | None:
    for phrase, minutes in _PARTS_OF_AN_HOUR:
        at = start + len(phrase)
        if words[start:at] != phrase or at >= len(words):
            continue
        told = _hour(words, at, bare=True)
        if told is not None and told[0].time.minute == 0 and _follows_half(phrase, words[at]):
            total = told[0].time.hour * _MINUTES + minutes
            return Clock(time(total // _MINUTES % _HOURS, total % _MINUTES)), told[1] + len(phrase)
    return None


def _follows_half(phrase: tuple[str, ...], hour: str) -> bool:
    """Whether an hour follows, as in the English "half seven", and not "half a gallon"."""
    return phrase != ("half",) or hour in _CLOCK_HOURS


def _hour(words: tuple[str, ...], start: int, *, bare: bool) -> tuple[Clock, int] | None:
    if start >= len(words):
        return None
    exact = _CLOCK.fullmatch(words[start])
    if exact is not None and (":" in words[start] or bare):
        return _with_half(words, start, int(exact[1]), int(exact[2]))
    if words[start] in {"noon", "midday", "midnight"} and bare:
        return Clock(time(0 if words[start] == "midnight" else _NOON)), 1
    found = number_at(words, start)
    if found is None or found[0] != int(found[0]) or found[1] != 1 or words[start] in {"a", "an"}:
        return None
    told = _with_half(words, start, int(found[0]), 0)
    return told if told is not None and (bare or told[1] > 1) else None


def _with_half(words: tuple[str, ...], start: int, hour: int, minute: int) -> tuple[Clock, int] | None:
    half = words[start + 1 : start + 2]
    size = 1
    is_morning = half == ("am",) or words[start + 1 : start + 3] == ("a", ".") or words[start].startswith("0")
    if words[start + 1 : start + 4] == ("in", "the", "morning"):
        return (Clock(time(hour, minute), is_morning=True), 4) if hour < _NOON and minute < _MINUTES else None
    if half in {("pm",), ("am",)} or words[start + 1 : start + 4] in {("p", ".", "m"), ("a", ".", "m")}:
        size = 2 if half in {("pm",), ("am",)} else 4
        if not 0 < hour <= _NOON:
            return None
        hour = hour % _NOON + (_NOON if half[0].startswith("p") else 0)
    elif half in {("h",), ("oclock",), ("o'clock",), ("uhr",)}:
        behind = words[start + 2 : start + 3] if half == ("h",) else ()
        has_minutes = bool(behind) and len(behind[0]) == 2 and behind[0].isdecimal()  # noqa: PLR2004 - "20h30"
        minute, size = (int(behind[0]), 3) if has_minutes else (minute, 2)
    if not (0 <= hour < _HOURS and 0 <= minute < _MINUTES):
        return None
    return Clock(time(hour, minute), is_morning=is_morning), size


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _nearest(told: Day | MonthDay, today: date, off: int) -> date | None:
    """
    Give a day with its year: untold it is this one, or the one before (-1) or after (1) where that is nearer.

    "On 20 may", said on 6 May, is a slip and not last year's day; said in January, December is last year's.
    """
    if isinstance(told, Day):
        return told.on
    day = _date(today.year, told.month, told.day)
    is_far = day is None or (today - day) * off > HALF_A_YEAR
    return _date(today.year + off, told.month, told.day) if is_far else day
