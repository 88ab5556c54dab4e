"""The shipped facts hold together, and wrong ones are all named at once."""

import re
from importlib.resources import files

import pytest

from bot.catalogue.load import load, read
from bot.catalogue.table import CatalogueError
from bot.domain.campaign import Basis
from bot.domain.trade import Level

PESTS = files("bot.catalogue").joinpath("pests.toml").read_text("utf-8")
SOURCES = files("bot.catalogue").joinpath("sources.toml").read_text("utf-8")


def problems(pests: str = PESTS, sources: str = SOURCES) -> tuple[str, ...]:
    with pytest.raises(CatalogueError) as caught:
        read(pests=pests, sources=sources)
    return caught.value.problems


def test_fourteen_pests_are_known() -> None:
    assert set(load().pests) == {
        "citrus_mealybug",
        "longtailed_mealybug",
        "root_mealybug",
        "spider_mite",
        "flat_mite",
        "broad_mite",
        "cyclamen_mite",
        "brown_soft_scale",
        "armoured_scale",
        "green_peach_aphid",
        "melon_aphid",
        "greenhouse_whitefly",
        "western_flower_thrips",
        "fungus_gnat",
    }


def test_it_is_read_once() -> None:
    assert load() is load()


def test_every_figure_says_where_it_comes_from() -> None:
    for pest in load().pests.values():
        for evidence in (
            pest.gap_evidence,
            pest.protected_evidence,
            pest.clock_evidence,
        ):
            assert evidence.sources, pest.key
            assert set(evidence.sources) <= set(load().sources)


def test_mites_are_harder_to_see_than_mealybugs() -> None:
    pests = load().pests
    assert pests["spider_mite"].sight[Level.PLAIN] < pests["citrus_mealybug"].sight[Level.PLAIN]
    assert pests["citrus_mealybug"].sight_evidence.basis is Basis.JUDGEMENT


def test_the_gap_is_planned_from_the_fast_side() -> None:
    # The gap's window must not be longer than the slow egg and all that follows it.
    for pest in load().pests.values():
        assert pest.gap.dd <= pest.egg_hi.dd + sum(stage.dd for stage in pest.instars)
        assert pest.t_low < pest.t_high


def test_an_unknown_key_is_named() -> None:
    named = PESTS.replace('name = "fungus gnat"\n', 'name = "fungus gnat"\ncolour = "grey"\n')
    assert problems(named) == ("pests.fungus_gnat: unknown key colour",)


def test_all_problems_are_reported_together() -> None:
    broken = (
        PESTS.replace('name = "citrus mealybug"\n', "")
        .replace('sources = ["santacecilia2011"]', 'sources = ["nobody1900"]')
        .replace("instars = [225, 225, 226]", "instars = [225, 225, 226, 1]")
        .replace("f = 0.5", "f = 5")
        .replace("shares_clock = true", 'shares_clock = "yes"')
        .replace('words = ["greenhouse whitefly"', 'words = [3, "greenhouse whitefly"')
        .replace("egg_lo = 70", "egg_lo = 700")
        .replace('basis = "memory", sources = ["mcdonald1998"]', 'basis = "hope", sources = ["mcdonald1998"]')
        .replace('basis = "read", sources = ["kersting1999"]', 'basis = "read", sources = []')
    )
    found = "\n".join(problems(broken, SOURCES.replace('seen = "standard"', 'seen = "dream"')))
    for part in (
        "pests.citrus_mealybug: name must be a text",
        "pests.longtailed_mealybug.limits: source nobody1900 is not in sources.toml",
        "pests.root_mealybug.clock.instars: unknown key [3]",
        "pests.fungus_gnat.gap: f must be a number from 0.1 to 1, got 5",
        "pests.spider_mite.fight: shares_clock must be true or false",
        "pests.greenhouse_whitefly: words must be a list of texts",
        "pests.armoured_scale.clock: egg_lo is longer than egg_hi",
        "pests.western_flower_thrips.clock: basis must be one of read, memory, judgement",
        "pests.melon_aphid.limits: says read and names no source",
        "sources.rfc5545: seen must be one of",
    ):
        assert part in found


def test_a_broken_file_and_a_missing_block_are_problems_too() -> None:
    assert problems(sources="[broken")[0].startswith("sources: ")
    assert "pests.gnat.gap: must be a table" in problems('[gnat]\nname = "gnat"\n')
    assert "pests.gnat: must be a table" in problems("gnat = 3\n")


def test_every_reference_in_the_rules_is_a_known_source() -> None:
    for module in files("bot.domain").iterdir():
        if module.name.endswith(".py"):
            keys = set(re.findall(r"\.\. \[(\w+)\]", module.read_text("utf-8")))
            assert keys <= set(load().sources), module.name


def test_what_a_product_reaches_is_what_it_is_said_to_do() -> None:
    catalogue = load()
    assert catalogue.pests["western_flower_thrips"].is_reached_by("spinosad")
    assert not catalogue.pests["spider_mite"].is_reached_by("imidacloprid")  # it brings more of them
    assert not catalogue.pests["armoured_scale"].is_reached_by("imidacloprid")
    assert not any(pest.is_reached_by("peroxide") for pest in catalogue.pests.values())
    for pest in catalogue.pests.values():
        assert any(pest.is_reached_by(key) for key in catalogue.products), pest.key


def test_an_effect_of_an_unknown_product_or_stage_is_named() -> None:
    products = files("bot.catalogue").joinpath("products.toml").read_text("utf-8")
    broken = PESTS.replace(
        "[fungus_gnat.effects]\n",
        '[fungus_gnat.effects]\nincense = { young = "good", basis = "memory", sources = [] }\n',
    )
    broken = broken.replace('bti = { egg = "none"', 'bti = { egg = "splendid"').replace(
        'pupa = "none", adult = "none", basis = "read", sources = ["rinconvitova_bti"]',
        'wing = "none", basis = "read", sources = ["rinconvitova_bti"]',
    )
    with pytest.raises(CatalogueError) as caught:
        read(pests=broken, sources=SOURCES, products=products)
    found = "\n".join(caught.value.problems)
    for part in (
        "pests.fungus_gnat.effects: incense is not in products.toml",
        "pests.fungus_gnat.effects.bti: egg must be one of good, some, none, worse, got 'splendid'",
        "pests.fungus_gnat.effects.bti: unknown key wing",
    ):
        assert part in found


def test_the_trade_abbreviates() -> None:
    catalogue = load()
    for word, pest in (
        ("mb", "citrus_mealybug"),
        ("rmb", "root_mealybug"),
        ("sm", "spider_mite"),
        ("tsm", "spider_mite"),
    ):
        assert word in catalogue.pests[pest].words
    for word, product in (("iso", "alcohol"), ("h2o2", "peroxide"), ("igr", "igr"), ("hort oil", "oil")):
        assert word in catalogue.products[product].words
