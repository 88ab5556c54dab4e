"""
Hold many random talks: `python -m tests.tools.random_talks`; the first that writes what was not told is shown.

On two cores 300 talks of 30 steps take about six minutes. By hand, not yet a step of the second gate: on 28 November 2026
seed 1 finds that a find put right from many to few, and so from a clean-out to wipe and spray, is written as wiped and
sprayed by a bare "did it all", though no message had named the spray.
"""

import argparse

from hypothesis import seed
from hypothesis.stateful import run_state_machine_as_test

from tests.journeys.test_random_talks import Talks, talks


def main() -> None:
    """Hold them."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.random_talks")
    parser.add_argument("--talks", type=int, default=300)
    parser.add_argument("--steps", type=int, default=30)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    machine = seed(options.seed)(Talks)
    run_state_machine_as_test(machine, settings=talks(options.talks, options.steps))
    print(f"{options.talks} talks of {options.steps} steps: nothing was written that was not told")


if __name__ == "__main__":
    main()
