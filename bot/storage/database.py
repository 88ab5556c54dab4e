"""The database of one running bot: opened and migrated once, then units of work until it is closed."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from bot.storage.backup import back_up, backed_up_at
from bot.storage.engine import open_engine
from bot.storage.failure import StoreError
from bot.storage.journal_cache import JournalCache
from bot.storage.migrate import migrate
from bot.storage.store import SqlStore

FILE_NAME = "duskround.sqlite"


class Database:
    """Opens at once and migrates; an empty URL is a SQLite file in the data folder."""

    def __init__(self, url: str, data_folder: Path) -> None:
        self._folder = data_folder
        self._engine = open_engine(url or f"sqlite:///{data_folder / FILE_NAME}")
        self._cache = JournalCache()
        try:
            migrate(self._engine)
        except BaseException:
            self._engine.dispose()
            raise

    @contextmanager
    def unit(self) -> Iterator[SqlStore]:
        """Open one transaction: committed at the end, rolled back when the block raises."""
        with self._engine.begin() as connection:
            store = SqlStore(connection, self._cache)
            yield store
        store.publish()

    def back_up(self, now: datetime) -> Path:
        """Copy the running SQLite database into the data folder's backups and give the copy's path."""
        name = self._engine.url.database
        if self._engine.dialect.name != "sqlite" or name in {None, "", ":memory:"}:
            message = "only a SQLite file is backed up here; for PostgreSQL use the server's own tools"
            raise StoreError(message)
        return back_up(Path(str(name)), self._folder / "backups", now)

    def last_backup_at(self) -> datetime | None:
        """Tell when the newest copy in the data folder was made."""
        copies = sorted((self._folder / "backups").glob("duskround-*.sqlite"))
        return backed_up_at(copies[-1]) if copies else None

    def close(self) -> None:
        """Close every connection."""
        self._engine.dispose()
