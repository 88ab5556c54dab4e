"""
`python -m tests.benchmarks`: the figures of speed, as ratios to a bare peer measured in the same run.

Exit code 1 where a row falls short. `--quick` takes smaller amounts and ends within a minute.
"""

import argparse
import asyncio
import sys
from collections.abc import Callable

from tests.benchmarks import answer, evening, footprint, planner

QUICK, WHOLE = 300, 10_000
FEW, MANY = 70, 350


def main() -> int:
    """Run every row; give 1 if any falls short."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks")
    parser.add_argument("--quick", action="store_true")
    is_quick = parser.parse_args().quick
    households, messages = (QUICK, FEW) if is_quick else (WHOLE, MANY)
    rows: tuple[Callable[[], int], ...] = (
        planner.compare,
        lambda: asyncio.run(answer.compare(messages)),
        lambda: evening.compare(households),
        lambda: footprint.compare(households),
    )
    codes = []
    for row in rows:
        codes.append(row())
        print(flush=True)
    print("every row holds" if not any(codes) else "a row falls short")
    return int(any(codes))


if __name__ == "__main__":
    sys.exit(main())
