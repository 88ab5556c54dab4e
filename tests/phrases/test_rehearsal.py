import io
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.phrases.hearing import understand
from bot.phrases.notation import notation
from bot.rehearsal import read_situation, rehearse
from tests.phrases.situation import EVENING, said_or_offered, table
from tests.phrases.test_golden import SLIPS

HOME = """\
now = 2026-07-01T20:30:00+02:00
zone = "Europe/Brussels"
places = ["attic", "hall"]
plants = [{ names = ["fig", "fig tree"], place = "attic" }, { names = ["mint"] }]
shelf = [{ ingredient = "soap" }]
tonight = [{ plant = "fig", method = "spray" }, { plant = "mint" }]
"""


def test_the_golden_set_is_said_back_line_by_line() -> None:
    golden = list(table("golden.tsv"))
    said = [line.split("\t") for line in rehearse((wording for wording, _ in golden), EVENING)]
    assert [phrase for phrase, _ in said] == [wording for wording, _ in golden]
    for (wording, _), (_, meaning) in zip(golden, said, strict=True):
        if wording in SLIPS:
            assert meaning.endswith(said_or_offered(wording, EVENING))
        else:
            assert meaning == notation(understand(wording, EVENING), EVENING)


def test_another_situation_is_read_from_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "home.toml"
    file.write_text(HOME)
    monkeypatch.setattr(
        "sys.stdin", io.StringIO("# a comment\ndone\nmint clean\n\nsprayed the fig yesterday\n")
    )
    assert main(["understand", "--situation", str(file)]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "done\tdone fig",
        "mint clean\tnone mint",
        "sprayed the fig yesterday\tdone fig method=spray on=2026-06-30",
    ]


@pytest.mark.parametrize(
    "text", ["", "now = 'yesterday'", "now = 2026-07-01T20:30:00+02:00\nplants = [{ name = 'x' }]", "]["]
)
def test_a_situation_that_cannot_be_read_is_named(text: str) -> None:
    with pytest.raises(ValueError, match="the situation cannot be read"):
        read_situation(text)


def test_a_missing_file_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["understand", "--situation", str(tmp_path / "none.toml")]) == 2
    assert "none.toml" in capsys.readouterr().err
