"""
Seven played lives, lived again: the journal holds at the end what they told, and nothing that they did not tell.

`lives/told/` says what each told in words or by a button, by their talks; `*` stands for anything. What is told and
not written, or written and not told, is named there: both lists may only shrink. What is written at last moves up.
"""

from fnmatch import fnmatchcase
from pathlib import Path

import pytest

from tests.journeys.holding import holds
from tests.journeys.living import live
from tests.journeys.talking import Talk

FOLDER = Path(__file__).parent / "lives"
MOST_LOST = {"01": 5, "02": 12, "03": 6, "04": 3, "05": 19, "06": 21, "07": 16}


@pytest.mark.parametrize("file", sorted((FOLDER / "told").glob("*.txt")), ids=lambda file: file.stem)
def test_a_life_lived_again_is_written_as_it_was_told(file: Path, stranger_talk: Talk) -> None:
    told, rest = file.read_text("utf-8").removeprefix("=== told\n").split("=== told, and not written today\n")
    lost, wrong = (part.splitlines() for part in rest.split("=== written, and not told\n"))
    assert len(lost) <= MOST_LOST[file.stem]
    live((FOLDER / "first_runs" / file.name).read_text("utf-8"), stranger_talk)
    held = holds(stranger_talk)
    assert not [one for one in held if not _is_among(one, (*told.splitlines(), *wrong))], "nobody told that"
    assert not [one for one in told.splitlines() if not _fits_any(one, held)], "that was told"
    mended = [one for one in wrong if not _fits_any(one, held)] + [
        one for one in lost if _fits_any(one, held)
    ]
    assert not mended, "take these out of the list: it may only shrink"


def _is_among(line: str, patterns: tuple[str, ...]) -> bool:
    return any(fnmatchcase(line, one) for one in patterns)


def _fits_any(pattern: str, lines: list[str]) -> bool:
    return any(fnmatchcase(line, pattern) for line in lines)
