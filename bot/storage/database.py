"""The database of one running bot: opened and migrated once, then units of work until it is closed."""

import logging
import sqlite3
from collections.abc import Container, Iterator, Mapping
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from pathlib import Path

from sqlalchemy import exc as sa_exc
from sqlalchemy import text

from bot.storage.backup import back_up, check, copies, copies_by_hand, made_at
from bot.storage.engine import open_engine, sqlite_file
from bot.storage.erasing import Erasures, forget_settled
from bot.storage.failure import NotNowError, StoreError, is_for_now
from bot.storage.journal_cache import JournalCache
from bot.storage.migrate import migrate, refuse_foreign
from bot.storage.photos import PhotoFolder
from bot.storage.store import SqlStore

logger = logging.getLogger(__name__)

FILE_NAME = "duskround.sqlite"
UNITS_LOGGED = 100
"""So many messages written let the log be copied when it is quiet: some 900 pages. Measured."""
_REVISION = text("SELECT version_num FROM alembic_version")
_TABLES = "SELECT name FROM sqlite_master WHERE type = 'table'"


class Database:
    """Opens at once and migrates; an empty URL is a SQLite file in the data folder."""

    def __init__(self, url: str, data_folder: Path) -> None:
        self._folder = data_folder
        address = url or f"sqlite:///{data_folder / FILE_NAME}"
        self._file = sqlite_file(address)
        self._engine = open_engine(address)
        self._cache = JournalCache()
        self._erasures = Erasures(data_folder)
        self.photos = PhotoFolder(data_folder / "photos")
        self._has_to_forget = True  # as far as anybody knows at a start
        self._logged = 0
        """Units in the log since it was last copied."""
        try:
            self._look_over()
            with self.refusals():
                migrate(self._engine)
        except BaseException:
            self._engine.dispose()
            raise

    @property
    def is_file(self) -> bool:
        """Whether it is a SQLite file, which one process alone uses."""
        return self._engine.dialect.name == "sqlite"

    def _look_over(self) -> None:
        """
        Check a file whose last process did not end by itself: its write-ahead log is still there.

        Another program's is refused before anything is set in it.
        """
        file = self._file
        if file is None or not file.exists():
            return
        if Path(f"{file}-wal").exists():
            try:
                check(file, is_quick=True)
            except NotNowError:
                raise
            except StoreError as error:
                raise self._damaged(str(error)) from error
        with suppress(sqlite3.Error), closing(sqlite3.connect(file, timeout=0)) as connection:
            refuse_foreign([name for (name,) in connection.execute(_TABLES)])

    @contextmanager
    def refusals(self) -> Iterator[None]:
        """Say why the database does not open: not now, or not without somebody's help."""
        try:
            yield
        except sa_exc.DBAPIError as error:
            raise self._refusal(error) from error

    def _refusal(self, error: sa_exc.DBAPIError) -> StoreError:
        reason = str(error.orig).partition("\n")[0]
        if is_for_now(error):
            where = self._engine.url.set(query={}).render_as_string() if self._file is None else self._file
            return NotNowError(f"the database {where} cannot be used now: {reason}")
        return (
            self._damaged(reason) if self._file is not None else StoreError(f"the database refuses: {reason}")
        )

    def _damaged(self, why: str) -> StoreError:
        found = copies(self._folder)
        way_out = (
            f"the newest copy is {found[-1]}: python -m bot restore {found[-1]}"
            if found
            else "there is no copy of it"
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
        self._logged += 1
        for home in store.erased_homes:
            self.photos.forget(home)
        if store.erased or dropped:
            self._empty_log()
        by_hand = copies_by_hand(self._folder) if store.erased else ()
        if by_hand:
            dates = ", ".join(f"{made_at(one):%Y-%m-%d}" for one in by_hand)
            logger.warning("somebody was erased, but not from the copies made by hand: %s", dates)

    def back_up(self, now: datetime, *, is_by_hand: bool = False) -> Path:
        """Copy the running SQLite database into the data folder's backups and give the copy's path."""
        if self._file is None:
            message = "only a SQLite file is backed up here; for PostgreSQL use the server's own tools"
            raise StoreError(message)
        return back_up(self._file, self._folder, now, is_by_hand=is_by_hand)

    def last_backup_at(self, now: datetime) -> datetime | None:
        """Tell when the newest copy in the data folder was made; one dated in the future says nothing."""
        made = [at for at in map(made_at, copies(self._folder)) if at <= now]
        return max(made, default=None)

    def erase_again(self, now: datetime, spared: Mapping[str, Container[int]] | None = None) -> int:
        """Erase again what was erased and came back with a copy, whoever put it there, and count it."""
        with self.refusals(), self._engine.begin() as connection:
            count = self._erasures.replay(connection, now, spared)
        if count:
            self._empty_log()
        return count

    def tidy(self, now: datetime) -> None:
        """Drop what nobody needs any more, rows and pictures."""
        with self.unit() as store:
            store.tidy(now)
            homes = set(store.households())
        self.photos.sweep(homes)
        from bot.storage.restoring import drop_put_aside  # noqa: PLC0415 - once a night

        drop_put_aside(self._file, self._folder, now)
        self._empty_log()

    def copy_log(self) -> None:
        """Copy what SQLite's log has gathered; left to a commit, somebody would wait for it."""
        if self._logged >= UNITS_LOGGED:
            self._checkpoint("PASSIVE")

    def _empty_log(self) -> None:
        """Take what was erased out of SQLite's log too; where somebody reads, the next commit does."""
        self._checkpoint("TRUNCATE")

    def _checkpoint(self, mode: str) -> None:
        self._logged = 0
        if self._file is not None:
            with closing(self._engine.raw_connection()) as connection:
                connection.cursor().execute(f"PRAGMA wal_checkpoint({mode})").close()

    def revision_and_health(self) -> str:
        """Say that the database answers, and by which revision it is; a failure raises."""
        with self._engine.begin() as connection:
            return str(connection.execute(_REVISION).scalar())

    def close(self) -> None:
        self._engine.dispose()
