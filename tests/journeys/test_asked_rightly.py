"""A question is answered for what it asks about, and tells nothing."""

import pytest

from tests.journeys.talking import Talk

HOME = ("new plant: chilli, kitchen", "got soap, ready to use, every 7 days")


@pytest.fixture
def home(talk: Talk) -> Talk:
    talk.set_up(HOME)
    return talk


@pytest.mark.parametrize(
    ("asked", "product"),
    [
        ("may i use neem on the ivy", "neem oil"),
        ("is horticultural oil right for the ivy?", "horticultural oil"),
        ("can the ivy be treated with rubbing alcohol?", "isopropyl alcohol"),
    ],
)
def test_a_product_that_is_not_at_hand_is_answered_for_itself(home: Talk, asked: str, product: str) -> None:
    answer = home.asks(asked)
    assert answer.startswith(f"{product} on ivy: ")
    assert "soap" not in answer


def test_several_products_are_answered_each(home: Talk) -> None:
    answer = home.asks("is neem or soap right for the ivy?")
    assert "neem oil on ivy: " in answer
    assert "insecticidal soap on ivy: " in answer


def test_what_is_dangerous_about_a_product_that_is_not_at_hand_is_told_of_it(home: Talk) -> None:
    answer = home.asks("are pyrethrins safe for the cat?")
    assert "\npyrethrins: " in answer
    assert "insecticidal soap: " not in answer


@pytest.mark.parametrize(
    ("asked", "product"),
    [
        ("how many days after soap may we eat the chilli?", "soap"),
        ("can i use neem on the chilli and eat it afterwards?", "neem oil"),
    ],
)
def test_no_days_are_promised_of_a_label_that_nobody_read(home: Talk, asked: str, product: str) -> None:
    answer = home.asks(asked)
    assert answer.startswith(f"chilli: after {product} only if its label allows what is eaten")
    assert "nothing to wait for" not in answer


def test_the_days_of_a_label_that_was_read_are_told(home: Talk) -> None:
    home.say("soap label says 2 days before harvest")
    assert home.asks("how many days after soap may we eat the chilli?").startswith(
        "chilli: 2 days to wait after soap, by its label"
    )
