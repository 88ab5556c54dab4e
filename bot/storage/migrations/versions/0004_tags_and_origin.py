"""What tells a database, a home and a member from every other; who invited; whose photo; what is not kept."""

import secrets

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"

KEY = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def upgrade() -> None:
    about = op.create_table("about", sa.Column("origin", sa.Text, primary_key=True))
    op.bulk_insert(about, [{"origin": secrets.token_hex(8)}])
    for table, facts in (("household", "founded_at"), ("member", "household")):
        op.add_column(table, sa.Column("tag", sa.Text, nullable=False, server_default=""))
        # not random: a copy made before must bring its homes and members under the same tags
        op.execute(f"UPDATE {table} SET tag = '{table}:' || id || '@' || {facts}")  # noqa: S608 - our own words
    op.add_column("member", sa.Column("chosen_at", sa.DateTime))
    op.add_column("invite", sa.Column("member", KEY))
    op.add_column("photo", sa.Column("chat", sa.BigInteger))
    op.add_column("outbox", sa.Column("to_forget", sa.Boolean, nullable=False, server_default=sa.false()))
    where = sa.text("to_forget")
    op.create_index("ix_outbox_to_forget", "outbox", ["id"], sqlite_where=where, postgresql_where=where)
