"""Hands are told apart, whole, and measured as they should be: on a folder made here, each figure worked by hand."""

import re
from pathlib import Path

import pytest

from tests.phrases.hands import TABLES, drawer, fingerprint, see, tables
from tests.tools.alarm import FOLDER
from tests.tools.drawer import figures, first_aid

MEANT = """\
1\tnudge-t1\ttelling\tdone hoya orchid coffee
2\tnudge-t1\ttelling\tdone orchid
3\tnudge-t1\tquestion\task due
4\tnudge-t1\tchatter\t-
5\tquiet-t1\tanswer\tundo
"""
TYPED = "1\tdone\n2\tsprayed the hoya\n3\twhat's due\n4\tthanks\n5\tgobbledygook\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "01.meanings.tsv").write_text(MEANT)
    (tmp_path / "01.lines.tsv").write_text(TYPED)
    (tmp_path / "01.who.txt").write_text("somebody")
    return tmp_path


def test_a_drawer_s_figures(folder: Path) -> None:
    (hand,) = drawer(folder)
    seen = [see(line) for line in hand.lines]
    assert [one.is_right for one in seen] == [True, False, True, True, False]
    assert [one.untold for one in seen] == [0, 1, 0, 0, 0]
    # 2 of 4 that mean something; 1 of 2 tellings; the question; no answer; one wrote what was not told
    assert figures(seen) == ("5", "50 %", "50 %", "100 %", "0 %", "1", "0 %", "0 %")


def test_a_drawer_with_a_line_missing_is_not_run(folder: Path) -> None:
    (folder / "01.lines.tsv").write_text("1\tdone\n")
    with pytest.raises(KeyError):
        drawer(folder)


def test_a_drawer_s_fingerprint_changes_with_any_letter(folder: Path) -> None:
    before = fingerprint(folder)
    assert before == fingerprint(folder)
    (folder / "01.lines.tsv").write_text(TYPED.replace("thanks", "thanx"))
    assert fingerprint(folder) != before


def test_emergencies_are_to_be_heard_in_every_situation(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "01.lines.tsv").write_text(
        "1\tbleach in my eye\n2\tthe ivy looks nice\n21\tsprayed the ivy\n"
    )
    first_aid(tmp_path, is_shown=False)
    said = capsys.readouterr().out
    assert "situations: 1 of 2, 50 %" in said
    assert "taken for one: 0 of 1" in said


def test_every_hand_says_who_wrote_it() -> None:
    hands = tables()
    assert hands
    assert len({hand.who for hand in hands}) == len(hands)
    for hand in hands:
        assert len(hand.lines) == 100, hand.name
        assert {line.sort for line in hand.lines} == {"telling", "question", "answer", "chatter"}, hand.name


WORDINGS = 6
"""Hands whose lines stand together in wordings.tsv."""
LEAST_RIGHT = 0.88
LEAST_AT_ONCE = 0.54
MOST_UNTOLD = 40
"""
Of 9,000 lines; 17 of 6,000 before the last thirty hands came, which nobody had mended for. It was 36 until plants came
to be named as they are typed: eleven of these are "coffee plant" for coffee, "bird nest fern", "little cyclamen".
"""
MOST_IDLE_WRITES = 0.031
"""What is reached with the hands mended on; such figures are no measure of readers not seen. Chatter stood at .01 until
rooms and names nobody listed were taken in set-up: to be brought back."""


def test_hands_mended_on_do_not_fall_behind_what_was_reached() -> None:
    seen = [see(line) for hand in tables() for line in hand.lines]
    meant = [one for one in seen if one.line.sort != "chatter"]
    idle = [one for one in seen if one.line.sort == "chatter"]
    told = [one for one in seen if one.line.sort == "telling"]
    assert sum(one.is_right for one in meant) >= LEAST_RIGHT * len(meant)
    assert sum(one.is_at_once for one in told) >= LEAST_AT_ONCE * len(told)
    assert sum(one.untold > 0 for one in seen) <= MOST_UNTOLD
    assert sum(one.offers_a_write for one in idle) <= MOST_IDLE_WRITES * len(idle)


def test_every_table_says_whose_it_is_and_whether_it_was_a_drawer() -> None:
    for file in sorted(TABLES.glob("*.tsv")):
        heading = [row for row in file.read_text("utf-8").splitlines() if row.startswith("#")]
        assert [row.split(":")[0] for row in heading[:3]] == ["# who", "# written", "# drawer"], file.name
    for file in sorted(FOLDER.glob("*.tsv")):
        assert re.match(r"# Hand: .*(November|drawer|train)", file.read_text("utf-8")), file.name
    rows = [
        row for row in (TABLES.parent / "wordings.tsv").read_text("utf-8").splitlines() if row.startswith("#")
    ]
    assert (
        sum(bool(re.match(r"# who: .+; written: 2026-\d\d-\d\d; drawer: ", row)) for row in rows) == WORDINGS
    )
