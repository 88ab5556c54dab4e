"""Photos: what is to be fetched from the platform, and what has been."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"

KEY = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def upgrade() -> None:
    op.create_table(
        "photo",
        sa.Column("id", KEY, primary_key=True),
        sa.Column("household", KEY, sa.ForeignKey("household.id"), nullable=False),
        sa.Column("file_id", sa.Text, nullable=False),
        sa.Column("album", sa.Text, nullable=False),
        sa.Column("state", sa.Text, nullable=False),
        sa.Column("tries", sa.Integer, nullable=False),
        sa.Column("sent_at", sa.DateTime, nullable=False),
        sa.Column("not_before", sa.DateTime, nullable=False),
        sa.CheckConstraint("state IN ('wanted', 'kept', 'refused')", name="ck_photo_state"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_photo_household", "photo", ["household"])
    op.create_index(
        "ix_photo_wanted",
        "photo",
        ["not_before"],
        sqlite_where=sa.text("state = 'wanted'"),
        postgresql_where=sa.text("state = 'wanted'"),
    )
