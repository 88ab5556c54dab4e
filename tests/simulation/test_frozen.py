"""Animals, person and counting stay as they were when they were shown fair; only the reader may follow the texts."""

import hashlib
from pathlib import Path

import pytest

HERE = Path(__file__).parent
FROZEN = {line.split()[1]: line.split()[0] for line in (HERE / "frozen.txt").read_text("utf-8").splitlines()}


@pytest.mark.parametrize("name", ["biology.py", "grower.py", "judging.py"])
def test_it_is_as_it_was_when_it_was_shown_fair(name: str) -> None:
    assert hashlib.sha256((HERE / name).read_bytes()).hexdigest() == FROZEN[name]
