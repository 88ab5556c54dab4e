"""Kinds of plant: names of the trade lead to them, a name of two plants to both."""

import pytest

from bot.catalogue.load import load, read
from bot.catalogue.table import CatalogueError

KNOWLEDGE = load().knowledge
ONE = 'jade = { name = "jade plant", words = ["jade", "money plant"], habit = "succulent" }\n'


def kind(name: str) -> str | None:
    found = KNOWLEDGE.kind_named(name)
    return None if found is None else found.key


def problems(plants: str) -> tuple[str, ...]:
    with pytest.raises(CatalogueError) as caught:
        read(pests="", sources="", plants=plants)
    return caught.value.problems


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("chillies", "chilli"),
        ("the peppers", "chilli"),
        ("Tomatoes", "tomato"),
        ("strawberries", "strawberry"),
        ("cacti", "cactus"),
        ("ivies", "ivy"),
        ("my hoyas", "hoya"),
        ("mangave 3", "agave"),
        ("Phal 1", "orchid"),
        ("AV 12", "african_violet"),
        ("bird\u2019s nest fern", "fern"),
        ("mother-in-law's tongue", "snake_plant"),
        ("asparagus fern", "asparagus_fern"),
        ("zebra haworthia", "haworthia"),
        ("basil by the door", "basil"),
        ("Aunt Emma", None),
    ],
)
def test_a_name_of_the_trade_tells_the_kind(name: str, key: str | None) -> None:
    assert kind(name) == key


def test_all_names_of_chilli_are_food() -> None:
    for name in ("chilli", "chillies", "chili", "chilies", "pepper", "peppers", "jalapeno", "bell peppers"):
        found = KNOWLEDGE.kind_named(name)
        assert found is not None, name
        assert found.is_edible, name


def test_a_name_of_two_plants_minds_what_either_asks_for() -> None:
    found = KNOWLEDGE.kind_named("money tree")
    assert found is not None
    assert [one.key for one in found.one_of] == ["jade", "pachira"]
    assert "soap" in found.sensitive  # the jade plant
    assert found.is_root_prone
    own = KNOWLEDGE.kind_named("jade")
    assert own is not None
    assert own.one_of == ()


def test_leaves_that_bear_no_water_are_not_washed() -> None:
    # Hairy, waxy, spined, string-of, african violets, begonias, cyclamen: common practice, no source.
    for key in (
        "african_violet",
        "cactus",
        "agave",
        "echeveria",
        "string_of_hearts",
        "rex_begonia",
        "cyclamen",
    ):
        assert not load().kinds[key].is_washable, key
    for key in ("ivy", "pothos", "rubber_plant", "tomato", "orchid"):
        assert load().kinds[key].is_washable, key
    assert load().kinds["orchid"].no_wet_crown


def test_a_word_of_two_kinds_must_be_marked() -> None:
    two = 'pilea = { name = "pilea", words = ["pilea", "money plant"], habit = "bush" }\n'
    assert problems(ONE + two) == ("plants.pilea: word money plant is jade's too, mark it shared in both",)
    lonely = ONE.replace('["jade", "money plant"]', '["jade"], shared = ["money plant"]')
    assert problems(lonely) == (
        "plants: shared word money plant must be shared by two kinds, and nobody's own",
    )
