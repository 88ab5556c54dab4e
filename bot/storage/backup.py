"""Copies of the SQLite database while the bot runs: checked before they count, fourteen kept."""

import os
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from bot.storage.failure import StoreError

_NAMED = "duskround-%Y%m%dT%H%M%SZ"
KEPT = 14
"""Nightly copies kept. Judgement: two weeks."""


def back_up(file: Path, folder: Path, now: datetime) -> Path:
    """Write a checked copy named by its instant and drop the oldest; a damaged copy is refused."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    target = folder / f"{now.astimezone(UTC).strftime(_NAMED)}.sqlite"
    draft = target.with_suffix(".part")
    # VACUUM INTO fills an empty file that is there, so the copy is private from its first byte
    draft.unlink(missing_ok=True)
    os.close(os.open(draft, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600))
    with closing(sqlite3.connect(file, isolation_level=None, timeout=30)) as connection:
        connection.execute("VACUUM INTO ?", (str(draft),))
    _check(draft)
    draft.replace(target)
    for old in sorted(folder.glob("duskround-*.sqlite"))[:-KEPT]:
        old.unlink()
    return target


def backed_up_at(copy: Path) -> datetime:
    """Read the instant a copy is named by."""
    return datetime.strptime(copy.stem, _NAMED).replace(tzinfo=UTC)


def _check(copy: Path) -> None:
    with closing(sqlite3.connect(copy)) as connection:
        verdict = connection.execute("PRAGMA integrity_check").fetchone()[0]
    if verdict != "ok":
        message = f"the copy {copy} is damaged: {verdict}"
        raise StoreError(message)
    with copy.open("rb") as file:
        os.fsync(file.fileno())
