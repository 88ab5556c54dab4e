"""Says which data folder and which SQLite file are in use, so that no two bots work at cross purposes."""

import fcntl
import os
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from time import sleep

from bot.storage.failure import NotNowError

LOCK_NAME = "duskround.lock"
LOCK_TRIES, LOCK_TRY_S = 30, 0.1


@contextmanager
def running(data: Path, file: Path | None) -> Iterator[None]:
    """
    Say that a bot runs on a data folder and its SQLite file, as long as the block lasts.

    Several may share a PostgreSQL (file None); two on one SQLite file would take turns at the platform and
    send twice. NotNowError where another one runs, after some seconds' patience for one that is just ending.
    """
    with _locked(data, file, fcntl.LOCK_SH if file is None else fcntl.LOCK_EX, LOCK_TRIES, "another bot"):
        yield


@contextmanager
def alone(data: Path, file: Path) -> Iterator[None]:
    """Make sure that no bot runs on a data folder and its SQLite file, nor starts, while the block lasts."""
    with _locked(data, file, fcntl.LOCK_EX, 0, "a bot"):
        yield


@contextmanager
def _locked(data: Path, file: Path | None, kind: int, tries: int, who: str) -> Iterator[None]:
    # one place told by two paths is one lock: a process would else wait for itself
    locks = {data.resolve() / LOCK_NAME, *([] if file is None else [file.resolve().with_suffix(".lock")])}
    with ExitStack() as held:
        for lock in sorted(locks):
            try:
                lock.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
                descriptor = os.open(lock, os.O_CREAT | os.O_RDWR, 0o600)
            except OSError as error:
                raise NotNowError(f"{lock.parent} cannot be written: {error.strerror}") from error
            held.callback(os.close, descriptor)
            _lock(descriptor, kind, tries, f"{who} is running on {lock.parent}: stop it first")
        yield


def _lock(descriptor: int, kind: int, tries: int, refusal: str) -> None:
    for tries_left in range(tries, -1, -1):
        try:
            fcntl.flock(descriptor, kind | fcntl.LOCK_NB)
        except BlockingIOError as error:
            if not tries_left:
                raise NotNowError(refusal) from error
            sleep(LOCK_TRY_S)
        else:
            return
