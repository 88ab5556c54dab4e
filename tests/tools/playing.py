"""
`python -m tests.tools.playing FILE TEXT`: play one person against the bot, a message at a time, and keep the talk.

The file holds what people did, as the transcripts of `tests/journeys/` do, and is replayed from its first line on every
call, so that a talk is the same whenever it is read again. `--press LABEL` presses a button in sight, `--wait` passes
the time until the bot speaks up, `--after "3 h"` or `--after "2 d"` lets time pass, `--by Bo` speaks as the second
person of the home, who joins with `--join`. `--holds` prints what the bot's journal holds, `--whole` the whole talk.
"""

import argparse
import sys
import tempfile
from pathlib import Path

from bot.storage.database import Database
from tests.journeys.holding import holds
from tests.journeys.talking import PARTNER, Talk
from tests.journeys.transcribe import replayed, steps


def main() -> int:
    """Add one step to a talk, and print what the bot answers."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.playing", description=__doc__)
    parser.add_argument("file", type=Path)
    parser.add_argument("text", nargs="?")
    parser.add_argument("--press", metavar="LABEL")
    parser.add_argument("--wait", action="store_true")
    parser.add_argument("--after", metavar="SPAN")
    parser.add_argument("--by", choices=("Ada", "Bo"), default="Ada")
    parser.add_argument("--join", action="store_true")
    parser.add_argument("--holds", action="store_true")
    parser.add_argument("--whole", action="store_true")
    options = parser.parse_args()
    told = steps(options.file.read_text("utf-8")) if options.file.exists() else []
    new = _step(options)
    with tempfile.TemporaryDirectory() as folder:
        talk = Talk(Database("", Path(folder)))
        if options.join or (options.file.exists() and any(line.startswith("Bo") for line in told)):
            talk.names[PARTNER] = "Bo"
        try:
            before = replayed(told, talk) if told else ""
            after = replayed(new, talk) if new else ""
        except StopIteration:
            sys.exit(f"no button “{options.press}” is in sight")
        if options.holds:
            print("\n".join(holds(talk)))
        talk.database.close()
    if new:
        options.file.write_text(f"{before}\n{after}" if before else after, "utf-8")
    print(before + "\n" + after if options.whole else after, end="")
    return 0


def _step(options: argparse.Namespace) -> list[str]:
    if options.press is not None:
        return [f"{options.by} presses [{options.press}]"]
    if options.wait:
        return ["--- next evening"]
    if options.after is not None:
        return [f"--- +{options.after}"]
    if options.join:
        return ["Ada: invite", "Bo: /start CODE"]
    if options.text is not None:
        return [f"{options.by}: {options.text}".replace("\n", "\\n")]
    return []


if __name__ == "__main__":
    sys.exit(main())
