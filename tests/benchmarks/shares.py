"""
Where the bot's time, memory and start go, in shares a module: what stands between it and the echo bot.

`python -m tests.benchmarks.shares`. The answering process is sampled by a thread of its own while it is asked what the
benchmark of answers asks, and while 200 chats write at once: processor time, no waiting. Start and memory are what each
part adds to a fresh process.
"""

import argparse
import asyncio
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

from tests.benchmarks.answer import Runner, drawn
from tests.tools.measuring import ROOT

LEAST_SHARE = 0.01
MOST_ROWS = 14
PARTS = (
    ("the interpreter and its own library", "asyncio, json, logging, zoneinfo, decimal, concurrent.futures"),
    ("httpx, h11, anyio", "httpx"),
    ("telegram", "telegram, telegram.request"),
    ("sqlalchemy", "sqlalchemy, sqlalchemy.dialects.sqlite"),
    ("apscheduler, dateutil, msgspec", "apscheduler.schedulers.asyncio, dateutil.rrule, msgspec"),
    ("bot", "bot.app"),
)
"""Imported one after the other; each is counted without what those before it brought along."""
GROWN = """
import importlib, time
def resident_mb():
    lines = open("/proc/self/status").read().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("VmRSS")) / 1024
before_mb, before_s = 0.0, time.perf_counter()
for modules in {parts!r}:
    for module in modules.split(", "):
        importlib.import_module(module)
    now_mb, now_s = resident_mb(), time.perf_counter()
    print(now_mb - before_mb, now_s - before_s)
    before_mb, before_s = now_mb, now_s
from bot.catalogue.load import load
load()
print(resident_mb() - before_mb, time.perf_counter() - before_s)
"""


def printed(title: str, shares: Counter[str]) -> None:
    """Print the shares, the largest first."""
    whole = sum(shares.values())
    print(f"{title}, {whole / 1000:.0f} ms of processor time")
    for name, count in shares.most_common(MOST_ROWS):
        if count >= LEAST_SHARE * whole:
            print(f"  {count / whole:6.1%}  {name}")
    print(flush=True)


def by_module(samples: Iterable[str], depth: int) -> Counter[str]:
    """
    Add up samples, each its time, thread and frames from the outermost in, by what of ours they were under. [us].

    Of the bot the innermost module counts, as deep as asked for, and beside it the library it was in.
    """
    shares: Counter[str] = Counter()
    for line in samples:
        spent_us, thread, *frames = line.split()
        ours = next((one for one in reversed(frames) if one.startswith("bot.")), "waiting and handing on")
        library = "" if frames[-1].startswith("bot.") else f" in {frames[-1].partition('.')[0]}"
        shares[f"{thread}: {'.'.join(ours.split('.')[:depth])}{library}"] += int(spent_us)
    return shares


async def answering(bursts: int) -> None:
    """Sample the answering process and print its shares: messages one by one, then many chats at once."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        ours = Runner("ours", folder, samples=folder / "samples.txt")
        try:
            await ours.start()
            marks = [_count(folder)]
            for _ in range(3):
                for text in drawn():
                    await ours.answer(text, is_counted=True)
            marks.append(_count(folder))
            for _ in range(bursts):
                await ours.burst()
            marks.append(_count(folder))
        finally:
            await ours.stop()
        lines = (folder / "samples.txt").read_text().splitlines()
    for title, first, last in (("answering one by one", 0, 1), ("200 chats at once", 1, 2)):
        for depth in (2, 3):
            printed(f"{title}, by {depth} names", by_module(lines[marks[first] : marks[last]], depth))


def _count(folder: Path) -> int:
    return len((folder / "samples.txt").read_text().splitlines())


def starting() -> None:
    """Print what each part adds to a start, in memory and time."""
    code = GROWN.format(parts=[modules for _, modules in PARTS])
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT, check=True)
    rows = [tuple(map(float, line.split())) for line in told.stdout.splitlines()]
    print("a start, part by part")
    for (name, _), (memory_mb, seconds) in zip((*PARTS, ("the catalogue", "")), rows, strict=True):
        print(f"  {memory_mb:6.1f} MB {1000 * seconds:6.0f} ms  {name}")
    print(
        f"  {sum(row[0] for row in rows):6.1f} MB {1000 * sum(row[1] for row in rows):6.0f} ms  together",
        flush=True,
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.shares")
    parser.add_argument("--bursts", type=int, default=2)
    options = parser.parse_args()
    starting()
    print()
    asyncio.run(answering(options.bursts))
