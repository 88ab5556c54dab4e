"""What is told for the first time beside something else: a product nobody stocked, a lamp, a look of an animal."""

import pytest

from bot.domain.journal import Found, ProductSet, Treated
from bot.domain.trade import Method
from tests.journeys.talking import Talk


def _treated(talk: Talk) -> list[tuple[str | None, Method, str | None]]:
    """Give each treatment with its plant and what was used."""
    shelf = {one.id: one.ingredient for one in talk.home.products.values()}
    return [
        (plant, told.method, None if told.product is None else shelf[told.product])
        for plant, told in talk.told()
        if isinstance(told, Treated)
    ]


@pytest.mark.parametrize(
    ("words", "treated"),
    [
        ("sprayed the ivy with neem", [("ivy", Method.SPRAY, "neem")]),
        ("i gave my ivy a spray of neem oil yesterday", [("ivy", Method.SPRAY, "neem")]),
        ("used pyrethrum on the ivy, sprayed it well", [("ivy", Method.SPRAY, "pyrethrins")]),
        ("rinsed the ivy, then sprayed it with pyrethrum", [
            ("ivy", Method.RINSE, None),
            ("ivy", Method.SPRAY, "pyrethrins"),
        ]),
    ],
)  # fmt: skip
def test_what_was_treated_with_comes_onto_the_shelf(
    talk: Talk, words: str, treated: list[tuple[str, Method, str | None]]
) -> None:
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert _treated(talk) == treated
    assert talk.say("undo")[0].startswith("Taken back")
    assert _treated(talk) == []


@pytest.mark.parametrize(
    "words",
    [
        "i'd like to spray the ivy with neem",
        "should i spray the ivy with neem?",
        "no neem sprayed on the ivy",
        "never sprayed ivy with pyrethrum",
        "tomorrow i spray the ivy with neem",
    ],
)
def test_what_was_not_done_brings_nothing(talk: Talk, words: str) -> None:
    stocked = [one for one in talk.entries() if isinstance(one.payload, ProductSet)]
    talk.say(words)
    assert _treated(talk) == []
    assert [one for one in talk.entries() if isinstance(one.payload, ProductSet)] == stocked


@pytest.mark.parametrize(
    "words",
    [
        "sprayed the ivy with water",
        "ivy sprayed down with plain lukewarm water",
        "i sprayed ivy using just tap water",
    ],
)
def test_a_spray_of_water_uses_no_product(talk: Talk, words: str) -> None:
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert _treated(talk) == [("ivy", Method.RINSE, None)]


@pytest.mark.parametrize("words", ["misted the ivy with rainwater", "the ivy was misted with some water"])
def test_misting_treats_nothing(talk: Talk, words: str) -> None:
    talk.say(words)
    assert _treated(talk) == []


@pytest.mark.parametrize(
    ("words", "place"),
    [
        ("no window in there, a lamp is all", "study"),
        ("it's dark but for a grow light", "study"),
        ("study: no window, lamp", "study"),
    ],
)
def test_a_lamp_without_hours_is_said_back_and_its_hours_are_asked(
    stranger_talk: Talk, words: str, place: str
) -> None:
    for one in ("/start", "Gent", "hoya and ivy in the study"):
        stranger_talk.say(one)
    answer = "\n".join(stranger_talk.say(words))
    assert f"Until when is the lamp on there? “{place} lamp until 20:00”." in answer
    assert "grow light until 20:00" in stranger_talk.asks(f"{place} lamp until 20:00")


@pytest.mark.parametrize(
    ("words", "count"),
    [
        ("what are these green insects on the ivy, 9 of them?", 9),
        ("ivy has tiny green bugs, roughly 30, no idea what they are", 30),
    ],
)
def test_the_key_begins_with_what_is_told(talk: Talk, words: str, count: int) -> None:
    answer = "\n".join(talk.say(words))
    assert "green peach aphid" in answer
    assert "Not written yet." in answer
    talk.press("It is green peach aphid")
    found = [told for plant, told in talk.told() if isinstance(told, Found)]
    assert [(one.pest, one.count) for one in found] == [("green_peach_aphid", count)]


def test_an_offer_of_a_home_is_shown_to_its_last_room(stranger_talk: Talk) -> None:
    for one in ("/start", "Gent"):
        stranger_talk.say(one)
    answer = stranger_talk.say(
        "den: hoya, ivy; loft: jade, basil; attic: lemon tree, sage; hall: croton, aloe; porch: fern, yucca;"
        " study: orchid, palm; cellar: grimdle"
    )[0]
    assert "More" not in stranger_talk.labels()
    assert all(room in answer for room in ("den", "loft", "attic", "hall", "porch", "study", "cellar"))


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        ("lavander too", "new plant: lavender"),
        ("also a gerainium", "new plant: geranium"),
        ("got surgicl spirit", "got isopropyl alcohol"),
    ],
)
def test_one_slip_of_what_nobody_has_yet_is_offered_mended(talk: Talk, words: str, offered: str) -> None:
    assert f"“{offered}”" in "\n".join(talk.say(words))


@pytest.mark.parametrize(
    "words",
    ["the hoya is done the way you wanted", "did the hoya like you told me", "hoya treated as you suggested"],
)
def test_as_somebody_wants_it_is_no_wish(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert {plant for plant, _, _ in _treated(talk)} == {"hoya"}
