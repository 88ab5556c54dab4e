import re
from collections.abc import Iterator
from datetime import date, time
from functools import partial
from zoneinfo import ZoneInfo

import pytest

from bot.actions.action import Outcome
from bot.actions.incomplete import Asks, Missing
from bot.actions.log_round import NothingDue
from bot.actions.lose_plant import Lost
from bot.actions.set_hours import BadHours
from bot.actions.set_routine import RoutineSaved
from bot.actions.stock_product import BadLabel
from bot.domain.value import names_of
from bot.wording.apology import apology
from bot.wording.conditions import percent
from bot.wording.days import counted, day, listed, near_day
from bot.wording.history import told_words
from bot.wording.saying import HOW, SAYERS, filled, parts_of, ways_of
from bot.wording.sentences import say
from bot.wording.voice import Voice

VOICE = Voice(date(2026, 5, 2), ZoneInfo("Europe/Brussels"))


@pytest.mark.parametrize(
    ("names", "words"), [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")]
)
def test_names_are_listed_as_in_speech(names: list[str], words: str) -> None:
    assert listed(names) == words


def test_days_and_times_are_said_as_people_do() -> None:
    assert day(date(2026, 5, 9)) == "Sat 9 May"
    assert [near_day(date(2026, 5, number), VOICE.today) for number in (1, 2, 3, 4)] == [
        "yesterday, Fri 1 May",
        "today, Sat 2 May",
        "tomorrow, Sun 3 May",
        "Mon 4 May",
    ]
    assert VOICE.clock(time(8, 5)) == "08:05"
    assert [counted(number, "plant") for number in (0, 1, 2)] == ["0 plants", "1 plant", "2 plants"]


def test_no_chance_is_said_above_98_percent() -> None:
    assert [percent(share) for share in (0.5, 0.98, 0.999, 1.0)] == ["50 %", "98 %", "98 %", "98 %"]


@pytest.mark.parametrize("missing", Missing)
def test_every_open_question_has_words_and_no_exclamation_mark(missing: Missing) -> None:
    for text in ("", "fern"):
        words = say(Asks(missing, ("hoya",), text), VOICE)
        assert words
        assert "!" not in words


def test_outcomes_the_grammar_seldom_reaches_are_worded() -> None:
    assert say(BadLabel("gap_days", 400), VOICE) == (
        "400 days between two uses cannot be right (1 to 365). What does the label say? Nothing is written."
    )
    assert say(BadHours(time(20), time(13), time(7)), VOICE).startswith("An evening at 20:00 would lie in")
    assert say(NothingDue(date(2026, 5, 3)), VOICE)
    assert (
        say(RoutineSaved("check", "FREQ=DAILY;COUNT=1", None), VOICE)
        == "Written: a look over all plants every day. It has no next day."
    )
    assert say(Lost(("ivy",)), VOICE).startswith("Written: ivy gone.")
    assert "Nothing of your last message was written down" in apology().text


def test_what_was_told_is_named_in_a_word() -> None:
    assert told_words("Treated:clean-out") == "cleaned out"
    assert told_words("Found:spider_mite") == "spider mite"
    assert told_words("IsolatedNow") == "kept apart"


def _fields(text: str) -> Iterator[tuple[str, str]]:
    for _, name, how, _ in parts_of(text):
        if name is not None:
            yield name, how
            for way in ways_of(how):
                yield from _fields(way)


def test_a_sentence_asks_only_for_what_its_outcome_tells_in_ways_there_are() -> None:
    texts = {told: sayer.args[0] for told, (sayer, _) in SAYERS.items() if isinstance(sayer, partial)}
    unknown = [
        f"{told.__name__}: {name}"
        for told, text in texts.items()
        for name, how in _fields(text)
        if re.split(r"\W", name)[0] not in names_of(told)
        or not (how in {*HOW, ""} or len(ways_of(how)) > 1 or how.startswith((".", "g")))
    ]
    assert texts
    assert not unknown


def test_this_or_that_is_said_by_what_is_told_and_by_how_many() -> None:
    text = "{plants:listed} {plants!n:stands|stand}{town: in {town}|, who knows where}."
    alone, several = Told(plants=("ivy",), town="Ghent"), Told(plants=("ivy", "hoya"), town="")
    assert filled(text, alone, VOICE) == "ivy stands in Ghent."
    assert filled(text, several, VOICE) == "ivy and hoya stand, who knows where."


class Told(Outcome):
    plants: tuple[str, ...]
    town: str
