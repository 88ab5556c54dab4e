"""`python -m bot` from the outside: what it says and its exit codes."""

import sqlite3
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.storage.database import FILE_NAME, Database


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
    assert copy.parent == data / "backups"
    with sqlite3.connect(copy) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("SELECT count(*) FROM journal").fetchone() == (0,)
    connection.close()


def test_a_backup_that_cannot_be_written_is_named(data: Path, capsys: pytest.CaptureFixture[str]) -> None:
    data.mkdir()
    (data / "backups").write_text("a file where the folder should be")
    assert main(["backup"]) == 1
    assert capsys.readouterr().err.startswith("no backup was written:")
