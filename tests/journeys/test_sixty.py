"""A home of sixty plants in US units stays readable: by place, with counts, the newest first, in words."""

import csv
import io
import re
from collections.abc import Iterator
from datetime import datetime, timedelta
from itertools import pairwise

import icalendar
import pytest

from bot.storage.database import Database
from bot.wording.lines import LONG, SHORT, heights
from tests.journeys.talking import Talk

KINDS = (
    "pothos",
    "croton",
    "ficus",
    "monstera",
    "calathea",
    "philodendron",
    "dracaena",
    "peperomia",
    "fern",
    "aloe",
    "begonia",
    "schefflera",
    "hoya",
    "anthurium",
    "maranta",
)
RACKS = range(1, 5)
FINDS = (
    "hoya 1 12 mealybugs",
    "croton 2 4 spider mites",
    "ficus 3 7 scale",
    "pothos 2 3 thrips",
    "calathea 1 3 spider mites",
    "hoya 2 6 mealybugs",
)
MACHINE_WORDS = re.compile(r"[=_<>\[\]{}]|\bNone\b|\bTrue\b|\bFalse\b|\bFREQ\b")
"""What no cell of a table holds that people read."""


@pytest.fixture(scope="module")
def sixty(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Talk]:
    """Sixty plants on four racks, six of them with pests, one evening done."""
    talk = Talk(Database("", tmp_path_factory.mktemp("sixty")))
    talk.set_up(("/start", "Chicago"))
    talk.set_up(tuple("\n".join(f"{kind} {rack}, rack {rack}" for kind in KINDS) for rack in RACKS))
    talk.set_up(tuple(f"rack {rack} faces north" for rack in RACKS))
    talk.set_up(
        (
            "got soap, ready to use, every 7 days, 500 ml",
            "rack 1 is 70 F",
            "rack 2 is usually 75 F",
            "rack 2 in a 6 inch pot",
        )
    )
    talk.set_up((*FINDS, "look on saturdays", "we have a cat", "strict rule"))
    talk.evening()
    talk.set_up(("done", "hoya 3 clean with a lens", "used 300 ml"))
    yield talk
    talk.database.close()


def test_what_is_due_and_who_is_apart_fit_a_phone_and_name_everybody(sixty: Talk) -> None:
    for question in ("what's due", "what is apart?"):
        (first,) = sixty.say(question)
        assert heights(first.split("\n")) <= SHORT, first
    apart = sixty.asks("what is apart?")
    assert all(
        name in apart for name in ("hoya 1", "croton 2", "ficus 3", "pothos 2", "calathea 1", "hoya 2")
    )


def test_plants_are_listed_by_place_with_their_number(sixty: Talk) -> None:
    lines = sixty.asks("plants").split("\n")
    assert lines[-1] == "60 plants in all."
    assert [line.partition(":")[0] for line in lines[:-1]] == [f"rack {rack}, 15" for rack in RACKS]


def test_the_history_begins_with_the_newest_and_tells_alike_plants_together(sixty: Talk) -> None:
    lines = sixty.asks("history").split("\n")
    assert next(line for line in lines if "a pause" not in line).startswith("today: ")  # a trip is told ahead
    assert lines[-1].endswith("all 60 plants new")
    assert len(lines) <= 2 * LONG, "\n".join(lines)


def test_a_work_day_of_all_begins_in_a_few_lines(sixty: Talk) -> None:
    (first,) = sixty.say("work day")
    assert "all 15 at rack 1" in first
    assert heights(first.split("\n")) <= SHORT, first
    sixty.press("Stop for today")


def test_the_calendar_goes_as_far_as_the_plan_and_says_in_words_what_to_do(sixty: Talk) -> None:
    free = [
        datetime.strptime(f"{sixty.now.year} {found}", "%Y %b %d").date()  # noqa: DTZ007 - a day
        for found in re.findall(r"[A-Z][a-z]{2} ([A-Z][a-z]{2} \d+)", sixty.asks("when is hoya 1 free?"))
    ]
    events = icalendar.Calendar.from_ical(_file(sixty, "calendar")).walk("VEVENT")
    days = sorted(one["dtstart"].dt.date() for one in events)
    assert days[-1] >= max(free)
    assert all((after - before) <= timedelta(days=8) for before, after in pairwise(days))
    for one in events:
        assert len(str(one["summary"])) <= 60
        assert heights(str(one["description"]).split("\n")) <= LONG
        assert not MACHINE_WORDS.search(str(one["description"]))
    assert any("hoya 1" in str(one["description"]) and "soap" in str(one["description"]) for one in events)


def test_the_table_holds_words_a_person_knows(sixty: Talk) -> None:
    rows = list(csv.DictReader(io.StringIO(_file(sixty, "csv").decode("utf-8-sig"))))
    assert [row for row in rows if any(MACHINE_WORDS.search(cell) for cell in row.values())] == []
    details = {(row["plant"] or row["what"], row["details"]) for row in rows}
    assert {
        ("hoya 1", "12"),
        ("calathea 1", "soap"),
        ("a temperature", "rack 1; 70 °F"),
        ("a usual temperature", "rack 2; all year; 75 °F"),
        ("hoya 3", "a look with a lens"),
        ("a habit", "every Saturday"),
    } <= details


def _file(talk: Talk, text: str) -> bytes:
    talk.say(text)
    document = talk.shown[1][-1].document
    assert document is not None
    return document.content


def test_looks_at_all_that_nobody_confirmed_are_named_in_short(sixty: Talk) -> None:
    sixty.say("all clean")
    said = next(text for text in sixty.evening() if "Not written: " in text)
    assert heights([said[said.index("Not written: ") :]]) <= 4, said


@pytest.mark.parametrize(
    "words",
    [
        "fern 1 to 30 many spider mites",
        "fern 1 to 30 have many spider mites",
        "many spider mites on fern 1 to 30",
        "spider mites on fern 1 to 30, many",
    ],
)
def test_a_find_on_thirty_plants_is_one_answer_with_one_undo(talk: Talk, words: str) -> None:
    talk.say("30 ferns on rack")
    if "Add 30 plants" in talk.labels():
        talk.press("Add 30 plants")
    talk.say("rack has no window")
    before = len(talk.told())
    (answer,) = talk.say(words)
    assert answer.splitlines()[0] == "Written: many spider mites on all 30 at rack."
    assert heights(answer.splitlines()) <= SHORT
    assert len(talk.labels()) <= 4
    assert len(talk.told()) == before + 30
    talk.say("undo")
    assert len(talk.told()) == before


@pytest.mark.parametrize("last", ["orchid 3 scale", "coffee 3 scale"])
def test_different_finds_of_one_message_are_told_together(talk: Talk, last: str) -> None:
    (answer,) = talk.say(f"hoya 20 scale, small hoya 6 scale, {last}")
    assert answer.startswith("Written: 20 scale insects on hoya; 6 on small hoya; 3 on ")
    assert len(set(talk.labels())) == len(talk.labels())
    talk.press("brown soft scale")
    assert {case.pest for plant in talk.home.living for case in plant.open_cases} == {"brown_soft_scale"}
