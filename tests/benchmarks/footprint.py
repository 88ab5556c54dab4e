"""
Memory and start: the real bot against an echo bot on the same library and stand-in.

`python -m tests.benchmarks.footprint`. Resident memory as the system counts it (VmRSS), a moment after the first
poll; idle with an empty database, then with households of ten plants stored. The start is from the process's
begin to its first poll, the median of several, the two bots taking turns.
"""

import argparse
import asyncio
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from bot.storage.database import Database
from demo.standin import StandIn
from tests.benchmarks.evening import PLANTS_EACH, fill
from tests.tools.measuring import begin, bot_settings, end
from tests.tools.standing_in import TOKEN, now

TURNS = 5
SETTLE_S = 0.5
LIMITS = {"idle": 1.5, "stored": 1.7, "start": 3.0}
LONGEST_S = 60


@dataclass(frozen=True)
class Footprint:
    """One start: seconds to the first poll, and resident memory after it [MB]."""

    start_s: float
    memory_mb: float


async def started(kind: str, folder: Path) -> Footprint:
    """Start a bot and end it again."""
    standin = StandIn(token=TOKEN, clock=now)
    await standin.start()
    with (folder / f"{kind}.log").open("w") as log:
        began = time.perf_counter()
        if kind == "echo":
            bot = begin("tests.tools.echo", standin.url, TOKEN, stderr=log)
        else:
            bot = begin("tests.tools.unpaced", environment=bot_settings(standin.url, folder), stderr=log)
        try:
            async with asyncio.timeout(LONGEST_S):
                while not standin.calls.get("getUpdates"):  # noqa: ASYNC110 - the stand-in tells nobody of it
                    await asyncio.sleep(0.002)
            start_s = time.perf_counter() - began
            await asyncio.sleep(SETTLE_S)
            return Footprint(start_s, resident_mb(bot.pid))
        finally:
            end(bot)
            await standin.stop()


def resident_mb(number: int) -> float:
    """Read a process's resident memory. [MB]."""
    lines = Path(f"/proc/{number}/status").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("VmRSS")) / 1024


async def measure(folder: Path, starts: int) -> tuple[Footprint, Footprint]:
    """Let both bots start in turn and give the medians: echo, ours."""
    found: dict[str, list[Footprint]] = {"echo": [], "ours": []}
    for turn in range(starts):
        for kind in ("echo", "ours") if turn % 2 else ("ours", "echo"):
            found[kind].append(await started(kind, folder))
    echo, ours = (
        Footprint(median(one.start_s for one in some), median(one.memory_mb for one in some))
        for some in (found["echo"], found["ours"])
    )
    return echo, ours


def compare(households: int, starts: int = TURNS) -> int:
    """Measure and print the ratios; the exit code says whether they are within the limits."""
    with tempfile.TemporaryDirectory() as folder:
        empty, full = Path(folder) / "empty", Path(folder) / "full"
        for place in (empty, full):
            place.mkdir()
        Database("", empty).close()  # made before: the first start of all also loads what makes the tables
        echo_idle, idle = asyncio.run(measure(empty, starts))
        database = Database("", full)
        fill(database, households)
        database.close()
        echo_full, stored = asyncio.run(measure(full, starts))
    ratios = {
        "idle": idle.memory_mb / echo_idle.memory_mb,
        "stored": stored.memory_mb / echo_full.memory_mb,
        "start": stored.start_s / echo_full.start_s,
    }
    figures = {
        "idle": (echo_idle.memory_mb, idle.memory_mb, "memory idle, MB"),
        "stored": (echo_full.memory_mb, stored.memory_mb, f"memory, {households * PLANTS_EACH} plants, MB"),
        "start": (
            echo_full.start_s,
            stored.start_s,
            f"start to first poll, {households * PLANTS_EACH} plants, s",
        ),
    }
    print(f"{'':<40}{'echo':>8}{'ours':>8}{'ratio':>8}{'limit':>8}")
    for name, (peer, ours, words) in figures.items():
        print(f"{words:<40}{peer:>8.2f}{ours:>8.2f}{ratios[name]:>8.2f}{LIMITS[name]:>8}")
    return int(any(ratios[name] > limit for name, limit in LIMITS.items()))


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.footprint")
    parser.add_argument("--households", type=int, default=10_000)
    sys.exit(compare(parser.parse_args().households))
