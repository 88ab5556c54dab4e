"""Several workers on one PostgreSQL: none of the nudges is missing, and hardly one is sent twice, kill or no kill."""

import random
import subprocess
import sys
import time
from collections import Counter
from pathlib import Path

import pytest
import sqlalchemy as sa

from bot.storage.database import Database
from bot.storage.engine import open_engine
from bot.storage.tables import household
from tests.storage.sample import NOW

WORKERS, HOUSEHOLDS, KILLED = 4, 2_000, 3
WITHIN_S = 90


@pytest.fixture
def address(request: pytest.FixtureRequest) -> str:
    """Give an empty PostgreSQL with households whose evening has come."""
    url: str = request.getfixturevalue("migrated_server")
    engine = open_engine(url)
    with engine.begin() as connection:
        for table in (
            "outbox",
            "question",
            "invite",
            "photo",
            "journal",
            "plant",
            "place",
            "product",
            "member",
        ):
            connection.execute(sa.text(f"DELETE FROM {table}"))
        connection.execute(sa.delete(household))
        rows = [{"founded_at": NOW, "next_evening_at": NOW} for _ in range(HOUSEHOLDS)]
        connection.execute(sa.insert(household), rows)
    engine.dispose()
    return url


def test_four_workers_send_two_thousand_nudges_though_three_are_killed(address: str, tmp_path: Path) -> None:
    # seeded: when the workers are killed, by how much is sent, is the same in every run
    random_source = random.Random(7)
    kills = sorted(random_source.randrange(200, 1_500) for _ in range(KILLED))
    files = [tmp_path / f"{number}.keys" for number in range(WORKERS)]
    workers = [_begin(address, tmp_path / "data", file) for file in files]
    try:
        living, until = list(workers), time.monotonic() + WITHIN_S
        while (count := len(_sent(files))) < HOUSEHOLDS and time.monotonic() < until:
            if kills and count >= kills[0]:
                kills.pop(0)
                victim = living.pop(random_source.randrange(len(living)))
                victim.kill()
                victim.wait()
            time.sleep(0.01)
        time.sleep(0.5)
        assert not kills
        assert all(worker.poll() is None for worker in living)
    finally:
        for worker in workers:
            worker.kill()
            worker.wait()
    counted = Counter(_lines(files))
    assert set(counted) == _keys(address)  # none missing, none invented
    doubled = sum(times - 1 for times in counted.values())
    assert doubled <= KILLED, f"{doubled} sent twice by {KILLED} kills"


def _begin(address: str, folder: Path, file: Path) -> subprocess.Popen[bytes]:
    return subprocess.Popen([sys.executable, "-m", "tests.storage.working", address, str(folder), str(file)])


def _lines(files: list[Path]) -> list[str]:
    return [line for file in files if file.exists() for line in file.read_text().splitlines()]


def _sent(files: list[Path]) -> set[str]:
    return set(_lines(files))


def _keys(address: str) -> set[str]:
    database = Database(address, Path("/nonexistent"))
    with database.unit() as store:
        numbers = store.households()
    database.close()
    return {f"nudge:{number}" for number in numbers}
