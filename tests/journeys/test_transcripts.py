"""Whole conversations word for word, as they are read in transcripts/: what a copy editor changes, a test notices."""

from pathlib import Path

import pytest

from tests.journeys.talking import Talk
from tests.journeys.transcribe import FOLDER, replayed, steps

FILES = sorted(FOLDER.glob("*.txt"))


def test_there_are_transcripts_of_every_kind_of_day() -> None:
    assert {file.stem for file in FILES} == {
        "a bad evening",
        "a check walk",
        "a work day",
        "setting up",
        "two members",
    }


@pytest.mark.parametrize("file", FILES, ids=[file.stem for file in FILES])
def test_the_conversation_goes_word_for_word(stranger_talk: Talk, file: Path) -> None:
    text = file.read_text("utf-8")
    assert replayed(steps(text), stranger_talk) == text


@pytest.mark.parametrize("file", FILES, ids=[file.stem for file in FILES])
def test_it_reads_well_aloud(file: Path) -> None:
    said = [line.strip() for line in file.read_text("utf-8").splitlines() if line.startswith("    ")]
    assert not [line for line in said if "!" in line]
    assert not [line for line in said if len(line) > 420], "a paragraph nobody reads at half past eight"
    blame = ("you forgot", "you should have", "you failed", "your fault", "unfortunately")
    assert not [line for line in said if any(word in line.lower() for word in blame)]
