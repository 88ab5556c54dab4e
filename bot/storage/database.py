"""The database of one running bot: opened and migrated once, then units of work until it is closed."""

from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path

from sqlalchemy import exc as sa_exc
from sqlalchemy import text

from bot.storage.backup import back_up, backed_up_at, check, newest
from bot.storage.engine import open_engine
from bot.storage.erasing import Erasures, forget_settled
from bot.storage.failure import StoreError
from bot.storage.journal_cache import JournalCache
from bot.storage.migrate import migrate
from bot.storage.photos import PhotoFolder
from bot.storage.store import SqlStore

FILE_NAME = "duskround.sqlite"
_REVISION = text("SELECT version_num FROM alembic_version")


class Database:
    """Opens at once and migrates; an empty URL is a SQLite file in the data folder."""

    def __init__(self, url: str, data_folder: Path) -> None:
        self._folder = data_folder
        self._engine = open_engine(url or f"sqlite:///{data_folder / FILE_NAME}")
        self._cache = JournalCache()
        self._erasures = Erasures(data_folder)
        self._photos = PhotoFolder(data_folder / "photos")
        self._has_to_forget = True  # as far as anybody knows at a start
        try:
            self._look_over()
            migrate(self._engine)
        except sa_exc.DatabaseError as error:
            self._engine.dispose()
            if self._file is None:
                raise
            raise self._damaged(str(error.orig)) from error
        except BaseException:
            self._engine.dispose()
            raise

    @property
    def _file(self) -> Path | None:
        name = self._engine.url.database
        is_file = self._engine.dialect.name == "sqlite" and name not in {None, "", ":memory:"}
        return Path(str(name)) if is_file else None

    def _look_over(self) -> None:
        """Check a file whose last process did not end by itself: its write-ahead log is still there."""
        file = self._file
        if file is not None and file.exists() and Path(f"{file}-wal").exists():
            try:
                check(file, is_quick=True)
            except StoreError as error:
                raise self._damaged(str(error)) from error

    def _damaged(self, why: str) -> StoreError:
        copy = newest(self._folder / "backups")
        way_out = (
            "there is no copy of it"
            if copy is None
            else f"the newest copy is {copy}: python -m bot restore {copy}"
        )
        return StoreError(f"the database cannot be used ({why}); {way_out}")

    @contextmanager
    def unit(self) -> Iterator[SqlStore]:
        """Open one transaction: committed at the end, rolled back when the block raises."""
        dropped = 0
        with self._engine.begin() as connection:
            store = SqlStore(connection, self._cache)
            yield store
            store.flush()
            if store.erased or self._has_to_forget:
                dropped, self._has_to_forget = forget_settled(connection)
            if store.erased:  # noted before the commit: a copy restored later must not bring it back
                self._erasures.add(store.erased)
        store.publish()
        for home in store.erased_homes:
            self._photos.forget(home)
        if store.erased or dropped:
            self._empty_log()

    def back_up(self, now: datetime) -> Path:
        """Copy the running SQLite database into the data folder's backups and give the copy's path."""
        if self._file is None:
            message = "only a SQLite file is backed up here; for PostgreSQL use the server's own tools"
            raise StoreError(message)
        return back_up(self._file, self._folder / "backups", now)

    def last_backup_at(self) -> datetime | None:
        """Tell when the newest copy in the data folder was made."""
        copy = newest(self._folder / "backups")
        return None if copy is None else backed_up_at(copy)

    def erase_again(self, now: datetime) -> int:
        """Erase again what was erased and came back with a copy, whoever put it there, and count it."""
        with self._engine.begin() as connection:
            count = self._erasures.replay(connection, now)
        if count:
            self._empty_log()
        return count

    def tidy(self, now: datetime) -> None:
        """Drop what nobody needs any more, rows and pictures."""
        with self.unit() as store:
            store.tidy(now)
            homes = set(store.households())
        self._photos.sweep(homes)
        self._empty_log()

    def _empty_log(self) -> None:
        """Take what was erased out of SQLite's log too; where somebody reads, the next commit does."""
        if self._file is not None:
            with closing(self._engine.raw_connection()) as connection:
                connection.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)").close()

    def revision_and_health(self) -> str:
        """Say that the database answers, and by which revision it is; a failure raises."""
        with self._engine.begin() as connection:
            return str(connection.execute(_REVISION).scalar())

    def close(self) -> None:
        """Close every connection."""
        self._engine.dispose()
