"""
`python -m tests.benchmarks`: the figures of speed, as ratios to a bare peer measured in the same run.

Exit code 1 where a row falls short. `--quick` takes smaller amounts and ends in 50 seconds.
"""

import argparse
import asyncio
import sys
from collections.abc import Callable
from dataclasses import dataclass

from tests.benchmarks import answer, evening, footprint, home, planner


@dataclass(frozen=True)
class Size:
    """How much is measured."""

    households: int
    messages: int
    bursts: int
    jobs: int
    starts: int


QUICK = Size(households=200, messages=70, bursts=1, jobs=400, starts=2)
WHOLE = Size(households=10_000, messages=350, bursts=3, jobs=3_000, starts=5)


def main() -> int:
    """Run every row; give 1 if any falls short."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    parser.add_argument("--quick", action="store_true")
    size = QUICK if parser.parse_args().quick else WHOLE
    rows: tuple[Callable[[], int], ...] = (
        planner.compare,
        home.compare,
        lambda: asyncio.run(answer.compare(size.messages, size.bursts)),
        lambda: evening.compare(size.households, size.jobs),
        lambda: footprint.compare(size.households, size.starts),
    )
    codes = []
    for row in rows:
        codes.append(row())
        print(flush=True)
    print("every row holds" if not any(codes) else "a row falls short")
    return int(any(codes))


if __name__ == "__main__":
    sys.exit(main())
