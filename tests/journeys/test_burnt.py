"""What a product did to leaves: kept, never sprayed there again, and explained where it is asked."""

import pytest

from tests.journeys.talking import Talk

SET_UP = (
    "got rapeseed oil, ready to use, every 7 days",
    "hoya 12 longtailed mealybugs",
    "sprayed the hoya with rapeseed oil",
)


@pytest.fixture
def sprayed(talk: Talk) -> Talk:
    talk.set_up(SET_UP)
    talk.passes(days=2)
    return talk


@pytest.mark.parametrize(
    "words",
    [
        "the rapeseed oil has burnt the hoya",
        "hoya leaves all scorched from the oil",
        "the hoya went crispy after that spray",
        "brown tips on my hoya since the rapeseed oil",
    ],
)
def test_what_burnt_a_plant_is_used_there_no_more(sprayed: Talk, words: str) -> None:
    before = len(sprayed.entries())
    assert "burnt by" in sprayed.say(words)[0]
    assert sprayed.new_since(before) == [], "nothing is written before the yes"
    assert "no rapeseed oil on hoya any more" in sprayed.press("Yes")[0]
    assert "rapeseed oil on hoya: no, this plant is hurt by it" in sprayed.asks(
        "can i use rapeseed oil on the hoya"
    )
    sprayed.say("undo")
    assert "rapeseed oil on hoya: yes" in sprayed.asks("can i use rapeseed oil on the hoya")


def test_a_plant_never_sprayed_was_burnt_by_nothing_that_is_known(sprayed: Talk) -> None:
    before = len(sprayed.entries())
    sprayed.say("the spray scorched the ivy")
    assert "No spray of ivy is written" in sprayed.press("Yes")[0]
    assert sprayed.new_since(before) == []


@pytest.mark.parametrize("words", ["what is spray damage?", "what is leaf burn", "what are burnt leaves?"])
def test_damage_is_explained_and_writes_nothing(sprayed: Talk, words: str) -> None:
    before = len(sprayed.entries())
    assert "Rinse it, shade it" in sprayed.asks(words)
    assert sprayed.new_since(before) == []


def test_plants_of_several_products_are_each_kept_from_their_own(talk: Talk) -> None:
    talk.set_up((*SET_UP, "sprayed the ivy with soap"))
    talk.say("the spray scorched the hoya and the ivy")
    answer = talk.press("Yes")[0]
    assert "no rapeseed oil on hoya any more" in answer
    assert "no insecticidal soap on ivy any more" in answer


@pytest.mark.parametrize("text", ["🤔", "💚💚", "   ", "—", "!!"])
def test_an_offer_outlives_what_holds_no_word(sprayed: Talk, text: str) -> None:
    sprayed.say("the rapeseed oil has burnt the hoya")
    before = len(sprayed.entries())
    sprayed.say(text)
    assert sprayed.new_since(before) == []
    assert "no rapeseed oil on hoya any more" in sprayed.say("yes, write that down")[0]
