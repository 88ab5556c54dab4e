"""Twenty minutes, or far too much: what goes first, what waits, what may be given up."""

import pytest

from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.log_find import LogFind
from bot.actions.save_time import SaveTime
from tests.journeys.talking import Talk


@pytest.mark.parametrize(
    "text",
    ["I have 20 minutes", "i only have 20 min tonight", "we've got 20 minutes for this", "just 20 mins left"],
)
def test_a_time_told_cuts_the_evening_and_writes_nothing(talk: Talk, text: str) -> None:
    talk.set_up(
        (
            "hoya 12 longtailed mealybugs",
            "ivy 40 spider mites",
            "the ivy is apart",
            "coffee 12 longtailed mealybugs",
        )
    )
    talk.evening()
    before = len(talk.entries())
    (answer,) = talk.say(text)
    # hoya stands among healthy plants: 8 min to wipe, 3 to spray; coffee is prone at the roots: a clean-out, 35;
    # the ivy is by itself: 4 + 8 + 3
    assert answer.splitlines()[:2] == ["First, about 11 min:", "1 hoya: wipe, then spray, 11 min"]
    assert "Can wait, 50 min: coffee plant and ivy." in answer
    assert "Or give up ivy: “threw out the ivy”." in answer
    assert talk.new_since(before) == []
    assert talk.press("The rest tomorrow") == ["Put off: coffee plant and ivy, tomorrow, Sun 3 May."]


@pytest.mark.parametrize(
    "text", ["too much", "this is too much", "what first?", "where do I start", "I can't do all that"]
)
def test_too_much_is_heard(talk: Talk, text: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    assert talk.say(text)[0].startswith("First, about 11 min:")


@pytest.mark.parametrize(
    "text", ["20 minutes", "the hoya has 20 minutes", "give me 20 minutes", "ivy has too much sun"]
)
def test_what_only_sounds_like_it_is_not(talk: Talk, text: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    assert not talk.say(text)[0].startswith("First, about")


def test_ten_cases_are_sorted_with_the_hours_they_ask_for(talk: Talk) -> None:
    names = [f"calathea {number}" for number in range(30, 41)]
    talk.tell(AddPlants(tuple(NewPlant(name=name, place="kitchen") for name in names), is_sure=True))
    plants = [one for one in talk.home.living if one.name in names]
    for one in plants[:10]:
        count = 40 if one is plants[0] else 3
        talk.tell(LogFind(plants=(one.id,), count=count, pest="longtailed_mealybug"))
    (answer,) = talk.tell(SaveTime())
    lines = answer.splitlines()
    assert lines[0] == "Cut hard, then treat: calathea 30."
    assert lines[1].startswith("Treat: calathea 31, calathea 32")
    assert lines[2] == "Watch: moth orchid, coffee plant and calathea 40."
    assert "hours a week" in lines[3]


def test_a_long_evening_offers_to_say_what_goes_first(talk: Talk) -> None:
    talk.set_up(("hoya 40 longtailed mealybugs", "small hoya 40 longtailed mealybugs"))
    nudge = talk.evening()[0]
    assert "about 7" in nudge.splitlines()[0]  # two clean-outs of 35 minutes and more
    assert "What first" in talk.labels()
