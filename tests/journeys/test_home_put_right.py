"""What newcomers correct in their first hour: an open offer of a home, and what was just written of it."""

import pytest

from tests.journeys.talking import Talk

OFFER = (
    "Gent. den (north): clivia, jade, zorbel. scullery (east): monstera, boston fern. jade has 6 mealybugs",
    "den (n): clivia, jade, zorbel; scullery (e): monstera, boston fern; 6 mealybugs on jade",
)
LOOKS = "den (n): clivia, jade{}; scullery (e): monstera, boston fern"


@pytest.fixture
def fresh(stranger_talk: Talk) -> Talk:
    stranger_talk.say("/start")
    return stranger_talk


@pytest.mark.parametrize("first", ["", "Something else"])
@pytest.mark.parametrize(
    ("told", "looks", "seen"),
    [
        ("“zorbel” was my own slip and not, I fear, a plant", LOOKS.format(""), "6 mealybugs on jade"),
        ("nah zorbel aint a plant, bin it", LOOKS.format(""), "6 mealybugs on jade"),
        ("drop the zorbel", LOOKS.format(""), "6 mealybugs on jade"),
        ("ZORBEL DOES NOT EXIST", LOOKS.format(""), "6 mealybugs on jade"),
        ("no such plant as a zorbel", LOOKS.format(""), "6 mealybugs on jade"),
        ("the zorbel - scrap it", LOOKS.format(""), "6 mealybugs on jade"),
        ("nine mealybugs, not six", LOOKS.format(", zorbel"), "9 mealybugs on jade"),
        ("not six but nine mealybugs", LOOKS.format(", zorbel"), "9 mealybugs on jade"),
        ("the mealybugs are on the clivia, not the jade", LOOKS.format(", zorbel"), "6 mealybugs on clivia"),
        (
            "the monstera is not in the scullery, it's in the den",
            "den (n): clivia, jade, zorbel, monstera; scullery (e): boston fern",
            "6 mealybugs on jade",
        ),
        (
            "nah jade an clivia arent in den theyre scullery",
            "scullery (e): clivia, jade, monstera, boston fern; den (n): zorbel",
            "6 mealybugs on jade",
        ),
        (
            "monsteras in the den, the fern in the den",
            "den (n): clivia, jade, zorbel, monstera, boston fern; scullery (e)",
            "6 mealybugs on jade",
        ),
        (
            "it's called back scullery, not scullery",
            "den (n): clivia, jade, zorbel; back scullery (e): monstera, boston fern",
            "6 mealybugs on jade",
        ),
        (
            "there's no scullery, it's the den",
            "den (n): clivia, jade, zorbel, monstera, boston fern",
            "6 mealybugs on jade",
        ),
        ("clivia and zorbel are one plant, not two", LOOKS.format(""), "6 mealybugs on jade"),
        ("zorbel = jade", LOOKS.format(""), "6 mealybugs on jade"),
        ("DEN IS CLIVIA AND JADE ONLY. REMOVE THE OTHERS", LOOKS.format(""), "6 mealybugs on jade"),
    ],
)
def test_a_correction_of_an_offer_changes_what_it_is_about(
    fresh: Talk, first: str, told: str, looks: str, seen: str
) -> None:
    assert f"Did you mean “{OFFER[1]}”?" in fresh.say(OFFER[0])[0]
    if first:
        fresh.press(first)
    assert fresh.say(told)[0].startswith(f"Did you mean “{looks}; {seen}”?")


def test_what_was_wrong_is_not_offered_again_beside(fresh: Talk) -> None:
    fresh.say(OFFER[0])
    (answer,) = fresh.say("zorbel is no plant")
    assert "Not written:" not in answer
    assert fresh.labels() == ["Yes", "Something else"]


def test_a_name_alone_is_what_is_wrong_where_that_is_asked(fresh: Talk) -> None:
    fresh.say(OFFER[0])
    fresh.press("Something else")
    assert "zorbel" not in fresh.say("zorbel")[0]


@pytest.mark.parametrize(
    "told", ["20 scale on the wandering jew, I said it badly", "wandering jew has 20 scale. I misspelt it"]
)
def test_a_plant_told_again_without_its_slip_is_the_same(fresh: Talk, told: str) -> None:
    fresh.say("Gent. den (north): jade, wandering dew. zorb")
    fresh.say(told)
    fresh.press("Yes")
    assert [one.name for one in fresh.home.living][:2] == ["jade", "wandering jew"]


def test_any_one_thing_is_left_out_by_a_button(fresh: Talk) -> None:
    fresh.say(OFFER[0])
    fresh.press("Something else")
    assert fresh.press("Not zorbel")[0].startswith(f"Did you mean “{LOOKS.format('')}; 6 mealybugs on jade”?")
    fresh.press("Something else")
    assert fresh.press("Not 6 mealybugs on jade")[0].startswith(f"Did you mean “{LOOKS.format('')}”?")
    fresh.press("Yes")
    assert {one.name for one in fresh.home.living} == {"clivia", "jade", "monstera", "boston fern"}


def test_a_plant_with_what_was_seen_on_it_is_several_things(fresh: Talk) -> None:
    fresh.say("clivia stands in the larder, 4 thrips on it and I got soap. blorx")
    assert fresh.press("Something else")[0].startswith("What is wrong in it?")
    assert fresh.press("Not larder")[0].startswith("Did you mean “clivia; 4 thrips on clivia; got soap”?")


@pytest.mark.parametrize(
    "text",
    [
        "nowt in the house to treat them with yet",
        "nothin to spray with so far",
        "sprays: none",
        "to treat I have - nothing, not yet",
        "got no products",
    ],
)
def test_that_there_is_nothing_to_treat_with_is_heard_beside_other_things(fresh: Talk, text: str) -> None:
    (answer,) = fresh.say(f"Gent. the den faces north: clivia and jade. clivia has 6 mealybugs. {text}")
    if "Yes" in fresh.labels():
        (answer,) = fresh.press("Yes")
    assert "What do you have to treat with" not in answer
    assert "nothing on the shelf fits" in answer


@pytest.fixture
def told(fresh: Talk) -> Talk:
    """The home is written, and what is at hand is still asked."""
    fresh.set_up(
        ("Gent", "den (north): clivia, jade, zorbel, quibbel. scullery (east): monstera, boston fern")
    )
    if "Yes" in fresh.labels():
        fresh.press("Yes")
    assert len(fresh.home.living) == len(("clivia", "jade", "zorbel", "quibbel", "monstera", "boston fern"))
    return fresh


@pytest.mark.parametrize(
    ("text", "gone"),
    [
        ("zorbel is not a plant", {"zorbel"}),
        ("righto, zorbel aint a plant and neither is quibbel, bin em", {"zorbel", "quibbel"}),
        ("DELETE ZORBEL", {"zorbel"}),
        ("take away the zorbel from the den", {"zorbel"}),
        ("there is no zorbel", {"zorbel"}),
        ("zorbel does not exist", {"zorbel"}),
        ("zorbel is the jade", {"zorbel"}),
    ],
)
def test_what_was_written_and_is_no_plant_is_offered_as_a_removal(
    told: Talk, text: str, gone: set[str]
) -> None:
    before = {one.name for one in told.home.living}
    told.say(text)
    assert {one.name for one in told.home.living} == before
    told.press(next(one for one in told.labels() if one.startswith(("Take", "Yes"))))
    assert before - {one.name for one in told.home.living} == gone


@pytest.mark.parametrize(
    ("text", "standing"),
    [
        ("the monstera is not in the scullery, it's in the den", {"monstera": "den"}),
        ("clivia and jade are in the scullery not the den", {"clivia": "scullery", "jade": "scullery"}),
        ("no, the fern isnt in the scullery but in the den", {"boston fern": "den"}),
        ("the den is called old den, not den", {"clivia": "old den", "jade": "old den"}),
        ("there is no scullery, it's the den", {"monstera": "den", "boston fern": "den"}),
    ],
)
def test_where_a_plant_was_written_wrongly_is_offered_right(
    told: Talk, text: str, standing: dict[str, str]
) -> None:
    told.say(text)
    told.press("Yes")
    rooms = {one.id: one.name for one in told.home.places.values()}
    now = {one.name: rooms[one.place] for one in told.home.living if one.place is not None}
    assert {name: now[name] for name in standing} == standing


def test_what_is_told_beside_a_removal_is_offered_with_it(told: Talk) -> None:
    told.say("haha nah, zorbel aint a plant, bin it. the attic has a yucca, south window")
    told.press("Yes")
    assert "zorbel" not in {one.name for one in told.home.living}
    assert "yucca" in {one.name for one in told.home.living}


@pytest.mark.parametrize("text", ["not the jade", "jade not tonight", "no mites on the jade"])
def test_what_may_mean_tonight_takes_no_plant_off(told: Talk, text: str) -> None:
    told.say("jade has 12 mealybugs")
    told.say(text)
    assert not any(one.startswith("Take") for one in told.labels())
    assert "jade" in {one.name for one in told.home.living}


@pytest.mark.parametrize(
    ("offered", "told", "looks"),
    [
        ("den: hoya, zorb", "they are both in the hall, not the den", "“hall: hoya, zorb”"),
        ("curry leaf and zorb", "um those two are on the top floor", "“top floor: curry leaf, zorb”"),
        ("curry leaf and zorb", "both of them stand in the loft", "“loft: curry leaf, zorb”"),
        (
            "den: hoya, zorb. hall: fern",
            "they are both fine. the fern is in the den",
            "“den: hoya, zorb, fern”",
        ),
    ],
)
def test_those_that_are_offered_may_be_called_they(fresh: Talk, offered: str, told: str, looks: str) -> None:
    fresh.say("Ghent")
    fresh.say(offered)
    assert looks in fresh.say(told)[0]


def test_the_other_one_of_two_is_no_second_plant(fresh: Talk) -> None:
    fresh.say("Ghent")
    fresh.say("curry leaf, umbrella plant")
    answer = fresh.say("the curry leaf is in the loft and the other one in the hall")[0]
    assert "hall: umbrella plant" in answer
    assert "curry leaf 2" not in answer
