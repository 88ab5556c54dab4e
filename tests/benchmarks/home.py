"""
An answer in a large home in process, and how it grows with the journal, in loops of the calibration.

`python -m tests.benchmarks.home`. Sixty plants with twelve cases; the journal is filled with weekly looks and sprays
up to so many entries, then common messages are said in turn and each is timed beside a calibration loop. On the machine
the limits were set on a loop took 0.05 ms: 15 ms are 300 loops, 60 ms are 1,200. Processor time: the disk's share is in
the row of answers sent. No message that draws a chart is among them: a picture takes the chart library 120 ms.
"""

import sys
import tempfile
import time
from datetime import timedelta
from pathlib import Path
from statistics import median, quantiles

from bot.domain.journal import CheckedClean, Draft, Treated
from bot.domain.trade import Level, Method
from bot.phrases.hearing import understand
from bot.storage.database import Database
from tests.benchmarks.planner import calibration
from tests.journeys.talking import Talk
from tests.phrases.situation import EVENING

PLANTS, CASES = 60, 12
SIZES = (500, 2_000, 20_000)
TURNS = 4
SAID = (
    "what's due",
    "fern 3 clean",
    "why fern 2",
    "fern 1 2 longtailed mealybugs",
    "undo",
    "isolated?",
    "when can fern 4 go back",
    "sprayed fern 5 with soap",
    "thanks",
    "fern 30 clean",
    "mix 750 ml",
)
READ = (
    "done except coffee",
    "hoya clean, orchid 2",
    "sprayed the hoya yesterday",
    "is the hoya getting better",
    "dnoe",
)
MOST_P50, MOST_P99, MOST_GROWTH = 300.0, 1_200.0, 1.3
"""Loops, loops, and the median at 20,000 entries to the one at 500. [1]"""
MOST_READING = 40.0
"""Loops to read one message: 2 ms."""


def home(folder: Path, entries: int) -> Talk:
    """Set up a large home with a journal of so many entries."""
    talk = Talk(Database("", folder))
    listed = "\n".join(f"fern {number}, room {number % 6}" for number in range(1, PLANTS + 1))
    talk.set_up(("/start", "Gent", listed, *(f"room {number} has no window" for number in range(6))))
    talk.set_up(("got soap, ready to use, every 7 days",))
    for number in range(1, CASES + 1):
        talk.say(f"fern {number} 12 longtailed mealybugs")
    _fill(talk, entries - len(talk.entries()))
    return talk


def _fill(talk: Talk, missing: int) -> None:
    """Tell weeks of looks and sprays; the clock goes on by a week for every plant once."""
    plants = [plant.id for plant in talk.home.living]
    with talk.database.unit() as store:
        (number,) = store.households()
        (member,) = store.members(number)
        drafts = []
        for count in range(missing):
            day = talk.now + timedelta(weeks=count // PLANTS)
            plant = plants[count % PLANTS]
            is_spray = count % PLANTS < CASES and count // PLANTS % 2 == 0
            told = Treated(method=Method.SPRAY) if is_spray else CheckedClean(Level.PLAIN)
            drafts.append(
                Draft(payload=told, happened_at=day, happened_on=day.date(), plant=plant, member=member.id)
            )
        store.append(number, drafts, "filled", talk.now)
    talk.now += timedelta(weeks=missing // PLANTS, days=1)


def answered(talk: Talk) -> list[float]:
    """Say each message a few times; gives each answer's time in calibration loops."""
    taken = []
    for text in SAID * TURNS:
        start = time.process_time()
        calibration()
        middle = time.process_time()
        talk.say(text)
        taken.append((time.process_time() - middle) / (middle - start))
        talk.passes(minutes=3)
    return taken[len(SAID) :]  # the first turn fills what is kept in the process


def read() -> float:
    """Time the reading of one message in calibration loops."""
    taken = []
    for text in READ * 20:
        start = time.process_time()
        calibration()
        middle = time.process_time()
        understand(text, EVENING)
        taken.append((time.process_time() - middle) / (middle - start))
    return median(taken[len(READ) :])


def compare() -> int:
    """Print the rows; the exit code says whether they are within the limits."""
    middles = {}
    rows = []
    for entries in SIZES:
        with tempfile.TemporaryDirectory() as folder:
            talk = home(Path(folder), entries)
            taken = answered(talk)
            talk.database.close()
        middles[entries] = median(taken)
        if entries == SIZES[1]:
            rows.append((f"an answer, {PLANTS} plants, {entries:,} entries, p50", middles[entries], MOST_P50))
            rows.append(("the same, p99", quantiles(taken, n=100)[98], MOST_P99))
    rows.append(("p50 at 20,000 entries to 500", middles[SIZES[-1]] / middles[SIZES[0]], MOST_GROWTH))
    rows.append(("one message read", read(), MOST_READING))
    print("a large home, in loops of the calibration")
    print(f"{'':<48}{'found':>8}{'limit':>8}")
    for name, found, limit in rows:
        print(f"{name:<48}{found:>8.1f}{limit:>8.1f}")
    return int(any(found > limit for _, found, limit in rows))


if __name__ == "__main__":
    sys.exit(compare())
