"""A home moves with its photos, comes but once, and a file of nonsense changes nothing."""

import json
import subprocess
import sys
from base64 import b64encode
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from bot.__main__ import main
from bot.domain.identity import HouseholdId, PhotoId
from bot.storage.database import Database
from bot.storage.failure import StoreError
from bot.storage.photos import PhotoFolder
from tests.journeys.talking import Talk
from tests.journeys.test_photos import picture
from tests.storage.conftest import Open
from tests.storage.sample import NOW, named

GREEN, BLUE = picture((0, 120, 0)), picture((0, 0, 200))


def told(database: Database) -> dict[str, Any]:
    """Give a home with two photos, one of which never came, as a document that has been a file."""
    with database.unit() as store:
        founder = store.found_household(42, 42, "Mira", NOW)
        home = founder.household
        for _ in range(3):
            store.new_photo(home, "earlier", "", 42, NOW)
        kept, lost = (store.new_photo(home, name, "", 42, NOW) for name in ("a", "b"))
        store.photo_kept(kept)
        database.photos.keep(home, kept, GREEN)
        store.append(home, [named("ivy")], "update:1", NOW)
        document = store.exported(home, database.photos)
    assert [one["id"] for one in document["photos"] if "content" in one] == [kept]
    assert lost in {one["id"] for one in document["photos"]}
    again: dict[str, Any] = json.loads(json.dumps(document))
    return again


def elsewhere(document: dict[str, Any]) -> dict[str, Any]:
    """Give the same home as if it had been founded in another database."""
    return document | {"founded_at": (NOW - timedelta(days=9)).isoformat()}


def test_photos_come_along_under_new_numbers(database: Database) -> None:
    document = elsewhere(told(database))
    with database.unit() as store:
        number = store.imported(document, None, database.photos, NOW)
        lost = store.lost_photos(number)
        assert number not in {one.household for one in store.wanted_photos(NOW, 100)}
        copied = store.exported(number, database.photos)
    kept = [PhotoId(one["id"]) for one in copied["photos"] if "content" in one]
    assert [database.photos.read(number, photo) for photo in kept] == [GREEN]
    assert len(lost) == len(copied["photos"]) - 1  # what is not in the document is not waited for


def test_a_home_comes_but_once(database: Database) -> None:
    document = told(database)
    with (
        pytest.raises(StoreError, match="this household is here already, as number"),
        database.unit() as store,
    ):
        store.imported(document, None, database.photos, NOW)
    other = elsewhere(document)
    with database.unit() as store:
        store.imported(other, None, database.photos, NOW)
    with pytest.raises(StoreError, match="is here already"), database.unit() as store:
        store.imported(other, None, database.photos, NOW)
    with database.unit() as store:
        assert len(store.households()) == 2


def test_a_document_of_version_1_is_read(database: Database) -> None:
    document = elsewhere(told(database))
    document |= {"version": 1, "photos": [one["id"] for one in document["photos"]]}
    with database.unit() as store:
        number = store.imported(document, None, database.photos, NOW)
        assert len(store.lost_photos(number)) == len(document["photos"])


BROKEN: dict[str, Callable[[dict[str, Any]], object]] = {
    "photo that is none": lambda it: it["photos"][3].update(content=b64encode(b"GIF89a").decode()),
    "photo that is no base64": lambda it: it["photos"][3].update(content="?"),
    "photo without a number": lambda it: it["photos"].append({"content": ""}),
    "account beyond all numbers": lambda it: it["members"][0].update(person=10**30),
    "number beyond all numbers": lambda it: it["journal"][0].update(version=10**30),
    "two members of one account": lambda it: it["members"].append(it["members"][0] | {"id": 9}),
    "day out of the calendar": lambda it: it["journal"][0].update(happened_on="2026-02-31"),
    "instant before all clocks": lambda it: it["journal"][0].update(happened_at="0001-01-01T00:00:00+14:00"),
    "half a letter": lambda it: it["members"][0].update(name="\ud83e"),
    "a zero byte on PostgreSQL": lambda it: it["journal"][0].update(source="a\x00b", plant=77),
    "deep payload": lambda it: it["journal"][0].update(payload=nested(100_000)),
}


def nested(depth: int) -> dict[str, Any]:
    """Give a table in a table in a table."""
    inner: dict[str, Any] = {}
    for _ in range(depth):
        inner = {"of": inner}
    return inner


@pytest.mark.parametrize("what", BROKEN)
def test_a_broken_document_is_refused_in_one_line_and_leaves_nothing(
    database: Database, reopen: Open, what: str
) -> None:
    document = elsewhere(told(database))
    BROKEN[what](document)
    with pytest.raises(StoreError) as refusal, database.unit() as store:
        store.imported(document, None, database.photos, NOW)
    assert "\n" not in str(refusal.value)
    with reopen().unit() as store:
        assert len(store.households()) == 1


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("DUSKROUND_DATA", str(tmp_path / "data"))
    return tmp_path / "data"


def test_the_operator_moves_a_home_with_its_photos(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    database = Database("", data)
    Talk(database).set_up()
    with database.unit() as store:
        photo = store.new_photo(HouseholdId(1), "file", "", 1, NOW)
        store.photo_kept(photo)
    database.photos.keep(HouseholdId(1), photo, BLUE)
    database.close()
    assert main(["export"]) == 0
    (tmp_path / "homes.json").write_text(capsys.readouterr().out, "utf-8")
    monkeypatch.setenv("DUSKROUND_DATA", str(tmp_path / "other"))
    assert main(["import", "homes.json"]) == 0
    assert capsys.readouterr().out == "imported 1 households: 1\n"
    assert PhotoFolder(tmp_path / "other" / "photos").read(HouseholdId(1), PhotoId(1)) == BLUE
    assert main(["import", "homes.json"]) == 1
    assert capsys.readouterr().err == "no import: this household is here already, as number 1\n"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("[" * 100_000, "nested too deeply"),
        ('{"a":' * 100_000, "nested too deeply"),
        ("nonsense", "this is no JSON"),
        ("\x00", "this is no JSON"),
        ("[" + "9" * 5000 + "]", "this is no JSON"),
        ("null", "this is no household exported by Duskround"),
        ("[]", "there is no household in it"),
    ],
)
def test_a_file_of_nonsense_is_one_line(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, why: str
) -> None:
    (tmp_path / "homes.json").write_text(text, "utf-8")
    Database("", data).close()
    before = sorted(data.rglob("*"))
    assert main(["import", "homes.json"]) == 1
    said = capsys.readouterr().err
    assert said.startswith("no import: ")
    assert why in said
    assert said.count("\n") == 1
    assert sorted(data.rglob("*")) == before


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["import", "nowhere.json"], "No such file"),
        (["import", "."], "Is a directory"),
        (["export", "--household", "7"], "there is no household 7"),
        (["export", "--household", str(10**30)], "there is no household"),
        (["restore", "nowhere.sqlite"], "there is no copy at nowhere.sqlite"),
        (["import", "homes.json", "--owner", "-5"], "-5 is no chat account"),
        (["import", "homes.json", "--owner", str(10**30)], "is no chat account"),
    ],
)
def test_a_command_that_cannot_be_is_one_line(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], words: list[str], why: str
) -> None:
    Database("", data).close()
    (tmp_path / "homes.json").write_text("[{}]", "utf-8")
    assert main(words) == 1
    said = capsys.readouterr().err
    assert said.startswith(f"no {words[0]}: ")
    assert why in said
    assert said.count("\n") == 1


def test_phrases_of_nonsense_and_a_situation_nobody_can_read_are_answered(tmp_path: Path) -> None:
    def understood(*words: str, told: bytes) -> tuple[int, bytes, bytes]:
        done = subprocess.run(
            [sys.executable, "-m", "bot", "understand", *words],
            input=told,
            capture_output=True,
            env={"PYTHONIOENCODING": "utf-8:strict", "PATH": ""},
            cwd=Path(__file__).parent.parent.parent,
            timeout=60,
            check=False,
        )
        return done.returncode, done.stdout, done.stderr

    code, out, err = understood(told=b"\xff\xfe\ndone\n")
    assert (code, len(out.splitlines()), err) == (0, 2, b"")
    deep = tmp_path / "deep.toml"
    deep.write_text("a = " + "[" * 50_000, "utf-8")
    code, out, err = understood("--situation", str(deep), told=b"done")
    assert (code, out, err.count(b"\n")) == (2, b"", 1)
