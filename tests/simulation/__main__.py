"""
Plays homes and counts: `python -m tests.simulation --homes 60 --grower lazy --seed 1000 [--pest "spider mite"] [--show]`.

`--calendar weekly` or `--calendar ten-days` puts a fixed calendar in the bot's place.
"""

import argparse
import sys
import tempfile
import time
from pathlib import Path

from bot.storage.database import FILE_NAME, Database
from tests.simulation.bars import compared
from tests.simulation.calendars import TEN_DAYS, WEEKLY, Calendar
from tests.simulation.campaign import play
from tests.simulation.grower import HABITS, MIXED, Home
from tests.simulation.judging import table

CALENDARS = {"weekly": WEEKLY, "ten-days": TEN_DAYS}


def main() -> int:
    """Play homes and print the table."""
    parser = argparse.ArgumentParser(prog="python -m tests.simulation")
    parser.add_argument("--homes", type=int, default=20)
    parser.add_argument("--seed", type=int, default=1_000)
    parser.add_argument("--grower", choices=HABITS, default="obedient")
    parser.add_argument("--pest", choices=MIXED)
    parser.add_argument("--calendar", choices=CALENDARS)
    parser.add_argument("--strict", action="store_true", help="exit 1 where a bar is not reached")
    parser.add_argument("--show", action="store_true", help="print the talk of each home")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        Database("", Path(folder)).close()
        started = time.process_time()
        records = []
        for seed in range(chosen.seed, chosen.seed + chosen.homes):
            home = Home(seed, HABITS[chosen.grower], (chosen.pest,) if chosen.pest else ())
            if chosen.calendar:
                records.append(Calendar(home, *CALENDARS[chosen.calendar]).play())
            else:
                records.append(play(home, Path(folder) / FILE_NAME, print if chosen.show else None))
        took = time.process_time() - started
    print(
        f"{chosen.calendar or 'the bot'}, {chosen.grower}, seeds {chosen.seed} to {chosen.seed + chosen.homes - 1}, {took / chosen.homes:.2f} s a home"
    )
    print(table(records))
    lines, holds = compared(records, chosen.grower, chosen.pest)
    print(lines)
    return int(chosen.strict and not holds)


if __name__ == "__main__":
    sys.exit(main())
