"""The list of poisonous plants is strict, is read only when asked for, and never calls anything harmless on a hunch."""

import subprocess
import sys

import pytest

from bot.catalogue.load import load
from bot.catalogue.poison import load_poisons, read_poisons
from bot.catalogue.table import CatalogueError
from bot.domain.poison import Eater, Verdict, poison_of

KNOWLEDGE = load().knowledge


def asked(name: str, eater: Eater = Eater.CATS) -> list[tuple[str, bool | None]]:
    found = poison_of(load_poisons(), KNOWLEDGE.kind_named(name), eater)
    return [(one.kind.key, one.verdict.is_poisonous) for one in found]


def test_a_name_of_two_plants_is_answered_for_both() -> None:
    assert asked("money tree") == [("jade", True), ("pachira", None)]
    assert ("lily", True) in asked("lily")


def test_what_no_list_names_is_unknown_and_a_stranger_too() -> None:
    assert asked("pachira") == [("pachira", None)]
    assert asked("Aunt Emma") == []
    assert load_poisons()["lily"].for_eater(Eater.DOGS) == Verdict(is_poisonous=None)


def test_nothing_is_called_harmless_without_a_list_that_says_so() -> None:
    for key, poison in load_poisons().items():
        for verdict in poison.verdicts.values():
            assert verdict.is_poisonous or verdict.sources, key


def test_more_than_a_hundred_and_fifty_kinds_are_judged() -> None:
    # 91 kinds of the version before, and at least 60 more.
    assert len(load_poisons()) >= 151
    assert (
        sum(1 for poison in load_poisons().values() if any(v.sources for v in poison.verdicts.values()))
        >= 151
    )


def test_what_kills_is_said_to_be_grave() -> None:
    assert load_poisons()["lily"].for_eater(Eater.CATS).is_grave
    assert load_poisons()["sago_palm"].for_eater(Eater.DOGS).is_grave
    assert not load_poisons()["pothos"].for_eater(Eater.CATS).is_grave


@pytest.mark.parametrize(
    ("row", "problem"),
    [
        ("triffid = { yes = { cats = [] } }", "poison.triffid: no such kind in plants.toml"),
        ("ivy = { no = { cats = [] } }", "poison.ivy: not poisonous to cats says no list"),
        ('ivy = { yes = { cats = ["nobody1900"] } }', "poison.ivy: source nobody1900 is not in sources.toml"),
        (
            'ivy = { yes = { cats = [] }, no = { cats = ["aspca_cats"] } }',
            "poison.ivy: cats are in yes and in no",
        ),
        ('ivy = { grave = ["dogs"] }', "poison.ivy: grave for dogs, for whom it is not poisonous"),
        ("ivy = { yes = { horses = [] } }", "poison.ivy.yes: unknown key horses"),
        ('ivy = { colour = "green" }', "poison.ivy: unknown key colour"),
    ],
)
def test_a_wrong_row_is_named(row: str, problem: str) -> None:
    with pytest.raises(CatalogueError) as caught:
        read_poisons(row, load().sources, load().kinds)
    assert caught.value.problems == (problem,)


def test_a_bot_that_nobody_asks_has_not_read_it() -> None:
    code = "import sys, bot.app; sys.exit('bot.catalogue.poison' in sys.modules and bool(sys.modules['bot.catalogue.poison'].load_poisons.cache_info().currsize))"
    subprocess.run([sys.executable, "-c", code], check=True)
