"""Kills the real bot at random moments and counts what was lost or done twice. `python -m tests.tools.killing`."""

import argparse
import random
import re
import sqlite3
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from typing import Any

import httpx

from tests.tools.measuring import begin, bot_settings, end, person, said, say, stand_in
from tests.tools.second_stand_in import installed

BOT = "bot"
CHATS = 20
SET_UP = ("/start", "51.1, 3.7", "ivy, study, 12 cm")
"""What founds a household with one plant in each chat."""
ANSWER = re.compile(r"(\d+) spider mites? on ivy")
LONGEST_S = 240
QUIET_S = 3.0
LONGEST_REST_S = 2.0
"""Longer than a start takes, so that kills hit starting, idle and busy bots alike."""
LONGEST_GAP_S = 0.02


def main() -> int:
    """Run, print the table, give the exit code."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.killing")
    parser.add_argument("--kills", type=int, default=30)
    parser.add_argument("--messages", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--second", action="store_true", help="against the stand-in that is not ours")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        chosen.npm = installed(Path(folder) / "npm") if chosen.second else None
        counts = kill_often(chosen, Path(folder))
    limits = {"lost": 0, "not journalled": 0, "journalled twice": 0, "answered twice": chosen.kills}
    lines = [f"{chosen.messages} finds told in {CHATS} chats, seed {chosen.seed}"]
    lines += [f"{name:<18}{counts[name]:>5} of at most {limit}" for name, limit in limits.items()]
    lines += [f"{'kills':<18}{counts['kills']:>5} of {chosen.kills}"]
    sys.stdout.write("\n".join(lines) + "\n")
    return int(counts["kills"] < chosen.kills or any(counts[name] > limits[name] for name in limits))


def kill_often(chosen: Any, data: Path) -> Counter[str]:
    """Found the households, push finds, kill and restart, wait for the last answers, count."""
    standing, url = stand_in(chosen.npm)
    chance = random.Random(chosen.seed)
    settings = bot_settings(url, data)
    with person(url) as client, (data / "log.txt").open("w") as log:
        bot = begin(BOT, environment=settings, stderr=log, stdout=log)
        counts: Counter[str] = Counter()
        pushed = 0
        try:
            set_up(client)
            for kill in range(chosen.kills):
                time.sleep(chance.uniform(0, LONGEST_REST_S))
                share = chosen.messages * (kill + 1) // chosen.kills
                for number in range(pushed, share):
                    say(client, number % CHATS + 1, f"ivy {number + 1} spider mites")
                    time.sleep(chance.uniform(0, LONGEST_GAP_S))
                pushed = share
                end(bot)
                counts["kills"] += 1
                bot = begin(BOT, environment=settings, stderr=log, stdout=log)
            answers = last_answers(client, chosen.messages)
        finally:
            end(bot)
            end(standing)
    told = range(1, chosen.messages + 1)
    counts["lost"] = sum(number not in answers for number in told)
    counts["answered twice"] = sum(count - 1 for count in answers.values())
    entries = journalled(data / "duskround.sqlite")
    counts["not journalled"] = sum(number not in entries for number in told)
    counts["journalled twice"] = sum(count - 1 for count in entries.values())
    return counts


def set_up(client: httpx.Client) -> None:
    """Found a household in each chat; each step is answered before the next."""
    for step, text in enumerate(SET_UP, start=1):
        for chat in range(1, CHATS + 1):
            say(client, chat, text)
        until = time.monotonic() + LONGEST_S
        while any(len(said(client, chat)) < step for chat in range(1, CHATS + 1)):
            if time.monotonic() > until:
                raise TimeoutError(f"no answer to {text!r} within {LONGEST_S} s")
            time.sleep(0.1)


def last_answers(client: httpx.Client, messages: int) -> Counter[int]:
    """Read the answers once all are there, or none has come for a while."""
    until = time.monotonic() + LONGEST_S
    quiet_since, answers = time.monotonic(), Counter[int]()
    while time.monotonic() < until:
        now = Counter(
            int(found[1])
            for chat in range(1, CHATS + 1)
            for message in said(client, chat)
            if (found := ANSWER.search(message["text"]))
        )
        if now != answers:
            quiet_since, answers = time.monotonic(), now
        is_complete = len(answers) >= messages
        if time.monotonic() - quiet_since > (QUIET_S if is_complete else 10 * QUIET_S):
            break
        time.sleep(0.2)
    return answers


def journalled(file: Path) -> Counter[int]:
    """Count the entries by the number each find told."""
    with sqlite3.connect(file) as database:
        query = (
            "SELECT json_extract(payload, '$.count') FROM journal WHERE kind = 'found' AND void_of IS NULL"
        )
        counts = Counter(int(row[0]) for row in database.execute(query))
    database.close()
    return counts


if __name__ == "__main__":
    sys.exit(main())
