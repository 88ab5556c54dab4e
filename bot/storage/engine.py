"""Opens the database so that two writers never lose an update and a commit is on the disk."""

import os
import sqlite3
from pathlib import Path
from typing import Any

import sqlalchemy as sa
from sqlalchemy.pool import PoolProxiedConnection, StaticPool

from bot.storage.failure import NotNowError, StoreError

BUSY_TIMEOUT_S = 30
"""How long a writer waits for another on SQLite. Judgement: far above any unit of work."""
CONNECT_TIMEOUT_S = 10
"""How long a server may take to answer at all. Judgement."""
_PRAGMAS = (
    "PRAGMA journal_mode=WAL",
    "PRAGMA synchronous=FULL",
    "PRAGMA foreign_keys=ON",
    "PRAGMA wal_autocheckpoint=4000",  # pages; sooner it is done where nobody waits, `Database.copy_log`
    "PRAGMA secure_delete=ON",  # what is erased must not stay readable in the file
)


def sqlite_file(url: str) -> Path | None:
    """Give the file of a SQLite address; None for one in memory and for a server."""
    address = _address(url)
    is_file = address.get_backend_name() == "sqlite" and address.database not in {None, "", ":memory:"}
    return Path(str(address.database)).absolute() if is_file else None


def _address(url: str) -> sa.URL:
    try:
        return sa.make_url(url)
    except (sa.exc.ArgumentError, ValueError) as error:
        raise StoreError(f"the database address cannot be read: {error}") from error


def open_engine(url: str) -> sa.Engine:
    """Open a database by its URL: `sqlite:///file`, `sqlite://` in memory, or `postgresql://...`."""
    address = _address(url)
    if address.get_backend_name() == "sqlite":
        return _open_sqlite(address)
    if address.drivername in {"postgresql", "postgres"}:
        address = address.set(drivername="postgresql+psycopg")
    try:
        return sa.create_engine(
            address, pool_pre_ping=True, connect_args={"connect_timeout": CONNECT_TIMEOUT_S}
        )
    except ImportError as error:
        raise StoreError(
            f"PostgreSQL needs a package that is missing ({error.name}): pip install psycopg[binary]"
        ) from error


def _open_sqlite(address: sa.URL) -> sa.Engine:
    options: dict[str, Any] = {}
    if address.database in {None, "", ":memory:"}:
        options["poolclass"] = StaticPool
    else:
        _make_private(Path(str(address.database)))
    engine = sa.create_engine(
        address,
        connect_args={"isolation_level": None, "timeout": BUSY_TIMEOUT_S, "check_same_thread": False},
        **options,
    )
    sa.event.listen(engine, "connect", _set_pragmas)
    # not a "begin" listener: one listener on an engine makes each statement look for all kinds of them,
    # a fifth of the time of a unit
    engine.dialect.do_begin = _begin_immediate  # type: ignore[method-assign]
    return engine


def _make_private(file: Path) -> None:
    """Make the file and its folder for their owner alone; SQLite gives its side files the same mode."""
    try:
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(file, os.O_CREAT | os.O_RDWR, 0o600))
    except OSError as error:
        raise NotNowError(f"the database {file} cannot be written: {error.strerror}") from error


def _set_pragmas(connection: sqlite3.Connection, _record: object) -> None:
    cursor = connection.cursor()
    for pragma in _PRAGMAS:
        cursor.execute(pragma)
    cursor.close()


def _begin_immediate(dbapi_connection: PoolProxiedConnection) -> None:
    # a plain BEGIN would let two units read the same state and one overwrite the other
    cursor = dbapi_connection.cursor()
    cursor.execute("BEGIN IMMEDIATE")
    cursor.close()
