"""A bot on a fresh SQLite file for every conversation."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.storage.database import FILE_NAME, Database
from tests.journeys.talking import Talk


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("empty")
    Database("", folder).close()
    return folder / FILE_NAME


@pytest.fixture
def stranger_talk(empty_file: Path, tmp_path: Path) -> Iterator[Talk]:
    """Nobody has said anything yet."""
    shutil.copy(empty_file, tmp_path / FILE_NAME)
    database = Database("", tmp_path)
    yield Talk(database)
    database.close()


@pytest.fixture
def talk(stranger_talk: Talk) -> Talk:
    """The home is set up."""
    stranger_talk.set_up()
    return stranger_talk


@pytest.fixture
def outbreak(talk: Talk) -> Talk:
    """Three plants have cases."""
    for text in (
        "hoya 12 longtailed mealybugs in the axils",
        "orchid 3 longtailed mealybugs",
        "coffee 3 longtailed mealybugs",
    ):
        talk.say(text)
    return talk
