import contextlib
import sqlite3
from datetime import UTC, datetime, timedelta, timezone

import pytest
import sqlalchemy as sa
from sqlalchemy.exc import IntegrityError, StatementError

from bot.domain.identity import HouseholdId, PlantId
from bot.domain.journal import Voided
from bot.storage.database import Database
from tests.storage.sample import NOW, draft, found

NOBODY = 10**9
REFUSED = (IntegrityError, sqlite3.IntegrityError)
"""As the library says it, and as the driver does."""


def test_a_naive_instant_is_refused(database: Database) -> None:
    with (
        pytest.raises((StatementError, ValueError), match="naive datetime cannot be stored: 2026-03-01"),
        database.unit() as unit,
    ):
        unit.mark_seen(1, datetime(2026, 3, 1, 19, 0))  # noqa: DTZ001


def test_an_instant_comes_back_aware_and_in_utc(database: Database) -> None:
    home = found(database).household
    ghent_summer = timezone(timedelta(hours=2))
    with database.unit() as unit:
        unit.set_next_evening(home, datetime(2026, 7, 1, 21, 30, 5, 250, tzinfo=ghent_summer))
    with database.unit() as unit:
        at = unit.earliest_evening()
    assert at == datetime(2026, 7, 1, 19, 30, 5, 250, tzinfo=UTC)
    assert at is not None
    assert at.tzinfo is UTC


def test_an_entry_of_no_household_is_refused(database: Database) -> None:
    with pytest.raises(REFUSED), database.unit() as unit:
        unit.append(HouseholdId(NOBODY), [draft(Voided())], "update:1", NOW)


def test_an_entry_on_no_plant_is_refused(database: Database) -> None:
    home = found(database).household
    with pytest.raises(REFUSED), database.unit() as unit:
        unit.append(home, [draft(Voided(), plant=PlantId(NOBODY))], "update:1", NOW)


def test_a_claimed_row_needs_a_lease(database: Database) -> None:
    rows: list[tuple[str, int, str, dict[str, str]]] = [("reply:1:0", 42, "sendMessage", {})]
    with pytest.raises(REFUSED), database.unit() as unit:
        unit.queue_claimed(rows, NOW, "me", None)  # type: ignore[arg-type]


def test_a_failed_unit_leaves_nothing(database: Database) -> None:
    with contextlib.suppress(ZeroDivisionError), database.unit() as unit:
        unit.mark_seen(1, NOW)
        raise ZeroDivisionError
    with database.unit() as unit:
        assert unit.mark_seen(1, NOW)


def test_numbers_are_not_given_twice_after_a_deletion(database: Database, url: str) -> None:
    first = found(database).household
    engine = sa.create_engine(url.replace("postgresql:", "postgresql+psycopg:"))
    with engine.begin() as connection:
        connection.execute(sa.text("DELETE FROM member"))
        connection.execute(sa.text("DELETE FROM household"))
    engine.dispose()
    assert found(database).household > first
