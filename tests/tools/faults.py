"""
Puts the real bot through the faults of its surroundings and counts what was lost or done twice.

`python -m tests.tools.faults [--seed N] [--only NAME]` prints one line a fault; exit 1 where a limit is broken. The
bot, the stand-in of the platform and the tools run as processes of their own, as an operator runs them.
"""

import argparse
import asyncio
import random
import resource
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from dataclasses import dataclass, field
from datetime import timedelta
from functools import partial
from pathlib import Path
from typing import Any, TextIO

import httpx
import sqlalchemy as sa

from bot.actions.incoming import Incoming, Text
from bot.catalogue.load import load
from bot.clock import Clock
from bot.conversation import Conversation
from bot.storage.database import Database
from bot.storage.engine import open_engine
from bot.storage.migrate import revisions
from demo.running import OWNER, running
from tests.storage.earlier import bring_back
from tests.tools.killing import ANSWER, journalled
from tests.tools.measuring import begin, bot_settings, end, person, said, say, stand_in
from tests.tools.second_stand_in import installed
from tests.tools.standing_in import TOKEN

CHATS = 4
TOLD = 8
"""Finds told in one fault."""
SET_UP = ("/start", "51.0543, 3.7174", "ivy, study, 12 cm")
PRIVATE = (TOKEN, TOKEN.partition(":")[2], "spider", "ivy", "51.0543", "3.7174", "study", "Ada")
"""What no log may hold, at whatever level: the token, texts, places, names."""
AT_ONCE = 4
"""Faults tried at the same time, each with a bot and a stand-in of its own: they mostly wait."""
NUDGED = 80
"""Homes written to in the evening."""
EVENING_HOUR = 19
PATIENCE_S = 60.0
QUIET_S = 1.2
"""After the last answer, so long is waited for one that comes twice."""
UNIT_STOPS_WITHIN_S = 20
"""`TimeoutStopSec` of deploy/duskround.service."""
FULL_AT_BYTES = 60_000
"""No file may grow beyond this while the disk is "full"."""


@dataclass(slots=True)
class Scene:
    """A running bot, its platform and what was told so far."""

    url: str
    client: httpx.Client
    data: Path
    log: TextIO
    chance: random.Random
    bot: Any = None
    told: list[int] = field(default_factory=list)
    kills: int = 0
    doubled_besides: int = 0
    """What else came twice, besides answers."""

    def start(self, more: dict[str, str] | None = None, module: str = "bot") -> None:
        """Start the bot."""
        environment = bot_settings(self.url, self.data) | {"DUSKROUND_LOG": "debug"} | (more or {})
        self.bot = begin(module, environment=environment, stderr=self.log, stdout=self.log)

    @property
    def logged(self) -> str:
        """What the bot wrote to its log."""
        return (self.data / "log.txt").read_text()

    def kill(self) -> None:
        """Kill it with signal 9."""
        end(self.bot)
        self.kills += 1

    def faults(self, *faults: dict[str, Any]) -> None:
        """Let calls of the platform go wrong."""
        self.client.post("/faults", json=list(faults)).raise_for_status()

    def tell(self, count: int = TOLD) -> None:
        """Tell finds, each of a number of its own, in turn in all chats."""
        for _ in range(count):
            number = len(self.told) + 1
            self.told.append(number)
            say(self.client, number % CHATS + 1, f"ivy {number} spider mites")
            time.sleep(self.chance.uniform(0, 0.02))

    def push(self, update: dict[str, Any]) -> None:
        """Bring an update as it is."""
        self.client.post("/updates", json=update).raise_for_status()

    def answers(self) -> Counter[int]:
        """Count the answers by the number they are to."""
        found = (
            ANSWER.search(one["text"]) for chat in range(1, CHATS + 1) for one in said(self.client, chat)
        )
        return Counter(int(one[1]) for one in found if one)

    def waited(self) -> Counter[int]:
        """Wait until everything told is answered and nothing more comes; give the answers."""
        until, seen, since = time.monotonic() + PATIENCE_S, Counter[int](), time.monotonic()
        while time.monotonic() < until:
            now = self.answers()
            if now != seen:
                seen, since = now, time.monotonic()
            if len(seen) >= len(self.told) and time.monotonic() - since > QUIET_S:
                break
            time.sleep(0.1)
        return seen


def cut_before(scene: Scene) -> None:
    """The connection is cut before the platform takes a message."""
    scene.faults({"method": "sendMessage", "times": 4, "cut": "before"})
    scene.tell()


def cut_after(scene: Scene) -> None:
    """The connection is cut after the platform took a message: nobody can know, so it may come twice."""
    scene.faults({"method": "sendMessage", "times": 2, "cut": "after"})
    scene.tell()


def told_to_wait(scene: Scene) -> None:
    """429 with retry_after."""
    scene.faults({"method": "sendMessage", "times": 4, "status": 429, "retry_after": 1})
    scene.tell()


def server_errors(scene: Scene) -> None:
    """5xx, to sending and to polling."""
    scene.faults(
        {"method": "sendMessage", "times": 3, "status": 502},
        {"method": "getUpdates", "times": 2, "status": 500},
    )
    scene.tell()


def slow_answers(scene: Scene) -> None:
    """Answers that take three seconds."""
    scene.faults({"method": "sendMessage", "times": 3, "delay_s": 3})
    scene.tell()


def garbage_answers(scene: Scene) -> None:
    """Answers that are no JSON, to polling and to sending: the message was taken and may come twice."""
    scene.faults(
        {"method": "getUpdates", "times": 2, "is_garbage": True},
        {"method": "sendMessage", "times": 2, "is_garbage": True},
    )
    scene.tell()


def poisoned_updates(scene: Scene) -> None:
    """Updates out of form between others."""
    scene.tell(TOLD // 2)
    poisons: tuple[dict[str, Any], ...] = (
        {"message": 7},
        {"message": {"chat": {"id": 1}}},
        {"callback_query": {}},
        {"wonder": "x" * 9000},
    )
    for poison in poisons:
        scene.push(poison)
    scene.tell(TOLD - TOLD // 2)


def brought_again(scene: Scene) -> None:
    """By webhook, every update three times and in any order, as after confirmations that were lost."""
    end(scene.bot)
    port, secret = _free_port(), "a-secret-of-the-test"
    hook = {
        "DUSKROUND_WEBHOOK_URL": f"http://127.0.0.1:{port}/hook",
        "DUSKROUND_WEBHOOK_SECRET": secret,
        "DUSKROUND_WEBHOOK_LISTEN": f"127.0.0.1:{port}",
    }
    scene.start(more=hook)
    numbers = range(len(scene.told) + 1, len(scene.told) + 1 + TOLD)
    scene.told += numbers
    updates = [find_of(2_000_000_000 + number, number) for number in numbers] * 3
    scene.chance.shuffle(updates)
    with httpx.Client(trust_env=False, headers={"X-Telegram-Bot-Api-Secret-Token": secret}) as platform:
        _comes(lambda: _takes(platform, hook["DUSKROUND_WEBHOOK_URL"]))
        for update in updates:
            platform.post(hook["DUSKROUND_WEBHOOK_URL"], json=update).raise_for_status()
    scene.waited()
    end(scene.bot)
    scene.start()


def _takes(platform: httpx.Client, address: str) -> bool:
    try:
        return platform.post(address, json={"update_id": 1}).is_success
    except httpx.TransportError:
        return False


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
    return port


def find_of(update_id: int, number: int) -> dict[str, Any]:
    """Make an update that tells a find."""
    chat = number % CHATS + 1
    return {
        "update_id": update_id,
        "message": {
            "message_id": 1_000_000 + number,
            "date": 1_790_000_000,
            "chat": {"id": chat, "type": "private"},
            "from": {"id": chat, "is_bot": False, "first_name": "Ada"},
            "text": f"ivy {number} spider mites",
        },
    }


def two_pollers(scene: Scene) -> None:
    """A second bot on the same data is refused; a stranger with the token takes turns with ours."""
    second = begin("bot", environment=bot_settings(scene.url, scene.data), stderr=subprocess.PIPE)
    assert second.stderr is not None
    said = second.stderr.readline()
    second.kill()
    second.communicate()
    assert "another bot is running" in said, "a second bot ran on the same data"
    stranger = threading.Thread(target=_poll, args=(scene.url,))
    stranger.start()
    scene.tell()
    stranger.join()
    assert "Conflict" in scene.logged, "nobody else polled"


def _poll(url: str) -> None:
    with httpx.Client(base_url=url, trust_env=False, timeout=10) as client:
        for _ in range(10):
            client.get(f"/bot{TOKEN}/getUpdates", params={"timeout": 0})
            time.sleep(0.2)


def disk_full(scene: Scene) -> None:
    """No file may grow for three seconds."""
    now = resource.prlimit(scene.bot.pid, resource.RLIMIT_FSIZE)
    resource.prlimit(scene.bot.pid, resource.RLIMIT_FSIZE, (FULL_AT_BYTES, now[1]))
    scene.tell()
    time.sleep(3)
    assert scene.bot.poll() is None, "a full disk ended the bot"
    assert "no updates taken (OperationalError)" in scene.logged, "the disk was not full"
    resource.prlimit(scene.bot.pid, resource.RLIMIT_FSIZE, now)


def locked_database(scene: Scene) -> None:
    """Another program holds the database's write lock for seven seconds; a writer waits for thirty."""
    with sqlite3.connect(scene.data / "duskround.sqlite", isolation_level=None) as other:
        other.execute("BEGIN IMMEDIATE")
        scene.tell()
        time.sleep(7)
        assert not scene.answers().keys() & set(scene.told[-TOLD:]), "the database was not locked"
        other.execute("ROLLBACK")
    other.close()


def read_only_database(scene: Scene) -> None:
    """The file may only be read: the bot says so and waits; then it may be written again, and all goes on."""
    end(scene.bot)
    files = list(scene.data.glob("duskround.sqlite*"))
    for file in files:
        file.chmod(0o400)
    scene.data.chmod(0o500)
    scene.tell()
    scene.start(module="tests.tools.obeying")
    is_said = _comes(lambda: "Permission denied" in scene.logged or "readonly" in scene.logged)
    scene.data.chmod(0o700)
    for file in files:
        file.chmod(0o600)
    assert is_said, f"nothing is said of a database that cannot be written: {scene.logged[-500:]}"
    assert "Traceback" not in scene.logged
    assert not scene.answers().keys() & set(scene.told[-TOLD:]), "a bot ran on a database it cannot write"


def damaged_file(scene: Scene) -> None:
    """The file is damaged: the bot does not start and names its copy; with the copy put back all goes on."""
    environment = bot_settings(scene.url, scene.data)
    scene.waited()
    end(scene.bot)
    made = begin("bot", "backup", environment=environment, stdout=subprocess.PIPE)
    copy = Path(made.communicate()[0].strip())
    file = scene.data / "duskround.sqlite"
    with file.open("r+b") as raw:
        for at in range(4096, file.stat().st_size, 4096):
            raw.seek(at)
            raw.write(b"\xff" * 600)
    scene.tell()
    bot = begin("bot", environment=environment, stderr=subprocess.PIPE)
    _, said_ = bot.communicate(timeout=PATIENCE_S)
    assert bot.returncode not in {0, None}, "a bot ran on a damaged database"
    assert copy.name in said_, f"the newest copy is not named: {said_}"
    put_back = begin("bot", "restore", str(copy), environment=environment, stdout=subprocess.DEVNULL)
    assert put_back.wait(PATIENCE_S) == 0
    scene.start()


def kills_during_backups(scene: Scene) -> None:
    """Copies are made while finds are told; each is killed at random. What is there is whole."""
    environment = bot_settings(scene.url, scene.data)
    for _ in range(6):
        copying = begin("bot", "backup", environment=environment, stdout=subprocess.DEVNULL)
        scene.tell(2)
        time.sleep(scene.chance.uniform(0.2, 1.2))
        end(copying)
    scene.waited()
    for copy in sorted((scene.data / "backups").glob("*.sqlite")):
        with sqlite3.connect(copy) as database:
            assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",), f"{copy.name} is damaged"
        database.close()


def kills_of_the_bot(scene: Scene) -> None:
    """Kill -9 while messages come."""
    for _ in range(5):
        scene.tell(3)
        time.sleep(scene.chance.uniform(0, 1.5))
        scene.kill()
        scene.start()


def kills_during_nudges(scene: Scene) -> None:
    """The evening of many homes has come; the bot is killed while it writes to them."""
    end(scene.bot)
    homes = range(1_000, 1_000 + NUDGED)
    _make_due(scene.data, homes)
    for home in homes:  # the platform lets a bot write only where somebody spoke to it
        scene.push({"edited_message": {"chat": {"id": home, "type": "private"}}})
    written = 0
    for _ in range(5):
        enough = partial(_is_written, scene, homes, written + scene.chance.randint(2, 9))
        scene.start()
        _comes(enough)
        time.sleep(scene.chance.uniform(0, 0.1))
        scene.kill()
        written = _written(scene, homes)
    assert 0 < written < NUDGED, f"{written} of {NUDGED} homes were written to before the last kill"
    scene.start()
    _comes(lambda: all(_nudges(scene, home) for home in homes))
    time.sleep(QUIET_S)
    counts = [_nudges(scene, home) for home in homes]
    assert min(counts) == 1, f"{counts.count(0)} homes were not written to"
    scene.doubled_besides = sum(counts) - len(counts)


def _make_due(data: Path, homes: range) -> None:
    """Found homes whose evening has come an hour ago, somewhere on the globe where it is evening now."""
    now = Clock().now()
    longitude = (EVENING_HOUR - now.hour - now.minute / 60) % 24 * 15
    morning = now - timedelta(hours=EVENING_HOUR - 8)
    conversation = Conversation(load().knowledge, lambda *_: True)
    texts = ("/start", f"10.5, {(longitude + 180) % 360 - 180:.1f}", "ivy, study, 12 cm", "nudge me at 18:00")
    with closing(Database("", data)) as database:
        for home in homes:
            for step, text in enumerate((*texts, f"ivy {home} spider mites")):
                incoming = Incoming(
                    update_id=home * 10 + step,
                    chat=home,
                    person=home,
                    name="Ada",
                    kind=Text(text),
                    at=morning,
                    is_group=False,
                    addressed=True,
                )
                with database.unit() as store:
                    conversation.hear(incoming, store, morning)


def _is_written(scene: Scene, homes: range, count: int) -> bool:
    return _written(scene, homes) >= count


def _written(scene: Scene, homes: range) -> int:
    """How many homes had their nudge."""
    return sum(_nudges(scene, home) > 0 for home in homes)


def _nudges(scene: Scene, home: int) -> int:
    return sum(one["text"].startswith("Tonight, ") for one in said(scene.client, home))


def kills_during_migrations(scene: Scene) -> None:
    """The database is of the first version; the bot is killed while it brings it up."""
    scene.waited()
    end(scene.bot)
    address = f"sqlite:///{scene.data / 'duskround.sqlite'}"
    for _ in range(8):
        engine = open_engine(address)
        with engine.begin() as connection:
            if connection.scalar(sa.text("SELECT version_num FROM alembic_version")) == revisions()[-1]:
                bring_back(connection, revisions()[0])
        engine.dispose()
        scene.start()
        time.sleep(scene.chance.uniform(0.3, 1.3))
        scene.kill()
    scene.start()
    scene.tell()


def clock_steps(scene: Scene) -> None:
    """The clock jumps an hour, a day and a year ahead and back; the bot runs in this process for it."""
    end(scene.bot)
    asyncio.run(_step_clock(scene, [timedelta(hours=1), timedelta(days=1), timedelta(days=365)]))
    scene.start()


async def _step_clock(scene: Scene, spans: list[timedelta]) -> None:
    async with running(Clock().now(), scene.data / "clock") as whole:
        web = httpx.AsyncClient(base_url=whole.standin.url, trust_env=False, timeout=30)
        async with web:
            for text in (*SET_UP, "ivy 1 spider mites"):
                await _said_to(web, text)
            number, seen = 1, 0
            for span in spans:
                for step in (span, -span, -span, span):
                    whole.clock.jump(step)
                    await whole.app.tick()
                    number += 1
                    seen += f"{number} spider mites on ivy" in await _said_to(
                        web, f"ivy {number} spider mites"
                    )
            assert seen == number - 1, f"{number - 1 - seen} of {number - 1} finds were not answered"
            whole.clock.jump(timedelta(days=7))  # a week asleep owes one evening
            before = len(await _evenings(web))
            for _ in range(3):
                await whole.app.tick()
                await whole.settled()
            asleep = await _evenings(web)
            assert len(asleep) - before <= 1, "a week asleep was made up for evening by evening"
    counts = Counter(asleep)
    scene.doubled_besides = sum(counts.values()) - len(counts)
    assert sum(journalled(scene.data / "clock" / "duskround.sqlite").values()) == number


async def _said_to(web: httpx.AsyncClient, text: str) -> str:
    told = (await web.post(f"/person/{OWNER}/say", json={"text": text})).raise_for_status().json()
    return "\n".join(one["text"] for one in told["messages"] if one["who"] == "bot")


async def _evenings(web: httpx.AsyncClient) -> list[str]:
    """Read which evenings were written of, by their first lines."""
    told = (await web.get(f"/person/{OWNER}/messages", params={"after": 0})).raise_for_status().json()
    lines = [one["text"].split("\n")[0] for one in told if one["who"] == "bot"]
    return [line for line in lines if line.startswith(("Tonight, ", "Once more"))]


def stopped_while_slow(scene: Scene, delay_s: float) -> None:
    """150 messages and five SIGTERMs between, while every answer of the platform takes its time."""
    scene.faults({"method": "sendMessage", "times": 1_000_000, "delay_s": delay_s})
    for _ in range(5):
        scene.tell(30)
        time.sleep(scene.chance.uniform(0.2, 0.2 + 2 * delay_s))
        scene.bot.send_signal(signal.SIGTERM)
        code = scene.bot.wait(timeout=UNIT_STOPS_WITHIN_S)
        # by the signal itself where it came before the bot was there to hear it
        assert code in {0, -signal.SIGTERM}, f"a stop ended with {code}"
        scene.start()
    scene.faults()


FAULTS: dict[str, tuple[Callable[[Scene], None], int]] = {
    "cut before acceptance": (cut_before, 0),
    "cut after acceptance": (cut_after, 2),
    "429 with retry_after": (told_to_wait, 0),
    "5xx": (server_errors, 0),
    "slow answers": (slow_answers, 0),
    "garbage answers": (garbage_answers, 2),
    "poisoned updates": (poisoned_updates, 0),
    "brought again, out of order": (brought_again, 0),
    "two pollers": (two_pollers, 0),
    "disk full": (disk_full, 0),
    "locked database": (locked_database, 0),
    "read-only database": (read_only_database, 0),
    "damaged file": (damaged_file, 0),
    "kills during backups": (kills_during_backups, 0),
    "kills of the bot": (kills_of_the_bot, 5),
    "kills during nudges": (kills_during_nudges, 5),
    "kills during migrations": (kills_during_migrations, 0),
    "clock steps, a week asleep": (clock_steps, 0),
}
"""By name: what happens, and how many answers may come twice."""
OURS_ALONE = frozenset(
    {"poisoned updates", "brought again, out of order", "two pollers", "kills during nudges"}
)
"""What the second stand-in has no means for: updates as given, the webhook's secret, two pollers' conflict."""
LONG_FAULTS: dict[str, tuple[Callable[[Scene], None], int]] = {
    "SIGTERM, answers of 0.3 s": (partial(stopped_while_slow, delay_s=0.3), 0),
    "SIGTERM, answers of 3 s": (partial(stopped_while_slow, delay_s=3.0), 0),
}
"""Those of the second gate."""


def main() -> int:
    """Run the faults one after the other on one bot, print the table, give the exit code."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.faults")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", choices=(*FAULTS, *LONG_FAULTS))
    parser.add_argument("--long", action="store_true", help="those of the second gate instead")
    parser.add_argument("--second", action="store_true", help="against the stand-in that is not ours")
    chosen = parser.parse_args()
    heads = ("lost", "journalled twice", "sent twice", "next answered", "s")
    sys.stdout.write(f"{'fault':<30}" + "".join(f"{head:>18}" for head in heads) + "\n")
    names = [chosen.only] if chosen.only else list(LONG_FAULTS if chosen.long else FAULTS)
    names = [name for name in names if not (chosen.second and name in OURS_ALONE)]
    is_good = True
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(AT_ONCE) as pool:
        npm = installed(Path(folder) / "npm") if chosen.second else None
        for row, holds in pool.map(lambda name: _row(name, Path(folder) / name, chosen.seed, npm), names):
            sys.stdout.write(row + "\n")
            sys.stdout.flush()
            is_good = is_good and holds
    return 0 if is_good else 1


def _row(name: str, data: Path, seed: int, npm: Path | None) -> tuple[str, bool]:
    try:
        return _tried(name, data, seed, npm)
    except Exception as broken:  # noqa: BLE001 - told as a line of the table, with the others still tried
        return f"{name:<30}  BROKEN: {type(broken).__name__}: {broken}", False


def _tried(name: str, data: Path, seed: int, npm: Path | None) -> tuple[str, bool]:
    happens, may_double = (FAULTS | LONG_FAULTS)[name]
    data.mkdir(mode=0o700)
    standing, url = stand_in(npm)
    began = time.monotonic()
    with person(url) as client, (data / "log.txt").open("w") as log:
        scene = Scene(url, client, data, log, random.Random(seed))
        try:
            scene.start()
            for text in SET_UP:
                for chat in range(1, CHATS + 1):
                    say(client, chat, text)
            scene.tell(CHATS)
            scene.waited()
            happens(scene)
            answers = scene.waited()
            scene.faults()
            before = len(said(client, 1))
            say(client, 1, "isolated?")
            is_answered = _comes(lambda: len(said(client, 1)) > before)
        finally:
            end(scene.bot)
            end(standing)
    entries = journalled(data / "duskround.sqlite")
    lost = sum(number not in answers or number not in entries for number in scene.told)
    twice = sum(count - 1 for count in entries.values())
    doubled = sum(count - 1 for count in answers.values()) + scene.doubled_besides
    leaked = [word for word in PRIVATE if word in (data / "log.txt").read_text()]
    assert not leaked, f"the log holds {leaked}"
    is_good = not lost and not twice and doubled <= may_double and is_answered
    figures = (lost, twice, f"{doubled} of at most {may_double}", "yes" if is_answered else "NO")
    row = f"{name:<30}" + "".join(f"{one:>18}" for one in figures)
    return f"{row}{time.monotonic() - began:>18.1f}{'' if is_good else '  BROKEN'}", is_good


def _comes(is_there: Callable[[], bool]) -> bool:
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        if is_there():
            return True
        time.sleep(0.05)
    return False


if __name__ == "__main__":
    sys.exit(main())
