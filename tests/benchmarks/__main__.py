"""`python -m tests.benchmarks`: the figures of speed, as ratios to a bare peer measured in the same run."""

import asyncio
import sys

from tests.benchmarks import answer, planner

if __name__ == "__main__":
    planned = planner.compare()
    print()
    sys.exit(planned or asyncio.run(answer.compare(350)))
