"""
`python -m tests.tools.fuzzing --texts 200000 --talks 5000 --seed 1`: random and mutated messages, texts, buttons, updates.

Texts go through the grammar alone, talks through the whole bot. Prints what went wrong and exits 1 if anything did.
"""

import argparse
import random
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from bot.actions.incoming import Location, Other, Photo
from bot.messages import MAX_TEXT
from bot.phrases.hearing import understand
from bot.storage.database import Database
from bot.telegram.incoming import parse
from bot.telegram.parsed import Me
from tests.journeys.talking import Talk
from tests.phrases.situation import EVENING

TABLES = Path(__file__).parent.parent / "phrases"
NOISE = (
    "%",
    "1:20",
    "0",
    "-1",
    "1e9",
    "\u00bd",
    "9" * 30,
    "\n",
    " ",
    "\u00e9",
    "\U0001fab4",
    "\u202e",
    "\0",
    "'",
    '"',
    ";",
    "??",
)
ANEW_EVERY = 400
SLOW_S = 2.0


def seeds() -> list[str]:
    """Give the texts everything is mutated from: the golden set and the wordings."""
    lines = [
        line
        for name in ("golden.tsv", "wordings.tsv")
        for line in (TABLES / name).read_text("utf-8").splitlines()
    ]
    return [line.split("\t")[0] for line in lines if line and not line.startswith("#")]


def mutated(source: random.Random, known: Sequence[str], words: Sequence[str]) -> str:
    """Give a text of the known ones, or one torn, shuffled, glued, cut or littered."""
    text, kind = source.choice(known), source.random()
    parts = text.split(" ")
    if kind < 0.25:
        return text
    if kind < 0.45:
        source.shuffle(parts)
    elif kind < 0.65:
        for _ in range(source.randint(1, 3)):
            parts.insert(source.randint(0, len(parts)), source.choice(words))
    elif kind < 0.75:
        return f"{text}{source.choice((', ', ' and ', '. ', chr(10)))}{source.choice(known)}"
    elif kind < 0.85:
        return "".join(letter for letter in text if source.random() > 0.1)
    elif kind < 0.95:
        return "".join(
            source.choice((*NOISE, letter)) if source.random() < 0.1 else letter for letter in text
        )
    else:
        return "".join(
            chr(source.choice((source.randint(32, 126), source.randint(1, 0x2FFF))))
            for _ in range(source.randint(1, 80))
        )
    return " ".join(parts)


def read_texts(count: int, source: random.Random) -> list[str]:
    """Let the grammar read so many texts; give what went wrong."""
    known = seeds()
    words = sorted({word for text in known for word in text.split()})
    wrong = []
    for _ in range(count):
        text = mutated(source, known, words)
        started = time.perf_counter()
        try:
            meant = understand(text, EVENING)
        except Exception as error:  # noqa: BLE001 - whatever it is, it is what is looked for
            wrong.append(f"{type(error).__name__}: {text!r}")
            continue
        if not meant:
            wrong.append(f"nothing meant: {text!r}")
        if time.perf_counter() - started > SLOW_S:
            wrong.append(f"slow: {text!r}")
    return wrong


def hold_talks(count: int, source: random.Random) -> list[str]:
    """Let the whole bot hear so many texts, presses, photos and hours; give what went wrong."""
    known = seeds()
    words = sorted({word for text in known for word in text.split()})
    wrong: list[str] = []
    with tempfile.TemporaryDirectory() as folder:
        talk = None
        for number in range(count):
            if number % ANEW_EVERY == 0:
                if talk is not None:
                    talk.database.close()
                talk = Talk(Database("", Path(folder) / str(number)))
                talk.set_up()
            assert talk is not None
            done, act = _act(talk, source, mutated(source, known, words))
            before = len(talk.entries())
            try:
                answers = act()
            except Exception as error:  # noqa: BLE001 - as above
                wrong.append(f"{type(error).__name__}: {done}")
                continue
            wrong += [f"{len(text)} characters: {done}" for text in answers if not 0 < len(text) <= MAX_TEXT]
            if done.startswith("say ") and _is_unclear(answers) and len(talk.new_since(before)):
                wrong.append(f"written though unclear: {done}")
        if talk is not None:
            talk.database.close()
    return wrong


def _is_unclear(answers: Sequence[str]) -> bool:
    return bool(answers) and all(answer.startswith("I did not understand") for answer in answers)


def _act(talk: Talk, source: random.Random, text: str) -> tuple[str, Callable[[], list[str]]]:
    shown = talk.shown.get(1, [])
    buttons = [button for answer in shown[-6:] for row in answer.buttons for button in row]
    kind = source.random()
    if kind < 0.15 and buttons:
        chosen = source.choice(buttons)
        return f"press {chosen.label}", lambda: talk.press_data(chosen.data)
    if kind < 0.18:
        data = source.choice(
            ("q1.0", "q99999.9", "q", "x", "", f"q{source.randint(1, 400)}.{source.randint(0, 9)}")
        )
        return f"press {data!r}", lambda: talk.press_data(data)
    if kind < 0.21:
        return f"photo {text!r}", lambda: talk.send(Photo("file", text))
    if kind < 0.23:
        place = Location(source.uniform(-90, 90), source.uniform(-180, 180))
        return f"location {place}", lambda: talk.send(place)
    if kind < 0.24:
        return "sticker", lambda: talk.send(Other("sticker"))
    if kind < 0.30:
        talk.passes(hours=source.choice((1, 5, 24, 24 * 9)))
        return "evening", talk.evening
    return f"say {text!r}", lambda: talk.say(text)


def read_updates(count: int, source: random.Random) -> list[str]:
    """Let the door read so many broken updates; give what went wrong."""
    wrong = []
    for number in range(count):
        raw = _broken(source, number)
        try:
            parse(raw, Me(1, "bot"))
        except Exception as error:  # noqa: BLE001 - as above
            wrong.append(f"{type(error).__name__}: {raw!r}")
    return wrong


def _broken(source: random.Random, number: int) -> object:
    junk: tuple[Any, ...] = (None, True, -1, 2**70, 1.5, "", "x" * 50, [], {}, [[]], {"id": {}}, float("nan"))
    chat: dict[str, Any] = {"id": 1, "type": source.choice(("private", "group", 7))}
    message = {
        "message_id": 1,
        "date": 1_800_000_000,
        "chat": chat,
        "from": {"id": 1, "is_bot": False, "first_name": "Ada"},
        "text": "done",
    }
    update: dict[str, Any] = {
        "update_id": number,
        source.choice(("message", "callback_query", "poll")): message,
    }
    for _ in range(source.randint(0, 3)):
        target = source.choice((update, message, chat))
        target[source.choice((*target, "photo", "location", "data", "media_group_id", "caption"))] = (
            source.choice(junk)
        )
    return update if source.random() > 0.05 else source.choice(junk)


def main() -> int:
    """Fuzz and print the figures."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.fuzzing")
    parser.add_argument("--texts", type=int, default=200_000)
    parser.add_argument("--talks", type=int, default=5_000)
    parser.add_argument("--updates", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    wrong = []
    for name, count, fuzz in (
        ("texts", options.texts, read_texts),
        ("talks", options.talks, hold_talks),
        ("updates", options.updates, read_updates),
    ):
        started = time.monotonic()
        found = fuzz(count, random.Random(options.seed))
        print(f"{name:<8}{count:>8}  wrong {len(found)}  {time.monotonic() - started:.0f} s", flush=True)
        wrong += found
    print("\n".join(wrong[:40]))
    return int(bool(wrong))


if __name__ == "__main__":
    sys.exit(main())
