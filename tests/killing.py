"""Kills the bot at random moments and counts what was lost or done twice. `python -m tests.killing`."""

import argparse
import random
import sqlite3
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from typing import Any

import httpx

from tests.measuring import begin, bot_settings, end, person, said, say, stand_in

CHATS = 20
LONGEST_S = 240
QUIET_S = 3.0
LONGEST_REST_S = 1.5
"""Longer than a start takes, so that kills hit starting, idle and busy bots alike."""
LONGEST_GAP_S = 0.02


def main() -> int:
    """Run, print the table, give the exit code."""
    parser = argparse.ArgumentParser(prog="python -m tests.killing")
    parser.add_argument("--kills", type=int, default=30)
    parser.add_argument("--messages", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--child", default="tests.telegram.echoing", help="the module that is killed")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        counts = kill_often(chosen, Path(folder))
    limits = {"lost": 0, "journalled twice": 0, "answered twice": chosen.kills}
    lines = [f"{chosen.child}: {chosen.messages} messages, {CHATS} chats, seed {chosen.seed}"]
    lines += [f"{name:<18}{counts[name]:>5} of at most {limit}" for name, limit in limits.items()]
    lines += [f"{'kills':<18}{counts['kills']:>5} of {chosen.kills}"]
    sys.stdout.write("\n".join(lines) + "\n")
    return int(counts["kills"] < chosen.kills or any(counts[name] > limits[name] for name in limits))


def kill_often(chosen: Any, data: Path) -> Counter[str]:
    """Push messages, kill and restart, wait for the last answers, count."""
    standing, url = stand_in()
    chance = random.Random(chosen.seed)
    settings = bot_settings(url, data)
    with person(url) as client, (data / "log.txt").open("w") as log:
        bot = begin(chosen.child, "--unpaced", environment=settings, stderr=log)
        counts: Counter[str] = Counter()
        pushed = 0
        try:
            for kill in range(chosen.kills):
                time.sleep(chance.uniform(0, LONGEST_REST_S))
                share = chosen.messages * (kill + 1) // chosen.kills
                for number in range(pushed, share):
                    say(client, number % CHATS + 1, f"message {number}")
                    time.sleep(chance.uniform(0, LONGEST_GAP_S))
                pushed = share
                end(bot)
                counts["kills"] += 1
                bot = begin(chosen.child, "--unpaced", environment=settings, stderr=log)
            answers = last_answers(client, chosen.messages)
        finally:
            end(bot)
            end(standing)
    counts["lost"] = sum(f"message {number}" not in answers for number in range(chosen.messages))
    counts["answered twice"] = sum(count - 1 for count in answers.values())
    counts["journalled twice"] = journalled_twice(data / "duskround.sqlite")
    return counts


def last_answers(client: httpx.Client, messages: int) -> Counter[str]:
    """Read the answers once all are there, or none has come for a while."""
    until = time.monotonic() + LONGEST_S
    quiet_since, answers = time.monotonic(), Counter[str]()
    while time.monotonic() < until:
        now = Counter(
            message["text"].removeprefix("echo: ")
            for chat in range(1, CHATS + 1)
            for message in said(client, chat)
        )
        if now != answers:
            quiet_since, answers = time.monotonic(), now
        is_complete = len(answers) >= messages
        if time.monotonic() - quiet_since > (QUIET_S if is_complete else 10 * QUIET_S):
            break
        time.sleep(0.2)
    return answers


def journalled_twice(file: Path) -> int:
    """Count entries that stand more than once from one update."""
    with sqlite3.connect(file) as database:
        query = "SELECT count(*) - 1 FROM journal GROUP BY source, kind, plant, payload HAVING count(*) > 1"
        doubled = [row[0] for row in database.execute(query)]
    database.close()
    return sum(doubled)


if __name__ == "__main__":
    sys.exit(main())
