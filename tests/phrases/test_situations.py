"""The situations that lines are read in are whole: every name in them is one of the catalogue's or of the home's."""

from pathlib import Path

import pytest

from bot.actions.situation import Expecting
from bot.rehearsal import USUAL, read_situation
from tests.phrases.situation import KNOWLEDGE

FILES = sorted((Path(__file__).parent / "situations").glob("*.toml"))
KINDS = (
    *("nothing", "town", "plants", "facing", "evening", "quiet", "nudge", "find", "found", "work", "walk"),
    *("sixty", "us", "two"),
)


def test_every_kind_of_situation_is_there() -> None:
    assert {file.stem.partition("-")[0] for file in FILES} == set(KINDS)


@pytest.mark.parametrize("file", [USUAL, *FILES], ids=lambda file: file.stem)
def test_a_situation_is_read(file: Path) -> None:
    situation = read_situation(file.read_text("utf-8"), KNOWLEDGE)
    assert len(situation.choices) == len(situation.choice_texts)
    is_asked = situation.expecting not in {
        Expecting.NOTHING,
        Expecting.TOWN,
        Expecting.PLANTS,
        Expecting.EVENING,
    }
    assert bool(situation.choices) == is_asked
    if file.stem.startswith("sixty"):
        assert len(situation.plants) == 60
