"""
Statements that every message makes, compiled once.

On SQLite a call through the library takes five times what the database takes for it, so these go to the
driver by the library's own text and types. On PostgreSQL, over a network, the library makes each call.
"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import sqlalchemy as sa

from bot.domain.value import Value

_Rows = Sequence[Sequence[Any]]
_Values = Mapping[str, Any]
_Convert = Callable[[Any], Any]


class _Driven(Value):
    """A statement as the driver is told it."""

    text: str
    binds: tuple[tuple[str, Any, _Convert | None], ...]
    """What stands at each place: the value's name, what it is by itself, how it is stored."""
    reads: tuple[tuple[int, _Convert], ...]
    """The places of a row that are read otherwise than they are stored."""

    def placed(self, values: _Values) -> list[Any]:
        placed = []
        for name, own, store in self.binds:
            value = values.get(name, own)
            placed.append(value if store is None else store(value))
        return placed

    def read(self, row: Sequence[Any]) -> Sequence[Any]:
        row = list(row)
        for place, read in self.reads:
            row[place] = read(row[place])
        return row


class Prepared:
    """One statement; of an insert also the columns that a row is told with."""

    def __init__(self, statement: Any, columns: Sequence[str] = ()) -> None:
        self._statement = statement
        self._columns = columns
        self._driven: _Driven | None = None

    def rows(self, connection: sa.Connection, values: _Values) -> _Rows:
        found: _Rows = self._run(connection, values).fetchall()
        driven = self._for(connection)
        return found if driven is None or not driven.reads else [driven.read(row) for row in found]

    def write(self, connection: sa.Connection, values: _Values) -> int:
        return int(self._run(connection, values).rowcount)

    def write_many(self, connection: sa.Connection, many: Sequence[_Values]) -> None:
        driven = self._for(connection)
        if driven is None:
            connection.execute(self._statement, many)
        else:
            _driver(connection).executemany(driven.text, [driven.placed(one) for one in many])

    def insert(self, connection: sa.Connection, values: _Values) -> int:
        done = self._run(connection, values)
        if not isinstance(done, sa.CursorResult):
            return int(done.lastrowid)
        key: Any = done.inserted_primary_key
        return int(key[0])

    def _run(self, connection: sa.Connection, values: _Values) -> Any:
        driven = self._for(connection)
        if driven is None:
            return connection.execute(self._statement, values)
        return _driver(connection).execute(driven.text, driven.placed(values))

    def _for(self, connection: sa.Connection) -> _Driven | None:
        if connection.dialect.name != "sqlite":
            return None
        if self._driven is None:
            self._driven = _driven(self._statement, self._columns, connection.dialect)
        return self._driven


def inserted(connection: sa.Connection, table: sa.Table, row: _Values) -> int:
    """Insert a row that is seldom written, and give its number."""
    key: Any = connection.execute(sa.insert(table), row).inserted_primary_key
    return int(key[0])


def _driver(connection: sa.Connection) -> Any:
    return connection.connection.dbapi_connection  # a cursor by way of the pool takes as long as a statement


def _driven(statement: Any, columns: Sequence[str], dialect: sa.Dialect) -> _Driven:
    compiled = statement.compile(dialect=dialect, column_keys=list(columns) or None)
    told = [(name, compiled.binds[name]) for name in compiled.positiontup]
    binds = [(name, one.value, one.type.dialect_impl(dialect).bind_processor(dialect)) for name, one in told]
    given = statement.selected_columns if isinstance(statement, sa.Select) else ()
    reads = [one.type.dialect_impl(dialect).result_processor(dialect, None) for one in given]
    return _Driven(
        str(compiled), tuple(binds), tuple((at, read) for at, read in enumerate(reads) if read is not None)
    )
