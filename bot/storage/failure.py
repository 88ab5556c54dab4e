"""How the store fails: by its own contents, or for now by the disk or the server."""

import errno
import sqlite3

from sqlalchemy.exc import OperationalError

_SYSTEM = frozenset(
    {errno.ENOSPC, errno.EDQUOT, errno.EIO, errno.EROFS, errno.EBUSY, errno.EADDRINUSE, errno.EADDRNOTAVAIL}
)
"""A disk or an address of the machine that somebody else has now."""
_SQLITE = frozenset(
    {
        sqlite3.SQLITE_BUSY,
        sqlite3.SQLITE_LOCKED,
        sqlite3.SQLITE_READONLY,
        sqlite3.SQLITE_IOERR,
        sqlite3.SQLITE_FULL,
        sqlite3.SQLITE_CANTOPEN,
        sqlite3.SQLITE_PROTOCOL,
    }
)
_PRIMARY = 0xFF
"""The low byte of SQLite's extended codes is the primary one (https://sqlite.org/rescode.html)."""


class StoreError(Exception):
    """The database holds something this program cannot use; the message says what and where."""


class NotNowError(StoreError):
    """Nothing is wrong with the database, but it cannot be used at this moment; the message says why."""


def is_for_now(error: BaseException) -> bool:
    """Whether the disk is full, the file locked or the server gone: the same may work later."""
    if isinstance(error, OperationalError):
        cause = error.orig
        return is_for_now(cause) if isinstance(cause, sqlite3.Error) else True
    if isinstance(error, sqlite3.OperationalError):
        return getattr(error, "sqlite_errorcode", 0) & _PRIMARY in _SQLITE
    return isinstance(error, NotNowError) or (isinstance(error, OSError) and error.errno in _SYSTEM)
