"""Ways and terms are strict, fit a phone, cover every method and way of looking, and are read only when asked for."""

import subprocess
import sys

import pytest

from bot.catalogue.howto import load_howto, read_howto
from bot.catalogue.load import load
from bot.catalogue.table import CatalogueError
from bot.domain.howto import Bears, bears_of
from bot.domain.trade import Level, Method

KNOWLEDGE = load().knowledge
NO_WAYS = ""
WAY = """
[wipe]
title = "Wiping"
words = ["wipe"]
[[wipe.variants]]
steps = ["One.", "Two.", "Three."]
"""


def problems_of(ways: str = WAY, terms: str = "") -> tuple[str, ...]:
    with pytest.raises(CatalogueError) as caught:
        read_howto(ways, terms, load().sources, KNOWLEDGE.pests)
    return caught.value.problems


def title(way: str, pest: str | None = None, plant: str = "", traits: tuple[str, ...] = ()) -> str:
    bears = bears_of(KNOWLEDGE.kind_named(plant), traits)
    return load_howto().ways[way].for_plant(pest, bears).title


@pytest.mark.parametrize("method", Method)
def test_every_method_says_how(method: Method) -> None:
    assert method.value.replace("-", "_") in load_howto().ways


@pytest.mark.parametrize("level", [one for one in Level if one not in {Level.GLANCE, Level.PLAIN}])
def test_every_way_of_looking_says_how(level: Level) -> None:
    assert level.value in load_howto().ways


def test_what_is_done_depends_on_the_pest_and_on_what_the_plant_bears() -> None:
    assert title("wipe") == "Wiping"
    assert title("wipe", pest="brown_soft_scale") == "Scraping scale off"
    assert title("wipe", plant="African violet") == "Not a wipe: a brush"
    assert title("wipe", plant="maidenhair fern") == "Not a wipe: a brush"
    assert title("rinse", pest="spider_mite", plant="ivy") == "Washing every leaf"
    assert "crown" in load_howto().ways["rinse"].for_plant(None, {Bears.WET_CROWN}).steps[2]


def test_what_was_told_of_a_plant_goes_before_its_kind() -> None:
    assert title("rinse", traits=("hairy",)) == "Not a rinse: a brush"
    assert title("rinse", plant="purple passion", traits=("not-hairy",)) == "Rinsing"
    assert Bears.EATEN not in bears_of(KNOWLEDGE.kind_named("basil"), ("not-edible",))
    assert Bears.EATEN in bears_of(None, ("edible",))


def test_the_words_that_testers_asked_for_are_explained() -> None:
    words = (
        "crown",
        "axil",
        "crawler",
        "on watch",
        "round",
        "clean-out",
        "lens",
        "slot",
        "systemic",
        "nymph",
    )
    assert all(word in load_howto().term_by_word for word in words)


def test_a_treatment_never_brings_bleach_onto_a_plant() -> None:
    for way in load_howto().ways.values():
        for variant in way.variants:
            for step in variant.steps:
                assert "bleach" not in step.casefold() or "pot" in step or "no bleach" in step.casefold()


@pytest.mark.parametrize(
    ("ways", "problem"),
    [
        (WAY.replace("Three.", "Three, and " + "more " * 80), "at most 10"),
        (WAY.replace(', "Two.", "Three."', ""), "wipe.variants[0]: 1 steps, 3 to 6 are wanted"),
        (
            WAY.replace("steps", 'pests = ["triffid"]\nsteps'),
            "ways.wipe.variants[0]: no such pest: triffid",
        ),
        (WAY.replace("steps", 'plants = ["loud"]\nsteps'), "ways.wipe.variants[0]: no such trait: loud"),
        (
            WAY.replace("steps", 'plants = ["hairy"]\nsteps'),
            "ways.wipe: the last variant must fit everything",
        ),
        (
            f'{WAY}[[wipe.variants]]\nsteps = ["One.", "Two.", "Three."]',
            "ways.wipe: a variant that fits everything stands before another",
        ),
        (
            WAY.replace("steps", 'basis = "read"\nsources = ["nobody1900"]\nsteps'),
            "ways.wipe.variants[0]: source nobody1900 is not in sources.toml",
        ),
        (WAY.replace("words", 'colour = "red"\nwords'), "ways.wipe: unknown key colour"),
        (
            f"{WAY}{WAY.replace('wipe.', 'dab.').replace('[wipe]', '[dab]')}",
            "dab: wipe stands for another too",
        ),
    ],
)
def test_a_wrong_way_is_named(ways: str, problem: str) -> None:
    assert any(problem in one for one in problems_of(ways))


def test_a_wrong_term_is_named() -> None:
    long = "long " * 60
    assert problems_of(terms=f'[crown]\nwords = ["crown"]\ntext = "{long}"') == (
        "terms.crown: more than 4 lines of 38 characters",
    )


def test_a_bot_that_nobody_asks_has_not_read_them() -> None:
    code = (
        "import sys, bot.app\n"
        "for name, load in (('howto', 'load_howto'), ('cautions', 'load_cautions')):\n"
        "    module = sys.modules.get(f'bot.catalogue.{name}')\n"
        "    assert module is None or not getattr(module, load).cache_info().currsize, name\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
