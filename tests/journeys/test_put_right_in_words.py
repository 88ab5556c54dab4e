"""Whatever stands in the journal is put right in words: treatments of several plants, counts, kinds, finds that were none."""

import pytest

from bot.domain.identity import PlantId
from bot.domain.journal import CheckedClean, Found, Treated
from tests.journeys.talking import Talk


def sprayed(talk: Talk) -> set[str | None]:
    return {plant for plant, payload in talk.told() if isinstance(payload, Treated)}


def finds(talk: Talk) -> list[tuple[str | None, int | None]]:
    return [(plant, payload.count) for plant, payload in talk.told() if isinstance(payload, Found)]


@pytest.fixture
def both_sprayed(talk: Talk) -> Talk:
    talk.say("got spinosad")
    talk.say("coffee 4 thrips")
    talk.say("sprayed ivy, coffee and orchid with spinosad")
    assert sprayed(talk) == {"ivy", "coffee plant", "moth orchid"}
    return talk


@pytest.mark.parametrize(
    "words",
    [
        "I did not spray ivy and coffee with spinosad",
        "delete the spinosad on ivy and coffee",
        "ivy and coffee got no spinosad",
        "no, no spinosad on the ivy and the coffee",
        "take back the spinosad on ivy and coffee",
        "erase the spraying of ivy and coffee",
        "we never sprayed the ivy and the coffee with spinosad",
    ],
)
def test_what_was_written_of_two_plants_is_taken_back_by_one_tap(both_sprayed: Talk, words: str) -> None:
    (answer,) = both_sprayed.say(words)
    assert "ivy sprayed (spinosad)" in answer
    assert "coffee plant sprayed (spinosad)" in answer
    assert "moth orchid" not in answer
    assert len(sprayed(both_sprayed)) == 3, "shown, and nothing is changed yet"
    both_sprayed.press("Delete them")
    assert sprayed(both_sprayed) == {"moth orchid"}


@pytest.mark.parametrize(
    "words",
    [
        "no, it was 2 on the ivy, Bo is right",
        "correction: ivy 2 on saturday, not 5",
        "the ivy had 2 on saturday, not 5",
        "wrong: the ivy had 2, not 5",
        "ivy had 2 not 5",
        "correct: ivy 2 on 2 may",
    ],
)
def test_a_count_is_put_right_whatever_was_told_since(talk: Talk, words: str) -> None:
    talk.say("ivy 5 spider mites")
    talk.say("hoya 12 longtailed mealybugs")
    talk.say(words)
    assert finds(talk)[0] == ("ivy", 5)
    talk.press("Change it")
    assert ("ivy", 2) in finds(talk)
    assert ("ivy", 5) not in finds(talk)
    assert len(finds(talk)) == 2


@pytest.mark.parametrize(
    "words",
    [
        "they're citrus mealybugs",
        "they are citrus mealybug",
        "those are citrus mealybugs",
        "both are citrus mealybug",
        "hoya and ivy are citrus mealybug",
        "the hoya is citrus mealybug, the ivy is citrus mealybug too",
    ],
)
def test_the_kind_is_named_afterwards_and_the_counts_stay(talk: Talk, words: str) -> None:
    talk.say("hoya 12 mealybugs, ivy 4 mealybugs")
    talk.passes(minutes=20)
    said = talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    cases = {plant.name: [case.pest for case in plant.open_cases] for plant in talk.home.living}
    assert cases["hoya"] == cases["ivy"] == ["citrus_mealybug"], said
    assert sorted(count or 0 for _, count in finds(talk)) == [4, 12]


@pytest.mark.parametrize(
    "words",
    [
        "the ivy was only dust. clean!",
        "ivy was cat hair, it's clean",
        "that on the ivy was just lint. ivy is clean",
        "the ivy: it was only perlite, clean",
    ],
)
def test_a_find_that_was_no_animal_is_shown_and_the_look_is_written(talk: Talk, words: str) -> None:
    talk.say("ivy 1 longtailed mealybug")
    talk.say(words)
    talk.press("Delete it")
    assert finds(talk) == []
    assert "ivy" in {plant for plant, payload in talk.told() if isinstance(payload, CheckedClean)}


@pytest.mark.parametrize(
    "words", ["no that's the ivy", "no, it is my ivy", "no this was the ivy, I told you already"]
)
def test_no_that_is_the_ivy_moves_what_was_told_last(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say(words)
    assert finds(talk) == [("ivy", 12)]


def done(talk: Talk) -> set[tuple[str | None, str, str | None]]:
    """Give plant, method and ingredient of every treatment that stands."""
    home = talk.home
    return {
        (
            plant.name,
            one.method.value,
            None if one.product is None else home.products[one.product].ingredient,
        )
        for plant in home.plants.values()
        for one in plant.treatments
    }


@pytest.mark.parametrize(
    "words",
    [
        "ivy has 4 spider mites, no wait, small hoya has 4 spider mites",
        "4 spider mites on the ivy... sorry, I mean 4 spider mites on the small hoya",
        "ivy 4 spider mites - wait no - small hoya 4 spider mites",
        "found 4 spider mites on ivy oh wait that's 4 spider mites on small hoya",
    ],
)
def test_who_sets_himself_right_in_one_breath_means_the_last(talk: Talk, words: str) -> None:
    talk.say(words)
    assert finds(talk) == [("small hoya", 4)]


@pytest.mark.parametrize(
    "words",
    [
        "swabbed the ivy, scratch that, still to do",
        "the ivy was rinsed - no wait, that was last week",
    ],
)
def test_what_is_taken_back_in_one_breath_is_not_written(talk: Talk, words: str) -> None:
    talk.say(words)
    assert done(talk) == set()


def test_who_names_another_plant_in_one_breath_means_that_one(talk: Talk) -> None:
    talk.say("wiped hoya no wait it was the orchid")
    assert done(talk) == {("moth orchid", "wipe", None)}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (
            "wiped hoya and ivy and sprayed hoya with soap",
            {("hoya", "wipe", None), ("ivy", "wipe", None), ("hoya", "spray", "soap")},
        ),
        (
            "rinsed ivy and orchid and sprayed both with soap",
            {
                *(("ivy", "rinse", None), ("moth orchid", "rinse", None)),
                *(("ivy", "spray", "soap"), ("moth orchid", "spray", "soap")),
            },
        ),
        (
            "ivy and hoya wiped, then sprayed with soap",
            {
                *(("ivy", "wipe", None), ("hoya", "wipe", None)),
                *(("ivy", "spray", "soap"), ("hoya", "spray", "soap")),
            },
        ),
        (
            "wiped and sprayed the ivy with the soap",
            {("ivy", "wipe", None), ("ivy", "spray", "soap")},
        ),
        ("wiped the ivy with soap", {("ivy", "wipe", "soap")}),
    ],
)
def test_two_treatments_of_one_message_are_each_of_their_own_plants(
    talk: Talk, words: str, told: set[tuple[str | None, str, str | None]]
) -> None:
    talk.say("hoya 12 longtailed mealybugs, ivy 12 longtailed mealybugs")
    talk.say(words)
    assert done(talk) == told


def test_a_clean_out_told_of_days_ago_is_asked_about(talk: Talk) -> None:
    talk.say("ivy 60 longtailed mealybugs, hoya 60 longtailed mealybugs")
    talk.tick(talk.next_at())
    talk.passes(days=2)
    talk.say("did ivy and hoya on saturday")
    assert done(talk) == set()
    talk.press("Full clean-out done")
    assert done(talk) == {("ivy", "clean-out", None)}
    talk.press("Wiped")
    assert done(talk) == {("ivy", "clean-out", None), ("hoya", "wipe", None)}


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ("moved the ivy to the landing", "no, it was the orchid"),
        ("watered the ivy", "I meant the orchid"),
        ("ivy clean", "no not the ivy but the orchid"),
        ("wiped the ivy", "sorry, it was the orchid, not the ivy"),
        ("ivy 4 spider mites", "no that was the orchid"),
    ],
)
def test_whatever_was_told_of_the_wrong_plant_is_of_the_right_one(talk: Talk, told: str, words: str) -> None:
    before = len(talk.told())
    talk.say(told)
    talk.say(words)
    ((plant, _),) = talk.told()[before:]
    assert plant == "moth orchid"


def test_of_a_message_of_several_plants_the_wrong_one_is_chosen(talk: Talk) -> None:
    talk.say("hoya 3 citrus mealybugs, ivy 2 citrus mealybugs")
    talk.say("no, that was the orchid")
    talk.press("1")
    assert sorted(finds(talk)) == [("ivy", 2), ("moth orchid", 3)]


@pytest.mark.parametrize(
    "words", ["the hoya had no longtailed mealybugs on saturday", "hoya has no mealybugs not three"]
)
def test_no_animals_put_nothing_off(talk: Talk, words: str) -> None:
    talk.say("hoya 3 longtailed mealybugs")
    talk.passes(days=3)
    talk.say(words)
    assert not any("later" in one for one in talk.shown[1][-1].text.splitlines())
    assert talk.home.plants[PlantId(1)].postponed_to is None
