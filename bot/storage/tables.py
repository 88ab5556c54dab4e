"""
The tables: identity rows, the journal, and what delivery needs to survive a crash.

Indexes stand in the migrations alone: naming partial ones here would load both databases' dialects at every
start, 40 ms.
"""

import secrets
from datetime import UTC, datetime
from typing import Any

import sqlalchemy as sa

KEY = sa.BigInteger().with_variant(sa.Integer, "sqlite")
"""SQLite numbers rows only in a column typed INTEGER."""
BYTEWISE = sa.Text().with_variant(sa.Text(collation="C"), "postgresql")
"""Text in the order of its bytes on both databases, so that a prefix is a range."""
UNSETTLED = "state IN ('waiting', 'claimed')"
"""Stands in the partial indexes and, word for word, in the queries that are to use them."""


class UtcDateTime(sa.TypeDecorator[datetime]):
    """An instant: aware in, aware UTC out, stored without a zone. A naive value is refused."""

    impl = sa.DateTime
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: sa.Dialect) -> datetime | None:
        """Store UTC."""
        del dialect
        return None if value is None else _in_utc(value)

    def bind_processor(self, dialect: sa.Dialect) -> Any:
        """Write SQLite's text in one step."""
        return _text if dialect.name == "sqlite" else super().bind_processor(dialect)

    def process_result_value(self, value: datetime | None, dialect: sa.Dialect) -> datetime | None:
        """Give back the same instant, aware."""
        del dialect
        return None if value is None else value.replace(tzinfo=UTC)

    def result_processor(self, dialect: sa.Dialect, coltype: object) -> Any:
        """Read it so too: a journal has two instants an entry."""
        return _instant if dialect.name == "sqlite" else super().result_processor(dialect, coltype)


def _in_utc(instant: datetime) -> datetime:
    if instant.tzinfo is None:  # a caller's mistake, never guessed at
        raise ValueError(f"a naive datetime cannot be stored: {instant.isoformat()}")
    return instant.astimezone(UTC).replace(tzinfo=None)


def _text(instant: datetime | None) -> str | None:
    return None if instant is None else _in_utc(instant).isoformat(" ", "microseconds")


def _instant(text: str | None) -> datetime | None:
    return None if text is None else datetime.fromisoformat(f"{text}+00:00")


metadata = sa.MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)


def _of_household(*, nullable: bool = False) -> sa.Column[int]:
    return sa.Column("household", KEY, sa.ForeignKey("household.id"), nullable=nullable)


def _tag() -> sa.Column[str]:
    """Name a row for ever and in every copy, where its number may be given again after a restore."""
    return sa.Column("tag", sa.Text, nullable=False, default=lambda: secrets.token_hex(8))


about = sa.Table("about", metadata, sa.Column("origin", sa.Text, primary_key=True))
"""One row, written with the tables: all copies of one database share its origin, and no other has it."""

household = sa.Table(
    "household",
    metadata,
    sa.Column("id", KEY, primary_key=True),
    sa.Column("founded_at", UtcDateTime, nullable=False),
    sa.Column("next_evening_at", UtcDateTime),
    _tag(),
    # a number is never given twice: outbox keys and buttons carry it
    sqlite_autoincrement=True,
)

member = sa.Table(
    "member",
    metadata,
    sa.Column("id", KEY, primary_key=True),
    _of_household(),
    sa.Column("person", sa.BigInteger, nullable=False),
    sa.Column("chat", sa.BigInteger, nullable=False),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("is_owner", sa.Boolean, nullable=False),
    sa.Column("left_at", UtcDateTime),
    sa.Column("chosen_at", UtcDateTime),
    _tag(),
    sqlite_autoincrement=True,
)


def _identity(name: str) -> sa.Table:
    return sa.Table(
        name, metadata, sa.Column("id", KEY, primary_key=True), _of_household(), sqlite_autoincrement=True
    )


place = _identity("place")
plant = _identity("plant")
product = _identity("product")

journal = sa.Table(
    "journal",
    metadata,
    sa.Column("id", KEY, primary_key=True),
    _of_household(),
    sa.Column("member", KEY, sa.ForeignKey("member.id")),
    sa.Column("plant", KEY, sa.ForeignKey("plant.id")),
    sa.Column("kind", sa.Text, nullable=False),
    sa.Column("version", sa.Integer, nullable=False),
    sa.Column("happened_at", UtcDateTime, nullable=False),
    sa.Column("happened_on", sa.Date, nullable=False),
    sa.Column("recorded_at", UtcDateTime, nullable=False),
    sa.Column("source", sa.Text, nullable=False),
    sa.Column("payload", sa.Text, nullable=False),
    sa.Column("void_of", KEY, sa.ForeignKey("journal.id")),
    sa.CheckConstraint("version >= 1", name="version"),
    sqlite_autoincrement=True,
)

seen = sa.Table(
    "seen",
    metadata,
    sa.Column("update_id", KEY, primary_key=True, autoincrement=False),
    sa.Column("at", UtcDateTime, nullable=False),
)

parked = sa.Table(
    "parked",
    metadata,
    sa.Column("update_id", KEY, primary_key=True, autoincrement=False),
    sa.Column("raw", sa.Text, nullable=False),
    sa.Column("reason", sa.Text, nullable=False),
    sa.Column("at", UtcDateTime, nullable=False),
)

outbox = sa.Table(
    "outbox",
    metadata,
    sa.Column("id", KEY, primary_key=True),
    sa.Column("key", BYTEWISE, nullable=False, unique=True),
    _of_household(nullable=True),
    sa.Column("chat", sa.BigInteger, nullable=False),
    sa.Column("method", sa.Text, nullable=False),
    sa.Column("body", sa.Text, nullable=False),
    sa.Column("state", sa.Text, nullable=False),
    sa.Column("claimed_by", sa.Text),
    sa.Column("lease_until", UtcDateTime),
    sa.Column("tries", sa.Integer, nullable=False),
    sa.Column("not_before", UtcDateTime, nullable=False),
    sa.Column("platform_message_id", sa.BigInteger),
    sa.Column("created_at", UtcDateTime, nullable=False),
    sa.Column("sent_at", UtcDateTime),
    sa.Column("error", sa.Text),
    # the last words to somebody who is forgotten: not kept once they are sent
    sa.Column("to_forget", sa.Boolean, nullable=False, default=False),
    sa.CheckConstraint("state IN ('waiting', 'claimed', 'sent', 'given-up')", name="state"),
    sa.CheckConstraint(
        "state <> 'claimed' OR (claimed_by IS NOT NULL AND lease_until IS NOT NULL)", name="lease"
    ),
    sa.CheckConstraint("tries >= 0", name="tries"),
    sqlite_autoincrement=True,
)

question = sa.Table(
    "question",
    metadata,
    sa.Column("id", KEY, primary_key=True),
    _of_household(),
    sa.Column("chat", sa.BigInteger, nullable=False),
    sa.Column("expecting", sa.Text, nullable=False),
    sa.Column("choices", sa.Text, nullable=False),
    sa.Column("asked_at", UtcDateTime, nullable=False),
    sa.Column("closed_at", UtcDateTime),
    sa.Column("answered", sa.Integer),
    sqlite_autoincrement=True,
)

stranger = sa.Table(
    "stranger",
    metadata,
    sa.Column("person", KEY, primary_key=True, autoincrement=False),
    sa.Column("answered_at", UtcDateTime, nullable=False),
)

invite = sa.Table(
    "invite",
    metadata,
    sa.Column("code", sa.Text, primary_key=True),
    _of_household(),
    sa.Column("expires_at", UtcDateTime, nullable=False),
    sa.Column("used_at", UtcDateTime),
    sa.Column("member", KEY),
)

photo = sa.Table(
    "photo",
    metadata,
    sa.Column("id", KEY, primary_key=True),
    _of_household(),
    sa.Column("file_id", sa.Text, nullable=False),
    sa.Column("album", sa.Text, nullable=False),
    sa.Column("state", sa.Text, nullable=False),
    sa.Column("tries", sa.Integer, nullable=False),
    sa.Column("sent_at", UtcDateTime, nullable=False),
    sa.Column("not_before", UtcDateTime, nullable=False),
    sa.Column("chat", sa.BigInteger),
    sa.CheckConstraint("state IN ('wanted', 'kept', 'refused')", name="state"),
    sqlite_autoincrement=True,
)
