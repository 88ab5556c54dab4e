"""Finding out what it is, tap by tap or in words, and writing it once it is known."""

import pytest

from bot.domain.journal import Found
from bot.domain.trade import Grade
from tests.journeys.talking import Talk


def found(talk: Talk) -> list[tuple[str | None, Found]]:
    return [(plant, payload) for plant, payload in talk.told() if isinstance(payload, Found)]


def test_a_find_without_a_name_goes_through_the_key_and_loses_nothing(talk: Talk) -> None:
    talk.say("hoya 12 bugs in the axils yesterday")
    assert talk.labels()[-1] == "Don't know: find out"
    talk.press("Don't know: find out")
    for answer in ("White fluff or cotton", "A coloured smear", "On leaves, in axils", "It crawls slowly"):
        assert found(talk) == []
        talk.press(answer)
    assert talk.labels() == ["It is citrus mealybug", "It is longtailed mealybug"]
    talk.press("It is longtailed mealybug")
    expected = Found(pest="longtailed_mealybug", grade=Grade.SOME, count=12, where="axils")
    assert found(talk) == [("hoya", expected)]
    assert talk.told()[-1][1] == expected
    assert talk.entries()[-1].happened_on.isoformat() == "2026-05-01"


def test_the_key_is_answered_by_words_too(talk: Talk) -> None:
    assert talk.say("what is this?")[0].startswith("What do you see?")
    talk.say("white fluff")
    talk.say("not sure")
    talk.say("in the mix")
    answer = talk.say("not sure")[0]
    assert "root mealybug" in answer
    assert "perlite (harmless: nothing to do)" in answer or "mould" in answer
    assert found(talk) == []


def test_what_is_told_already_is_not_asked(talk: Talk) -> None:
    answer = talk.say("bumps that lift off on the ivy")[0]
    assert answer.startswith("Most likely armoured scale: a flat disc whose lid lifts off a soft body")
    assert talk.press("It is armoured scale") == ["How many on ivy? A number, or few, some, many."]
    assert "7 armoured scale on ivy" in talk.say("7")[0]
    assert found(talk) == [("ivy", Found(pest="armoured_scale", grade=Grade.SOME, count=7, where=None))]


def test_a_friend_is_no_case_for_a_spray(talk: Talk) -> None:
    talk.say("what is that on the hoya")
    for answer in ("White fluff or cotton", "A coloured smear", "On leaves, in axils"):
        talk.press(answer)
    answer = talk.press("It runs, jumps or flies")[0]
    assert answer.startswith("Most likely mealybug-eating ladybird larva (a friend: no spray)")
    assert talk.labels() == []
    assert found(talk) == []


@pytest.mark.parametrize(
    "text", ["tiny flies around the orchid", "the ivy has bumps", "silvery patches on the ivy"]
)
def test_something_seen_but_not_named_asks_the_next_thing(talk: Talk, text: str) -> None:
    before = talk.entries()
    assert talk.say(text)[0].endswith("“Not sure” is an answer too.")
    assert talk.entries() == before


def test_the_pest_can_be_set_right_later(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    assert talk.say("it's citrus mealybug on the hoya")[0].startswith(
        "Corrected: the case on hoya is citrus mealybug"
    )
    assert [case.pest for plant in talk.home.living for case in plant.cases] == ["citrus_mealybug"]


@pytest.mark.parametrize(
    ("seen", "named", "amount", "grade"),
    [
        ("tiny flies come out of the soil of hoya and ivy", "fungus gnats yeah", "quite a lot", Grade.MANY),
        ("small black flies at the orchid and the coffee", "fungus gnats i think", "a fair few", Grade.SOME),
        ("silvery patches on the ivy and the hoya", "thrips", "tons", Grade.MANY),
    ],
)
def test_a_pest_named_next_is_on_the_plants_just_described(
    talk: Talk, seen: str, named: str, amount: str, grade: Grade
) -> None:
    """The key was not pressed, and neither the plants nor the pest are told twice."""
    assert talk.say(seen)[0].endswith("“Not sure” is an answer too.")
    assert talk.say(named)[0].startswith("How many on ")
    talk.say(amount)
    plants, seen_words = {plant for plant, _ in found(talk)}, {*seen.split()}
    assert len(plants) == 2
    assert all(seen_words & {*plant.split()} for plant in plants if plant)
    assert {payload.grade for _, payload in found(talk)} == {grade}
