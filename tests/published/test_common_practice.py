"""
Facts of the trade as check values: common practice, no source, unless one is named.

Growers say: rounds 7 to 10 days apart; weekly looks and alcohol swabs while an infestation is small; pots
soaked in bleach, one part in ten; no emulsifier in ready-made concentrates, one with plain oil; the top 5 cm of
mix off for eggs; oil in the shade only.
"""

from datetime import date, timedelta
from decimal import Decimal

import pytest

from bot.catalogue.load import load
from bot.domain.agenda import DEFAULT_CHECK_RULE
from bot.domain.gap import plan_gap
from bot.domain.identity import ProductId
from bot.domain.journal import Found, ProductSet
from bot.domain.measure import Tool
from bot.domain.mixture import mix, rate_of_parts
from bot.domain.recurrence import next_on
from bot.domain.trade import Grade, Method, grade_of
from bot.domain.workday import TOP_MIX_CM
from tests.domain.telling import HOYA, home

CATALOGUE = load()
DAY = date(2026, 5, 2)


@pytest.mark.parametrize("celsius", [18, 19, 20, 21, 22])
@pytest.mark.parametrize("pest", ["citrus_mealybug", "longtailed_mealybug"])
def test_rounds_at_room_warmth_lie_seven_to_ten_days_apart(pest: str, celsius: float) -> None:
    plan = plan_gap(CATALOGUE.pests[pest], celsius, 7)
    assert plan.opens_days >= 7
    assert plan.closes_days <= 10


def test_looks_are_weekly() -> None:
    first = next_on(DEFAULT_CHECK_RULE, DAY, DAY)
    assert first is not None
    assert next_on(DEFAULT_CHECK_RULE, DAY, first) == first + timedelta(days=7)


@pytest.mark.parametrize(
    ("count", "method"), [(1, Method.SWAB), (5, Method.SWAB), (6, Method.SPRAY), (40, Method.CLEAN_OUT)]
)
def test_small_infestations_are_swabbed(count: int, method: Method) -> None:
    grade = grade_of(count)
    telling = home()
    telling.tell(ProductSet(product=ProductId(9), ingredient="alcohol"))
    telling.tell(Found(pest="citrus_mealybug", grade=grade, count=count), plant=HOYA)
    step = telling.step(HOYA, 0)
    assert step is not None
    assert step.method is method
    assert (grade is Grade.FEW) is (method is Method.SWAB)


def test_bleach_for_pots_in_both_readings() -> None:
    # "One part in ten": published sheets print 1 + 9, a tenth; read as 1 + 10 it is an eleventh.
    assert mix(Decimal(2000), rate_of_parts(Decimal(9)), Tool.SYRINGE).product == 200
    assert mix(Decimal(2000), rate_of_parts(Decimal(10)), Tool.SYRINGE).product == 180  # 181.8 by fives


@pytest.mark.parametrize("key", [key for key, kind in CATALOGUE.products.items() if kind.mix is not None])
def test_only_plain_oil_needs_soap_to_hold_it(key: str) -> None:
    mixing = CATALOGUE.products[key].mix
    assert mixing is not None
    assert mixing.needs_emulsifier is (key == "raw_neem")


def test_eggs_in_the_mix_take_its_top_off() -> None:
    assert TOP_MIX_CM == 5


@pytest.mark.parametrize("key", ["oil", "rapeseed_oil", "neem", "raw_neem", "soap"])
def test_oil_and_soap_only_in_the_shade(key: str) -> None:
    assert CATALOGUE.products[key].needs_shade
