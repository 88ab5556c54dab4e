"""
Which answers are given most: outcomes counted over recorded weeks.

`python -m tests.wording.counting` replays the transcripts, plays the demo's story and simulated homes and runs the
journeys, and writes `commonest.tsv`: the thirty commonest outcomes with their share in each. Takes some minutes.
A journey is no week somebody lived, so each of the four counts by its shares, not by its size.
"""

import asyncio
import contextlib
import io
import sys
import tempfile
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest

from bot.actions.action import Outcome
from bot.storage.database import FILE_NAME, Database
from bot.wording.sentences import say
from bot.wording.voice import Voice
from demo.story import play as play_story
from tests.journeys.talking import Talk
from tests.journeys.transcribe import FOLDER, replayed, steps
from tests.simulation.campaign import play
from tests.simulation.grower import LAZY, OBEDIENT, Home
from tests.wording.tabulate import kind_of, overheard

FILE = Path(__file__).parent / "commonest.tsv"
COMMONEST = 30
HOMES = 12
"""Of each kind of grower, on seeds the gate does not use."""
SEED = 7_000
HEAD = (
    "The commonest answers, by `python -m tests.wording.counting`: "
    "per 1,000 outcomes of transcripts, story, simulated homes and journeys."
)


def _transcripts(folder: Path) -> None:
    for number, file in enumerate(sorted(FOLDER.glob("*.txt"))):
        talk = Talk(Database("", folder / f"transcript{number}"))
        replayed(steps(file.read_text("utf-8")), talk)
        talk.database.close()


def _story(_: Path) -> None:
    with contextlib.redirect_stdout(io.StringIO()):
        asyncio.run(play_story())


def _homes(folder: Path) -> None:
    Database("", folder).close()
    for habit in (OBEDIENT, LAZY):
        for seed in range(SEED, SEED + HOMES):
            play(Home(seed, habit), folder / FILE_NAME)


def _journeys(_: Path) -> None:
    is_loaded = "ignore::pytest.PytestAssertRewriteWarning"
    pytest.main(["-q", "-n0", "-p", "no:cacheprovider", "-W", is_loaded, str(FOLDER.parent)])


def counted(source: Callable[[Path], None]) -> Counter[str]:
    """Count the outcomes that one source brings about."""
    found: Counter[str] = Counter()

    def noted(outcome: Outcome, voice: Voice) -> str:
        found[kind_of(outcome)] += 1
        return say(outcome, voice)

    with overheard(noted), tempfile.TemporaryDirectory() as folder:
        source(Path(folder))
    return found


def main() -> int:
    """Count, and write the file."""
    shares = []
    for source in (_transcripts, _story, _homes, _journeys):
        found = counted(source)
        shares.append({kind: 1000 * count / found.total() for kind, count in found.items()})
    total = {kind: sum(one.get(kind, 0) for one in shares) for kind in set().union(*shares)}
    best = sorted(total, key=lambda kind: (-total[kind], kind))[:COMMONEST]
    rows = ["\t".join([kind, *(f"{one.get(kind, 0):.0f}" for one in shares)]) for kind in best]
    FILE.write_text("\n".join([HEAD, *rows]) + "\n", "utf-8")
    return 0


def commonest() -> list[str]:
    """Give the kinds of the commonest answers."""
    return [line.split("\t")[0] for line in FILE.read_text("utf-8").splitlines()[1:]]


if __name__ == "__main__":
    sys.exit(main())
