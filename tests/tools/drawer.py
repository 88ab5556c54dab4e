"""
`python -m tests.tools.drawer FOLDER`: how a drawer's hands are read, a line a hand and one for all, and its SHA-256.

A drawer is run once, its SHA-256 committed before. `--hash` gives that alone, `--failures` shows lines that were not
read right (for hands that are trained and mended on, never for a drawer before its figures stand), `--tables` runs
the hands of the repository, `--left-out` the same with each ten read by a model that has not seen them,
`--emergencies FOLDER` unseen emergencies in every situation, `--bring-in FOLDER` makes
tables of filled training hands. `--at COMMIT FOLDER` repeats a figure with the program of that day.
"""

import argparse
import re
import subprocess
import sys
import tarfile
import tempfile
from collections.abc import Sequence
from datetime import date
from io import BytesIO
from pathlib import Path

from bot.phrases import guess
from tests.phrases.hands import (
    SITUATIONS,
    TABLES,
    Hand,
    Seen,
    drawer,
    fingerprint,
    is_first_aid,
    see,
    situation_of,
    situations_told,
    tables,
)
from tests.tools.situations import merged
from tests.tools.train import all_examples, asked_of, pack

ROOT = Path(__file__).parent.parent.parent
HEADING = (
    "hand", "lines", "right", "tellings at once", "questions", "answers", "untold writes", "first wrong", "chatter"
)  # fmt: skip
TOGETHER = 10
"""Hands written at once, for the same homes: left out together."""
HEARD_IN = re.compile(r"-[abct]\d$")
"""The homes in whose situations emergencies are to be heard: 116 of them."""
EMERGENCIES = 20
"""The first so many lines of such a file are emergencies, the others near-misses. [1]"""


def main() -> int:
    """Run what was asked for."""
    parser = argparse.ArgumentParser(prog="python -m tests.tools.drawer")
    parser.add_argument("folder", type=Path, nargs="?")
    parser.add_argument("--hash", action="store_true", help="only the SHA-256")
    parser.add_argument("--failures", action="store_true", help="show what was not read right")
    parser.add_argument("--tables", action="store_true", help="the hands of the repository")
    parser.add_argument("--left-out", action="store_true", help="the hands of the repository, not trained on")
    parser.add_argument("--emergencies", type=Path, metavar="FOLDER")
    parser.add_argument("--bring-in", type=Path, metavar="FOLDER")
    parser.add_argument("--at", metavar="COMMIT", help="with the program of that commit")
    options = parser.parse_args()
    folder = options.emergencies or options.folder
    if folder is not None:
        print(f"{folder.name}: SHA-256 {fingerprint(folder)}")
    if options.bring_in:
        return bring_in(options.bring_in)
    if options.hash:
        return 0
    if options.at:
        return again(options.at, folder, is_emergencies=options.emergencies is not None)
    if options.emergencies:
        return first_aid(options.emergencies, is_shown=options.failures)
    if options.left_out:
        return left_out(is_shown=options.failures)
    if folder is None and not options.tables:
        parser.error("a folder, or --tables")
    report(tables() if options.tables else drawer(folder), is_shown=options.failures)
    return 0


def left_out(*, is_shown: bool) -> int:
    """Print the figures of each ten hands, read by a model made from all the others."""
    hands, examples = tables(), list(all_examples())
    print("\t".join(HEADING))
    everything: list[Seen] = []
    for at in range(0, len(hands), TOGETHER):
        own = hands[at : at + TOGETHER]
        names = {hand.name for hand in own}
        others = [one for one in examples if one.hand not in names]
        anew, asked = guess.load(pack(others)), guess.load(pack(asked_of(others)))
        guess.model = lambda made=anew: made  # type: ignore[assignment]
        guess.asked_model = lambda made=asked: made  # type: ignore[assignment]
        seen = [see(line) for hand in own for line in hand.lines]
        everything += seen
        print("\t".join((f"{own[0].name} on", *figures(seen))), flush=True)
    print("\t".join(("all", *figures(everything))))
    show(everything if is_shown else ())
    return 0


def report(hands: Sequence[Hand], *, is_shown: bool = False) -> None:
    """Print the figures, and what was not read right where that may be seen."""
    print("\t".join(HEADING))
    everything: list[Seen] = []
    for hand in hands:
        seen = [see(line) for line in hand.lines]
        everything += seen
        print("\t".join((hand.name, *figures(seen))))
    print("\t".join(("all", *figures(everything))))
    show(everything if is_shown else ())


def show(seen: Sequence[Seen]) -> None:
    """Print what was not read right."""
    for one in seen:
        if not one.is_right or one.untold:
            typed = one.line.text.replace("\n", "\\n")
            print(f"{one.line.kind}\t{typed}\t{one.line.meaning}\t{one.sure}\t{' | '.join(one.offered)}")


def figures(seen: Sequence[Seen]) -> tuple[str, ...]:
    """Give the figures of some lines, as they stand under the heading."""
    told = [one for one in seen if one.line.sort == "telling"]
    asked = [one for one in seen if one.line.sort == "question"]
    answered = [one for one in seen if one.line.sort == "answer"]
    idle = [one for one in seen if one.line.sort == "chatter"]
    meant = [*told, *asked, *answered]
    return (
        str(len(seen)),
        share(sum(one.is_right for one in meant), len(meant)),
        share(sum(one.is_at_once for one in told), len(told)),
        share(sum(one.is_right for one in asked), len(asked)),
        share(sum(one.is_right for one in answered), len(answered)),
        str(sum(one.untold > 0 for one in seen)),
        share(sum(one.is_misled for one in meant), len(meant)),
        share(sum(one.offers_a_write for one in idle), len(idle)),
    )


def share(part: int, whole: int) -> str:
    """Write a part of a whole in percent."""
    return f"{100 * part / whole:.0f} %" if whole else "-"


def first_aid(folder: Path, *, is_shown: bool) -> int:
    """Say how many emergencies are heard in every situation, and how many near-misses are taken for one."""
    kinds = [name for name in situations_told(SITUATIONS) if HEARD_IN.search(name)]
    states = [situation_of(name) for name in kinds]
    heard = missed = taken = spared = 0
    for file in sorted(folder.glob("*.lines.tsv")):
        rows = [row.split("\t", 1) for row in file.read_text("utf-8").splitlines() if row]
        for number, text in rows:
            typed = text.replace("\\n", "\n")
            hits = [is_first_aid(typed, state) for state in states]
            if int(number) <= EMERGENCIES:
                heard, missed = heard + all(hits), missed + (not all(hits))
            else:
                taken, spared = taken + any(hits), spared + (not any(hits))
            if is_shown and (not all(hits) if int(number) <= EMERGENCIES else any(hits)):
                print(f"{file.name}\t{number}\t{text}")
    total = heard + missed
    print(
        f"emergencies heard in every of {len(states)} situations: {heard} of {total}, {share(heard, total)}"
    )
    print(f"near-misses taken for one: {taken} of {taken + spared}")
    return 0


def bring_in(folder: Path) -> int:
    """Write each filled hand of a folder, or of an opened drawer, as a table with its heading, numbered on."""
    TABLES.mkdir(exist_ok=True)
    sort = f"{folder.name}, opened since" if folder.parent.name == "drawers" else "no, trained and mended on"
    number = max((int(file.stem.removeprefix("hand-")) for file in TABLES.glob("*.tsv")), default=0)
    told = situations_told(folder / "situations")
    (SITUATIONS / f"{folder.name.lower()}.toml").write_text(merged(told), encoding="utf-8")
    for meanings in sorted(folder.glob("*.meanings.tsv")):
        name = meanings.name.partition(".")[0]
        lines = folder / f"{name}.lines.tsv"
        if not lines.is_file():
            continue
        typed = dict(row.split("\t", 1) for row in lines.read_text("utf-8").splitlines() if row)
        rows = [row.split("\t") for row in meanings.read_text("utf-8").splitlines() if row]
        lacking = [row for row, *_ in rows if row not in typed]
        if lacking:
            print(f"{name}: lines {', '.join(lacking)} are missing, left out")
            continue
        number += 1
        who = (folder / f"{name}.who.txt").read_text("utf-8").strip()
        on = date.fromtimestamp(lines.stat().st_mtime).isoformat()  # noqa: DTZ012 - the day by the machine's clock
        head = [f"# who: {who}", f"# written: {on}", f"# drawer: {sort}"]
        body = ["\t".join((*meant, typed[row])) for row, *meant in rows]
        (TABLES / f"hand-{number:02}.tsv").write_text("\n".join([*head, *body]) + "\n", encoding="utf-8")
        print(f"hand-{number:02}: {len(body)} lines")
    return 0


def again(commit: str, folder: Path, *, is_emergencies: bool) -> int:
    """Run a drawer with the program as it was at a commit."""
    packed = subprocess.run(["git", "archive", commit], cwd=ROOT, check=True, capture_output=True).stdout
    with tempfile.TemporaryDirectory() as place:
        with tarfile.open(fileobj=BytesIO(packed)) as files:
            files.extractall(place, filter="data")
        kind = ["--emergencies"] if is_emergencies else []
        command = [sys.executable, "-m", "tests.tools.drawer", *kind, str(folder.resolve())]
        return subprocess.run(command, cwd=place, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
