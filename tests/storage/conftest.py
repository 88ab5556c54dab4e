"""One database of each kind, empty for every test."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import sqlalchemy as sa

from bot.storage.database import FILE_NAME, Database
from bot.storage.engine import open_engine
from bot.storage.tables import metadata

Open = Callable[[], Database]
KINDS = ("sqlite", "postgresql")


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("empty")
    Database("", folder).close()
    return folder / FILE_NAME


@pytest.fixture(params=KINDS)
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Address of an empty, migrated database."""
    if request.param == "sqlite":
        shutil.copy(request.getfixturevalue("empty_file"), tmp_path / FILE_NAME)
        return f"sqlite:///{tmp_path / FILE_NAME}"
    address: str = request.getfixturevalue("migrated_server")
    engine = open_engine(address)
    with engine.begin() as connection:
        # not TRUNCATE: it makes new files for every table
        for table in reversed(metadata.sorted_tables):
            connection.execute(sa.delete(table))
    engine.dispose()
    return address


@pytest.fixture
def reopen(url: str, tmp_path: Path) -> Iterator[Open]:
    """Open the test's database once more, as another process would."""
    opened: list[Database] = []

    def another() -> Database:
        opened.append(Database(url, tmp_path))
        return opened[-1]

    yield another
    for database in opened:
        database.close()


@pytest.fixture
def database(reopen: Open) -> Database:
    return reopen()
