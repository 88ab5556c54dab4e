"""What is asked about safety is answered from the shelf, the label and what was used; nothing is written."""

import pytest

from bot.actions.ask import Ask, Topic
from bot.phrases.hearing import understand
from tests.journeys.talking import Talk
from tests.phrases.situation import EVENING


def test_what_is_dangerous_is_told_product_by_product(talk: Talk) -> None:
    talk.set_up(("got pyrethrins, ready to use",))
    answer = talk.asks("is it safe for my cat?")
    assert "pyrethrins: " in answer
    # U.S. and British veterinary advice alike: pyrethroids and pyrethrins harm cats; fish are harmed too (from memory)
    assert "Dangerous to cats and fish." in answer.split("pyrethrins: ")[1]
    assert "Dangerous to cats and fish." not in answer.split("pyrethrins: ")[0]
    assert "we have a cat" in answer
    talk.say("we have a cat")
    assert "Say “we have a cat”" not in talk.asks("is it dangerous for the cat?")
    assert "\ninsecticidal soap: " in talk.say("is soap toxic?")[0]
    assert "isopropyl alcohol" not in talk.say("is soap toxic?")[0]


def test_an_eaten_plant_waits_for_the_days_of_the_label(talk: Talk) -> None:
    talk.set_up(
        ("new plant: chilli, kitchen", "got neem, ready to use", "neem label says 3 days before harvest")
    )
    assert talk.say("can i eat the chilli?")[0].startswith("chilli: no product is written for it")
    talk.say("sprayed chilli with neem")
    # 2 May + 3 days = 5 May
    assert talk.say("can i eat the chilli?")[0].startswith(
        "chilli: not before Tue 5 May, neem oil was used on Sat 2 May"
    )
    talk.passes(days=3)
    assert "are over" in talk.say("can i eat the chilli?")[0]
    assert talk.say("can i eat the ivy?")[0].startswith("ivy is not among the plants I know as eaten.")


@pytest.mark.parametrize(
    "text", ["is dish soap ok?", "i only have dish soap", "can i use washing up liquid?"]
)
def test_dish_soap_is_no_product_of_the_shelf(talk: Talk, text: str) -> None:
    before = len(talk.entries())
    # University of Maryland Extension: do not use dish soap, which may burn leaves; read on its page
    assert talk.say(text)[0].startswith("Better not: dish soap is a detergent")
    assert talk.new_since(before) == []


@pytest.mark.parametrize(
    "text",
    ["is neem ok for the cat?", "can i use the neem with a dog about?", "neem and the cat, is that fine?"],
)
def test_whether_an_animal_bears_a_product_is_not_answered_for_plants(text: str) -> None:
    told = understand(text, EVENING)
    assert not [one for one in told if isinstance(one, Ask) and one.topic is Topic.FIT]
