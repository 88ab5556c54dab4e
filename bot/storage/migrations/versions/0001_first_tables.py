"""The first tables."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

KEY = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def _key(name: str = "id", *, given: bool = False) -> sa.Column[int]:
    return sa.Column(name, KEY, primary_key=True, autoincrement=not given)


def _refers(name: str, target: str, *, nullable: bool = True) -> sa.Column[int]:
    return sa.Column(name, KEY, sa.ForeignKey(f"{target}.id"), nullable=nullable)


def _told(name: str, kind: Any) -> sa.Column[Any]:
    return sa.Column(name, kind, nullable=False)


def _partial(name: str, table: str, columns: list[str], condition: str, *, unique: bool = False) -> None:
    where = sa.text(condition)
    op.create_index(name, table, columns, unique=unique, sqlite_where=where, postgresql_where=where)


def upgrade() -> None:
    _create_household()
    _create_member()
    for name in ("place", "plant", "product"):
        op.create_table(
            name, _key(), _refers("household", "household", nullable=False), sqlite_autoincrement=True
        )
    _create_journal()
    _create_intake()
    _create_outbox()
    _create_question()


def _create_household() -> None:
    op.create_table(
        "household",
        _key(),
        _told("founded_at", sa.DateTime),
        sa.Column("next_evening_at", sa.DateTime),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_household_next_evening_at", "household", ["next_evening_at"])


def _create_member() -> None:
    op.create_table(
        "member",
        _key(),
        _refers("household", "household", nullable=False),
        _told("person", sa.BigInteger),
        _told("chat", sa.BigInteger),
        _told("name", sa.Text),
        _told("is_owner", sa.Boolean),
        sa.Column("left_at", sa.DateTime),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_member_person", "member", ["person"])
    op.create_index("ix_member_chat", "member", ["chat"])
    _partial("uq_member_household_person", "member", ["household", "person"], "left_at IS NULL", unique=True)


def _create_journal() -> None:
    op.create_table(
        "journal",
        _key(),
        _refers("household", "household", nullable=False),
        _refers("member", "member"),
        _refers("plant", "plant"),
        _told("kind", sa.Text),
        _told("version", sa.Integer),
        _told("happened_at", sa.DateTime),
        _told("happened_on", sa.Date),
        _told("recorded_at", sa.DateTime),
        _told("source", sa.Text),
        _told("payload", sa.Text),
        _refers("void_of", "journal"),
        sa.CheckConstraint("version >= 1", name="version"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_journal_household_id", "journal", ["household", "id"])


def _create_intake() -> None:
    op.create_table("seen", _key("update_id", given=True), _told("at", sa.DateTime))
    op.create_table(
        "parked",
        _key("update_id", given=True),
        _told("raw", sa.Text),
        _told("reason", sa.Text),
        _told("at", sa.DateTime),
    )
    op.create_table("stranger", _key("person", given=True), _told("answered_at", sa.DateTime))


def _create_outbox() -> None:
    bytewise = sa.Text().with_variant(sa.Text(collation="C"), "postgresql")
    op.create_table(
        "outbox",
        _key(),
        sa.Column("key", bytewise, nullable=False, unique=True),
        _refers("household", "household"),
        _told("chat", sa.BigInteger),
        _told("method", sa.Text),
        _told("body", sa.Text),
        _told("state", sa.Text),
        sa.Column("claimed_by", sa.Text),
        sa.Column("lease_until", sa.DateTime),
        _told("tries", sa.Integer),
        _told("not_before", sa.DateTime),
        sa.Column("platform_message_id", sa.BigInteger),
        _told("created_at", sa.DateTime),
        sa.Column("sent_at", sa.DateTime),
        sa.Column("error", sa.Text),
        sa.CheckConstraint("state IN ('waiting', 'claimed', 'sent', 'given-up')", name="state"),
        sa.CheckConstraint(
            "state <> 'claimed' OR (claimed_by IS NOT NULL AND lease_until IS NOT NULL)", name="lease"
        ),
        sa.CheckConstraint("tries >= 0", name="tries"),
        sqlite_autoincrement=True,
    )
    unsettled = "state IN ('waiting', 'claimed')"
    _partial("ix_outbox_due", "outbox", ["not_before", "id"], unsettled)
    _partial("ix_outbox_chat_order", "outbox", ["chat", "id"], unsettled)


def _create_question() -> None:
    op.create_table(
        "question",
        _key(),
        _refers("household", "household", nullable=False),
        _told("chat", sa.BigInteger),
        _told("expecting", sa.Text),
        _told("choices", sa.Text),
        _told("asked_at", sa.DateTime),
        sa.Column("closed_at", sa.DateTime),
        sqlite_autoincrement=True,
    )
    _partial("uq_question_open", "question", ["household", "chat"], "closed_at IS NULL", unique=True)
