import stat
import subprocess
import sys
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


def test_processes_that_start_at_once_do_not_trip_over_each_others_files(tmp_path: Path) -> None:
    # each begins, reads and removes what ended ones left, and ends without clearing, as if it were killed
    (script := tmp_path / "begin.py").write_text(BEGINNING)
    folder = tmp_path / "notes"
    folder.mkdir()
    processes = [subprocess.Popen([sys.executable, script, folder], cwd=Path.cwd()) for _ in range(4)]
    assert [process.wait() for process in processes] == [0] * 4
    left = SentNotes(folder).left_behind()
    assert all(file.suffix == ".sent" for file in folder.iterdir())
    assert all(len(notes) == 1 for notes in left.values())


BEGINNING = """
import sys
from pathlib import Path
sys.path.insert(0, ".")
from bot.storage.sent_notes import Note, SentNotes
for number in range(300):
    notes = SentNotes(Path(sys.argv[1]))
    for file, left in notes.left_behind().items():
        assert len(left) == 1, "a living process taken for an ended one"
        file.unlink(missing_ok=True)
    notes.add(Note(number, "reply:1:0", 51))
    notes.close()
"""


def test_notes_are_for_their_owner_alone(tmp_path: Path) -> None:
    notes = SentNotes(tmp_path)
    (file,) = tmp_path.iterdir()
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    notes.close()
