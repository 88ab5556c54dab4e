"""What four played lives found written that nobody had told: each kind by wordings of its own."""

import pytest

from bot.domain.journal import CheckedClean, Found, PlaceSet, PlantRenamed, Postponed, ProductSet, Treated
from bot.domain.trade import Method
from bot.domain.window import Outdoors
from tests.journeys.talking import Talk


def told_of(talk: Talk, kind: type) -> set[tuple[str | None, object]]:
    """Give plant and day, or plant and method, of what is told of a kind."""
    plants = talk.home.plants
    return {
        (
            None if one.plant is None else plants[one.plant].name,
            one.payload.method if isinstance(one.payload, Treated) else one.happened_on.day,
        )
        for one in talk.entries()
        if isinstance(one.payload, kind)
    }


@pytest.mark.parametrize(
    "words", ["others clean", "the others are clean", "the rest is clean", "all the others were clean"]
)
def test_the_others_are_never_the_plant_with_the_case(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("done")
    talk.passes(days=7)
    talk.evening()
    talk.say(words)
    assert {name for name, _ in told_of(talk, CheckedClean)} == {"small hoya"}


@pytest.mark.parametrize(
    "words",
    [
        "did hoya and ivy, pruned and rinsed and soap sprayed",
        "did the hoya and the ivy, wiped and sprayed",
        "hoya n ivy, wiped and soap sprayed them",
        "did hoya and ivy: rinsed and soap sprayed",
    ],
)
def test_what_was_done_to_two_plants_is_written_of_no_third(talk: Talk, words: str) -> None:
    for find in ("hoya 12 longtailed mealybugs", "ivy 9 spider mites", "orchid 4 spider mites"):
        talk.say(find)
    talk.evening()
    talk.passes(minutes=4)
    talk.say(words)
    assert {name for name, _ in told_of(talk, Treated)} <= {"hoya", "ivy"}


@pytest.mark.parametrize(
    "words",
    [
        "i did not spray the ivy on saturday",
        "the ivy was not sprayed on saturday",
        "i didn't do the ivy on saturday",
        "no i did not spray ivy on saturday",
    ],
)
def test_a_denial_of_a_day_that_is_over_shows_what_stands_and_puts_nothing_off(
    talk: Talk, words: str
) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("ivy 9 spider mites")
    talk.evening()
    talk.say("done")
    talk.passes(days=2)
    (answer,) = talk.say(words)
    assert "Sat 2 May: ivy sprayed (soap)" in answer
    assert "Nothing is changed yet." in answer
    assert told_of(talk, Postponed) == set()


@pytest.mark.parametrize("words", ["did not spray the ivy", "i didn't spray ivy", "the ivy was not sprayed"])
def test_a_denial_of_what_nobody_asked_tonight_shows_what_stands(talk: Talk, words: str) -> None:
    talk.say("ivy 9 spider mites")
    talk.evening()
    talk.say("done")
    talk.passes(days=1)
    talk.say(words)
    assert told_of(talk, Postponed) == set()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("rinsed and neem on ivy", {Method.RINSE, Method.SPRAY}),
        ("ivy rinsed and soap", {Method.RINSE, Method.SPRAY}),
        ("ivy wiped and soap", {Method.WIPE, Method.SPRAY}),
        ("wiped and soap on ivy", {Method.WIPE, Method.SPRAY}),
    ],
)
def test_two_treatments_of_one_sentence_are_two(talk: Talk, words: str, told: set[Method]) -> None:
    talk.say("got neem, ready to use")
    talk.say("ivy 9 spider mites")
    talk.evening()
    talk.passes(minutes=4)
    talk.say(words)
    assert told_of(talk, Treated) == {("ivy", method) for method in told}
    kinds = {
        one.payload.method: one.payload.product for one in talk.entries() if isinstance(one.payload, Treated)
    }
    assert kinds[Method.SPRAY] is not None
    assert all(product is None for method, product in kinds.items() if method is not Method.SPRAY)


@pytest.mark.parametrize(
    ("words", "day"),
    [
        ("yday wiped hoya, 11 on it", 7),
        ("swabbed hoya thu, 1 on it", 7),
        ("hoya wiped on thursday, 4 left", 7),
        ("rinsed ivy last night, 3 mites on it", 7),
    ],
)
def test_what_was_counted_at_a_treatment_is_of_its_day(talk: Talk, words: str, day: int) -> None:
    for find in ("hoya 12 longtailed mealybugs", "ivy 4 spider mites"):
        talk.say(find)
    talk.passes(days=6)
    talk.say(words)
    assert {on for _, on in told_of(talk, Found)} <= {2, day}, "written or offered for that day, and no other"


@pytest.mark.parametrize(
    "words", ["rinsed ivy yesterday, 3 mites on it today", "wiped ivy yesterday, now 3 mites on it"]
)
def test_what_is_counted_now_is_of_today(talk: Talk, words: str) -> None:
    talk.passes(days=6)
    talk.say(words)
    assert {on for _, on in told_of(talk, Found)} <= {8}


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("rename ivy to H7", "H7"),
        ("rename the ivy to H7", "H7"),
        ("rename ivy to P5", "P5"),
        ("rename ivy to ivy 2b", "ivy 2b"),
    ],
)
def test_a_new_name_is_as_typed(talk: Talk, words: str, name: str) -> None:
    talk.say(words)
    names = [one.payload.name for one in talk.entries() if isinstance(one.payload, PlantRenamed)]
    assert names == [name]


@pytest.mark.parametrize(
    "words", ["what abt surgical spirit", "what about neem", "how about rubbing alcohol", "and spirit?"]
)
def test_what_is_asked_about_is_not_on_the_shelf(talk: Talk, words: str) -> None:
    before = len(talk.home.products)
    talk.say(words)
    assert len(talk.home.products) == before
    assert sum(isinstance(one.payload, ProductSet) for one in talk.entries()) == before


@pytest.mark.parametrize(
    "words",
    [
        "balcony is outside gets sun all afternoon",
        "balcony is outdoors, sun all afternoon",
        "balcony is outside with sun all morning",
        "balcony outdoors, afternoon sun",
    ],
)
def test_sun_of_a_part_of_the_day_is_not_all_day(talk: Talk, words: str) -> None:
    talk.say("fern, balcony")
    talk.say(words)
    set_to = {one.payload.outdoors for one in talk.entries() if isinstance(one.payload, PlaceSet)}
    assert Outdoors.ALL_DAY not in set_to
