"""The situations that lines are read in are whole: every name in them is one of the catalogue's or of the home's."""

from datetime import datetime
from pathlib import Path

from bot.actions.action import Expecting
from bot.rehearsal import USUAL, read_situation
from tests.phrases.hands import SITUATIONS, situation_of, situations_told
from tests.phrases.situation import KNOWLEDGE
from tests.tools.situations import merged

KINDS = (
    *("nothing", "town", "plants", "facing", "evening", "quiet", "nudge", "find", "found", "work", "walk"),
    *("sixty", "us", "two"),
)


def test_every_kind_of_situation_is_there() -> None:
    assert {name.partition("-")[0] for name in situations_told(SITUATIONS)} == set(KINDS)


def test_every_situation_is_read() -> None:
    told = situations_told(SITUATIONS)
    for name in ("usual", *told):
        situation = (
            situation_of(name) if name in told else read_situation(USUAL.read_text("utf-8"), KNOWLEDGE)
        )
        assert len(situation.choices) == len(situation.choice_texts), name
        is_asked = situation.expecting not in {
            Expecting.NOTHING,
            Expecting.TOWN,
            Expecting.PLANTS,
            Expecting.EVENING,
        }
        assert bool(situation.choices) == is_asked, name
        if name.startswith("sixty"):
            assert len(situation.plants) == 60, name


def test_what_a_home_s_situations_share_stands_once_and_is_told_by_each(tmp_path: Path) -> None:
    home = {"zone": "Europe/Brussels", "places": ["hall"], "plants": [{"names": ["ivy"], "place": "hall"}]}
    quiet = {"said": 'It wrote: "hello"', "now": datetime(2026, 5, 6, 20, 10), **home}  # noqa: DTZ001 - as in a file
    empty = {"now": datetime(2026, 5, 6, 20, 10), "zone": "Europe/Brussels", "expecting": "town"}  # noqa: DTZ001
    written = merged({"quiet-z1": quiet, "town-z1": empty})
    assert written.count("ivy") == 1
    (tmp_path / "z.toml").write_text(written)
    assert situations_told(tmp_path) == {"quiet-z1": quiet, "town-z1": empty}
