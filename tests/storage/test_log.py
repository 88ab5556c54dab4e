"""SQLite's log is copied into the file when it is quiet, so that no answer waits for it."""

import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from bot.storage.database import FILE_NAME, UNITS_LOGGED, Database

NOW = datetime(2026, 5, 5, 20, tzinfo=UTC)


def seen_without_log(data: Path, copy: Path) -> int:
    """Count the updates that stand in the file itself."""
    shutil.copy(data / FILE_NAME, copy)
    with closing(sqlite3.connect(copy)) as connection:
        return int(connection.execute("SELECT count(*) FROM seen").fetchone()[0])


def test_the_log_is_copied_when_many_messages_were_written_and_not_by_any_of_them(tmp_path: Path) -> None:
    Database("", tmp_path).close()  # which copies the tables made
    database = Database("", tmp_path)
    before = seen_without_log(tmp_path, tmp_path / "before")
    for number in range(UNITS_LOGGED):
        with database.unit() as store:
            assert store.mark_seen(number, NOW)
    assert seen_without_log(tmp_path, tmp_path / "written") == before == 0
    database.copy_log()
    assert seen_without_log(tmp_path, tmp_path / "copied") == UNITS_LOGGED
    with database.unit() as store:
        assert store.mark_seen(UNITS_LOGGED, NOW)
    database.copy_log()
    assert seen_without_log(tmp_path, tmp_path / "few") == UNITS_LOGGED
    database.close()
