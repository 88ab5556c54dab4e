"""
The gate: `python -m tests` says whether a change may land. Runs everything, cheapest first, stops at the first no.

`--long` runs the second gate instead: what takes too long for each change, or needs more than pip installs (`.ci/run`
says what). `--fix` lets the formatter and the linter mend what they can.
"""

import argparse
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent
PYTHON = sys.executable
TOOLS = Path(PYTHON).parent

STEPS: tuple[tuple[str, list[str]], ...] = (
    ("format", [PYTHON, "-m", "ruff", "format", "--check", "."]),
    ("lint", [PYTHON, "-m", "ruff", "check", "."]),
    ("imports", [str(TOOLS / "lint-imports")]),
    ("types", [PYTHON, "-m", "mypy"]),
    ("tests", [PYTHON, "-m", "pytest", "--cov", "--cov-report=term", "-n", "2", "--dist", "loadfile"]),
    ("story", [PYTHON, "-m", "demo", "--story"]),
    ("faults", [PYTHON, "-m", "tests.tools.faults"]),
    ("kills", [PYTHON, "-m", "tests.tools.killing", "--kills", "10", "--messages", "60", "--seed", "1"]),
)
LONG_STEPS: tuple[tuple[str, list[str]], ...] = (
    (
        "long fuzz",
        # 200,000 texts by hand; fewer here keep this gate short
        [PYTHON, "-m", "tests.tools.fuzzing", "--texts", "60000", "--talks", "3000", "--seed", "21"],
    ),
    (
        "random talks",
        [PYTHON, "-m", "tests.tools.random_talks", "--talks", "40", "--seeds", "11", "12", "13"],
    ),
    ("simulation", [PYTHON, "-m", "tests.simulation", "--homes", "150", "--seed", "9000"]),
    (
        "simulation, lazy",
        [PYTHON, "-m", "tests.simulation", "--homes", "150", "--seed", "9000", "--grower", "lazy"],
    ),
    ("accessibility", [PYTHON, "-m", "tests.tools.accessibility"]),
    ("clocks", [PYTHON, "-m", "tests.tools.clocks"]),
    ("stops", [PYTHON, "-m", "tests.tools.faults", "--long"]),
    ("faults, second stand-in", [PYTHON, "-m", "tests.tools.faults", "--second"]),
    (
        "kills, second stand-in",
        [PYTHON, "-m", "tests.tools.killing", "--second", "--messages", "100", "--seed", "3"],
    ),
    ("long kills", [PYTHON, "-m", "tests.tools.killing", "--seed", "2"]),
)
FIXES: tuple[list[str], ...] = (
    [PYTHON, "-m", "ruff", "format", "."],
    [PYTHON, "-m", "ruff", "check", "--fix", "."],
)
TAIL_LINES = 25


def main() -> int:
    """Run the steps; give 0 only if all said yes."""
    parser = argparse.ArgumentParser(prog="python -m tests")
    parser.add_argument("--fix", action="store_true", help="mend format and lint first")
    parser.add_argument("--only", choices=[name for name, _ in STEPS + LONG_STEPS], help="run one step")
    parser.add_argument("--long", action="store_true", help="run the second gate instead")
    options = parser.parse_args()
    if options.fix:
        for command in FIXES:
            subprocess.run(command, cwd=ROOT, check=False)
    steps = LONG_STEPS if options.long else STEPS
    if options.only:
        steps = tuple(step for step in STEPS + LONG_STEPS if step[0] == options.only)
    for name, command in steps:
        if not _passes(name, command):
            print(f"{name}: NO")
            return 1
    print("all steps passed")
    return 0


def _passes(name: str, command: list[str]) -> bool:
    started = time.monotonic()
    done = subprocess.run(
        command, cwd=ROOT, check=False, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    shown = done.stdout.splitlines()
    is_good = done.returncode == 0
    print("\n".join(shown[-TAIL_LINES:] if is_good else shown[-400:]))
    print(
        f"-- {name}: {'yes' if is_good else f'exit {done.returncode}'}, {time.monotonic() - started:.0f} s",
        flush=True,
    )
    return is_good


if __name__ == "__main__":
    sys.exit(main())
