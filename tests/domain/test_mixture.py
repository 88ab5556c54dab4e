from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.domain.measure import Tool, rounded
from bot.domain.mixture import (
    Share,
    mix,
    mix_at_least,
    rate_of_parts,
    rate_of_percent,
    rate_of_volume,
    rounds_left,
    spray_ml,
)

AMOUNTS = st.decimals(min_value="0.01", max_value="5000", places=2)
RATES = st.decimals(min_value="0.1", max_value="1000", places=1)


def test_a_recipe_adds_up_to_its_volume() -> None:
    # 0.75 L x 7.8 mL/L = 5.85 mL; a syringe of half millilitres makes it 6.0, and 744.0 mL of water remain.
    recipe = mix(Decimal(750), Decimal("7.8"), Tool.SYRINGE)
    assert (recipe.exact_product, recipe.product, recipe.water) == (
        Decimal("5.85"),
        Decimal(6),
        Decimal(744),
    )


def test_plain_oil_gets_as_much_soap() -> None:
    # 0.5 L x 10.4 mL/L = 5.2 mL, measured 5.0; as much soap; 490 mL of water.
    recipe = mix(Decimal(500), Decimal("10.4"), Tool.SYRINGE, needs_emulsifier=True)
    assert [recipe.product, recipe.emulsifier, recipe.water] == [5, 5, 490]


def test_rounding_goes_down_where_up_would_pass_the_label() -> None:
    # 1.48 mL asked and allowed: a quarter teaspoon is 1.25 mL, the next step 2.5 mL passes the label.
    recipe = mix(Decimal(100), Decimal("14.8"), Tool.SPOON, most_ml_per_l=Decimal("14.8"))
    assert recipe.product == Decimal("1.25")
    assert not recipe.is_capped


def test_more_than_the_label_allows_becomes_what_it_allows() -> None:
    recipe = mix(Decimal(1000), Decimal(48), Tool.SYRINGE, most_ml_per_l=Decimal("15.6"))
    assert recipe.is_capped
    assert recipe.rate_ml_per_l == Decimal("15.6")
    assert recipe.product == Decimal("15.5")


@given(AMOUNTS, RATES, RATES, st.sampled_from(Tool))
def test_no_recipe_is_stronger_than_the_label_allows(
    volume: Decimal, rate: Decimal, most: Decimal, tool: Tool
) -> None:
    recipe = mix(volume, rate, tool, most_ml_per_l=most)
    assert recipe.product * 1000 <= most * volume
    assert recipe.product + recipe.water + recipe.emulsifier == volume
    assert recipe.water >= 0


@given(AMOUNTS, st.sampled_from(Tool))
def test_rounding_is_off_by_half_a_step_at_most(amount: Decimal, tool: Tool) -> None:
    # Marks of common syringes; the coarsest step is 5 mL, for one of no told size above 100 mL.
    steps = {
        Tool.SYRINGE_1: Decimal("0.02"),
        Tool.SYRINGE_3: Decimal("0.1"),
        Tool.SYRINGE_5: Decimal("0.2"),
        Tool.SYRINGE_10: Decimal("0.5"),
        Tool.EIGHTH_SPOON: Decimal("0.625"),
        Tool.US_EIGHTH_SPOON: Decimal("0.625"),
        Tool.JUG: Decimal(10),
        Tool.DROPPER: Decimal("0.05"),
        Tool.SPOON: Decimal("1.25"),
        Tool.US_SPOON: Decimal("1.25"),
        Tool.SYRINGE: Decimal(5),
    }
    assert abs(rounded(amount, tool) - amount) <= steps[tool] / 2


@pytest.mark.parametrize(
    ("amount", "expected"),
    [("0.04", "0.0"), ("4.96", "5.0"), ("7.3", "7.5"), ("33.4", "33"), ("142.8", "145")],
)
def test_a_syringe_measures_small_amounts_finer(amount: str, expected: str) -> None:
    # Steps of 0.1, 0.5, 1 and 5 mL by size: common practice, no source.
    assert rounded(Decimal(amount), Tool.SYRINGE) == Decimal(expected)


def test_nonsense_is_a_bug_of_the_caller() -> None:
    for broken in (
        lambda: mix(Decimal(0), Decimal(5), Tool.SYRINGE),
        lambda: mix(Decimal(100), Decimal(1001), Tool.SYRINGE),
        lambda: rate_of_percent(Decimal(80), Share.ACTIVE, Decimal(70)),
        lambda: rate_of_percent(Decimal(0), Share.PRODUCT, Decimal(70)),
        lambda: rate_of_parts(Decimal(0)),
        lambda: rate_of_volume(Decimal(1), Decimal(0)),
        lambda: rounded(Decimal(-1), Tool.SPOON),
    ):
        with pytest.raises(ValueError):  # noqa: PT011 - one for each
            broken()


def test_percent_of_product_and_of_active_ingredient_differ_by_the_strength() -> None:
    # 0.5 % of the bottle is 5 mL/L; 0.5 % active from a 70 % bottle is 5/0.7 = 7.142857 mL/L.
    assert rate_of_percent(Decimal("0.5"), Share.PRODUCT, Decimal(70)) == 5
    active = rate_of_percent(Decimal("0.5"), Share.ACTIVE, Decimal(70))
    assert active.quantize(Decimal("0.0001")) == Decimal("7.1429")


def test_one_part_in_nine_of_water_is_a_tenth() -> None:
    assert rate_of_parts(Decimal(9)) == 100


def test_a_stock_lasts_for_whole_rounds() -> None:
    assert rounds_left(Decimal(250), Decimal(60)) == 4
    assert rounds_left(Decimal(10), Decimal(60)) == 0
    assert rounds_left(Decimal(10), Decimal(0)) is None


def test_bigger_pots_take_more_spray() -> None:
    # Our estimate, no publication found: 25 mL to 12 cm, 60 to 17 cm, 180 to 27 cm, 600 above.
    assert [spray_ml(pot) for pot in (9, 12, 15, 20, 30, None)] == [25, 25, 60, 180, 600, 60]


@given(
    volume=st.decimals(20, 3000, places=1),
    rate=st.decimals(1, 60, places=2),
    tool=st.sampled_from([Tool.US_SPOON, Tool.SPOON, Tool.SYRINGE]),
)
def test_where_the_volume_is_ours_no_spray_is_weak_and_none_past_the_label(
    volume: Decimal, rate: Decimal, tool: Tool
) -> None:
    recipe = mix_at_least(volume, rate, tool, most_ml_per_l=rate)
    assert recipe.volume >= volume
    assert recipe.product * 1000 <= rate * recipe.volume, "the label's most is passed"
    assert recipe.error >= Decimal("-0.1"), "weaker than a tenth"


def test_half_a_teaspoon_is_taken_with_a_little_more_water_rather_than_a_quarter() -> None:
    # 5 US tablespoons to a US gallon are 19.53 mL per litre; 120 mL of it want 2.34 mL: just short of half a teaspoon
    weak = mix(Decimal(120), Decimal("19.53"), Tool.US_SPOON, most_ml_per_l=Decimal("19.53"))
    assert weak.error < Decimal("-0.4")
    right = mix_at_least(Decimal(120), Decimal("19.53"), Tool.US_SPOON, most_ml_per_l=Decimal("19.53"))
    assert Decimal("2.4") < right.product < Decimal("2.5")
    assert abs(right.error) < Decimal("0.01")
    assert right.volume <= 130
