"""
Sets the system clock of the running bot, by libfaketime, and watches what becomes of evenings and copies.

`python -m tests.tools.clocks` prints one line a step; exit 1 where an evening or a copy did not come, or the health page
did not tell. The bot is a process of its own; only its wall clock is set, as an operator's or a time server's hand does,
the monotonic one runs on. Needs Debian's package `faketime`.
"""

import argparse
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx

from bot.clock import Clock
from tests.tools.measuring import begin, bot_settings, end, free_port, person, said, say

LIBRARY = Path("/usr/lib/x86_64-linux-gnu/faketime/libfaketime.so.1")
HOW_TO = f"{LIBRARY} is missing: apt-get install faketime"
OWNER = 1
SET_UP = ("/start", "51.0543, 3.7174", "ivy, hall, 12 cm", "hall has no window", "ivy 12 spider mites")
BEFORE_S = 10.0
"""So long before an evening or a copy the clock is put."""
PATIENCE_S = 30.0
SEEN_S = 3.0
"""After that the bot has seen its clock set: it is read from the file once a second."""
EVENING = {"hour": 19, "minute": 0}
"""20:00 in Ghent in winter, in UTC."""
UPKEEP = {"hour": 3, "minute": 17}
STEPS = (
    timedelta(hours=-2),
    timedelta(hours=2),
    timedelta(days=1),
    timedelta(days=-1),
    timedelta(days=365),
    timedelta(days=-365),
)


@dataclass(slots=True)
class Machine:
    """A bot whose wall clock can be set, and its platform, whose clock is right."""

    folder: Path
    off_s: float
    right_s: float
    url: str = ""
    health: str = ""
    processes: list[Any] = field(default_factory=list)

    @property
    def now(self) -> datetime:
        """What the bot's clock says."""
        return Clock().now() + timedelta(seconds=self.off_s)

    def start(self, log: Any) -> None:
        """Start the platform and the bot, both at the first offset."""
        self._write("bot", self.off_s)
        self._write("platform", self.right_s)
        standing = begin("tests.tools.standing_in", environment=self._faked("platform"), stdout=-1)
        self.url = standing.stdout.readline().split()[1]
        port = free_port()
        self.health = f"http://127.0.0.1:{port}"
        settings = bot_settings(self.url, self.folder / "data") | {
            "DUSKROUND_HEALTH_LISTEN": f"127.0.0.1:{port}"
        }
        self.processes = [
            begin("bot", environment=settings | self._faked("bot"), stderr=log, stdout=log),
            standing,
        ]

    def stop(self) -> None:
        """End both."""
        for process in self.processes:
            end(process)

    def step(self, by: timedelta) -> None:
        """Set the bot's wall clock."""
        self.off_s += by.total_seconds()
        self._write("bot", self.off_s)

    def step_right(self, days: int) -> None:
        """Let some days pass, for both."""
        self.right_s += days * 86_400
        self.off_s = self.right_s
        self._write("platform", self.right_s)
        self._write("bot", self.off_s)

    def step_to(self, at: datetime) -> None:
        """Set it to an instant."""
        self.step(at - self.now)

    def _faked(self, name: str) -> dict[str, str]:
        return {
            "LD_PRELOAD": str(LIBRARY),
            "FAKETIME_TIMESTAMP_FILE": str(self.folder / f"{name}.offset"),
            "FAKETIME_DONT_FAKE_MONOTONIC": "1",
            "FAKETIME_CACHE_DURATION": "1",
        }

    def _write(self, name: str, off_s: float) -> None:
        draft = self.folder / "offset.draft"
        draft.write_text(f"{off_s:+.0f}\n")
        draft.replace(self.folder / f"{name}.offset")

    def unwell(self) -> str:
        """Read what the health page complains of."""
        return httpx.get(f"{self.health}/health", trust_env=False, timeout=10).text

    def copies(self) -> set[str]:
        """List the copies of the database."""
        return {file.name for file in (self.folder / "data").rglob("*.sqlite") if "backups" in str(file)}


def comes(is_there: Callable[[], bool], within_s: float = PATIENCE_S) -> float | None:
    """Wait for something; give how long it took. [s]."""
    began = time.monotonic()
    while time.monotonic() - began < within_s:
        try:
            if is_there():
                return time.monotonic() - began
        except httpx.HTTPError:
            pass
        time.sleep(0.1)
    return None


def next_at(now: datetime, hour: int, minute: int) -> datetime:
    """Give the next instant of a time of day."""
    at = now.replace(hour=hour, minute=minute, second=0, microsecond=0)
    return at if at > now + timedelta(seconds=BEFORE_S) else at + timedelta(days=1)


def evening_comes(machine: Machine, client: httpx.Client) -> str:
    """Put the clock before the next evening and wait for its message."""
    machine.step_to(next_at(machine.now, **EVENING) - timedelta(seconds=BEFORE_S))
    before = len(said(client, OWNER))  # a year ahead it is the question whether to go on
    return yes(comes(lambda: len(said(client, OWNER)) > before) is not None)


def tell(client: httpx.Client, text: str) -> bool:
    """Say something and wait for the answer; gives whether one came."""
    answers = len(said(client, OWNER))
    say(client, OWNER, text)
    return comes(lambda: len(said(client, OWNER)) > answers) is not None


def words(by: timedelta) -> str:
    hours = by.total_seconds() / 3600
    return f"{hours:+.0f} h" if abs(hours) < 24 else f"{hours / 24:+.0f} days"


def yes(*is_so: bool) -> str:
    return "yes" if all(is_so) else "NO"


def tried(machine: Machine, client: httpx.Client, by: timedelta) -> tuple[str, ...]:
    """Set the clock and set it right again; say what came of health, evenings, copy and a message."""
    machine.step(by)
    time.sleep(SEEN_S)
    told = comes(lambda: "clock stepped by" in machine.unwell()) is not None
    if by < timedelta(days=-30):  # back before anything was told there is no work but what is told now
        tell(client, "ivy 5 spider mites")
    then = evening_comes(machine, client)
    copies = machine.copies()
    machine.step_to(next_at(machine.now, **UPKEEP) - timedelta(seconds=BEFORE_S))
    copied = comes(lambda: bool(machine.copies() - copies)) is not None
    told = told and "clock stepped by" in machine.unwell()
    machine.step_right(days=3)
    time.sleep(SEEN_S)
    answered = tell(client, "isolated?")
    well = comes(lambda: "clock stepped" not in machine.unwell()) is not None
    after = evening_comes(machine, client)
    machine.step_right(days=3)  # so that no step leads to an evening that had its message
    return yes(told), then, yes(copied), yes(well), yes(answered), after


def main() -> int:
    """Try every step, print the table, give the exit code."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.clocks")
    parser.parse_args()
    if not LIBRARY.is_file():
        sys.stderr.write(f"{HOW_TO}\n")
        return 1
    heads = ("health told", "evening then", "copy came", "well again", "answered", "evening after")
    sys.stdout.write(f"{'clock set by':<20}" + "".join(f"{head:>14}" for head in heads) + "\n")
    is_good = True
    with tempfile.TemporaryDirectory() as name, (Path(name) / "log.txt").open("w") as log:
        noon = datetime(2027, 1, 12, 12, tzinfo=UTC)
        off_s = (noon - Clock().now()).total_seconds()
        machine = Machine(Path(name), off_s, off_s)
        machine.start(log)
        try:
            with person(machine.url) as client:
                for text in SET_UP:
                    tell(client, text)
                for by in STEPS:
                    found = tried(machine, client, by)
                    cells = "".join(f"{one:>14}" for one in found)
                    sys.stdout.write(f"{words(by):<20}{cells}\n")
                    sys.stdout.flush()
                    is_good = is_good and "NO" not in found
        finally:
            machine.stop()
        if not is_good:
            sys.stdout.write((Path(name) / "log.txt").read_text()[-3000:])
    return 0 if is_good else 1


if __name__ == "__main__":
    sys.exit(main())
