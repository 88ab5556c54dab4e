import sqlite3
import stat
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory

from bot.actions.incoming import Photo
from bot.domain.fold import fold
from bot.storage.database import FILE_NAME, Database
from bot.storage.engine import open_engine
from bot.storage.failure import StoreError
from bot.storage.migrate import FOLDER, migrate, revisions
from bot.storage.tables import metadata
from tests.journeys.talking import HOME, Talk
from tests.storage.earlier import bring_back
from tests.storage.sample import NOW


def test_the_migrations_make_the_tables(url: str) -> None:
    def is_table_or_column(_item: object, _name: str, kind: str, *_: object) -> bool:
        return kind != "index"

    engine = open_engine(url)
    with engine.begin() as connection:
        options = {"include_object": is_table_or_column}
        assert compare_metadata(MigrationContext.configure(connection, opts=options), metadata) == []
    engine.dispose()


def test_the_newest_file_is_the_head() -> None:
    config = Config()
    config.set_main_option("script_location", str(FOLDER))
    assert ScriptDirectory.from_config(config).get_current_head() == revisions()[-1]


def test_another_programs_tables_are_left_as_they_were(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "shop.sqlite")) as theirs:
        theirs.execute("CREATE TABLE invoice (number INTEGER)")
        before = (tmp_path / "shop.sqlite").read_bytes()
        with pytest.raises(StoreError, match="another program's database: it holds invoice"):
            Database(f"sqlite:///{tmp_path / 'shop.sqlite'}", tmp_path)
        assert (tmp_path / "shop.sqlite").read_bytes() == before


def test_an_empty_database_is_migrated_and_used() -> None:
    engine = open_engine("sqlite://")
    migrate(engine)
    with engine.connect() as connection:
        assert connection.scalar(sa.text("SELECT version_num FROM alembic_version")) == revisions()[-1]
    engine.dispose()


def test_an_empty_server_is_migrated(server: str) -> None:
    engine = open_engine(server)
    with engine.begin() as connection:
        connection.execute(sa.text("DROP SCHEMA public CASCADE"))
        connection.execute(sa.text("CREATE SCHEMA public"))
    migrate(engine)
    with engine.connect() as connection:
        assert connection.scalar(sa.text("SELECT version_num FROM alembic_version")) == revisions()[-1]
    engine.dispose()


def test_a_current_database_starts_without_alembic(empty_file: Path) -> None:
    code = (
        "import sys; from pathlib import Path; from bot.storage.database import Database;"
        f"Database('', Path({str(empty_file.parent)!r})).close();"
        "print([name for name in sys.modules if name.startswith('alembic')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("revision", revisions()[:-1])
def test_every_earlier_revision_comes_up_with_its_data(url: str, tmp_path: Path, revision: str) -> None:
    talk = Talk(Database(url, tmp_path))
    talk.set_up()
    talk.say("hoya 12 longtailed mealybugs in the axils")
    with talk.database.unit() as store:
        (number,) = store.households()
    told, home = talk.entries(number), fold(talk.entries(number))
    assert len(told) > len(HOME)
    talk.database.close()
    engine = open_engine(url)
    with engine.begin() as connection:
        bring_back(connection, revision)
    engine.dispose()
    again = Talk(Database(url, tmp_path), now=talk.now, heard=talk.heard, shown=talk.shown)
    assert again.entries(number) == told
    assert fold(again.entries(number)) == home
    assert again.say("invite")[0].startswith("For one person, once")
    assert again.send(Photo("file", "hoya")) == ["Written: a photo of hoya."]
    again.database.close()


def test_a_newer_database_is_refused_by_both_revisions(url: str, tmp_path: Path) -> None:
    engine = open_engine(url)
    with engine.begin() as connection:
        connection.execute(sa.text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(StoreError, match=rf"revision 9999, .* up to {revisions()[-1]}"):
        Database(url, tmp_path)
    with engine.begin() as connection:
        connection.execute(
            sa.text("UPDATE alembic_version SET version_num = :head"), {"head": revisions()[-1]}
        )
    engine.dispose()


def test_the_file_and_its_folder_are_their_owners_alone(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    database = Database("", folder)
    with database.unit() as unit:
        unit.mark_seen(1, NOW)
    modes = {file.name: stat.S_IMODE(file.stat().st_mode) for file in (folder, *folder.iterdir())}
    database.close()
    assert modes.pop("data") == 0o700
    assert FILE_NAME in modes
    assert set(modes.values()) == {0o600}


def test_sqlite_commits_to_the_disk_and_checks_references(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path / FILE_NAME}")
    pragmas = ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
    with engine.connect() as connection:
        values = [connection.exec_driver_sql(f"PRAGMA {name}").scalar() for name in pragmas]
    engine.dispose()
    assert values == ["wal", 2, 1, 30_000]  # 2 is FULL: https://sqlite.org/pragma.html#pragma_synchronous
