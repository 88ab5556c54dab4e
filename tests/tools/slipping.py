"""What tells nothing, said with slips: letters, case, marks and fillers of messages changed. `--texts`, `--seed`."""

import argparse
import random
import re
import sys
from collections.abc import Callable

from bot.actions.situation import Situation
from bot.phrases.notation import notation
from tests.phrases.hands import Line, read, tables
from tests.phrases.meanings import asked_of, untold, writes
from tests.phrases.situation import EVENING, table
from tests.tools.train import form_of

_LONG = re.compile(r"[^\W\d_]{5,}")
_ASKING = re.compile(r"(?:what|when|why|how|who|which|where|should|can|could|may)\b", re.IGNORECASE)
_BEFORE = ("hey ", "um, ", "ok so ", "btw ", "Hello. ", "sorry, ")
_BEHIND = (" please", " thanks", "...", "!!", " \U0001f642", " lol", ", ta")


def silent_lines() -> list[Line]:
    """Give what people wrote that tells nothing and is read so: questions, wishes, denials, talk."""
    told = [line for hand in tables() for line in hand.lines]
    wordings = [(text, meant) for text, meant in table("wordings.tsv") if form_of(meant) != "nothing"]
    told += [Line(text, EVENING, "evening", "wording", meant) for text, meant in wordings]
    return [line for line in told if not any(writes(one) for one in line.meaning.split(" | "))]


def written(text: str, situation: Situation, meaning: str) -> str:
    """Give what a text would write at once that was not told."""
    sure, _ = read(text, situation)
    said = notation(sure, situation)
    return said if untold(said, meaning, asked_of(situation)) else ""


def slipped(text: str, source: random.Random) -> str:
    """Change a message as thumbs, haste and manners do, one or two ways, so that it means the same."""
    for way in source.sample(_WAYS, source.choice((1, 1, 2))):
        text = way(text, source)
    return text


def _slip(text: str, source: random.Random) -> str:
    """Swap, drop or double a letter inside a long word."""
    words = list(_LONG.finditer(text))
    if not words:
        return text
    word = source.choice(words)
    at = source.randrange(word.start() + 1, word.end() - 1)
    pair = text[at : at + 2]
    return text[:at] + source.choice((pair[::-1], pair[1:], pair[0] + pair)) + text[at + 2 :]


def _case(text: str, source: random.Random) -> str:
    return source.choice((str.upper, str.lower, str.capitalize))(text)


def _marks(text: str, source: random.Random) -> str:
    """Leave out the apostrophes, or the mark at the end: of a question only where its first word asks."""
    ending = r"[?.!]+$" if _ASKING.match(text) else r"[.!]+$"
    return re.sub(source.choice((ending, "['\u2019]")), "", text)


def _filler(text: str, source: random.Random) -> str:
    return source.choice(_BEFORE) + text if source.random() < 1 / 2 else text + source.choice(_BEHIND)


_WAYS: tuple[Callable[[str, random.Random], str], ...] = (_slip, _case, _marks, _filler)


def wrongly_written(count: int, source: random.Random) -> list[str]:
    """Let so many of them be read; give what was written though the line itself writes nothing."""
    lines = silent_lines()
    wrong = []
    for _ in range(count):
        line = source.choice(lines)
        text = slipped(line.text, source)
        told = written(text, line.situation, line.meaning)
        if told and not written(line.text, line.situation, line.meaning):
            wrong.append(f"{told} written for {text!r} ({line.kind}, {line.text!r})")
    return wrong


def main() -> int:
    """Read so many and print what was written."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.slipping")
    parser.add_argument("--texts", type=int, default=200_000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    wrong = wrongly_written(options.texts, random.Random(options.seed))
    print(f"{options.texts} texts, wrongly written {len(wrong)}")
    print("\n".join(wrong))
    return int(bool(wrong))


if __name__ == "__main__":
    sys.exit(main())
