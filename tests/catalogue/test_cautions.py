"""Cautions are strict, chosen by product, animals and food, and every dangerous plan has its refusal."""

import pytest

from bot.catalogue.cautions import load_cautions, read_cautions
from bot.catalogue.load import load
from bot.catalogue.table import CatalogueError
from bot.domain.caution import Danger, Occasion

SHIPPED = load_cautions()


def told(
    *products: str, on: Occasion = Occasion.USE, animals: tuple[str, ...] = (), is_eaten: bool = False
) -> str:
    return " ".join(one.text for one in SHIPPED.on([on], products, animals, is_eaten=is_eaten))


@pytest.mark.parametrize("danger", Danger)
def test_a_dangerous_plan_gets_a_firm_no_with_its_reason(danger: Danger) -> None:
    text = SHIPPED.refused[danger].text
    assert text.startswith("Please don’t")
    assert text.endswith("Nothing is written.")
    assert len(text.split(". ")) >= 3  # the no and its reason, what to do, that nothing is written


def test_fire_is_told_of_what_burns_only() -> None:
    assert "flame" in told("alcohol", on=Occasion.ASKED)
    assert "flame" not in told("soap", on=Occasion.ASKED)


def test_where_no_animal_is_told_all_are_minded() -> None:
    assert "bird" in told("soap")
    assert "aquarium" in told("soap", on=Occasion.ASKED, animals=("fish",))
    assert "aquarium" not in told("soap", on=Occasion.ASKED, animals=("cat",))


def test_what_is_eaten_is_minded_where_something_is_eaten() -> None:
    assert "you eat only" in told("soap", on=Occasion.ASKED, is_eaten=True)
    assert "you eat only" not in told("soap", on=Occasion.ASKED)


def test_the_first_use_speaks_of_eyes_and_air_beside_what_the_product_says() -> None:
    assert all(word in told("soap") for word in ("Goggles", "Window", "asthma"))
    assert all(word in load().knowledge.products["soap"].caution for word in ("label", "children", "Gloves"))


def test_own_bottles_spoons_and_drains_are_behind_the_button() -> None:
    asked = told("soap", on=Occasion.ASKED) + told("soap", on=Occasion.WASTE)
    assert all(word in asked for word in ("own bottle", "spoon", "drain"))
    assert "drain" not in told("soap")


def test_a_clean_out_speaks_of_bleach_and_sap() -> None:
    assert all(word in told(on=Occasion.CLEAN_OUT) for word in ("Bleach", "empty pots", "sap"))


@pytest.mark.parametrize(
    ("row", "problem"),
    [
        (
            '[x]\nwhen = "never"\ntext = "T"',
            "cautions.x: when must be one of use, clean-out, asked, waste, got 'never'",
        ),
        ('[x]\nwhen = "use"\nproducts = ["tea"]\ntext = "T"', "cautions.x: products: nobody knows tea"),
        ('[x]\nwhen = "use"\nanimals = ["yeti"]\ntext = "T"', "cautions.x: animals: nobody knows yeti"),
        ('[x]\nrefused = "No."', "cautions.x: no such plan is refused"),
        ('[x]\nwhen = "use"\ntext = "T"\ncolour = "red"', "cautions.x: unknown key colour"),
    ],
)
def test_a_wrong_row_is_named(row: str, problem: str) -> None:
    with pytest.raises(CatalogueError) as caught:
        read_cautions(row, load().sources, load().knowledge.products)
    assert problem in caught.value.problems
    assert "cautions.double_dose: no words" in caught.value.problems
