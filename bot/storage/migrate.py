"""Brings the tables up to the program's revision, at every start."""

from collections.abc import Sequence
from pathlib import Path

import sqlalchemy as sa

from bot.storage.failure import StoreError

FOLDER = Path(__file__).parent / "migrations"
MOST_NAMED = 3
_LOCK = sa.text("SELECT pg_advisory_xact_lock(7015021)")


def revisions() -> tuple[str, ...]:
    """Give the revisions this program knows, oldest first: the numbers its migration files begin with."""
    return tuple(sorted(file.stem.partition("_")[0] for file in (FOLDER / "versions").glob("[0-9]*.py")))


def refuse_newer(stored: str) -> None:
    """Raise StoreError where a database is of a revision that this program does not know."""
    known = revisions()
    if stored not in known:
        message = (
            f"the database has revision {stored}, this program knows revisions up to {known[-1]}: "
            "it was written by a newer version; start that version, or restore a backup made before it"
        )
        raise StoreError(message)


def refuse_foreign(names: Sequence[str]) -> None:
    """Raise StoreError where a file holds tables, and none of them is ours."""
    if names and "alembic_version" not in names:
        raise StoreError(f"the file is another program's database: it holds {', '.join(names[:MOST_NAMED])}")


def migrate(engine: sa.Engine) -> None:
    """Migrate to the newest revision; a database from a newer program is refused with StoreError."""
    known = revisions()
    with engine.begin() as connection:
        if _is_current(connection, known):
            return
        if connection.dialect.name == "postgresql":
            connection.execute(_LOCK)
            if _is_current(connection, known):
                return
        _upgrade(connection)


def _is_current(connection: sa.Connection, known: tuple[str, ...]) -> bool:
    stored = _stored_revision(connection)
    if stored is not None:
        refuse_newer(stored)
    return stored == known[-1]


def _stored_revision(connection: sa.Connection) -> str | None:
    names = sa.inspect(connection).get_table_names()
    if "alembic_version" not in names:
        return None
    revision = connection.scalar(sa.text("SELECT version_num FROM alembic_version"))
    return None if revision is None else str(revision)


def _upgrade(connection: sa.Connection) -> None:
    # imported here: 0.1 s and 13 MB that a start without a migration does not pay
    from alembic import command  # noqa: PLC0415
    from alembic.config import Config  # noqa: PLC0415

    config = Config()
    config.set_main_option("script_location", str(FOLDER).replace("%", "%%"))
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
