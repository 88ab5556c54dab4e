"""
Notes of what was sent, on the spot: a process killed before its next transaction sends nothing twice.

A note is an appended line, given to the system but not forced to the disk: it outlives a killed process, and
a power cut costs at worst an answer sent twice. Each process has a file of its own and holds a lock on it.
"""

import fcntl
import json
import os
import secrets
from contextlib import suppress
from pathlib import Path

from bot.domain.value import Value

SUFFIX = ".sent"


class Note(Value):
    """An outbox row that the platform took; the key tells rows of another database apart."""

    row: int
    key: str
    message: int | None


class SentNotes:
    """The notes of this process, and those that ended ones left behind."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._file = folder / f"{os.getpid()}-{secrets.token_hex(4)}{SUFFIX}"
        # locked before it has its name, so that no other process can take a living one for ended
        unnamed = self._file.with_suffix(".new")
        self._descriptor = os.open(unnamed, os.O_CREAT | os.O_WRONLY | os.O_APPEND, 0o600)
        fcntl.flock(self._descriptor, fcntl.LOCK_EX)
        unnamed.rename(self._file)
        self._is_empty = True

    def add(self, note: Note) -> None:
        line = json.dumps([note.row, note.key, note.message]) + "\n"
        with suppress(OSError):  # a full disk: the worst is an answer sent twice
            os.write(self._descriptor, line.encode())
        self._is_empty = False

    def clear(self) -> None:
        """Forget the notes of this process: the database knows them all."""
        if not self._is_empty:
            os.ftruncate(self._descriptor, 0)
            self._is_empty = True

    def left_behind(self) -> dict[Path, list[Note]]:
        """Read the notes of processes that ended, by file; one that another process took away is settled."""
        left = {}
        for file in sorted(self._folder.glob(f"*{SUFFIX}")):
            with suppress(FileNotFoundError):
                if file != self._file and not _is_in_use(file):
                    left[file] = _notes(file)
        return left

    def close(self) -> None:
        """Let go of the file; one with notes stays for the next start."""
        if self._is_empty:
            self._file.unlink(missing_ok=True)
        os.close(self._descriptor)


def _is_in_use(file: Path) -> bool:
    descriptor = os.open(file, os.O_RDONLY)
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return True
    finally:
        os.close(descriptor)
    return False


def _notes(file: Path) -> list[Note]:
    """Read whole lines; the last one may have been cut."""
    lines = file.read_text("utf-8", errors="replace").split("\n")[:-1]
    return [note for line in lines if (note := _note(line)) is not None]


def _note(line: str) -> Note | None:
    try:
        row, key, message = json.loads(line)
    except ValueError:
        return None
    if not (isinstance(row, int) and isinstance(key, str) and isinstance(message, int | None)):
        return None
    return Note(row, key, message)
