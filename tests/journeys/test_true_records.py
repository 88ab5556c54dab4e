"""What stands in the journal is what was told: no round lost, none made up, nobody's word taken back by another."""

import pytest

from bot.domain.identity import PlantId
from bot.domain.journal import Treated
from bot.domain.trade import Method
from tests.journeys.talking import PARTNER, Talk


def rounds(talk: Talk) -> list[tuple[str | None, Method, str | None]]:
    products = talk.home.products
    return [
        (plant, payload.method, None if payload.product is None else products[payload.product].ingredient)
        for plant, payload in talk.told()
        if isinstance(payload, Treated)
    ]


SOAP = ("hoya", Method.SPRAY, "soap")
SPINOSAD = ("hoya", Method.SPRAY, "spinosad")


@pytest.fixture
def treated(talk: Talk) -> Talk:
    talk.say("got spinosad")
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("sprayed hoya with soap")
    assert rounds(talk) == [SOAP]
    return talk


@pytest.mark.parametrize(
    "words",
    ["sprayed hoya with spinosad", "hoya sprayed with spinosad", "sprayed the hoya today with spinosad"],
)
def test_the_same_day_with_another_product_is_asked_and_not_dropped(treated: Talk, words: str) -> None:
    assert "instead, or besides?" in treated.say(words)[0]
    assert rounds(treated) == [SOAP]
    treated.press("Besides insecticidal soap")
    assert rounds(treated) == [SOAP, SPINOSAD]


def test_instead_takes_the_earlier_entry_back(treated: Talk) -> None:
    treated.say("sprayed hoya with spinosad")
    treated.press("Instead of insecticidal soap")
    assert rounds(treated) == [SPINOSAD]


def test_told_twice_is_written_once_and_said_so(treated: Talk) -> None:
    for words in ("sprayed hoya with soap", "sprayed the hoya", "hoya sprayed with soap"):
        answer = treated.say(words)[0]
        assert answer.startswith("Stood there already")
        assert "Written" not in answer.splitlines()[0]
    assert rounds(treated) == [SOAP]


def test_a_product_told_after_the_round_completes_it(talk: Talk) -> None:
    talk.say("got neem")
    talk.say("sprayed ivy")
    assert rounds(talk) == [("ivy", Method.SPRAY, None)], (
        "two products are on the shelf, and nobody asked for one"
    )
    talk.say("sprayed ivy with neem")
    assert rounds(talk) == [("ivy", Method.SPRAY, "neem")]


def test_what_both_told_stands_when_one_takes_it_back(treated: Talk) -> None:
    treated.joins()
    treated.say("sprayed hoya with soap", person=PARTNER)
    assert len(treated.home.plants[PlantId(1)].treatments) == 1, "two words, one round"
    treated.say("undo")
    assert rounds(treated) == [SOAP], "the other's word stands"
    treated.say("undo", person=PARTNER)
    assert rounds(treated) == []
