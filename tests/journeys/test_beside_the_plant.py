"""What is asked standing beside the plant is answered from the plan, and nothing is written."""

import pytest

from bot.wording.days import in_runs, listed
from tests.journeys.talking import Talk


@pytest.fixture
def evening(talk: Talk) -> Talk:
    talk.set_up()
    talk.say("hoya 12 mealybugs in the axils")
    talk.evening()
    return talk


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("remind me which stuff goes on the cloth", "wipe hoya, then soap"),
        ("which of my two bottles is for tonight", "by your label"),
        ("should every leaf get it or only the bad ones", "until it just drips"),
        ("do the leaves have to drip", "until it just drips"),
        ("who do i start on", "1 hoya: wipe, then spray"),
        ("roughly how many minutes is this", "About 11 min"),
        ("would tomorrow morning be all right too", "until Sun 3 May is as good"),
        ("how bad would it be to miss this one", "one treatment more"),
        ("isn't the wipe alone enough", "so both"),
        ("it's so hot, shall i spray all the same?", "7 °C to 32 °C"),
        ("how many minutes does the soap stay on", "leave it on and let it dry"),
        ("does the rest of the mix keep till next week", "keeps 24 hours"),
        ("which parts of the plant do i look at", "axils"),
    ],
)
def test_a_question_of_tonight_is_answered_with_a_figure_or_a_step(
    evening: Talk, words: str, told: str
) -> None:
    before = len(evening.entries())
    assert told in evening.asks(words)
    assert evening.new_since(before) == []


def test_an_evening_can_be_put_off_where_it_is_asked_whether_it_can_wait(evening: Talk) -> None:
    evening.say("does it have to be tonight")
    assert evening.press("Tomorrow")[0].startswith("Put off: hoya, tomorrow")


def test_a_plant_that_is_only_looked_at_has_nothing_due(evening: Talk) -> None:
    assert "Nothing is to be done to small hoya" in evening.asks("what do i put on the small hoya")
    assert "hoya, then soap" not in evening.asks("do i have to treat small hoya too")


@pytest.mark.parametrize("words", ["can we eat the basil on friday", "is the basil fine to eat on friday"])
def test_a_day_asked_about_is_answered_with_yes_or_no(talk: Talk, words: str) -> None:
    """Saturday 2 May and five days: from Thursday 7 May, so yes on Friday 8."""
    talk.set_up(
        ("basil, kitchen", "basil is edible", "soap 5 days before harvest", "sprayed basil with soap")
    )
    assert talk.say(words)[0].startswith("Yes, Fri 8 May.")
    assert talk.say(words.replace("friday", "wednesday"))[0].startswith("No, not Wed 6 May.")


def test_how_many_plants_there_are_is_said_as_a_number(talk: Talk) -> None:
    talk.set_up()
    assert talk.say("how many plants do i have")[0].endswith("5 plants in all.")


@pytest.mark.parametrize("words", ["what pests do you know", "which bugs do you know about"])
def test_the_pests_that_are_known_are_named(talk: Talk, words: str) -> None:
    talk.set_up()
    assert "thrips" in talk.say(words)[0]


def test_numbers_in_a_row_are_listed_as_from_and_to() -> None:
    names = ("AV 1", "AV 2", "AV 3", "AV 5", "AV 6", "hoya", "phal 9", "phal 10", "phal 11")
    assert listed(in_runs(names)) == "AV 1 to 3, AV 5, AV 6, hoya and phal 9 to 11"


@pytest.mark.parametrize("words", ["who is on watch", "watch list please"])
def test_the_watch_list_is_told(talk: Talk, words: str) -> None:
    talk.set_up(("hoya 12 mealybugs in the axils", "hoya is apart now"))
    assert "Look at weekly: small hoya." in talk.asks(words)


@pytest.mark.parametrize(
    "words", ["what is a clean-out, do i chuck it", "um what does clean out mean like do i chuck it"]
)
def test_a_work_that_is_not_tonights_is_explained_by_its_own_steps(evening: Talk, words: str) -> None:
    answer = evening.asks(words)
    assert "clean-out" in answer
    assert "Unpot" in answer
