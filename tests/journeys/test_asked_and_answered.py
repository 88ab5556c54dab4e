"""What is asked in a home with an outbreak, in as few buttons as there are answers, and how people answer it."""

import pytest

from bot.actions.action import ButtonText, Choice
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_check import LogCheck
from bot.actions.log_round import LogRound
from bot.domain.journal import CheckedClean, Found, Treated
from bot.domain.trade import Level, Method
from bot.domain.value import replace
from tests.journeys.talking import OWNER, Talk
from tests.journeys.test_forty_talks import HOMES, says

KNOWN = {"A": "longtailed mealybug", "B": "spider mite", "E": "aphid"}
"""The only pest of each home, as `talks/homes.txt` tells it."""


def at_home(talk: Talk, home: str) -> Talk:
    for line in HOMES[home]:
        says(talk, line)
    return talk


def found(talk: Talk) -> list[tuple[str | None, str, int | None, str | None]]:
    return [
        (plant, one.pest.replace("_", " "), one.count, one.where)
        for plant, one in talk.told()
        if isinstance(one, Found)
    ]


@pytest.mark.parametrize(
    ("home", "find", "plant"),
    [
        ("A", "3 on the ivy", "ivy"),
        ("B", "there are 4 bugs on the fern", "fern"),
        ("E", "mint 6", "mint"),
        ("A", "small hoya has 2 of them now", "small hoya"),
    ],
)
def test_the_only_pest_of_a_home_is_offered_first_and_the_others_behind_one_button(
    stranger_talk: Talk, home: str, find: str, plant: str
) -> None:
    talk = at_home(stranger_talk, home)
    (asked,) = talk.say(find)
    assert asked == f"Which pest is it on {plant}? Not written yet."
    assert talk.labels() == [KNOWN[home], "Another, or don't know"]
    talk.press("Another, or don't know")
    assert KNOWN[home] not in talk.labels()
    assert "flat mite" in talk.labels()
    assert found(talk)[-1][0] != plant
    talk.press("flat mite")
    assert found(talk)[-1][:2] == (plant, "flat mite")


@pytest.mark.parametrize(
    ("answer", "pest"),
    [
        ("same", "longtailed mealybug"),
        ("the same ones", "longtailed mealybug"),
        ("longtailed mealybug", "longtailed mealybug"),
        ("citrus", "citrus mealybug"),
        ("flat mites", "flat mite"),
    ],
)
def test_which_pest_it_is_may_be_typed_behind_the_button_too(
    stranger_talk: Talk, answer: str, pest: str
) -> None:
    talk = at_home(stranger_talk, "A")
    talk.say("3 on the ivy")
    talk.say(answer)
    assert found(talk)[-1] == ("ivy", pest, 3, None)


def test_a_find_whose_pest_nobody_told_is_named_in_the_evening(stranger_talk: Talk) -> None:
    talk = at_home(stranger_talk, "A")
    talk.say("3 on the ivy")
    (nudge,) = talk.evening()
    assert "You saw something on ivy: which pest?" in nudge
    assert "longtailed mealybug" in talk.labels()
    assert "citrus mealybug" not in talk.labels()


@pytest.mark.parametrize(
    "words", ["mealybugs on fern and rubber plant, 3 each", "fern 2 mealybugs, rubber plant 4"]
)
def test_finds_on_two_plants_have_each_button_once(stranger_talk: Talk, words: str) -> None:
    talk = at_home(stranger_talk, "B")
    talk.say(words)
    labels = talk.labels()
    assert len(labels) == len({*labels}), labels
    talk.press("citrus mealybug")
    cases = {plant.name: [case.pest for case in plant.open_cases] for plant in talk.home.living}
    assert cases["fern"] == cases["rubber plant"] == ["citrus_mealybug"]


@pytest.mark.parametrize(
    ("answer", "count"),
    [
        ("maybe 6", 6),
        ("like 6 or 7", 7),
        ("6ish", 6),
        ("about 10-12 i think", 12),
        ("not sure, between 5 and 10", 10),
        ("twenty-ish", 20),
        ("8 tops", 8),
    ],
)
def test_a_number_nobody_counted_is_a_number(stranger_talk: Talk, answer: str, count: int) -> None:
    talk = at_home(stranger_talk, "B")
    talk.say("spider mites on the fern")
    talk.say(answer)
    assert found(talk)[-1] == ("fern", "spider mite", count, None)


@pytest.mark.parametrize("answer", ["not 6", "6 or 60", "7 leaves", "no idea"])
def test_what_is_no_number_of_them_is_none(stranger_talk: Talk, answer: str) -> None:
    talk = at_home(stranger_talk, "B")
    talk.say("spider mites on the fern")
    before = found(talk)
    talk.say(answer)
    assert found(talk) == before


@pytest.mark.parametrize(
    ("answer", "told"),
    [
        ("about 6, under the leaves", ("ivy", "longtailed mealybug", 6, "underside")),
        ("maybe a dozen in the axils", ("ivy", "longtailed mealybug", 12, "axils")),
        ("4 on the stems i guess", ("ivy", "longtailed mealybug", 4, "stem")),
    ],
)
def test_where_they_sit_may_stand_beside_the_number(
    stranger_talk: Talk, answer: str, told: tuple[str, str, int, str]
) -> None:
    talk = at_home(stranger_talk, "A")
    talk.say("longtailed mealybugs on the ivy")
    talk.say(answer)
    assert found(talk)[-1] == told


@pytest.mark.parametrize(
    ("answer", "count"),
    [
        ("brown bumps, sticky. maybe 15 of them", 15),
        ("15 or so brown bumps", 15),
        ("they are sticky bumps, like a dozen", 12),
    ],
)
def test_what_they_look_like_may_stand_beside_the_number(
    stranger_talk: Talk, answer: str, count: int
) -> None:
    """What it is may be asked before it is written; the number is kept."""
    talk = at_home(stranger_talk, "A")
    talk.say("bugs on the small hoya")
    talk.say(answer)
    if "A lid lifts off a soft body" in talk.labels():
        talk.press("A lid lifts off a soft body")
    assert found(talk)[-1][0] != "small hoya"
    talk.press(next(label for label in talk.labels() if "scale" in label))
    assert found(talk)[-1][0::2] == ("small hoya", count)


def test_who_is_apart_is_named_once(stranger_talk: Talk) -> None:
    talk = at_home(stranger_talk, "B")
    assert talk.say("isolated?")[0].startswith("Still to be set apart: all 3 at lounge; free from ")
    talk.say("isolated calathea, palm and monstera")
    (told,) = talk.say("isolated?")
    assert [told.count(name) for name in ("calathea", "palm", "monstera")] == [1, 1, 1]


@pytest.mark.parametrize(
    "more",
    [
        "Yes, it went out with the rubbish.",
        "yeah the poor thing is on the compost",
        "yes please note that down",
        "Yes, the ivy died, I am afraid.",
    ],
)
def test_a_yes_with_more_words_is_a_yes_where_they_tell_nothing_else(talk: Talk, more: str) -> None:
    assert talk.say("we lost the ivy in the end, it was beyond saving") == [
        "Did you mean “ivy died”? Not written yet."
    ]
    assert talk.say(more)[0].startswith("Written: ivy gone.")
    assert [one.name for one in talk.home.living] == ["hoya", "small hoya", "moth orchid", "coffee plant"]


@pytest.mark.parametrize(
    "more",
    [
        "yes, only half of it",
        "yes and the orchid as well",
        "yes, undo",
        "yes, nearly",
        "yes but not the ivy",
        "yes, it has 3 thrips",
        "yes, what now",
    ],
)
def test_a_yes_that_tells_something_else_writes_no_offer(talk: Talk, more: str) -> None:
    talk.say("we lost the ivy in the end, it was beyond saving")
    talk.say(more)
    assert "ivy" in [one.name for one in talk.home.living]


@pytest.mark.parametrize("answer", ["thrips", "they are thrips", "western flower thrips on both"])
def test_the_pest_told_once_is_that_of_all_plants_of_the_message(talk: Talk, answer: str) -> None:
    (asked,) = talk.say("ivy and small hoya have bugs, 6 on ivy, 2 on small hoya")
    assert asked == "Which pest is it on ivy and small hoya? Not written yet."
    talk.say(answer)
    ivy, hoya = (one for one in talk.home.living if one.name in {"ivy", "small hoya"})
    assert [case.pest for one in (ivy, hoya) for case in one.cases] == ["western_flower_thrips"] * 2
    assert sorted(case.finds[0].count or 0 for one in (ivy, hoya) for case in one.cases) == [2, 6]


def test_what_was_written_by_a_yes_in_words_is_not_said_to_be_open(talk: Talk) -> None:
    (hoya, *_) = talk.home.living
    repotted = LogRound(plants=(hoya.id,), method=Method.REPOT)
    told = (repotted, replace(repotted, on=talk.now.date()), LogCheck(plants=(hoya.id,)))
    talk.tell(Incomplete(missing=Missing.MEANT, choices=(Choice(ButtonText.YES, told, "repotted hoya"),)))
    talk.say("yes, right")
    assert talk.told()[-2:] == [("hoya", Treated(method=Method.REPOT)), ("hoya", CheckedClean(Level.PLAIN))]
    talk.say("a passion flower came home with me")
    assert not any("repotted" in one.text for one in talk.shown[OWNER][-1:])
