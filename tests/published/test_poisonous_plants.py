"""
What public lists say of plants by their own names for them, against what the bot answers.

Each row: source (sources.toml), the name as that list prints it, for whom, poisonous or not. A plant that one
list calls poisonous and another does not counts as poisonous here; such rows say so. The lists were read as
far as their copies went; none of the rows is remembered.
"""

import pytest

from bot.catalogue.load import load
from bot.catalogue.poison import load_poisons
from bot.domain.poison import Eater, poison_of

CATS, DOGS, PEOPLE = Eater.CATS, Eater.DOGS, Eater.PEOPLE

ROWS = [
    # ASPCA, cats: toxic part of the list
    ("aspca_cats", "Golden Pothos", CATS, True),
    ("aspca_cats", "Madagascar Dragon Tree", CATS, True),
    ("aspca_cats", "Satin Pothos", CATS, True),
    ("aspca_cats", "Rex Begonia", CATS, True),
    ("aspca_cats", "Pencil Cactus", CATS, True),
    ("aspca_cats", "Calamondin Orange", CATS, True),
    ("aspca_cats", "Desert Rose", CATS, True),
    # the same, the part that is not toxic
    ("aspca_cats", "Sweetheart Hoya", CATS, False),
    ("aspca_cats", "Zebra Haworthia", CATS, False),
    ("aspca_cats", "Phalaenopsis Orchid", CATS, False),
    ("aspca_cats", "Cape Primrose", CATS, False),
    ("aspca_cats", "Kentia Palm", CATS, False),
    ("aspca_cats", "Cast Iron Plant", CATS, False),
    ("aspca_cats", "Mistletoe Cactus", CATS, False),
    # ASPCA with the animals harmed, rows Alocasia, Asian Lily (cats only) and Autumn Crocus
    ("aspca_toxic", "Alocasia", DOGS, True),
    ("aspca_toxic", "Asiatic Lily", CATS, True),
    ("aspca_toxic", "Autumn Crocus", DOGS, True),
    # Texas A&M AgriLife, table "Plants with Calcium Oxalate Crystals - Toxic to Both Dogs and Cats"
    ("tamu_pets", "Devil\u2019s Ivy", DOGS, True),
    ("tamu_pets", "Mother-in-law\u2019s Tongue", CATS, True),
    # Walden: ASPCA's list for dogs and cats, first three and the warnings
    ("walden_pets", "Boston fern", DOGS, False),
    ("walden_pets", "asparagus fern", DOGS, True),
    # Pet Poison Helpline, second and third paragraph
    ("pph_safe", "Living Stone Plant", DOGS, False),
    ("pph_safe", "Bromeliad", DOGS, False),
    # Los Angeles Times 2020, ASPCA's ten, numbers 8 and 10
    ("latimes2020", "Pony tail palm", DOGS, False),
    ("latimes2020", "Spider plant", DOGS, False),
    # Washington Poison Center, both columns
    ("wapc_plants", "Chinese evergreen", PEOPLE, True),
    ("wapc_plants", "Swedish ivy", PEOPLE, False),
    ("wapc_plants", "Glory lily", PEOPLE, True),
    # Children's Hospital of Philadelphia, "Non-Toxic Plants"
    ("chop_plants", "Jade Plant", PEOPLE, False),
    ("chop_plants", "Easter Cactus", PEOPLE, False),
    # Maryland Poison Center, both paragraphs
    ("maryland_poison", "arrowhead", PEOPLE, True),
    ("maryland_poison", "Norfolk pine tree", PEOPLE, False),
    # Texas Poison Center Network, "Some poisonous plants"
    ("texas_poison", "String of Pearls", PEOPLE, True),
    ("texas_poison", "Tomato Leaves", PEOPLE, True),
    # Alberta: croton, which Washington calls mostly not toxic
    ("padis_plants", "Croton", PEOPLE, True),
    # Canadian Child Care Federation, house plants: Agave, and the spined cacti
    ("cccf_plants", "Century Plant", PEOPLE, True),
    ("cccf_plants", "Bunny Ears", PEOPLE, True),
    # Manoguerra, California Poison Control System: the oxalate plants
    ("latimes2001", "arrowhead vine", PEOPLE, True),
    # University of Nebraska-Lincoln Extension
    ("unl_houseplants", "Aluminum Plant", PEOPLE, False),
    ("unl_houseplants", "Avocado", PEOPLE, True),
]


@pytest.mark.parametrize(("source", "name", "eater", "is_poisonous"), ROWS)
def test_a_list_and_the_bot_say_the_same(source: str, name: str, eater: Eater, *, is_poisonous: bool) -> None:
    assert source in load().sources
    found = poison_of(load_poisons(), load().knowledge.kind_named(name), eater)
    assert [one.verdict.is_poisonous for one in found] == [is_poisonous]
    assert is_poisonous or source in found[0].verdict.sources
