"""Habits in words, to RFC 5545 rules and back; the rules are tried on dateutil's engine."""

from datetime import date

import pytest

from bot.actions.ask import Ask, Topic
from bot.actions.set_routine import SetRoutine
from bot.domain.recurrence import between
from bot.phrases.hearing import understand
from bot.wording.describing import rule_words
from tests.phrases.situation import EVENING

HABITS = [
    ("check on sundays", "FREQ=WEEKLY;BYDAY=SU", "every Sunday"),
    ("check every sunday", "FREQ=WEEKLY;BYDAY=SU", "every Sunday"),
    ("check every first saturday", "FREQ=MONTHLY;BYDAY=1SA", "on the first Saturday of each month"),
    ("inspect every 1st saturday", "FREQ=MONTHLY;BYDAY=1SA", "on the first Saturday of each month"),
    ("check on the last sunday of the month", "FREQ=MONTHLY;BYDAY=-1SU", "on the last Sunday of each month"),
    (
        "check on the second tuesday of each month",
        "FREQ=MONTHLY;BYDAY=2TU",
        "on the second Tuesday of each month",
    ),
    ("check every second sunday", "FREQ=WEEKLY;INTERVAL=2;BYDAY=SU", "every other Sunday"),
    ("check every other sunday", "FREQ=WEEKLY;INTERVAL=2;BYDAY=SU", "every other Sunday"),
    ("check all plants every 10 days", "FREQ=DAILY;INTERVAL=10", "every 10 days"),
    ("look over my plants every ten days", "FREQ=DAILY;INTERVAL=10", "every 10 days"),
    ("check every monday and thursday", "FREQ=WEEKLY;BYDAY=MO,TH", "every Monday and Thursday"),
    ("check on mondays, thursdays", "FREQ=WEEKLY;BYDAY=MO,TH", "every Monday and Thursday"),
    ("check every 3 weeks on tuesday", "FREQ=WEEKLY;INTERVAL=3;BYDAY=TU", "every 3 weeks on Tuesday"),
    ("inspect on the 15th of each month", "FREQ=MONTHLY;BYMONTHDAY=15", "on day 15 of each month"),
    ("check every 31st", "FREQ=MONTHLY;BYMONTHDAY=-1", "on the last day of each month"),
    ("walk at weekends", "FREQ=WEEKLY;BYDAY=SA,SU", "every Saturday and Sunday"),
    ("check daily", "FREQ=DAILY", "every day"),
]


@pytest.mark.parametrize(("text", "rule", "words"), HABITS)
def test_a_habit_is_read_to_a_rule_and_said_back(text: str, rule: str, words: str) -> None:
    assert understand(text, EVENING) == (SetRoutine("check", rule),)
    assert rule_words(rule) == words


def test_rules_fall_on_the_days_people_mean() -> None:
    # From a printed calendar of 2026: the first Saturdays of May to July, the last Sundays, the month's ends.
    first, last = date(2026, 5, 1), date(2026, 7, 31)
    saturdays = between("FREQ=MONTHLY;BYDAY=1SA", first, first, last)
    assert saturdays == (date(2026, 5, 2), date(2026, 6, 6), date(2026, 7, 4))
    sundays = between("FREQ=MONTHLY;BYDAY=-1SU", first, first, last)
    assert sundays == (date(2026, 5, 31), date(2026, 6, 28), date(2026, 7, 26))
    ends = between("FREQ=MONTHLY;BYMONTHDAY=-1", first, first, last)
    assert ends == (date(2026, 5, 31), date(2026, 6, 30), date(2026, 7, 31))


@pytest.mark.parametrize("text", ["no more checks", "stop the weekly check", "Stop checking."])
def test_a_habit_ends_in_words(text: str) -> None:
    assert understand(text, EVENING) == (SetRoutine("check", ""),)


@pytest.mark.parametrize("text", ["routines", "routine?", "habits?"])
def test_habits_are_asked_about(text: str) -> None:
    assert understand(text, EVENING) == (Ask(topic=Topic.ROUTINES),)


@pytest.mark.parametrize(
    "text",
    [
        "check on sunday",
        "check every 0 days",
        "check every 900 days",
        "check every banana",
        "check every fifth sunday",
        "check every 45th",
        "check the hoya on sundays",
        "check on sundays or mondays",
        "checked every sunday",
        "do not check on sundays",
        "check every other",
        "check every",
    ],
)
def test_what_is_no_habit_sets_none(text: str) -> None:
    assert not any(isinstance(one, SetRoutine) for one in understand(text, EVENING))
