"""Copies of the SQLite database and its pictures while the bot runs, and the way back."""

import fcntl
import os
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from time import sleep

from bot.storage.failure import StoreError

_NAMED = "duskround-%Y%m%dT%H%M%SZ"
KEPT = 14
"""Nightly copies kept. Judgement: two weeks."""
LOCK_NAME = "duskround.lock"
LOCK_TRIES, LOCK_TRY_S = 30, 0.1
_SIDE_FILES = ("-wal", "-shm", "-journal")


def back_up(file: Path, folder: Path, now: datetime) -> Path:
    """Write a checked copy named by its instant, pictures beside it, and drop the oldest; no damaged one."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    target = folder / f"{now.astimezone(UTC).strftime(_NAMED)}.sqlite"
    draft = target.with_suffix(".part")
    # VACUUM INTO fills an empty file that is there, so the copy is private from its first byte
    draft.unlink(missing_ok=True)
    os.close(os.open(draft, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    with closing(sqlite3.connect(file, isolation_level=None, timeout=30)) as connection:
        connection.execute("VACUUM INTO ?", (str(draft),))
    check(draft)
    with draft.open("rb") as written:
        os.fsync(written.fileno())
    _mirror(file.parent / "photos", target.with_suffix(".photos"))
    draft.replace(target)
    _force(folder)
    for old in sorted(folder.glob("duskround-*.sqlite"))[:-KEPT]:
        old.unlink()
        shutil.rmtree(old.with_suffix(".photos"), ignore_errors=True)
    return target


def restore(copy: Path, file: Path, now: datetime) -> Path | None:
    """
    Put a checked copy in the place of the database, and give where the old one went, None where none was.

    Raises
    ------
    StoreError
        Where the copy is damaged or none, or a bot runs on the folder.
    """
    if not copy.is_file():
        raise StoreError(f"there is no copy at {copy}")
    check(copy)
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    with alone(file.parent):
        draft = file.with_suffix(".restoring")
        shutil.copyfile(copy, draft)
        draft.chmod(0o600)
        with draft.open("rb") as written:
            os.fsync(written.fileno())
        aside = _put_aside(file, now)
        draft.replace(file)
        _force(file.parent)
    _mirror(copy.with_suffix(".photos"), file.parent / "photos")
    return aside


def _put_aside(file: Path, now: datetime) -> Path | None:
    """Move the database out of the way with all that belongs to it: what is replaced is not lost."""
    if not file.exists():
        return None
    aside = file.with_name(
        f"{file.stem}-before-{now.astimezone(UTC).strftime('%Y%m%dT%H%M%SZ')}{file.suffix}"
    )
    for ending in _SIDE_FILES:
        side = Path(f"{file}{ending}")
        if side.exists():
            side.replace(Path(f"{aside}{ending}"))
    file.replace(aside)
    return aside


@contextmanager
def running(folder: Path, *, is_shared: bool = False) -> Iterator[None]:
    """
    Say that a bot runs on a data folder, as long as the block lasts.

    Several may share a PostgreSQL; two on one SQLite file would take turns at the platform and send twice.
    StoreError where another one runs, after some seconds' patience for one that is just ending.
    """
    try:
        descriptor = os.open(folder / LOCK_NAME, os.O_CREAT | os.O_RDWR, 0o600)
    except OSError as error:
        raise StoreError(f"{folder} cannot be written: {error.strerror}") from error
    try:
        _lock(descriptor, fcntl.LOCK_SH if is_shared else fcntl.LOCK_EX, folder)
        yield
    finally:
        os.close(descriptor)


def _lock(descriptor: int, kind: int, folder: Path) -> None:
    for tries_left in range(LOCK_TRIES, -1, -1):
        try:
            fcntl.flock(descriptor, kind | fcntl.LOCK_NB)
        except BlockingIOError as error:
            if not tries_left:
                raise StoreError(f"another bot is running on {folder}: stop it first") from error
            sleep(LOCK_TRY_S)
        else:
            return


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Make sure that no bot runs on a data folder, and none starts, as long as the block lasts."""
    descriptor = os.open(folder / LOCK_NAME, os.O_CREAT | os.O_RDWR, 0o600)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        os.close(descriptor)
        raise StoreError(f"a bot is running on {folder}: stop it first") from error
    try:
        yield
    finally:
        os.close(descriptor)


def newest(folder: Path) -> Path | None:
    """Give the newest copy of a backup folder."""
    copies = sorted(folder.glob("duskround-*.sqlite"))
    return copies[-1] if copies else None


def backed_up_at(copy: Path) -> datetime:
    """Read the instant a copy is named by."""
    return datetime.strptime(copy.stem, _NAMED).replace(tzinfo=UTC)


def check(file: Path, *, is_quick: bool = False) -> None:
    """Raise StoreError where a database file is damaged or none."""
    if not file.stat().st_size:
        raise StoreError(f"{file} is empty")  # for SQLite an empty file is a whole database
    try:
        with closing(sqlite3.connect(file, timeout=30)) as connection:
            verdict = connection.execute(
                f"PRAGMA {'quick' if is_quick else 'integrity'}_check(1)"
            ).fetchone()[0]
    except sqlite3.DatabaseError as error:
        raise StoreError(f"{file} is damaged or no database: {error}") from error
    if verdict != "ok":
        raise StoreError(f"{file} is damaged: {verdict}")


def _mirror(source: Path, target: Path) -> None:
    """Give a folder of pictures a twin: a second name of the same file where the disk can, else a copy."""
    if not source.is_dir():
        return
    for file in source.glob("*/*"):
        twin = target / file.parent.name / file.name
        if file.suffix == ".part" or twin.exists():
            continue
        twin.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        try:
            os.link(file, twin)
        except OSError:
            shutil.copyfile(file, twin)
            twin.chmod(0o600)


def _force(folder: Path) -> None:
    """Force a folder's names to the disk, where it can be: a renamed file is there after a power cut."""
    with suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)
