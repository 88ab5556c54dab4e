"""The tasks that people write lines from: the same for a seed, others for another, and whole."""

from pathlib import Path

import pytest

from bot.rehearsal import read_situation
from tests.phrases.hands import fingerprint
from tests.phrases.meanings import fits, parts
from tests.phrases.situation import KNOWLEDGE
from tests.tools.assigning.__main__ import main
from tests.tools.assigning.drawing import PESTS, key
from tests.tools.assigning.homes import STOCK, half

HEADS_OF_PLANTS = frozenset("done later find sign none isolate release lost pot move pass".split())


def _written(folder: Path, seed: int, *more: str) -> Path:
    assert main(["--hands", "4", "--seed", str(seed), str(folder), *more]) == 0
    return folder


def _rows(folder: Path) -> list[list[str]]:
    files = sorted(folder.glob("*.meanings.tsv"))
    return [row.split("\t") for file in files for row in file.read_text("utf-8").splitlines()]


@pytest.mark.parametrize("more", [[], ["--drawer"], ["--several"], ["--emergencies"], ["--newcomers"]])
def test_a_seed_gives_the_same_bytes_and_another_gives_others(tmp_path: Path, more: list[str]) -> None:
    once, again, other = (
        _written(tmp_path / name, seed, *more) for name, seed in (("a", 5), ("b", 5), ("c", 6))
    )
    prompts = sorted(file.name for file in once.glob("*.prompt.md"))
    assert prompts == ["01.prompt.md", "02.prompt.md", "03.prompt.md", "04.prompt.md"]
    for name in prompts:
        assert (once / name).read_bytes() == (again / name).read_bytes()
        assert (once / name).read_bytes() != (other / name).read_bytes()
    assert fingerprint(once) == fingerprint(again)


def test_another_seed_gives_other_people(tmp_path: Path) -> None:
    one, other = (_written(tmp_path / str(seed), seed, "--drawer") for seed in (1, 2))
    people = [{file.read_text("utf-8") for file in folder.glob("*.who.txt")} for folder in (one, other)]
    assert len(people[0]) == len(people[1]) == 4
    assert not people[0] & people[1]


@pytest.mark.parametrize("more", [[], ["--drawer"]])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_hand_is_whole(tmp_path: Path, seed: int, more: list[str]) -> None:
    folder = _written(tmp_path / "hands", seed, *more)
    rows = _rows(folder)
    assert [row[0] for row in rows] == [str(number) for number in range(1, 101)] * 4
    for _, kind, sort, meaning in rows:
        situation = read_situation((folder / "situations" / f"{kind}.toml").read_text("utf-8"), KNOWLEDGE)
        assert sort in {"telling", "question", "answer", "chatter"}
        assert "{" not in meaning
        assert (sort == "chatter") == (meaning == "-")
        plain = meaning.partition(" | ")[0]
        assert bool(parts(plain)) == (meaning != "-")
        assert fits(" + ".join(word.replace("?", "") for word in plain.split(" + ")), meaning)
        known = {key(plant.names[0]) for plant in situation.plants}
        for clause in plain.split(" + ") if known else ():
            head, *words = clause.lstrip("?").split()
            if head in HEADS_OF_PLANTS:
                assert words[0] in known


def test_the_prompt_keeps_the_notation_from_the_writer(tmp_path: Path) -> None:
    folder = _written(tmp_path / "hands", 4)
    for file in folder.glob("*.prompt.md"):
        text = file.read_text("utf-8")
        assert not [word for word in ("method=", "pest=", "product=", "on=2", "_mealybug") if word in text]


def test_a_drawer_shares_no_plant_and_no_situation_with_training(tmp_path: Path) -> None:
    training, drawer = _written(tmp_path / "t", 7), _written(tmp_path / "d", 7, "--drawer")
    names = [{file.name for file in (folder / "situations").glob("*")} for folder in (training, drawer)]
    assert not names[0] & names[1]
    plants = [
        {
            plant
            for plant in STOCK["plants"]
            for _, _, _, meaning in _rows(folder)
            if key(plant) in meaning.split()
        }
        for folder in (training, drawer)
    ]
    assert plants[0]
    assert plants[1]
    assert not plants[0] & plants[1]
    for kind in ("plants", "numbered"):
        for other in ("plants", "numbered"):
            assert not set(half(STOCK[kind], is_drawer=True)) & set(half(STOCK[other], is_drawer=False))


def test_what_was_written_is_never_written_over(tmp_path: Path) -> None:
    folder = _written(tmp_path / "hands", 8)
    with pytest.raises(SystemExit):
        main(["--seed", "9", str(folder)])


def test_every_pest_has_a_name_and_looks() -> None:
    assert set(STOCK["pests"]) == set(STOCK["looks"]) == set(PESTS)
