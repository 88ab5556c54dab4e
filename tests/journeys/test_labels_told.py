"""What stands on a bottle, told in many ways; nonsense is asked back and writes nothing."""

from decimal import Decimal

import pytest

from bot.domain.journal import ProductSet
from bot.domain.trade import Form
from tests.journeys.talking import Talk


def _told(talk: Talk) -> ProductSet:
    told = talk.told()[-1][1]
    assert isinstance(told, ProductSet)
    return told


@pytest.mark.parametrize(
    ("text", "rate", "most"),
    [
        ("neem label says 5 ml per litre", "5", "5"),
        ("neem: 5ml/l", "5", "5"),
        # A US fluid ounce is 29.5735 mL and a US gallon 3785.41 mL: 7.8125 mL/L (29.5735 / 3.78541).
        ("neem label says 1 fl oz per gallon", "7.8125", "7.8125"),
        ("the neem label says 2 to 5 ml per litre", "2", "5"),
        ("my neem says 2-5 ml per litre", "2", "5"),
    ],
)
def test_a_rate_of_a_label_is_kept(talk: Talk, text: str, rate: str, most: str) -> None:
    talk.say("got neem concentrate")
    talk.say(text)
    told = _told(talk)
    assert told.rate_ml_per_l is not None
    assert told.most_ml_per_l is not None
    assert (told.rate_ml_per_l.normalize(), told.most_ml_per_l.normalize()) == (Decimal(rate), Decimal(most))


@pytest.mark.parametrize(
    ("text", "ingredient", "strength", "form"),
    [
        ("got soap, concentrate, 49%", "soap", "49", Form.CONCENTRATE),
        ("my alcohol is 99%", "alcohol", "99", None),
        ("the alcohol has 70 percent", "alcohol", "70", None),
        ("bought neem oil concentrate 1.5 % every 7 days", "neem", "1.5", Form.CONCENTRATE),
    ],
)
def test_a_strength_is_kept(talk: Talk, text: str, ingredient: str, strength: str, form: Form | None) -> None:
    talk.say(text)
    told = _told(talk)
    assert (told.ingredient, told.strength_percent, told.form) == (ingredient, Decimal(strength), form)


def test_a_rate_of_no_product_is_asked_for_its_bottle(talk: Talk) -> None:
    talk.say("got neem concentrate")
    before = len(talk.entries())
    assert talk.say("5 ml per litre") == ["Which product?"]
    assert talk.new_since(before) == []
    talk.press("Label of neem oil")
    assert _told(talk).rate_ml_per_l == 5


def test_a_mixture_takes_the_lower_rate_and_never_passes_the_upper(talk: Talk) -> None:
    talk.set_up(("got neem concentrate", "neem label says 2 to 5 ml per litre"))
    assert talk.say("mix 1 l of neem")[0].startswith("For 1 L: 998 mL water, 2 mL neem oil.")
    assert talk.say("mix 1 l of neem at 5 ml per litre")[0].startswith(
        "For 1 L: 995 mL water, 5 mL neem oil."
    )
    assert (
        "past your label: I took its most, 5 mL per litre" in talk.say("mix 1 l of neem at 9 ml per litre")[0]
    )


@pytest.mark.parametrize(
    "text",
    [
        "mix 1 l of neem at 5 ml per banana",
        "neem label says 0 ml per litre",
        "my alcohol is 200%",
        "soap label says 0 %",
        "neem label says 5 to 2 ml per litre",
        "neem label says every 400 days",
        "mix 0 ml of neem",
    ],
)
def test_nonsense_on_a_label_writes_nothing(talk: Talk, text: str) -> None:
    talk.say("got neem concentrate")
    before = len(talk.entries())
    (answer,) = talk.say(text)
    assert talk.new_since(before) == []
    assert "!" not in answer
