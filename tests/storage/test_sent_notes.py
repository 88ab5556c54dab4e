import stat
from pathlib import Path

from bot.storage.sent_notes import Note, SentNotes


def test_a_process_that_ended_without_clearing_leaves_its_notes(tmp_path: Path) -> None:
    ended = SentNotes(tmp_path)
    ended.add(Note(1, "reply:1:0", 51))
    ended.add(Note(2, "nudge:1:2027-05-04:1:9", None))
    living = SentNotes(tmp_path)
    assert living.left_behind() == {}, "the other still holds its lock"
    ended.close()
    (left,) = living.left_behind().values()
    assert left == [Note(1, "reply:1:0", 51), Note(2, "nudge:1:2027-05-04:1:9", None)]
    living.close()


def test_cleared_notes_leave_nothing(tmp_path: Path) -> None:
    notes = SentNotes(tmp_path)
    notes.add(Note(1, "reply:1:0", 51))
    notes.clear()
    notes.close()
    assert list(tmp_path.iterdir()) == []


def test_a_cut_line_and_nonsense_are_no_notes(tmp_path: Path) -> None:
    (tmp_path / "9-x.sent").write_text('[1,"reply:1:0",51]\n{"a":1}\n[1,2]\n["1","k",null]\n[7,"reply:7')
    notes = SentNotes(tmp_path)
    assert list(notes.left_behind().values()) == [[Note(1, "reply:1:0", 51)]]
    notes.close()


def test_notes_are_for_their_owner_alone(tmp_path: Path) -> None:
    notes = SentNotes(tmp_path)
    (file,) = tmp_path.iterdir()
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    notes.close()
