"""`python -m tests.benchmarks`: the figures of speed, as ratios to a bare peer measured in the same run."""

import asyncio
import sys

from tests.benchmarks.answer import compare

if __name__ == "__main__":
    sys.exit(asyncio.run(compare(350)))
