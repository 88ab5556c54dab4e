"""What is told of an evening part by part is written part by part, and no more than was told."""

import pytest

from bot.domain.journal import CheckedClean, Found, HeldUntil, Postponed, Treated
from tests.journeys.talking import Talk


@pytest.fixture
def evening(outbreak: Talk) -> Talk:
    """The hoya is to be wiped and sprayed with soap; the orchid and the coffee plant to be swabbed."""
    outbreak.say("isolated hoya, orchid and coffee")
    outbreak.evening()
    return outbreak


def written(talk: Talk, words: str) -> set[tuple[str | None, str]]:
    """Say it, and give what it wrote: plant, and way of doing or kind of entry."""
    before = len(talk.told())
    talk.say(words)
    new = talk.told()[before:]
    return {
        (plant, one.method.value if isinstance(one, Treated) else type(one).__name__) for plant, one in new
    }


HOYA_WIPED = ("hoya", "wipe")
PUT_OFF = ("hoya", "Postponed")
SWABBED = {("moth orchid", "swab"), ("coffee plant", "swab")}
ALL = {HOYA_WIPED, ("hoya", "spray"), *SWABBED}


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("wiped the hoya, the soap can wait till tomorrow", {HOYA_WIPED, PUT_OFF}),
        ("hoya wiped, spraying tomorrow", {HOYA_WIPED, PUT_OFF}),
        ("wiped the hoya, too tired for the soap", {HOYA_WIPED, PUT_OFF}),
        ("both swabbed, hoya tomorrow", {*SWABBED, PUT_OFF}),
        ("swabbed both", SWABBED),
        ("hoya done, the other two tomorrow", {HOYA_WIPED, ("hoya", "spray")}
         | {("moth orchid", "Postponed"), ("coffee plant", "Postponed")}),
        ("all done. The orchid has some as well", {*ALL, ("moth orchid", "Found")}),
        ("did them all, plus 3 bugs on the coffee", {*ALL, ("coffee plant", "Found")}),
        ("the hoya got its soap", {("hoya", "spray")}),
    ],
)  # fmt: skip
def test_each_part_is_written(evening: Talk, words: str, expected: set[tuple[str, str]]) -> None:
    assert written(evening, words) == expected


@pytest.mark.parametrize(
    "words",
    [
        "did the swabbing, wiping tomorrow",  # of the soap nothing is told
        "the soap tomorrow",
        "pruned, no rinse tonight",  # denied, and not set right
        "sprayed hoya, ivy and coffee no bugs",  # the list may go on
        "no bugs on it any more",  # on which
        "the ivy did not have any, I think",
        "hoya has a few yellow leaves",
        "the other four can wait till tomorrow",  # three are due
        "coffee swabbed, the other five tomorrow",
        "swabbed the coffee because it died",
        "swabbed the orchid, orchid again tomorrow",
        "swabbed coffee, swab it again tomorrow",
        "fed the orchid and swabbed the coffee",
        "wiped the hoya, fed the coffee",
        "put the soap on the hoya",
        "the orchid has lots of flowers",
    ],
)
def test_what_is_not_clear_is_asked(evening: Talk, words: str) -> None:
    assert written(evening, words) == set()
    assert evening.labels(), "asked"


@pytest.mark.parametrize(
    "words",
    [
        "not tonight, my knee",
        "can't do it, kids are ill",
        "not tonight, back pain",
        "tomorrow, I'm in bed already",
    ],
)
def test_a_reason_says_nothing_more(evening: Talk, words: str) -> None:
    evening.say(words)
    put_off = {plant for plant, one in evening.told() if isinstance(one, Postponed)}
    assert put_off == {"hoya", "moth orchid", "coffee plant"}


@pytest.mark.parametrize(
    ("words", "count"), [("looked at all four, none", 4), ("looked at all five, none", 5)]
)
def test_all_so_many_are_those_of_that_number(evening: Talk, words: str, count: int) -> None:
    evening.press("All done")
    evening.evening()  # looks at four are asked for, of five plants
    evening.say(words)
    assert len({plant for plant, one in evening.told() if isinstance(one, CheckedClean)}) == count


def test_all_three_are_no_others_than_three(evening: Talk) -> None:
    before = evening.told()
    evening.say("looked at all seven, none")
    assert evening.told() == before


def test_the_ivy_did_not_have_any_puts_nothing_off(talk: Talk) -> None:
    talk.say("the ivy doesn't have bugs")
    assert [(plant, type(one)) for plant, one in talk.told() if plant == "ivy"][-1] == ("ivy", CheckedClean)


def test_days_of_a_trip_are_of_the_same_trip(talk: Talk) -> None:
    talk.say("away from friday to monday")
    (until,) = {one.until for _, one in talk.told() if isinstance(one, HeldUntil)}
    assert until is not None
    assert (until - talk.now.date()).days == 9  # Saturday 2 May to Monday 11 May


def test_the_one_of_a_plant_is_no_number(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("two on the coffee and five on the ivy one")
    counts = {plant: one.count for plant, one in talk.told() if isinstance(one, Found)}
    assert counts in ({"coffee plant": 2, "ivy": 5}, {"hoya": 12})
