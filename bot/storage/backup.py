"""Copies of the SQLite database and its pictures while the bot runs: of each night, and by hand."""

import logging
import os
import re
import secrets
import shlex
import shutil
import sqlite3
import subprocess
from collections.abc import Iterable
from contextlib import closing, suppress
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

from bot.storage.failure import NotNowError, StoreError, is_for_now

logger = logging.getLogger(__name__)

STAMP = "%Y%m%dT%H%M%SZ"
KEPT = 14
"""Copies of nights kept. Judgement: two weeks."""
LONGEST_COMMAND_S = 3600
_STAMPED = re.compile(r"duskround-(\d{8}T\d{6}Z)")


def back_up(file: Path, data: Path, now: datetime, *, is_by_hand: bool = False) -> Path:
    """
    Write a checked copy named by its instant, pictures beside it; no damaged one.

    Of the copies of nights the oldest are dropped, and those dated in the future before them: a clock that
    was wrong for a night must not stand in the way of the right ones. Copies by hand are nobody's to drop.
    """
    folder = _by_hand(data) if is_by_hand else data / "backups"
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    target = folder / f"duskround-{now.astimezone(UTC).strftime(STAMP)}-{secrets.token_hex(2)}.sqlite"
    draft = target.with_suffix(".part")
    for left in folder.glob("*.part"):  # by a copy that was stopped
        left.unlink()
    try:
        write_copy(file, draft)
    except BaseException:
        draft.unlink(missing_ok=True)  # on a full disk it would keep it full, and whoever is erased later
        raise
    mirror(_pictures(data / "photos"), target.with_suffix(".photos"))
    draft.replace(target)
    force(folder)
    if not is_by_hand:
        others = sorted(set(folder.glob("duskround-*.sqlite")) - {target}, key=lambda one: _rank(one, now))
        for old in others[: 1 - KEPT]:
            old.unlink()
        for photos in folder.glob("duskround-*.photos"):
            if not photos.with_suffix(".sqlite").exists():
                shutil.rmtree(photos, ignore_errors=True)
    return target


def hand_on(copy: Path, command: str) -> None:
    """Run the operator's command with a new copy's path as its last word: to encrypt it, or carry it away."""
    try:
        done = subprocess.run(  # noqa: S603 - the operator's own command
            [*shlex.split(command), str(copy)], capture_output=True, timeout=LONGEST_COMMAND_S, check=False
        )
    except (OSError, ValueError, subprocess.TimeoutExpired) as error:
        raise StoreError(f"the copy is at {copy}, but DUSKROUND_COPY_COMMAND did not run: {error}") from error
    if done.returncode:
        raise StoreError(f"the copy is at {copy}, but DUSKROUND_COPY_COMMAND ended with {done.returncode}")


def hand_on_meanwhile(copy: Path, command: str) -> None:
    """Run the operator's command beside the bot, which waits for nobody's upload; a failure is logged."""

    def carry() -> None:
        try:
            hand_on(copy, command)
        except StoreError as error:
            logger.error("%s", error)  # noqa: TRY400 - all that is to be said

    Thread(target=carry, daemon=True).start()


def copies(data: Path) -> tuple[Path, ...]:
    """Give the copies there are, of nights and by hand, oldest first."""
    found = (*(data / "backups").glob("duskround-*.sqlite"), *copies_by_hand(data))
    return tuple(sorted((one for one in found if _STAMPED.match(one.name)), key=lambda one: one.name))


def copies_by_hand(data: Path) -> tuple[Path, ...]:
    """Give the copies made by hand, oldest first: nobody drops them, so the erased stay in them."""
    return tuple(sorted(one for one in _by_hand(data).glob("duskround-*.sqlite") if _STAMPED.match(one.name)))


def made_at(copy: Path) -> datetime:
    """Read the instant a copy is named by."""
    stamped = _STAMPED.match(copy.name)
    if stamped is None:
        raise ValueError(f"{copy} carries no instant in its name")
    return datetime.strptime(stamped[1], STAMP).replace(tzinfo=UTC)


def write_copy(source: Path, target: Path) -> None:
    """Copy a database, its log included, into a new private file on the disk, and check the copy."""
    # VACUUM INTO fills an empty file that is there, so the copy is private from its first byte
    target.unlink(missing_ok=True)
    os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    with closing(sqlite3.connect(source, isolation_level=None, timeout=30)) as connection:
        connection.execute("VACUUM INTO ?", (str(target),))
    check(target)
    with target.open("rb") as written:
        os.fsync(written.fileno())


def check(file: Path, *, is_quick: bool = False) -> None:
    """Raise StoreError where a database file is damaged or none, NotNowError where it cannot be read now."""
    if not file.stat().st_size:
        raise StoreError(f"{file} is empty")  # for SQLite an empty file is a whole database
    try:
        with closing(sqlite3.connect(file, timeout=30)) as connection:
            verdict = connection.execute(
                f"PRAGMA {'quick' if is_quick else 'integrity'}_check(1)"
            ).fetchone()[0]
    except sqlite3.DatabaseError as error:
        if is_for_now(error):
            raise NotNowError(f"{file} cannot be read: {error}") from error
        raise StoreError(f"{file} is damaged or no database: {error}") from error
    if verdict != "ok":
        raise StoreError(f"{file} is damaged: {verdict}")


def mirror(pictures: Iterable[Path], target: Path) -> None:
    """Give pictures a twin in a folder: a second name of the same file where the disk can, else a copy."""
    for file in pictures:
        twin = target / file.parent.name / file.name
        if twin.exists():
            continue
        twin.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        try:
            os.link(file, twin)
        except OSError:
            shutil.copyfile(file, twin)
            twin.chmod(0o600)


def force(folder: Path) -> None:
    """Force a folder's names to the disk, where it can be: a renamed file is there after a power cut."""
    with suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def _by_hand(data: Path) -> Path:
    return data / "backups" / "by-hand"


def _pictures(folder: Path) -> Iterable[Path]:
    return (file for file in folder.glob("*/*") if file.suffix != ".part")


def _rank(copy: Path, now: datetime) -> tuple[bool, str]:
    return made_at(copy) <= now, copy.name
