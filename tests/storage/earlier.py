"""Databases as earlier versions left them: the tables that came later taken away again."""

import sqlalchemy as sa

from bot.storage.migrate import revisions

ADDED_BY = {
    "0002": ("TABLE invite",),
    "0003": ("TABLE photo",),
    "0004": (
        "INDEX ix_outbox_to_forget",
        "TABLE about",
        "household.tag",
        "member.tag",
        "member.chosen_at",
        "invite.member",
        "photo.chat",
        "outbox.to_forget",
    ),
    "0005": ("question.answered",),
}
"""Tables, indexes and columns by the revision that added them."""


def bring_back(connection: sa.Connection, revision: str) -> None:
    """Make a current database one of an earlier revision; what the later tables held is gone."""
    for later in reversed(revisions()):
        if later <= revision:
            break
        for added in ADDED_BY[later]:
            table, _, column = added.partition(".")
            drop = f"ALTER TABLE {table} DROP COLUMN {column}" if column else f"DROP {added}"
            connection.execute(sa.text(drop))
    connection.execute(sa.text("UPDATE alembic_version SET version_num = :revision"), {"revision": revision})
