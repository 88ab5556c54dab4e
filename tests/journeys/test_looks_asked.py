"""How looks are asked for and told: by the way that shows the pest, and at the roots where only those do."""

from datetime import timedelta

import pytest

from bot.domain.journal import CheckedClean, Found
from bot.domain.trade import Grade, Level
from tests.journeys.talking import Talk


def looks(talk: Talk) -> list[Level]:
    return [one.level for _, one in talk.told() if isinstance(one, CheckedClean)]


@pytest.mark.parametrize(
    ("find", "told"),
    [
        ("ivy 3 spider mites", "ivy clean, sticky card"),
        ("ivy 3 spider mites", "ivy clean with tape"),
        ("hoya 3 citrus mealybugs", "hoya clean, potato slice"),
        ("coffee plant 9 brown soft scale", "coffee plant clean, sticky card"),
    ],
)
def test_a_way_that_does_not_show_the_pest_is_asked_back_and_written_as_it_is_then_told(
    talk: Talk, find: str, told: str
) -> None:
    talk.say(find)
    said = talk.say(told)
    assert "does not show" in said[0]
    assert "nothing is written" in said[0]
    assert looks(talk) == []
    talk.press("A plain look")
    assert looks(talk) == [Level.PLAIN]


def test_a_way_that_shows_one_pest_of_two_is_written(talk: Talk) -> None:
    talk.say("ivy 3 spider mites")
    talk.say("ivy 3 greenhouse whiteflies")
    talk.say("ivy clean, sticky card")
    assert looks(talk) == [Level.CARD]


def test_a_pest_of_the_roots_is_looked_for_there_and_told_by_one_press(talk: Talk) -> None:
    talk.say("ivy 3 root mealybugs")
    evening = "\n".join(talk.evening())
    assert "died" not in evening, "a discard is advised, and nobody told of it"
    talk.press("Full clean-out done")
    talk.passes(days=20)
    evening = "\n".join(talk.evening())
    assert "Lift ivy out of the pot" in evening
    assert "None seen" not in talk.labels(), "leaves say nothing of it"
    talk.press("None seen, roots too")
    assert looks(talk) == [Level.ROOTS]
    talk.passes(days=1)
    asked_at = talk.next_at()
    assert asked_at is None or asked_at > talk.now + timedelta(days=2)


@pytest.mark.parametrize(
    "told",
    [
        "gnats all over the hoya",
        "mites all over the hoya",
        "the hoya has aphids all over",
        "mealybugs all over my hoya",
    ],
)
def test_pests_all_over_a_plant_are_many(talk: Talk, told: str) -> None:
    talk.say(told)
    assert [(plant, one.grade) for plant, one in talk.told() if isinstance(one, Found)] == [
        ("hoya", Grade.MANY)
    ]


def test_to_look_all_over_a_plant_is_a_look(talk: Talk) -> None:
    talk.say("looked all over the hoya, nothing")
    assert looks(talk) == [Level.PLAIN]
