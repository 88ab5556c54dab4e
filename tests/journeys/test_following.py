"""What goes on with the message before is read with it, and never makes more of it than both say."""

import pytest

from bot.actions.desk import Words
from bot.conversation import Conversation
from bot.domain.identity import MemberId
from bot.domain.journal import CheckedClean, Found, IsolatedNow, ProductSet, Treated
from tests.journeys.talking import Talk

GOING_ON = [
    ("hoya 12 longtailed mealybugs", "and 3 on the ivy", Found, ["hoya", "ivy"]),
    ("hoya 12 longtailed mealybugs", "orchid too, just one", Found, ["hoya", "moth orchid"]),
    ("the coffee has 4 scale", "plus 2 on the orchid", Found, ["coffee plant", "moth orchid"]),
    ("hoya clean", "and the ivy", CheckedClean, ["hoya", "ivy"]),
    ("sprayed the hoya with soap", "the ivy as well", Treated, ["hoya", "ivy"]),
    ("wiped ivy yesterday", "also the coffee", Treated, ["ivy", "coffee plant"]),
    ("isolated the hoya", "orchid also", IsolatedNow, ["hoya", "moth orchid"]),
]


@pytest.mark.parametrize(("first", "then", "kind", "plants"), GOING_ON)
def test_what_goes_on_is_of_the_same(
    talk: Talk, first: str, then: str, kind: type, plants: list[str]
) -> None:
    talk.say(first)
    talk.passes(minutes=2)
    talk.say(then)
    told = [(plant, payload) for plant, payload in talk.told() if isinstance(payload, kind)]
    assert [plant for plant, _ in told] == plants, "each once"
    days = {one.happened_on for one in talk.entries() if isinstance(one.payload, kind)}
    assert len(days) == 1


def test_a_move_goes_on_with_another_plant(talk: Talk) -> None:
    talk.say("moved the ivy to the kitchen")
    talk.say("and the orchid too")
    kitchen = next(place.id for place in talk.home.places.values() if place.name == "kitchen")
    assert {"ivy", "moth orchid"} <= {one.name for one in talk.home.living if one.place == kitchen}


def test_it_goes_on_and_on(talk: Talk) -> None:
    for words in ("hoya 12 longtailed mealybugs", "and 3 on the ivy", "and 1 on the orchid", "coffee too, 2"):
        talk.say(words)
    counts = {plant: payload.count for plant, payload in talk.told() if isinstance(payload, Found)}
    assert counts == {"hoya": 12, "ivy": 3, "moth orchid": 1, "coffee plant": 2}


@pytest.mark.parametrize("says", ["the bottle says", "it says", "the label says", "and it says"])
def test_what_a_label_says_is_of_the_product_just_told(talk: Talk, says: str) -> None:
    talk.say("bought neem today")
    talk.say(f"{says} 5 ml per litre, every 14 days")
    last = [payload for _, payload in talk.told() if isinstance(payload, ProductSet)][-1]
    assert (last.ingredient, last.label.gap_days) == ("neem", 14)


@pytest.mark.parametrize(
    ("first", "then"),
    [
        ("hoya clean", "and the ivy?"),
        ("hoya clean", "not the ivy too"),
        ("hoya clean", "did I look at the ivy too?"),
        ("hoya 12 longtailed mealybugs", "my sister has them too"),
        ("sprayed the hoya with soap", "should I do the ivy as well?"),
        ("sprayed the hoya with soap", "and tomorrow the ivy too"),
        ("thanks", "and the ivy"),
    ],
)
def test_a_question_a_denial_or_a_plan_goes_on_with_nothing(talk: Talk, first: str, then: str) -> None:
    talk.say(first)
    before = talk.told()
    talk.say(then)
    assert talk.told() == before


def test_after_a_quarter_of_an_hour_nothing_goes_on(talk: Talk) -> None:
    talk.say("hoya clean")
    before = talk.told()
    talk.passes(minutes=16)
    talk.say("and the ivy")
    assert talk.told() == before


def test_what_a_restart_forgot_is_asked(talk: Talk) -> None:
    talk.say("isolated the hoya")
    before = talk.told()
    talk.conversation = Conversation(talk.conversation.knowledge, talk.conversation.may_found)
    (answer,) = talk.say("orchid also")
    assert answer
    assert talk.told() == before


def test_who_is_erased_has_said_nothing(talk: Talk) -> None:
    talk.say("isolated the hoya")
    (asked,) = talk.say("forget me")
    talk.say(asked.rpartition("write: ")[2])
    assert not talk.entries(), "erased"
    assert talk.conversation.memory.said_before(Words("later", "orchid also", talk.now), MemberId(1)) is None


@pytest.mark.parametrize("text", ["yes. the ivy has 3 spider mites", "yep, and the ivy got wiped"])
def test_a_yes_that_something_else_follows_writes_what_was_offered_once(talk: Talk, text: str) -> None:
    talk.say("the coffee is probly rinsed")
    assert "Yes" in talk.labels()
    before = len(talk.entries())
    answers = "\n".join(talk.say(text))
    coffee = [one for one in talk.new_since(before) if isinstance(one, Treated)]
    assert coffee
    assert "rinsed coffee" not in answers.partition("Not written")[2]
    talk.say("yes")
    assert sum(isinstance(one, Treated) for one in talk.new_since(before)) == len(coffee)


@pytest.mark.parametrize(
    "text",
    [
        *(
            "yes, but not the coffee",
            "yes, only the ivy",
            "ok, 3 on it",
            "yes. no",
            "ok, later",
            "yes, tomorrow",
        ),
        *(
            "yes, with soap",
            "yes, on monday",
            "ok. i meant the ivy",
            "sure, why did you ask?",
            "ok. stop",
            "right, wrong one",
        ),
        *("yes, just the ivy was sprayed", "yes, it was the ivy i sprayed", "yes, i sprayed the ivy"),
        *("yes. would that be written?", "yes, undo", "ok, skip", "ok, monstera wiped"),
    ],
)
def test_a_yes_whose_rest_may_change_it_writes_nothing_of_it(talk: Talk, text: str) -> None:
    talk.say("the coffee is probly rinsed")
    before = len(talk.entries())
    talk.say(text)
    treated = [one.plant for one in talk.entries()[before:] if isinstance(one.payload, Treated)]
    assert "coffee plant" not in {talk.home.plants[one].name for one in treated if one is not None}


def test_both_is_all_where_one_plant_has_two_works_and_names_none_where_plants_are_named(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("got soap, ready to use, every 7 days")
    talk.evening()
    before = len(talk.entries())
    talk.say("both done")
    treated = [one for one in talk.entries()[before:] if isinstance(one.payload, Treated)]
    assert len(treated) == len("xy")
    assert {talk.home.plants[one.plant].name for one in treated if one.plant is not None} == {"hoya"}
