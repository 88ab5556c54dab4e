"""
Hold many random talks: `python -m tests.tools.random_talks`; the first that writes what was not told is shown.

On two idle cores 100 talks of 30 steps take about two minutes.
"""

import argparse

from hypothesis import seed
from hypothesis.stateful import run_state_machine_as_test

from tests.journeys.test_random_talks import Talks, talks


def main() -> None:
    """Hold them."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.random_talks")
    parser.add_argument("--talks", type=int, default=300, help="talks a seed")
    parser.add_argument("--steps", type=int, default=30)
    parser.add_argument("--seeds", type=int, nargs="+", default=[1])
    options = parser.parse_args()
    for number in options.seeds:
        machine = seed(number)(type(f"Talks{number}", (Talks,), {}))
        run_state_machine_as_test(machine, settings=talks(options.talks, options.steps))
        print(
            f"seed {number}: {options.talks} talks of {options.steps} steps, nothing was written that was not told"
        )


if __name__ == "__main__":
    main()
