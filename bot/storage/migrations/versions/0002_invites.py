"""Invitations: one code, one household, once, for two days."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

KEY = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def upgrade() -> None:
    op.create_table(
        "invite",
        sa.Column("code", sa.Text, primary_key=True),
        sa.Column("household", KEY, sa.ForeignKey("household.id"), nullable=False),
        sa.Column("expires_at", sa.DateTime, nullable=False),
        sa.Column("used_at", sa.DateTime),
    )
