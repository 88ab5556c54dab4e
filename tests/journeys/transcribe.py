"""
Transcripts: whole conversations as text, to be read from top to bottom and replayed word for word.

`python -m tests.journeys.transcribe` writes them anew; read the difference before it is kept.

A line `Ada: ...` or `Bo: ...` is said, `Ada presses [...]` is a button, `--- ...` moves the clock (`+3 h`, `+1 d`,
`next evening`, or `Sat 2 May 20:00` as it came to be); every other line is the bot's.
"""

import re
import sys
import tempfile
from pathlib import Path

from bot.storage.database import Database
from tests.journeys.talking import OWNER, PARTNER, Talk

FOLDER = Path(__file__).parent / "transcripts"
PEOPLE = {"Ada": OWNER, "Bo": PARTNER}
_SAID = re.compile(r"(Ada|Bo): (.*)")
_PRESSED = re.compile(r"(Ada|Bo) presses \[(.*)\]")
_MOVED = re.compile(r"--- (?:\+(\d+) (h|d)|(next evening))")


def steps(text: str) -> list[str]:
    """Give what people do in a transcript, without what the bot says."""
    return [line for line in text.splitlines() if re.match(r"(?:Ada|Bo)(?:: | presses )|--- ", line)]


def replayed(told: list[str], talk: Talk) -> str:
    """Do it all again and give the whole transcript."""
    lines: list[str] = []
    for told_step in told:
        step = told_step
        said, pressed, moved = _SAID.fullmatch(step), _PRESSED.fullmatch(step), _MOVED.match(step)
        before = {person: len(talk.shown.get(person, [])) for person in PEOPLE.values()}
        if said is not None:
            text = said[2].replace("\\n", "\n").replace("CODE", _code(talk))
            talk.say(text, person=PEOPLE[said[1]])
        elif pressed is not None:
            talk.press(pressed[2], person=PEOPLE[pressed[1]])
        elif moved is not None and moved[3]:
            talk.evening()
            step = f"--- next evening, {talk.now:%a} {talk.now.day} {talk.now:%b %H:%M}"
        elif moved is not None:
            talk.passes(**{{"h": "hours", "d": "days"}[moved[2]]: int(moved[1])})
        lines += ["", step]
        lines += [line for person in PEOPLE.values() for line in _new(talk, person, before[person])]
    return "\n".join(lines[1:]) + "\n"


def _new(talk: Talk, person: int, since: int) -> list[str]:
    lines = []
    name = next(one for one, number in PEOPLE.items() if number == person)
    for answer in talk.shown.get(person, [])[since:]:
        whom = f"    (to {name}) " if PARTNER in talk.shown else "    "
        text = answer.text.replace(_code(talk), "CODE") if _code(talk) else answer.text
        lines += [f"{whom if not number else '    '}{line}" for number, line in enumerate(text.split("\n"))]
        lines += ["    " + " ".join(f"[{button.label}]" for button in row) for row in answer.buttons]
        attached = answer.picture or answer.document
        lines += [f"    <{attached.name}>"] if attached is not None else []
    return lines


def _code(talk: Talk) -> str:
    """Give the newest invitation's code, which is another one every time."""
    for answer in reversed(talk.shown.get(OWNER, [])):
        found = re.search(r"/start (\S{12})", answer.text)
        if found is not None:
            return found[1]
    return ""


def main() -> int:
    """Write every transcript anew."""
    for file in sorted(FOLDER.glob("*.txt")):
        with tempfile.TemporaryDirectory() as folder:
            talk = Talk(Database("", Path(folder)))
            file.write_text(replayed(steps(file.read_text("utf-8")), talk), "utf-8")
            talk.database.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
