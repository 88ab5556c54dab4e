"""`python -m bot` from the outside: what it says and its exit codes."""

import json
import sqlite3
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.clock import Clock
from bot.conversation import Said
from bot.domain.identity import HouseholdId, PhotoId
from bot.storage.database import FILE_NAME, Database
from bot.storage.failure import StoreError
from bot.storage.locking import running
from bot.storage.photos import PhotoFolder
from tests.journeys.talking import START, Talk
from tests.journeys.test_photos import picture


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("DUSKROUND_DATA", str(tmp_path / "data"))
    monkeypatch.delenv("DUSKROUND_TOKEN", raising=False)
    return tmp_path / "data"


def test_without_a_token_it_says_how_to_get_one(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    assert "python -m demo" in capsys.readouterr().err
    assert not (data / FILE_NAME).exists()


def test_a_backup_by_hand_is_a_whole_database(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    database = Database("", data)
    assert main(["backup"]) == 0
    copy = Path(capsys.readouterr().out.strip())
    database.close()
    assert copy.parent == data / "backups" / "by-hand"
    with sqlite3.connect(copy) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("SELECT count(*) FROM journal").fetchone() == (0,)
    connection.close()


def test_a_backup_that_cannot_be_written_is_named(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    data.mkdir()
    (data / "backups").write_text("a file where the folder should be")
    assert main(["backup"]) == 1
    assert capsys.readouterr().err.startswith("no backup: ")


def founded(data: Path) -> Database:
    """Open a database in which somebody has told something."""
    database = Database("", data)
    talk = Talk(database)
    talk.set_up()
    talk.say("hoya 12 longtailed mealybugs")
    return database


def journal(data: Path) -> list[tuple[object, ...]]:
    """Read the whole journal and when each household is looked at."""
    with sqlite3.connect(data / FILE_NAME) as connection:
        rows = connection.execute("SELECT * FROM journal ORDER BY id").fetchall()
        rows += connection.execute("SELECT id, next_evening_at FROM household ORDER BY id").fetchall()
    connection.close()
    return rows


def test_a_restored_copy_gives_the_identical_journal_and_agenda(
    data: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Clock, "now", lambda _: START.astimezone(UTC))
    founded(data).close()
    before = journal(data)
    assert main(["backup"]) == 0
    copy = capsys.readouterr().out.strip()
    database = Database("", data)
    Talk(database, conversation=Talk(database).conversation, heard=[Said()] * 500).say("ivy 8 spider mites")
    database.close()
    assert journal(data) != before
    assert main(["restore", copy]) == 0
    said = capsys.readouterr().out
    assert said.startswith(f"restored {copy}: 1 households; what was there is now ")
    assert journal(data) == before
    aside = Path(said.strip().rpartition(" is now ")[2])
    assert aside.is_file()  # what was replaced is not lost


def test_a_damaged_copy_is_not_restored(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    founded(data).close()
    before = journal(data)
    for content in (b"", b"no database", b"SQLite format 3\0" + bytes(4000)):
        broken = data / "broken.sqlite"
        broken.write_bytes(content)
        assert main(["restore", str(broken)]) == 1
        assert capsys.readouterr().err.startswith("no restore: ")
        assert journal(data) == before


def test_nothing_is_restored_under_a_running_bot(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    database = founded(data)
    copy = database.back_up(START)
    with running(data, data / FILE_NAME):
        assert main(["restore", str(copy)]) == 1
    assert "stop it first" in capsys.readouterr().err
    database.close()
    assert main(["restore", str(copy)]) == 0


def test_an_erasure_is_done_again_after_a_restore(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    database = founded(data)
    copy = database.back_up(START)
    with database.unit() as store:
        store.forget_household(HouseholdId(1))
    database.close()
    assert main(["restore", str(copy)]) == 0
    assert "0 households" in capsys.readouterr().out
    assert not [row for row in journal(data) if len(row) > 2]


def test_pictures_are_copied_and_come_back(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    database = founded(data)
    with database.unit() as store:
        store.photo_kept(store.new_photo(HouseholdId(1), "file", "", 1, START))
    PhotoFolder(data / "photos").keep(HouseholdId(1), PhotoId(1), picture((0, 120, 0)))
    copy = database.back_up(START)
    database.close()
    PhotoFolder(data / "photos").forget(HouseholdId(1))
    assert main(["restore", str(copy)]) == 0
    assert PhotoFolder(data / "photos").read(HouseholdId(1), PhotoId(1)) == picture((0, 120, 0))
    capsys.readouterr()


def test_rebuild_gives_the_very_same_rows(
    data: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Clock, "now", lambda _: START.astimezone(UTC))
    founded(data).close()
    before = journal(data)
    with sqlite3.connect(data / FILE_NAME) as connection:
        connection.execute("UPDATE household SET next_evening_at = NULL")
    connection.close()
    assert main(["rebuild"]) == 0
    assert capsys.readouterr().out == "derived anew for 1 households\n"
    assert journal(data) == before


@pytest.mark.parametrize("command", ["backup", "rebuild", "export"])
def test_in_a_wrong_folder_nothing_is_done_nor_made(
    data: Path, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    assert main([command]) == 1
    assert capsys.readouterr().err == f"no {command}: there is no database at {data / FILE_NAME}\n"
    assert not data.exists()


def test_a_household_moves_by_export_and_import(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    founded(data).close()
    assert main(["export"]) == 0
    document = capsys.readouterr().out
    file = tmp_path / "homes.json"
    file.write_text(document, "utf-8")
    monkeypatch.setenv("DUSKROUND_DATA", str(tmp_path / "other"))
    assert main(["import", str(file)]) == 0
    assert capsys.readouterr().out == "imported 1 households: 1\n"
    assert [row[4:] for row in journal(tmp_path / "other") if len(row) > 2] == [
        row[4:] for row in journal(data) if len(row) > 2
    ]
    assert main(["export"]) == 0
    assert json.loads(capsys.readouterr().out)[0]["journal"] == json.loads(document)[0]["journal"]


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '[{"format": "other"}]', "[1]"])
def test_a_file_that_is_no_export_is_refused(
    data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str
) -> None:
    file = tmp_path / "homes.json"
    file.write_text(text, "utf-8")
    assert main(["import", str(file)]) == 1
    assert capsys.readouterr().err.startswith("no import: ")
    assert not (data / FILE_NAME).exists() or not journal(data)


def test_a_damaged_database_does_not_start_and_names_its_copy(
    data: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DUSKROUND_TOKEN", "1:abcdef")
    database = founded(data)
    copy = database.back_up(START)
    database.close()
    file = data / FILE_NAME
    file.write_bytes(b"garbage" * 1000)
    assert main(["run"]) == 2
    said = capsys.readouterr().err
    assert "The bot does not start: the database cannot be used" in said
    assert f"python -m bot restore {copy}" in said
    assert main(["restore", str(copy)]) == 0
    Database("", data).close()


def test_a_file_damaged_by_a_crash_is_found_at_the_start(data: Path) -> None:
    founded(data).close()
    file = data / FILE_NAME
    content = bytearray(file.read_bytes())
    content[4096 * 3 : 4096 * 6] = bytes(4096 * 3)
    file.write_bytes(content)
    Path(f"{file}-wal").touch()  # its last process did not end by itself
    with pytest.raises(StoreError, match="cannot be used"):
        Database("", data)


def test_selftest_says_what_to_do(
    data: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    founded(data).close()
    assert main(["selftest"]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("NO  token: DUSKROUND_TOKEN is missing")
    assert "NO  backup: there is none yet: python -m bot backup" in lines
    for name in ("clock", "zones", "disk", "database", "messages", "updates"):
        assert f"ok  {name}" in lines
    main(["backup"])
    capsys.readouterr()
    main(["selftest"])
    assert "ok  backup" in capsys.readouterr().out.splitlines()
    monkeypatch.setattr(Clock, "now", lambda _: datetime(1999, 1, 1, tzinfo=UTC))
    main(["selftest"])
    assert "NO  clock: it shows 1999-01-01" in capsys.readouterr().out
