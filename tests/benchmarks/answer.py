"""
Update available to answer sent, and a burst: the real bot against an echo bot, in one run.

`python -m tests.benchmarks.answer`. Pacing off; our bot on SQLite with synchronous FULL, the household of a drawer
with two open cases, and what people wrote for it: lines of the opened drawer, drawn by a fixed seed.
"""

import argparse
import asyncio
import random
import re
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from demo.chats import person
from demo.methods import Call
from demo.standin import StandIn
from tests.phrases.hands import tables
from tests.tools.measuring import begin, bot_settings, end
from tests.tools.standing_in import TOKEN, now

WARM_UP = 50
SEED, LINES, A_TURN = 12, 70, 7
SITUATIONS = ("quiet-a1", "nudge-a1")
"""Both of the home of the first drawer, nothing asked; in the second an evening's message is open."""
HOME = (
    "/start",
    "53.35, -6.26",
    """\
pothos, hallway, 15 cm
rubber plant, front room
croton, front room
anthurium, utility room
strawberry, patio
sage, patio
bird's nest fern, utility room
gardenia, hallway""",
    "hallway has no window",
    "utility room faces west",
    "front room looks east",
    "patio is outdoors, morning sun",
    "got rapeseed oil, ready to use, every 7 days",
    "hallway is 21 degrees",
    "pothos 12 longtailed mealybugs",
    "some spider mites on the croton",
)
NUMBER = re.compile(r"2(\d) (?:degrees|°C)")
CHATS = 200
EACH = 5
BURSTS = 3
LONGEST_S = 60
PAUSE_S = 0.003
LIMITS = {"p50": 3.3, "p99": 4.0}
LEAST_RATE = 0.5


def drawn() -> list[str]:
    """Draw what is said in turn; the same texts go to the echo bot."""
    written = [line.text for hand in tables() for line in hand.lines if line.kind in SITUATIONS]
    return random.Random(SEED).sample(written, LINES)


@dataclass(frozen=True)
class Measured:
    p50_ms: float
    p99_ms: float
    per_s: float
    out_of_order: int


class Watched:
    """A stand-in in this process that notes when each answer came."""

    def __init__(self) -> None:
        self.standin = StandIn(token=TOKEN, clock=now)
        self.answers: dict[int, list[str]] = defaultdict(list)
        self.count = 0
        self.arrived = asyncio.Event()
        self.last_at = 0.0
        by_name = self.standin.methods.by_name
        for name in ("sendMessage", "sendPhoto", "sendDocument"):
            by_name[name] = partial(self._note, by_name[name])

    def push(self, chat_id: int, text: str) -> None:
        """Make an update available."""
        chat = self.standin.chats.open(chat_id)
        message = self.standin.chats.write(chat, person(chat_id), text)
        self.standin.updates.push("message", message.as_platform())

    async def wait_for(self, count: int) -> None:
        """Wait until so many answers came in all."""
        async with asyncio.timeout(LONGEST_S):
            while self.count < count:
                self.arrived.clear()
                await self.arrived.wait()

    def _note(self, send: Callable[[Call], Any], call: Call) -> Any:
        self.last_at = time.perf_counter()
        self.count += 1
        self.answers[call.integer("chat_id")].append(call.text("text"))
        self.arrived.set()
        return send(call)


class Runner:
    """One bot as a process of its own, and the stand-in it talks to."""

    def __init__(self, kind: str, folder: Path, samples: Path | None = None) -> None:
        self._sampled = () if samples is None else (str(samples),)
        self.watched = Watched()
        self.times: list[float] = []
        self.rates: list[float] = []
        self.out_of_order = 0
        self._kind = kind
        self._folder = folder
        self._bot: Any = None

    async def start(self) -> None:
        """Start the bot and set up its households."""
        await self.watched.standin.start()
        url, log = self.watched.standin.url, (self._folder / f"{self._kind}.log").open("w")
        if self._kind == "echo":
            self._bot = begin("tests.tools.echo", url, TOKEN, stderr=log)
        else:
            settings = bot_settings(url, self._folder)
            self._bot = begin("tests.tools.unpaced", *self._sampled, environment=settings, stderr=log)
        for text in HOME:
            await self._say([1], text)
        for text in (*HOME[:2], "ivy, study, 12 cm"):
            await self._say(range(2, CHATS + 2), text)

    async def stop(self) -> None:
        """End the bot, then the stand-in."""
        if self._bot is not None:
            end(self._bot)
        await self.watched.standin.stop()

    async def answer(self, text: str, *, is_counted: bool) -> None:
        """Time one answer. [ms]."""
        start = time.perf_counter()
        await self._say([1], text)
        if is_counted:
            self.times.append(1000 * (self.watched.last_at - start))
        await asyncio.sleep(PAUSE_S)

    async def burst(self) -> None:
        """Let every chat write at once: answers a second, and how many chats got theirs out of order."""
        watched = self.watched
        watched.answers.clear()
        start, count = time.perf_counter(), watched.count
        for number in range(EACH):
            for chat in range(2, CHATS + 2):
                watched.push(chat, f"study is 2{number} degrees")
        await watched.wait_for(count + CHATS * EACH)
        self.rates.append(CHATS * EACH / (watched.last_at - start))
        orders = [[NUMBER.findall(answer)[:1] for answer in answers] for answers in watched.answers.values()]
        expected = [[str(number)] for number in range(EACH)]
        self.out_of_order += sum(order != expected for order in orders) + CHATS - len(orders)

    async def _say(self, chats: Iterable[int], text: str) -> None:
        count = self.watched.count
        for chat in chats:
            self.watched.push(chat, text)
            count += 1
        await self.watched.wait_for(count)

    def measured(self) -> Measured:
        """Give the figures of all turns."""
        times = sorted(self.times)
        return Measured(
            times[len(times) // 2],
            times[int(len(times) * 0.99)],
            sorted(self.rates)[len(self.rates) // 2],
            self.out_of_order,
        )


async def measure(messages: int, bursts: int, folder: Path) -> tuple[Measured, Measured]:
    """
    Run both bots side by side and let them take turns, a few messages each.

    One after the other would compare two moments of the machine, and these differ more than the bots do.
    """
    echo, ours = runners = Runner("echo", folder), Runner("ours", folder)
    try:
        for runner in runners:
            await runner.start()
        said = drawn()
        for turn in range((messages + WARM_UP) // A_TURN):
            first = turn * A_TURN % LINES
            for runner in runners if turn % 2 else runners[::-1]:
                for text in said[first : first + A_TURN]:
                    await runner.answer(text, is_counted=turn * A_TURN >= WARM_UP)
        for turn in range(bursts):
            for runner in runners if turn % 2 else runners[::-1]:
                await runner.burst()
    finally:
        for runner in runners:
            await runner.stop()
    return echo.measured(), ours.measured()


async def compare(messages: int, bursts: int = BURSTS) -> int:
    """Measure both and print the ratios; the exit code says whether they are within the limits."""
    with tempfile.TemporaryDirectory() as folder:
        echo, ours = await measure(messages, bursts, Path(folder))
    ratios = {"p50": ours.p50_ms / echo.p50_ms, "p99": ours.p99_ms / echo.p99_ms}
    rate = ours.per_s / echo.per_s
    print("update available to answer sent; pacing off, SQLite synchronous FULL")
    print(f"{'':<12}{'echo':>9}{'ours':>9}{'ratio':>8}{'limit':>8}")
    print(f"{'p50 ms':<12}{echo.p50_ms:>9.2f}{ours.p50_ms:>9.2f}{ratios['p50']:>8.2f}{LIMITS['p50']:>8}")
    print(f"{'p99 ms':<12}{echo.p99_ms:>9.2f}{ours.p99_ms:>9.2f}{ratios['p99']:>8.2f}{LIMITS['p99']:>8}")
    print(f"{'burst /s':<12}{echo.per_s:>9.0f}{ours.per_s:>9.0f}{rate:>8.2f}{LEAST_RATE:>8}")
    print(f"{'mixed chats':<12}{echo.out_of_order:>9}{ours.out_of_order:>9}{'':>8}{0:>8}")
    is_slow = any(ratios[name] > limit for name, limit in LIMITS.items())
    return int(is_slow or rate < LEAST_RATE or ours.out_of_order > 0)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.answer")
    parser.add_argument("--messages", type=int, default=500)
    sys.exit(asyncio.run(compare(parser.parse_args().messages)))
