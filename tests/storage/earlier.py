"""Databases as earlier versions left them: the tables that came later taken away again."""

import sqlalchemy as sa

from bot.storage.migrate import revisions

ADDED_BY = {"0002": ("invite",), "0003": ("photo",)}
"""Tables by the revision that added them."""


def bring_back(connection: sa.Connection, revision: str) -> None:
    """Make a current database one of an earlier revision; what the later tables held is gone."""
    for later in reversed(revisions()):
        if later <= revision:
            break
        for table in ADDED_BY[later]:
            connection.execute(sa.text(f"DROP TABLE {table}"))
    connection.execute(sa.text("UPDATE alembic_version SET version_num = :revision"), {"revision": revision})
