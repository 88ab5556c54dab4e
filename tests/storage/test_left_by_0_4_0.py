"""
A database that version 0.4.0 left opens: the same plants, cases and entries, and its buttons still decode.

`left_by_0_4_0/` was made by that version's own code (commit 7db447a), on each engine: seven weeks of a home of two with
open cases, a work day and a look begun, questions, photos and an invitation. `held.json` is what that version read there.
"""

import gzip
import json
import re
import shutil
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
import sqlalchemy as sa

from bot import operating
from bot.actions.ports import Question
from bot.catalogue.load import load
from bot.clock import Clock
from bot.domain.fold import fold, valid
from bot.domain.identity import HouseholdId
from bot.settings import Settings
from bot.storage.codec import KINDS
from bot.storage.database import FILE_NAME, Database
from bot.storage.engine import open_engine
from bot.wording.button_texts import button_text
from tests.journeys.talking import OWNER, PARTNER, ZONE, Talk

LEFT = Path(__file__).parent / "left_by_0_4_0"
HELD: dict[str, Any] = json.loads((LEFT / "held.json").read_text("utf-8"))
LEFT_AT = datetime(2026, 6, 22, 20, 20, tzinfo=ZONE)
LAST_UPDATE = 10_000
HOME = HouseholdId(1)


class Then(Clock):
    """The clock as that version's last word left it."""

    def now(self) -> datetime:
        return LEFT_AT.astimezone(UTC)


@pytest.fixture(params=["sqlite", "postgresql"])
def settings(request: pytest.FixtureRequest, tmp_path: Path) -> Settings:
    if request.param == "sqlite":
        with gzip.open(LEFT / "home.sqlite.gz") as left, (tmp_path / FILE_NAME).open("wb") as file:
            shutil.copyfileobj(left, file)
        return Settings(data=tmp_path)
    url: str = request.getfixturevalue("server")
    engine = open_engine(url)
    with engine.begin() as connection:
        connection.execute(sa.text("DROP SCHEMA IF EXISTS public CASCADE"))
        connection.execute(sa.text("CREATE SCHEMA public"))
    raw = engine.raw_connection()
    raw.cursor().execute(gzip.decompress((LEFT / "home.sql.gz").read_bytes()).decode())
    raw.commit()
    raw.detach()  # the dump empties the connection's search path
    raw.close()
    engine.dispose()
    return Settings(data=tmp_path, database_url=url)


@pytest.fixture
def opened(settings: Settings) -> Iterator[Talk]:
    assert operating.rebuild(settings, Then()) == "derived anew for 1 households"
    database = Database(settings.database_url, settings.data)
    talk = Talk(database, now=LEFT_AT)
    yield talk
    database.close()


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def test_the_entries_are_the_same(opened: Talk) -> None:
    entries = opened.entries()
    assert len(entries) == HELD["entries"]
    assert len(valid(entries)) == HELD["valid"]
    home = fold(entries)
    told = {
        plant.name: dict(
            Counter(KINDS[type(one.payload)][0] for one in valid(entries) if one.plant == plant.id)
        )
        for plant in home.plants.values()
    }
    assert told == {name: plant["told"] for name, plant in HELD["plants"].items()}


def test_the_plants_are_the_same(opened: Talk) -> None:
    home = opened.home
    seen = {
        plant.name: (plant.place and home.places[plant.place].name, _day(plant.lost_on))
        for plant in home.plants.values()
    }
    assert seen == {name: (plant["place"], plant["lost_on"]) for name, plant in HELD["plants"].items()}


def test_the_cases_are_the_same(opened: Talk) -> None:
    seen = {
        plant.name: [
            [
                case.pest,
                _day(case.opened_on),
                case in plant.open_cases,
                [[_day(find.on), find.grade.value, find.count] for find in case.finds],
            ]
            for case in plant.cases
        ]
        for plant in opened.home.plants.values()
    }
    assert seen == {name: plant["cases"] for name, plant in HELD["plants"].items()}


def test_the_two_who_share_it_are_the_same(opened: Talk) -> None:
    with opened.database.unit() as store:
        members = [[one.person, one.name, one.is_owner] for one in store.members(HOME)]
    assert members == HELD["members"]


def _questions(talk: Talk) -> list[Question]:
    with talk.database.unit() as store:
        asked = [store.question_by_id(number) for number in range(1, HELD["questions"] + 1)]
    return [one for one in asked if one is not None]


def test_every_button_it_sent_still_decodes_and_has_words(opened: Talk) -> None:
    asked = _questions(opened)
    assert len(asked) == HELD["questions"]
    words = [button_text(choice) for one in asked for choice in one.choices]
    assert len(words) > HELD["questions"]
    assert all(words)


def test_every_button_it_sent_is_answered(opened: Talk) -> None:
    opened.heard = [None] * LAST_UPDATE  # type: ignore[list-item] # update numbers go on where that version was
    answered = [
        opened.press_data(f"q{one.id}.{choice}", person=one.chat)
        for one in _questions(opened)
        for choice in range(len(one.choices))
        if one.chat in {OWNER, PARTNER}
    ]
    assert len(answered) > HELD["questions"]
    assert all("".join(texts).strip() for texts in answered)


def test_the_evenings_go_on_and_name_the_plants_with_cases(opened: Talk) -> None:
    opened.heard = [None] * LAST_UPDATE  # type: ignore[list-item] # as above
    (text, *_) = opened.evening()
    with_cases = [name for name, plant in HELD["plants"].items() if any(case[2] for case in plant["cases"])]
    assert any(name in text for name in with_cases)
    assert (opened.now.date() - LEFT_AT.date()).days <= 7
    assert "".join(opened.say("what's due")).strip()
    assert re.search(r"\bhoya\b", "".join(opened.say("history")))


def test_what_is_told_next_stands_beside_what_was(opened: Talk) -> None:
    opened.heard = [None] * LAST_UPDATE  # type: ignore[list-item] # as above
    opened.say("hoya 2 longtailed mealybugs")
    assert len(opened.entries()) > HELD["entries"]
    assert load().knowledge.pests["longtailed_mealybug"].name in "".join(opened.say("why hoya"))
