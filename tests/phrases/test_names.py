"""Names as people type them."""

import pytest

from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Asked, KnownPlant
from bot.domain.identity import PlantId
from bot.domain.trade import Method
from bot.domain.value import replace
from bot.phrases.hearing import understand
from tests.phrases.situation import CALATHEA, COFFEE, EVENING, HOYA, ORCHID, SMALL_HOYA, offered

BIG, LITTLE = PlantId(21), PlantId(22)
TWO_FERNS = replace(
    EVENING,
    plants=(
        *EVENING.plants,
        KnownPlant(id=BIG, names=("big fern", "fern"), place=None),
        KnownPlant(id=LITTLE, names=("little fern", "fern"), place=None),
    ),
    tonight=(Asked(BIG, Method.SPRAY), Asked(LITTLE, Method.SPRAY)),
)


@pytest.mark.parametrize(
    ("text", "plant"),
    [
        ("sprayed the hoya", HOYA),
        ("sprayed hoia", HOYA),
        ("sprayed hoya's leaves", HOYA),
        ("sprayed hoya's roots", None),
        ("sprayed small hoya", SMALL_HOYA),
        ("sprayed smal hoya", SMALL_HOYA),
        ("sprayed orchids", ORCHID),
        ("sprayed moth orchid", ORCHID),
        ("sprayed orchd", ORCHID),
        ("sprayed cofee", COFFEE),
        ("sprayed cala", CALATHEA),
        ("sprayed calatea", CALATHEA),
        ("sprayed CALATHEA", CALATHEA),
        ("sprayed ivx", None),
        ("sprayed big hoya", None),
        ("sprayed small ivy", None),
    ],
)
def test_a_name_is_met_by_alias_prefix_plural_and_small_typos(text: str, plant: PlantId | None) -> None:
    (meant,) = understand(text, EVENING)
    if plant is None:
        assert not isinstance(offered((meant,))[0], LogRound)
    else:
        assert offered((meant,)) == (LogRound(plants=(plant,), method=Method.SPRAY),)


@pytest.mark.parametrize(
    "text",
    [
        "checked calathea its chill no bugs",
        "sprayed hoia",
        "wiped the chil",
        "the orchd has 3",
        "binned the calat",
    ],
)
def test_a_name_only_begun_or_misspelt_is_asked_about_and_writes_nothing(text: str) -> None:
    (meant,) = understand(text, EVENING)
    assert isinstance(meant, Incomplete | NotUnderstood), meant


def test_a_name_of_two_plants_is_asked_with_what_each_would_do() -> None:
    (asked,) = understand("fern had 3 left", TWO_FERNS)
    assert isinstance(asked, Incomplete)
    assert asked.missing is Missing.WHICH_PLANT
    assert [choice.of for choice in asked.choices] == ["big fern", "little fern"]
    assert asked.choices[1].commands == understand("little fern had 3 left", TWO_FERNS)


def test_both_of_them_needs_no_question() -> None:
    assert understand("sprayed both ferns", TWO_FERNS) == (
        LogRound(plants=(BIG, LITTLE), method=Method.SPRAY),
    )


def test_two_unclear_names_are_too_many_to_ask() -> None:
    roses = (
        KnownPlant(id=PlantId(31), names=("rose",), place=None),
        KnownPlant(id=PlantId(32), names=("rose",), place=None),
    )
    (refused,) = understand("sprayed fern and rose", replace(TWO_FERNS, plants=(*TWO_FERNS.plants, *roses)))
    assert isinstance(refused, NotUnderstood)


def test_an_unknown_name_writes_nothing_of_the_message() -> None:
    (asked,) = understand("hoya done, sprayed the monstera", EVENING)
    assert asked == Incomplete(missing=Missing.UNKNOWN_PLANT, text="monstera")


def test_a_household_without_plants_is_understood_too() -> None:
    empty = replace(EVENING, plants=(), places=(), shelf=(), tonight=(), pests=(), ingredients=())
    (meant,) = understand("done", empty)
    assert meant == NotUnderstood("done", reason="nothing open")


def test_an_animal_in_a_plant_s_name_is_no_animal() -> None:
    palm = PlantId(41)
    household = replace(EVENING, plants=(KnownPlant(id=palm, names=("cat palm",), place=None),))
    assert understand("sprayed the cat palm", household) == (LogRound(plants=(palm,), method=Method.SPRAY),)
    assert understand("the cat licked the cat palm", household) == (GiveFirstAid(),)


def test_the_plural_of_a_shared_last_word_means_all_of_them() -> None:
    lilies = (
        KnownPlant(id=PlantId(51), names=("peace lily",), place=None),
        KnownPlant(id=PlantId(52), names=("calla lily",), place=None),
    )
    told = understand("sprayed both lilies", replace(EVENING, plants=lilies))
    assert told == (LogRound(plants=(PlantId(51), PlantId(52)), method=Method.SPRAY),)


HOYAS = tuple(KnownPlant(id=PlantId(100 + n), names=(f"jade {n}",), place=None) for n in range(1, 9))
MANY = replace(EVENING, plants=(*EVENING.plants, *HOYAS))


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("wiped J3 and J4", {3, 4}),
        ("wiped jade 3 4 and 7", {3, 4, 7}),
        ("wiped jade 3, 4, 7 w/ soap", {3, 4, 7}),
        ("wiped jade 3, 4 and 7", {3, 4, 7}),
    ],
)
def test_numbers_behind_a_name_are_plants_however_they_are_strung(text: str, numbers: set[int]) -> None:
    told = [one for one in understand(text, MANY) if isinstance(one, LogRound)]
    assert {int(plant) - 100 for one in told for plant in one.plants} == numbers


@pytest.mark.parametrize("text", ["scale on jade 3, 4 and 7", "saw scale on J3, J4 and J7"])
def test_numbers_of_plants_are_no_counts(text: str) -> None:
    assert not [one for one in understand(text, MANY) if isinstance(one, LogFind)]
