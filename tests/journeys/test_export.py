"""Files to take away, checked by the libraries that read them elsewhere."""

import csv
import io
import json
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import icalendar
import pytest
import recurring_ical_events

from bot.domain.fold import fold
from bot.domain.identity import HouseholdId
from bot.storage.database import Database
from bot.storage.failure import StoreError
from bot.wording.files import harmless
from tests.journeys.talking import PARTNER, Talk

BRUSSELS = ZoneInfo("Europe/Brussels")


def file_of(talk: Talk, text: str) -> bytes:
    """Ask for a file and give it."""
    talk.say(text)
    document = talk.shown[1][-1].document
    assert document is not None
    return document.content


def events(content: bytes) -> dict[str, icalendar.Event]:
    """Give the events of a calendar by their UID."""
    return {str(one["uid"]): one for one in icalendar.Calendar.from_ical(content).walk("VEVENT")}


def test_the_calendar_holds_one_event_for_each_coming_evening(outbreak: Talk) -> None:
    content = file_of(outbreak, "calendar")
    planned = _evenings(outbreak)
    assert len(planned) > 1
    calendar = icalendar.Calendar.from_ical(content)
    start, end = planned[0] - timedelta(days=1), planned[-1] + timedelta(days=1)
    found = recurring_ical_events.of(calendar).between(start, end)
    assert sorted(event.start for event in found) == [
        datetime(*on.timetuple()[:3], 20, tzinfo=BRUSSELS) for on in planned
    ]
    first = min(found, key=lambda event: event.start)
    assert str(first["summary"]) == "Plants: treat 3"
    assert "Wipe hoya, then soap." in str(first["description"])
    assert str(first["dtstart"].params["TZID"]) == "Europe/Brussels"
    assert [str(one["tzid"]) for one in calendar.walk("VTIMEZONE")] == ["Europe/Brussels"]
    assert len(first.walk("VALARM")) == 1
    assert all(len(line) <= 75 for line in content.split(b"\r\n"))  # RFC 5545, 3.1: lines are folded


def _evenings(talk: Talk) -> list[date]:
    with talk.database.unit() as store:
        entries = store.entries(1)  # type: ignore[arg-type]
    from bot.catalogue.load import load  # noqa: PLC0415
    from bot.domain.agenda import plan  # noqa: PLC0415

    return [evening.on for evening in plan(fold(entries), load().knowledge, talk.now.date()).evenings]


def test_a_newer_calendar_updates_and_takes_back_and_never_doubles(outbreak: Talk) -> None:
    before = events(file_of(outbreak, "calendar"))
    outbreak.evening()
    outbreak.say("done")
    outbreak.passes(minutes=5)
    after = events(file_of(outbreak, "calendar"))
    shared = before.keys() & after.keys()
    assert shared
    for uid in shared:
        assert after[uid]["sequence"] > before[uid]["sequence"]
    moved = [uid for uid in before if uid in after and str(after[uid]["status"]) == "CANCELLED"]
    kept = [uid for uid in after if str(after[uid]["status"]) == "CONFIRMED"]
    today = outbreak.now.date().isoformat()
    future = {uid for uid in before if uid[:10] > today}
    assert future <= set(moved) | set(kept)


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("export to csv", "The journal as a table"),
        ("send me the calendar", "No evening is planned"),
        ("how do i export", "Which file?"),
        ("can you send me a calendar file", "No evening is planned"),
        ("give me the json", "Everything told of this home"),
    ],
)
def test_a_file_is_asked_for_in_many_ways(talk: Talk, text: str, answer: str) -> None:
    assert talk.say(text)[0].startswith(answer)


def test_a_calendar_without_plans_says_so(talk: Talk) -> None:
    assert talk.say("calendar") == ["No evening is planned, so the calendar file holds none."]


def test_the_table_names_who_told_what_and_marks_what_was_taken_back(talk: Talk) -> None:
    talk.joins()
    talk.say("hoya 12 longtailed mealybugs in the axils")
    talk.say("ivy clean", person=PARTNER)
    talk.say("orchid clean")
    talk.say("undo")
    rows = list(csv.DictReader(io.StringIO(file_of(talk, "csv").decode("utf-8-sig"))))
    by_plant = {row["plant"]: row for row in rows if row["what"] in {"longtailed mealybug", "none seen"}}
    assert by_plant["hoya"]["who"] == "Ada"
    assert by_plant["hoya"]["details"] == "12; in the axils"
    assert by_plant["ivy"]["who"] == "Bo"
    assert by_plant["moth orchid"]["note"] == "taken back"
    assert {row["day"] for row in rows} == {"2026-05-02"}


@pytest.mark.parametrize("name", ["=SUM(A1)", "+1+1", "-2+3", "@cmd", "\tx"])
def test_no_cell_acts_as_a_formula(name: str) -> None:
    # OWASP, CSV injection: cells that begin with = + - @ or a tab are taken for formulas.
    assert harmless(name) == f"'{name}"
    assert harmless("hoya") == "hoya"


def test_everything_comes_back_the_same_in_another_database(outbreak: Talk, tmp_path: Path) -> None:
    outbreak.evening()
    outbreak.say("done except coffee")
    document = json.loads(file_of(outbreak, "export json"))
    assert not any("person" in member for member in document["members"])
    original = outbreak.entries()
    other = Talk(Database("", tmp_path / "other"), now=outbreak.now, heard=outbreak.heard)
    with other.database.unit() as store:
        store.found_household(5, 5, "Dan", outbreak.now)
        for _ in range(3):  # its numbers are others than where it comes from
            store.new_plant(HouseholdId(1))
        number = store.imported(document, (77, "Cleo"), other.database.photos, outbreak.now)
        copied = store.entries(number)
        assert [member.name for member in store.members(number)] == ["Cleo"]
    assert len(copied) == len(original) - 0
    ours, theirs = fold(original), fold(copied)
    assert [plant.name for plant in theirs.living] == [plant.name for plant in ours.living]
    for left, right in zip(ours.plants.values(), theirs.plants.values(), strict=True):
        assert [(one.on, one.method) for one in right.treatments] == [
            (one.on, one.method) for one in left.treatments
        ]
        assert [(case.pest, case.finds) for case in right.cases] == [
            (case.pest, case.finds) for case in left.cases
        ]
    assert {place.name for place in theirs.places.values()} == {place.name for place in ours.places.values()}
    assert [plant.id for plant in theirs.living] == [plant.id + 3 for plant in ours.living]
    assert other.say("isolated?", person=77)[0].startswith(
        "Still to be set apart: hoya, moth orchid and coffee plant;"
    )
    other.database.close()


@pytest.mark.parametrize(
    "broken",
    [
        [],
        {},
        {"format": "duskround-household", "version": 9},
        {"format": "duskround-household", "version": 1, "members": "x"},
        {"format": "another", "version": 1},
    ],
)
def test_a_foreign_document_is_refused_whole(talk: Talk, broken: object) -> None:
    with pytest.raises(StoreError), talk.database.unit() as store:
        store.imported(broken, (77, "Cleo"), talk.database.photos, talk.now)


def test_a_torn_document_writes_nothing(outbreak: Talk) -> None:
    document = json.loads(file_of(outbreak, "export json"))
    document["founded_at"] = "2020-01-01T00:00:00+00:00"
    document["journal"][-1]["plant"] = 999_999
    with outbreak.database.unit() as store:
        before = store.households()
    with pytest.raises(StoreError, match="names a number 999999"), outbreak.database.unit() as store:
        store.imported(document, (77, "Cleo"), outbreak.database.photos, outbreak.now)
    with outbreak.database.unit() as store:
        assert store.households() == before
