import sqlite3
import stat
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from bot.storage.backup import KEPT, back_up
from bot.storage.database import FILE_NAME, Database
from bot.storage.failure import StoreError
from tests.storage.sample import NOW, found


def test_a_copy_opens_and_holds_everything(tmp_path: Path) -> None:
    database = Database("", tmp_path)
    founder = found(database)
    copy = database.back_up(NOW)
    database.close()
    assert copy.name == "duskround-20260301T190000Z.sqlite"
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    restored = Database(f"sqlite:///{copy}", tmp_path)
    with restored.unit() as unit:
        assert unit.members(founder.household) == (founder,)
    restored.close()


def test_fourteen_copies_are_kept(tmp_path: Path) -> None:
    database = Database("", tmp_path)
    copies = [database.back_up(NOW + timedelta(days=day)) for day in range(KEPT + 2)]
    database.close()
    assert sorted((tmp_path / "backups").iterdir()) == copies[2:]


def test_a_damaged_database_gives_no_copy(tmp_path: Path) -> None:
    file = tmp_path / FILE_NAME
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("CREATE TABLE t (a INTEGER NOT NULL)")
        connection.execute("INSERT INTO t VALUES (1)")
        connection.execute("PRAGMA writable_schema=ON")
        connection.execute("UPDATE sqlite_master SET sql='CREATE TABLE t (a INTEGER CHECK (a > 1))'")
        connection.commit()
    with pytest.raises((StoreError, sqlite3.DatabaseError)):
        back_up(file, tmp_path / "backups", NOW)
    assert list((tmp_path / "backups").glob("*.sqlite")) == []


def test_a_database_in_memory_is_not_backed_up(tmp_path: Path) -> None:
    database = Database("sqlite://", tmp_path)
    with pytest.raises(StoreError, match="only a SQLite file"):
        database.back_up(NOW)
    database.close()
