"""Days in words, behind and ahead, on evenings that are easy to get wrong."""

from datetime import UTC, date, datetime

import pytest

from bot.actions.log_round import LogRound
from bot.actions.mix_batch import Mix
from bot.actions.not_understood import NotUnderstood
from bot.actions.postpone import Postpone
from bot.actions.situation import Situation
from bot.domain.measure import Units
from bot.domain.value import replace
from bot.phrases.hearing import heard, understand
from bot.phrases.leaving_out import told_of
from bot.phrases.notation import notation
from tests.phrases.situation import EVENING, HOYA, ZONE


def evening(day: date, hour: int = 20) -> Situation:
    return replace(EVENING, now=datetime(day.year, day.month, day.day, hour, tzinfo=ZONE), today=day)


def done_on(text: str, situation: Situation) -> date | None:
    (told,) = understand(text, situation)
    assert isinstance(told, LogRound)
    return told.on


@pytest.mark.parametrize(
    ("words", "day"),
    [
        ("yesterday", date(2026, 5, 5)),
        ("last night", date(2026, 5, 5)),
        ("tonight", date(2026, 5, 6)),
        ("this morning", date(2026, 5, 6)),
        ("the day before yesterday", date(2026, 5, 4)),
        ("sunday", date(2026, 5, 3)),
        ("last sunday", date(2026, 5, 3)),
        ("on wednesday", date(2026, 5, 6)),
        ("last wednesday", date(2026, 4, 29)),
        ("a week ago", date(2026, 4, 29)),
        ("3 days ago", date(2026, 5, 3)),
        ("on 3 may", date(2026, 5, 3)),
        ("on may 3rd", date(2026, 5, 3)),
        ("on 30/4", date(2026, 4, 30)),
        ("on 4/30", date(2026, 4, 30)),
        ("on 5/5", date(2026, 5, 5)),
        ("on 3/5", date(2026, 5, 3)),
        ("on 3.5", date(2026, 5, 3)),
        ("on 28.04", date(2026, 4, 28)),
        ("on 2026-04-30", date(2026, 4, 30)),
        ("on 24 december", date(2025, 12, 24)),
    ],
)
def test_a_round_is_dated_behind(words: str, day: date) -> None:
    assert done_on(f"done hoya {words}", EVENING) == day


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("done tomorrow", "future"),
        ("done on 20 may", "future"),
        ("done on 2024-05-06", "past"),
        ("done on 31 april", "when"),
        ("done on 5/3", "when"),  # the day first here, yet 3 May is much the nearer
        ("done on 2026-13-45", "when"),
        ("done 401 days ago", "past"),
        ("hoya 5 tomorrow", "future"),
        ("ivy clean tomorrow", "future"),
        ("hoya -5", "count"),
        ("hoya 100001", "count"),
    ],
)
def test_a_day_or_a_number_that_cannot_be_is_not_written(text: str, reason: str) -> None:
    (refused,) = understand(text, EVENING)
    assert isinstance(refused, NotUnderstood)
    assert refused.reason == reason


@pytest.mark.parametrize(
    ("words", "day"),
    [
        ("tomorrow", date(2026, 5, 7)),
        ("saturday", date(2026, 5, 9)),
        ("on wednesday", date(2026, 5, 13)),
        ("on 20 may", date(2026, 5, 20)),
        ("in 10 days", date(2026, 5, 16)),
        ("on 2 november", date(2026, 11, 2)),
    ],
)
def test_putting_off_is_dated_ahead(words: str, day: date) -> None:
    (told,) = understand(f"later hoya {words}", EVENING)
    assert told == Postpone(plants=(HOYA,), on=day)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("done on 5/3", date(2026, 5, 3)),
        ("5/3 - hoya done", date(2026, 5, 3)),
        ("sun 5/3: hoya sprayed", date(2026, 5, 3)),
    ],
)
def test_the_month_stands_first_where_gallons_are_used(text: str, day: date) -> None:
    assert done_on(text, replace(EVENING, units=Units.US)) == day


def test_a_day_with_a_point_stands_in_front_and_an_amount_does_not() -> None:
    assert done_on("3.5 hoya sprayed", EVENING) == date(2026, 5, 3)
    assert done_on("3.5: sprayed the hoya", EVENING) == date(2026, 5, 3)
    (told,) = understand("mix 3.5 l of soap at 5 ml per litre", EVENING)
    assert isinstance(told, Mix)


@pytest.mark.parametrize("heading", ["19:45 ", "6 may, 19:45 - ", "6.5. ", "wed 6 may: "])
def test_a_log_s_heading_says_no_more_than_now(heading: str) -> None:
    # EVENING is Wednesday, 6 May 2026, 20:15
    assert understand(f"{heading}sprayed the hoya", EVENING) == understand("sprayed the hoya", EVENING)


@pytest.mark.parametrize("text", ["17:30 sprayed the hoya", "19:45", "19:45 is better for me"])
def test_a_clock_that_says_more_is_kept(text: str) -> None:
    assert told_of(text, EVENING) == text


def test_after_midnight_the_evening_before_still_counts_as_today() -> None:
    small_hours = replace(EVENING, now=datetime(2026, 5, 7, 1, 30, tzinfo=ZONE))
    assert done_on("done hoya tonight", small_hours) == date(2026, 5, 6)
    assert done_on("done hoya yesterday", small_hours) == date(2026, 5, 6), (
        "by the calendar, as people say it"
    )
    (off,) = understand("in an hour", small_hours)
    assert isinstance(off, Postpone)
    assert (off.on, off.at) == (date(2026, 5, 7), None)


def test_an_hour_ago_is_an_hour_also_when_the_clocks_change() -> None:
    # Brussels goes from 02:00 to 03:00 on 2026-03-29: 03:10 there is 01:10 UTC, an hour before is 00:10 UTC.
    night = replace(evening(date(2026, 3, 28)), now=datetime(2026, 3, 29, 3, 10, tzinfo=ZONE))
    (told,) = understand("done hoya an hour ago", night)
    assert isinstance(told, LogRound)
    assert told.at == datetime(2026, 3, 29, 0, 10, tzinfo=UTC)


def test_a_leap_day_is_a_day_in_a_leap_year_only() -> None:
    assert done_on("done hoya on 29 feb", evening(date(2028, 3, 1))) == date(2028, 2, 29)
    (refused,) = understand("done hoya on 29 feb", EVENING)
    assert isinstance(refused, NotUnderstood)


def test_later_this_evening_ends_where_quiet_hours_begin() -> None:
    early = replace(EVENING, quiet_from_hour=21)
    (told,) = understand("in an hour", early)
    assert isinstance(told, Postpone)
    assert (told.on, told.at) == (date(2026, 5, 7), None)


@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("check every wednesday", "routine check rule=FREQ=WEEKLY;BYDAY=WE"),
        ("check daily", "routine check rule=FREQ=DAILY"),
        ("check every evening", "routine check rule=FREQ=DAILY"),
        ("check every other week", "routine check rule=FREQ=WEEKLY;INTERVAL=2"),
        ("check every half day", "unclear"),
        ("later hoya in 30 hours", "ask meant"),
        ("later hoya on 31/11", "unclear"),
        ("later hoya in 500 days", "unclear"),
        ("done quarter to eight", "done hoya orchid coffee at=19:45"),
        ("done at quarter to eight", "done hoya orchid coffee at=19:45"),
        ("done at 13 pm", "unclear"),
        ("done at midnight", "done hoya orchid coffee at=00:00"),
        ("done at", "done hoya orchid coffee"),
        ("done at 19.30", "done hoya orchid coffee at=19:30"),
        ("done 19 h", "done hoya orchid coffee at=19:00"),
    ],
)
def test_a_time_or_a_habit_is_read_or_refused(text: str, meaning: str) -> None:
    assert notation(understand(text, EVENING), EVENING) == meaning


def test_a_weekday_with_its_date_is_one_day() -> None:
    (later,) = understand("hoya later, next fri 8 may", EVENING)
    assert isinstance(later, Postpone)
    assert later.on == date(2026, 5, 8)
    (done,) = understand("sprayed hoya on sunday, the 3rd of may", EVENING)
    assert isinstance(done, LogRound)
    assert done.on == date(2026, 5, 3)
    (unclear,) = understand("sprayed hoya on monday 3 may", EVENING)  # it was a Sunday
    assert isinstance(unclear, NotUnderstood)


def test_a_day_the_year_lacks_is_no_other_day() -> None:
    for text in ("sprayed hoya on 29 feb", "away until 29 feb"):
        assert understand(text, EVENING) == (NotUnderstood(text, reason="no such day"),), text


def test_a_day_of_december_lies_behind_in_january() -> None:
    january = replace(EVENING, now=datetime(2027, 1, 5, 20, tzinfo=ZONE), today=date(2027, 1, 5))
    (done,) = understand("sprayed hoya and orchid on 28 december", january)
    assert isinstance(done, LogRound)
    assert done.on == date(2026, 12, 28)


@pytest.mark.parametrize(
    "text",
    [
        "Friday. Dull day, the post came late.",
        "Monday. Box room. The fittonia is in there too, east side.",
        "Saturday. What do I wash the coffee with?",
        "Tuesday: nothing new here",
    ],
)
def test_a_day_in_front_as_in_a_diary_puts_nothing_off(text: str) -> None:
    assert not any(isinstance(one, Postpone) for one in heard(text, EVENING).sure)


@pytest.mark.parametrize("text", ["sunday", "Not tonight. Sunday.", "too tired. tomorrow"])
def test_a_day_that_answers_does(text: str) -> None:
    assert any(isinstance(one, Postpone) for one in heard(text, EVENING).sure)
