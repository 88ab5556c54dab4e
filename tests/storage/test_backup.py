import shutil
import sqlite3
import stat
import subprocess
import sys
import threading
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from bot.storage.backup import KEPT, back_up, copies, copies_by_hand, hand_on, hand_on_meanwhile, made_at
from bot.storage.database import FILE_NAME, Database
from bot.storage.failure import StoreError
from tests.storage.sample import NOW, found


def test_a_copy_opens_and_holds_everything(tmp_path: Path) -> None:
    database = Database("", tmp_path)
    founder = found(database)
    copy = database.back_up(NOW)
    database.close()
    assert copy.name.startswith("duskround-20260301T190000Z-")
    assert made_at(copy) == NOW
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    restored = Database(f"sqlite:///{copy}", tmp_path)
    with restored.unit() as unit:
        assert unit.members(founder.household) == (founder,)
    restored.close()


def test_fourteen_copies_of_nights_are_kept_and_every_one_by_hand(tmp_path: Path) -> None:
    database = Database("", tmp_path)
    by_hand = [database.back_up(NOW, is_by_hand=True) for _ in range(KEPT + 1)]
    nights = [database.back_up(NOW + timedelta(days=day)) for day in range(KEPT + 2)]
    database.close()
    assert len(set(by_hand)) == KEPT + 1  # also within one second
    assert set(copies_by_hand(tmp_path)) == set(by_hand)
    assert set(copies(tmp_path)) == {*by_hand, *nights[2:]}


def test_copies_dated_in_the_future_stand_in_no_night_s_way(tmp_path: Path) -> None:
    """For a fortnight the clock was a year ahead; the nights after that are kept, and the wrong ones go."""
    database = Database("", tmp_path)
    wrong = [database.back_up(NOW + timedelta(days=365 + day)) for day in range(KEPT)]
    assert database.last_backup_at(NOW) is None
    right = [database.back_up(NOW + timedelta(days=day)) for day in range(KEPT - 1)]
    assert set(copies(tmp_path)) == {*right, wrong[-1]}
    assert database.last_backup_at(NOW + timedelta(days=KEPT)) == NOW + timedelta(days=KEPT - 2)
    database.close()


def test_a_copy_of_the_version_before_counts_too(tmp_path: Path) -> None:
    database = Database("", tmp_path)
    copy = database.back_up(NOW)
    copy.rename(copy.with_name("duskround-20260301T190000Z.sqlite"))
    assert database.last_backup_at(NOW) == NOW
    database.close()


def test_what_a_stopped_copy_left_is_cleared_away(tmp_path: Path) -> None:
    database = Database("", tmp_path)
    first = database.back_up(NOW)
    (first.parent / "duskround-20260301T190000Z-00.part").write_bytes(b"half")
    (first.parent / "duskround-20260301T190000Z-00.photos").mkdir()
    second = database.back_up(NOW)
    database.close()
    assert set(first.parent.iterdir()) == {first, second}


def test_a_copy_that_does_not_fit_on_the_disk_leaves_nothing(tmp_path: Path) -> None:
    Database("", tmp_path).close()
    small = [shutil.which("prlimit") or "prlimit", "--fsize=65536"]  # no file may grow beyond
    done = subprocess.run(
        [*small, sys.executable, "-m", "bot", "backup"],
        capture_output=True,
        text=True,
        env={"DUSKROUND_DATA": str(tmp_path), "PYTHONDONTWRITEBYTECODE": "1"},
        check=False,
    )
    assert (done.returncode, done.stderr.count("\n")) == (1, 1)
    assert not [*(tmp_path / "backups" / "by-hand").iterdir()]


def test_a_damaged_database_gives_no_copy(tmp_path: Path) -> None:
    file = tmp_path / FILE_NAME
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("CREATE TABLE t (a INTEGER NOT NULL)")
        connection.execute("INSERT INTO t VALUES (1)")
        connection.execute("PRAGMA writable_schema=ON")
        connection.execute("UPDATE sqlite_master SET sql='CREATE TABLE t (a INTEGER CHECK (a > 1))'")
        connection.commit()
    with pytest.raises((StoreError, sqlite3.DatabaseError)):
        back_up(file, tmp_path, NOW)
    assert copies(tmp_path) == ()


def test_a_database_in_memory_is_not_backed_up(tmp_path: Path) -> None:
    database = Database("sqlite://", tmp_path)
    with pytest.raises(StoreError, match="only a SQLite file"):
        database.back_up(NOW)
    database.close()


def test_the_operator_s_command_gets_the_copy(tmp_path: Path) -> None:
    copy = tmp_path / "a copy.sqlite"
    copy.write_bytes(b"content")
    script = tmp_path / "carry.py"
    script.write_text(
        "import shutil, sys\nshutil.copyfile(sys.argv[2], sys.argv[1])\nsys.exit(sys.argv[1] == 'no')",
        "utf-8",
    )
    hand_on(copy, f"{sys.executable} {script} {tmp_path / 'elsewhere'}")
    assert (tmp_path / "elsewhere").read_bytes() == b"content"
    with pytest.raises(StoreError, match="but DUSKROUND_COPY_COMMAND ended with 1"):
        hand_on(copy, f"{sys.executable} -c 'import sys; sys.exit(1)'")
    with pytest.raises(StoreError, match="but DUSKROUND_COPY_COMMAND did not run"):
        hand_on(copy, "no-such-program")


def test_a_copy_of_the_night_is_handed_on_beside_the_bot(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    copy = tmp_path / "copy.sqlite"
    copy.write_bytes(b"content")
    before = set(threading.enumerate())
    hand_on_meanwhile(copy, f"cp -t {tmp_path / 'nowhere'}")
    hand_on_meanwhile(
        copy, f"{sys.executable} -c 'import sys, os; os.rename(sys.argv[1], sys.argv[1] + str(1))'"
    )
    for thread in set(threading.enumerate()) - before:
        thread.join(20)
    assert (tmp_path / "copy.sqlite1").read_bytes() == b"content"
    assert [one.message for one in caplog.records] == [
        f"the copy is at {copy}, but DUSKROUND_COPY_COMMAND ended with 1"
    ]
