"""Puts a copy in the place of the database: checked and brought up to date before anything is touched."""

import os
import secrets
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.domain.value import Value
from bot.storage.backup import STAMP, check, force, mirror, write_copy
from bot.storage.failure import StoreError
from bot.storage.migrate import refuse_newer
from bot.storage.photos import KINDS
from bot.storage.tables import metadata

ASIDE_KEPT = timedelta(days=14)
"""What a restore replaced is dropped after this, as the copies of nights are. Judgement."""
_SIDE_FILES = ("", "-wal", "-shm", "-journal")
_LEAP = 2**32


class Replaced(Value):
    """What stands where a copy is to go: its origin, and the homes and members who live there."""

    origin: str | None = None
    homes: frozenset[int] = frozenset()
    members: frozenset[int] = frozenset()


@contextmanager
def draft_of(copy: Path, file: Path, replaced: Replaced) -> Iterator[Path]:
    """
    Give a checked draft of a copy beside the database; it is gone at the end unless it was put in place.

    StoreError where the copy is damaged, none of ours, of a newer version, or of another bot's database.
    """
    if not copy.is_file():
        raise StoreError(f"there is no copy at {copy}")
    check(copy)
    _check_origin(copy, replaced)
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    draft = file.with_suffix(".restoring")
    try:
        write_copy(copy, draft)
        _leap(draft)
        yield draft
    finally:
        for ending in _SIDE_FILES:
            Path(f"{draft}{ending}").unlink(missing_ok=True)


def look_at(file: Path) -> Replaced:
    """Look at the database that a copy is to replace; what cannot be read is told as nothing."""
    if not file.is_file():
        return Replaced()
    with suppress(sqlite3.Error), closing(sqlite3.connect(file, timeout=30)) as connection:
        homes = frozenset(row[0] for row in connection.execute("SELECT id FROM household"))
        people = frozenset(row[0] for row in connection.execute("SELECT id FROM member WHERE person <> 0"))
        return Replaced(_origin(connection), homes, people)
    return Replaced()


def keep_origin(draft: Path, replaced: Replaced) -> None:
    """Give a draft the origin of what it replaces: a copy of version 0.4 came without one."""
    if replaced.origin is not None:
        with closing(sqlite3.connect(draft)) as connection, connection:
            connection.execute("UPDATE about SET origin = ?", (replaced.origin,))


def put(draft: Path, copy: Path, file: Path, data: Path, now: datetime) -> tuple[Path | None, int]:
    """
    Put the draft and its pictures in place; give where the old ones went, and how many pictures are missing.

    Pictures come from beside the copy, and where that has none from those that were here.
    """
    with closing(sqlite3.connect(draft)) as connection:
        connection.execute("PRAGMA journal_mode=DELETE")
        kept = connection.execute("SELECT household, id FROM photo WHERE state = 'kept'").fetchall()
    photos, new_photos = data / "photos", data / "photos.restoring"
    shutil.rmtree(new_photos, ignore_errors=True)
    found = [_picture(home, number, (copy.with_suffix(".photos"), photos)) for home, number in kept]
    mirror([one for one in found if one is not None], new_photos)
    stamp = f"before-{now.astimezone(UTC).strftime(STAMP)}-{secrets.token_hex(2)}"
    aside = _put_aside(file, file.with_name(f"{file.stem}-{stamp}{file.suffix}")) if file.exists() else None
    draft.replace(file)
    if photos.is_dir():
        photos.rename(data / f"photos-{stamp}")
    if new_photos.is_dir():
        new_photos.rename(photos)
    force(file.parent)
    force(data)
    return aside, found.count(None)


def _put_aside(file: Path, aside: Path) -> Path:
    """Give the database a second name, so that a stop leaves the old or the new one in place."""
    with suppress(sqlite3.Error), closing(sqlite3.connect(file, timeout=30)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    for ending in _SIDE_FILES:
        side = Path(f"{file}{ending}")
        if side.exists():
            try:
                os.link(side, f"{aside}{ending}")
            except OSError:
                shutil.copy2(side, f"{aside}{ending}")
    for ending in _SIDE_FILES[1:]:  # an old log beside the new database would be written into it
        Path(f"{file}{ending}").unlink(missing_ok=True)
    return aside


def drop_put_aside(file: Path | None, data: Path, now: datetime) -> None:
    """Drop what a restore replaced two weeks ago: whoever was erased since must not stay in it for ever."""
    found = [*data.glob("photos-before-*")]
    if file is not None:
        found += file.parent.glob(f"{file.stem}-before-*")
    for one in found:
        with suppress(ValueError):
            stamp = one.name.rpartition("-before-")[2].partition("-")[0].partition(".")[0]
            if now - datetime.strptime(stamp, STAMP).replace(tzinfo=UTC) >= ASIDE_KEPT:
                shutil.rmtree(one) if one.is_dir() else one.unlink()


def hand_to_owner(folder: Path, pattern: str = "**/*") -> None:
    """Give what root made in a service's folder to the folder's owner, who could not open it else."""
    if os.geteuid() != 0 or not folder.is_dir() or (owner := folder.stat()).st_uid == 0:
        return
    for path in folder.glob(pattern):
        if path.lstat().st_uid == 0:
            os.chown(path, owner.st_uid, owner.st_gid, follow_symlinks=False)


def _check_origin(copy: Path, replaced: Replaced) -> None:
    with closing(sqlite3.connect(copy, timeout=30)) as connection:
        tables = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
        if not {"alembic_version", "household", "member", "journal", "outbox"} <= tables:
            raise StoreError(f"{copy} is no database of Duskround")
        refuse_newer(str(connection.execute("SELECT version_num FROM alembic_version").fetchone()[0]))
        origin = _origin(connection)
    if None not in {origin, replaced.origin} and origin != replaced.origin:
        raise StoreError(
            f"{copy} is of another bot's database: to move it here, restore into an empty folder"
        )


def _origin(connection: sqlite3.Connection) -> str | None:
    try:
        found = connection.execute("SELECT origin FROM about").fetchone()
    except sqlite3.OperationalError:  # of version 0.4
        return None
    return None if found is None else str(found[0])


def _leap(draft: Path) -> None:
    """Let numbers go on far from where they were: a button of the replaced days must mean nothing new."""
    leap = secrets.randbelow(_LEAP)
    with closing(sqlite3.connect(draft)) as connection, connection:
        for table in metadata.tables.values():
            if table.dialect_options["sqlite"]["autoincrement"]:
                told = {"name": table.name, "leap": leap}
                if not connection.execute(
                    "UPDATE sqlite_sequence SET seq = seq + :leap WHERE name = :name", told
                ).rowcount:
                    connection.execute("INSERT INTO sqlite_sequence VALUES (:name, :leap)", told)


def _picture(home: int, number: int, folders: tuple[Path, Path]) -> Path | None:
    files = (folder / str(home) / f"{number}{ending}" for folder in folders for ending in KINDS.values())
    return next((file for file in files if file.is_file()), None)
