"""
`python -m tests.tools.assigning --hands 10 --seed N FOLDER`: tasks for people who write lines, new ones for each seed.

Give each writer one NN.prompt.md and nothing else; NN.meanings.tsv is kept from them. Once NN.lines.tsv stand beside,
`python -m tests.tools.drawer FOLDER` says how they are read. `--drawer` takes the half of the stock that training
never sees; `python -m tests.tools.drawer --bring-in FOLDER` makes filled ones hands to train on. `--emergencies` and
`--newcomers` write those tasks instead.
"""

import argparse
import sys
from pathlib import Path
from random import Random

from tests.tools.assigning.writing import write_emergencies, write_hand, write_newcomer


def main(arguments: list[str] | None = None) -> int:
    """Write the tasks."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.assigning")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--hands", type=int, default=10)
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--drawer", action="store_true", help="of the stock that training never sees")
    task = parser.add_mutually_exclusive_group()
    task.add_argument("--emergencies", action="store_true")
    task.add_argument("--newcomers", action="store_true")
    task.add_argument("--several", action="store_true", help="messages that convey two or three things each")
    options = parser.parse_args(arguments)
    if options.folder.is_dir() and any(options.folder.iterdir()):
        parser.error(f"{options.folder} is not empty; what was written there is kept")
    kind = (
        "emergencies"
        if options.emergencies
        else "newcomers"
        if options.newcomers
        else "several"
        if options.several
        else "hands"
    )
    for number in range(1, options.hands + 1):
        seed = Random(f"{kind} {options.drawer} {options.seed} {number}")
        if options.emergencies:
            write_emergencies(options.folder, number, seed, is_drawer=options.drawer)
        elif options.newcomers:
            write_newcomer(options.folder, number, seed, is_drawer=options.drawer)
        else:
            name = f"{'s' if options.several else ''}{'d' if options.drawer else 't'}{options.seed}x{number}"
            write_hand(
                options.folder, number, seed, name, is_drawer=options.drawer, is_several=options.several
            )
    print(f"{options.hands} tasks in {options.folder}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
