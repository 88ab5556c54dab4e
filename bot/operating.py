"""What an operator does by hand: restore, rebuild, export, import, selftest, health."""

import json
import shutil
import urllib.error
import urllib.request
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.actions.send_evening import derive_evening
from bot.catalogue.load import load
from bot.clock import Clock
from bot.domain.identity import HouseholdId
from bot.settings import Settings
from bot.storage import backup, restoring
from bot.storage.database import Database
from bot.storage.engine import sqlite_file
from bot.storage.failure import StoreError
from bot.storage.locking import alone

WELL, UNWELL = 0, 1
LEAST_FREE_BYTES = 200_000_000
OLDEST_BACKUP = timedelta(hours=48)
LONGEST_WAIT = timedelta(minutes=10)
MOST_ACCOUNT = 2**52
"""Numbers of chat accounts are below this (https://core.telegram.org/bots/api#user)."""
EARLIEST_YEAR = 2026
_ZONES = ("UTC", "Europe/Brussels", "America/New_York", "Asia/Kolkata", "Australia/Lord_Howe", "Pacific/Apia")


def database_file(settings: Settings) -> Path:
    """Give the file of the SQLite database; StoreError for PostgreSQL, which has tools of its own."""
    file = sqlite_file(settings.database)
    if file is None:
        raise StoreError(
            "only a SQLite file is copied and restored here; for PostgreSQL use the server's own tools"
        )
    return file


def hand_to_owner(settings: Settings) -> None:
    """Give what root made here to the account the bot runs as, which could not open it else."""
    restoring.hand_to_owner(settings.data)
    file = sqlite_file(settings.database)
    if file is not None and file.parent != settings.data.absolute():
        restoring.hand_to_owner(file.parent, f"{file.stem}*")


def back_up(settings: Settings, clock: Clock) -> str:
    """Copy the database and its photos by hand; give the copy's path."""
    file = database_file(settings)
    _refuse_nothing(file)
    # the file itself, not opened by this version: a copy before an upgrade must be of the old one
    copy = backup.back_up(file, settings.data, clock.now(), is_by_hand=True)
    if settings.copy_command:
        backup.hand_on(copy, settings.copy_command)
    return str(copy)


def _refuse_nothing(file: Path | None) -> None:
    """Raise StoreError where no file is: told the wrong folder, nothing would seem to be done well."""
    if file is not None and not file.is_file():
        raise StoreError(f"there is no database at {file}")


def restore(settings: Settings, copy: Path, clock: Clock) -> str:
    """Put a copy in the place of the database, brought up to date, and erase again what was erased."""
    file, now = database_file(settings), clock.now()
    with alone(settings.data, file):
        replaced = restoring.look_at(file)
        with restoring.draft_of(copy, file, replaced) as draft:
            with _opened(replace(settings, database_url=f"sqlite:///{draft}")) as database:
                erased = database.erase_again(now, {"household": replaced.homes, "member": replaced.members})
                households = _rebuilt(database, clock)
            restoring.keep_origin(draft, replaced)
            aside, missing = restoring.put(draft, copy, file, settings.data, now)
    put = f"; what was there is now {aside}" if aside is not None else ""
    again = f"; {erased} erasures done again" if erased else ""
    lost = f"; {missing} photos are not beside it" if missing else ""
    return f"restored {copy}: {households} households{again}{lost}{put}"


@contextmanager
def _opened(settings: Settings) -> Iterator[Database]:
    database = Database(settings.database, settings.data)
    try:
        with database.refusals():
            yield database
    finally:
        database.close()


def rebuild(settings: Settings, clock: Clock) -> str:
    """Derive anew every stored row that the journal alone decides: when each household is next looked at."""
    _refuse_nothing(sqlite_file(settings.database))
    with _opened(settings) as database:
        return f"derived anew for {_rebuilt(database, clock)} households"


def _rebuilt(database: Database, clock: Clock) -> int:
    knowledge = load().knowledge
    with database.unit() as store:
        households = store.households()
    for number in households:
        with database.unit() as store:
            derive_evening(number, store, knowledge, clock.now())
    return len(households)


def export_all(settings: Settings, number: int | None) -> Iterator[str]:
    """Give one household, or all of them, as JSON with their accounts and photos, home by home."""
    _refuse_nothing(sqlite_file(settings.database))
    with _opened(settings) as database:
        with database.unit() as store:
            known = store.households()
        if number is not None and number not in known:
            raise StoreError(f"there is no household {number}")
        before = "["
        for one in known if number is None else (HouseholdId(number),):
            with database.unit() as store:
                document = store.exported(one, database.photos)
            yield f"{before}{json.dumps(document, ensure_ascii=False, indent=1)}"
            before = ","
        yield "]" if before == "," else "[]"


def import_all(settings: Settings, text: str, owner: int | None, clock: Clock) -> str:
    """Write households from what `export_all` or a member's own export gave; all of them or none."""
    try:
        told = json.loads(text)
    except ValueError as error:
        raise StoreError(f"this is no JSON: {error}") from error
    except RecursionError as error:
        raise StoreError("this is nested too deeply") from error
    documents = told if isinstance(told, list) else [told]
    if not documents:
        raise StoreError("there is no household in it")
    if owner is not None and not 0 < owner < MOST_ACCOUNT:
        raise StoreError(f"{owner} is no chat account")
    whose = None if owner is None else (owner, "Owner")
    with _opened(settings) as database:
        try:
            with database.unit() as store:
                numbers = [store.imported(one, whose, database.photos, clock.now()) for one in documents]
        except BaseException:
            with database.unit() as store:
                homes = set(store.households())
            database.photos.sweep(homes)  # of homes that did not come to be
            raise
        _rebuilt(database, clock)
    return f"imported {len(numbers)} households: {', '.join(map(str, numbers))}"


def selftest(settings: Settings, clock: Clock, token_problem: str | None) -> tuple[int, list[str]]:
    """
    Check what a running bot needs and say what to do about each fault: 0 where all is well, one line a check.

    `token_problem` is what the platform said against the token, None where it took it.
    """
    checks = [
        ("token", token_problem),
        ("clock", _clock_problem(clock)),
        ("zones", _zone_problem()),
        ("disk", _disk_problem(settings.data)),
        *_database_problems(settings, clock),
    ]
    lines = [
        f"{'ok' if problem is None else 'NO'}  {name}{f': {problem}' if problem else ''}"
        for name, problem in checks
    ]
    return (WELL if all(problem is None for _, problem in checks) else UNWELL), lines


def _clock_problem(clock: Clock) -> str | None:
    if clock.now().year < EARLIEST_YEAR:
        return f"it shows {clock.now():%Y-%m-%d}: set the machine's clock, or evenings go out on wrong days"
    return None


def _zone_problem() -> str | None:
    missing = []
    for name in _ZONES:
        try:
            ZoneInfo(name)
        except (OSError, KeyError, ValueError):
            missing.append(name)
    return f"{', '.join(missing)} cannot be read: install the package tzdata" if missing else None


def _disk_problem(folder: Path) -> str | None:
    try:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        probe = folder / ".selftest"
        probe.write_text("x")
        probe.unlink()
        free = shutil.disk_usage(folder).free
    except OSError as error:
        return f"{folder} cannot be written ({error.strerror}): give it to the account the bot runs as"
    if free < LEAST_FREE_BYTES:
        wanted = LEAST_FREE_BYTES // 1_000_000
        return f"only {free // 1_000_000} MB free at {folder}: make room, {wanted} MB are wanted"
    return None


def _database_problems(settings: Settings, clock: Clock) -> Iterable[tuple[str, str | None]]:
    try:
        database = Database(settings.database, settings.data)
    except (StoreError, OSError) as error:
        return [("database", str(error))]
    try:
        database.revision_and_health()
        with database.unit() as store:
            waiting, since = store.undelivered(), store.oldest_due(clock.now())
            parked = store.parked()
        found = [("database", None), ("backup", _backup_problem(settings, database, clock))]
        found += [
            (f"copy by hand of {backup.made_at(one):%Y-%m-%d %H:%M} UTC, nobody drops it: {one}", None)
            for one in backup.copies_by_hand(settings.data)
        ]
    finally:
        database.close()
    late = since is not None and clock.now() - since > LONGEST_WAIT
    found.append(
        ("messages", f"{waiting} undelivered, the oldest since {since}: does the bot run?" if late else None)
    )
    found.append(("updates", f"{parked} could not be read: see the log for when" if parked else None))
    return found


def _backup_problem(settings: Settings, database: Database, clock: Clock) -> str | None:
    if not settings.database.startswith("sqlite"):
        return None
    last = database.last_backup_at(clock.now())
    if last is None:
        return "there is none yet: python -m bot backup"
    if clock.now() - last > OLDEST_BACKUP:
        return (
            f"the last is of {last:%Y-%m-%d %H:%M} UTC: does the bot run? python -m bot backup makes one now"
        )
    return None


def ask_health(settings: Settings) -> int:
    """Ask the running bot's health page, for a container's check."""
    if settings.health is None:
        return UNWELL
    host, port = settings.health
    try:
        with urllib.request.urlopen(f"http://{host}:{port}/health", timeout=6) as answer:
            return WELL if answer.status == 200 else UNWELL  # noqa: PLR2004 - well
    except (OSError, urllib.error.URLError):
        return UNWELL
