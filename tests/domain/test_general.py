"""A general word opens a case with the cautious side of every pest it may mean."""

import re

import pytest

from bot.catalogue.load import load
from bot.domain.campaign import Effect
from bot.domain.development import Warmth, clock
from bot.domain.gap import plan_gap
from bot.domain.pest import Pest
from tests.domain.telling import DAY, HOYA, home

CATALOGUE = load()


@pytest.mark.parametrize("general", CATALOGUE.general.values(), ids=lambda pest: pest.key)
@pytest.mark.parametrize("celsius", [18, 21, 24])
def test_no_gap_is_longer_and_no_wait_shorter_than_of_any_it_may_be(general: Pest, celsius: float) -> None:
    warmth = Warmth(since_on=DAY, mean=celsius)
    for key in general.of:
        one = CATALOGUE.pests[key]
        # the two lines may cross a little away from room warmth: a day is allowed
        assert plan_gap(general, celsius, None).upper_days <= plan_gap(one, celsius, None).upper_days
        assert clock(general, warmth).h3 >= clock(one, warmth).h3 - 1
        assert general.at_roots >= one.at_roots
        assert set(re.split(", |; ", one.hides)) <= set(re.split(", |; ", general.hides))


def test_mealybugs_take_the_citrus_gap_and_the_longtailed_clock() -> None:
    # by hand at 21 degC: W 130/12.5 = 10.4 against 161/13 = 12.4; h3 40.8 against 672/13 = 51.7
    general = CATALOGUE.general["mealybug"]
    assert plan_gap(general, 21, None).window_days == pytest.approx(10.4)
    assert clock(general, Warmth(since_on=DAY, mean=21)).h3 == pytest.approx(51.7, abs=0.05)
    assert "mealybugs" in general.words


def test_an_ingredient_works_as_on_the_hardiest() -> None:
    order = [Effect.GOOD, Effect.SOME, Effect.NONE, Effect.WORSE]
    for general in CATALOGUE.general.values():
        for ingredient, effects in general.effects.items():
            for life, effect in effects.on.items():
                for key in general.of:
                    row = CATALOGUE.pests[key].effects[ingredient].on
                    assert life not in row or order.index(effect) >= order.index(row[life])


def test_a_case_of_a_general_word_is_planned() -> None:
    telling = home()
    telling.find(HOYA, "mealybug", 0)
    step = telling.step(HOYA, 0)
    assert step is not None
    assert step.product is not None
