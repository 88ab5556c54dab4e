"""Whole conversations on both databases: word for word the same answers, and the same journal."""

from collections.abc import Iterator
from pathlib import Path

import pytest
import sqlalchemy as sa

from bot.actions.incoming import Photo
from bot.storage.database import Database
from bot.storage.engine import open_engine
from bot.storage.tables import metadata
from tests.journeys.talking import HOME, PARTNER, Talk

TALK = (
    "hoya 12 longtailed mealybugs in the axils",
    "ivy 8 spider mites",
    "got neem concentrate 500 ml, label says 5 ml per litre",
    "mix for tonight",
    "@evening",
    "done except ivy",
    "sprayed the ivy with neem",
    "used 90 ml",
    "that was the small hoya",
    "undo",
    "undo",
    "walk with a lens",
    "none",
    "few",
    "citrus",
    "skip",
    "stop",
    "check every first saturday",
    "@evening",
    "not tonight",
    "@evening",
    "all clean",
    "why more hoya",
    "isolated?",
    "history",
    "hoya 3",
    "quarantine the orchid",
    "work day",
    "done",
    "enough",
    "away until 3 june",
    "back",
    "csv",
    "calendar",
    "settings",
)


@pytest.fixture
def on_postgresql(migrated_server: str, tmp_path: Path) -> Iterator[Talk]:
    """Give a conversation on an empty PostgreSQL whose numbers begin at one."""
    engine = open_engine(migrated_server)
    with engine.begin() as connection:
        tables = ", ".join(table.name for table in metadata.sorted_tables)
        connection.execute(sa.text(f"TRUNCATE {tables} RESTART IDENTITY CASCADE"))
    engine.dispose()
    database = Database(migrated_server, tmp_path)
    yield Talk(database)
    database.close()


def play(talk: Talk) -> list[str]:
    """Say it all and give every answer."""
    said = []
    for text in (*HOME, *TALK):
        said += talk.evening() if text == "@evening" else talk.say(text)
    talk.joins()
    said += talk.say("ivy clean", person=PARTNER)
    said += talk.send(Photo("file", "hoya"))
    said += talk.say("history")
    return said


def test_both_databases_answer_alike_and_keep_the_same_journal(
    stranger_talk: Talk, on_postgresql: Talk
) -> None:
    said = play(stranger_talk)
    assert play(on_postgresql) == said
    assert len(said) > len(TALK)
    kept = [(one.plant, one.happened_at, one.payload, one.void_of) for one in stranger_talk.entries()]
    assert [(one.plant, one.happened_at, one.payload, one.void_of) for one in on_postgresql.entries()] == kept


def test_a_home_moves_from_sqlite_to_postgresql(stranger_talk: Talk, on_postgresql: Talk) -> None:
    play(stranger_talk)
    with stranger_talk.database.unit() as store:
        document = store.exported(store.households()[0], stranger_talk.database.photos)
    with on_postgresql.database.unit() as store:
        number = store.imported(document, None, on_postgresql.database.photos, stranger_talk.now)
    on_postgresql.now = stranger_talk.now
    on_postgresql.heard = list(stranger_talk.heard)
    for text in ("isolated?", "what's due", "why more ivy", "history", "settings", "shelf", "routines"):
        assert on_postgresql.say(text) == stranger_talk.say(text)
    assert len(on_postgresql.entries(number)) == len(stranger_talk.entries())
