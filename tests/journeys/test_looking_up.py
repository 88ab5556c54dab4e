"""What is looked up in the chat: poison, ways, words, safety; and the firm no. Nothing is written."""

import pytest

from tests.journeys.talking import Talk


@pytest.fixture(autouse=True)
def nothing_is_written(talk: Talk) -> None:
    talk.set_up(("new plant: tiger lily, hall", "new plant: pachira, hall"))


def asked(talk: Talk, text: str) -> str:
    before = len(talk.entries())
    (answer,) = talk.say(text)
    assert talk.new_since(before) == []
    return answer


def test_a_lily_kills_cats_and_says_who_says_so(talk: Talk) -> None:
    # ASPCA's list of plants toxic to cats
    answer = asked(talk, "is the tiger lily poisonous to cats?")
    assert answer.startswith("tiger lily to cats: poisonous, and a little can kill (a leaf or pollen")
    assert "(ASPCA Animal Poison Control Center)." in answer
    assert "ring a vet now" in answer


def test_what_no_list_names_is_to_be_treated_as_poisonous(talk: Talk) -> None:
    assert "pachira to cats: I do not know, so treat it as poisonous." in asked(
        talk, "is the pachira safe for my cat?"
    )
    answer = asked(talk, "is a triffid toxic to dogs?")
    assert answer.startswith("triffid to dogs: no kind of plant that I know. I do not know, so treat it")


def test_a_name_of_two_plants_is_answered_for_both(talk: Talk) -> None:
    answer = asked(talk, "is a money tree toxic to cats?")
    assert "the name stands for 2 plants. jade plant: poisonous" in answer
    assert "pachira: I do not know" in answer


def test_all_plants_are_told_in_groups(talk: Talk) -> None:
    answer = asked(talk, "which of my plants are poisonous to cats")
    assert answer.startswith("Poisonous to cats: coffee plant, ivy and tiger lily (a little can kill).")
    assert "Unknown, so treat as poisonous to cats: pachira." in answer
    # spider plant, hoya, moth orchid: on ASPCA's list of plants that are not toxic to cats
    assert "Called not poisonous to cats: hoya, small hoya and moth orchid." in answer


def test_who_tells_of_a_cat_hears_what_is_poisonous_to_it(talk: Talk) -> None:
    (answer,) = talk.say("we have a cat")
    assert (
        answer
        == "Written: a cat at home. Poisonous to cats: tiger lily (a little can kill), coffee plant and ivy."
    )
    assert talk.say("we have fish") == ["Written: a cat and fish at home."]


def test_an_animal_without_a_list_hears_that(talk: Talk) -> None:
    assert asked(talk, "is the hoya safe for rabbits?").startswith(
        "For rabbits I have read no list: treat every plant as poisonous."
    )


def test_a_way_fits_the_pest_under_treatment_and_a_phone(talk: Talk) -> None:
    talk.say("ivy 8 spider mites")
    answer = asked(talk, "how do i rinse the ivy?")
    assert answer.startswith("Washing every leaf: ivy.\n")
    assert len(answer.splitlines()) <= 10


def test_a_clean_out_comes_with_its_cautions(talk: Talk) -> None:
    answer = asked(talk, "how do I do a clean-out?")
    assert answer.startswith("A clean-out.")
    assert answer.splitlines()[1].startswith("Bleach: empty pots only")


def test_a_pest_is_described_with_what_the_shelf_has_for_it(talk: Talk) -> None:
    answer = asked(talk, "how do i get rid of mealybugs?")
    assert answer.startswith("Mealybug (")
    answer += talk.press("More")[0]
    assert "\nWhere: axils" in answer
    assert "Against it: wipe and spray, time after time." in answer
    assert "insecticidal soap" in answer
    assert "drench the mix and let the mix dry on top, 4 treatments at least." in asked(
        talk, "what are gnats?"
    )


def test_a_word_is_explained(talk: Talk) -> None:
    assert asked(talk, "what is a crawler?").startswith("Crawler: A freshly hatched scale or mealybug")


@pytest.mark.parametrize(
    "text",
    ["can i spray bleach on the ivy?", "double dose of soap on the ivy", "mix soap and alcohol together"],
)
def test_a_dangerous_plan_gets_a_firm_no(talk: Talk, text: str) -> None:
    answer = asked(talk, text)
    assert answer.startswith("Please don’t")
    assert answer.endswith("Nothing is written.")


def test_beside_a_mixture_all_that_is_to_be_minded_is_behind_a_button(talk: Talk) -> None:
    # the home's soap was its first product
    assert "Goggles" not in talk.say("got spinosad")[0]
    talk.say("mix 1 litre of spinosad at 2 ml per litre")
    answer = talk.press("Safety")[0] + "".join(talk.press("More"))
    assert "• Keep it in its own bottle with its label" in answer
    assert "never down a drain" in answer


@pytest.mark.parametrize(
    "words", ["what is meant by three ways?", "what are ways of looking", "what does 4 ways mean"]
)
def test_the_ways_of_an_evenings_looks_are_explained(talk: Talk, words: str) -> None:
    assert "some tapped over paper" in talk.say(words)[0]


def test_who_asks_what_a_clean_out_is_hears_what_to_say_where_it_cannot_be(talk: Talk) -> None:
    assert "stays in its pot" in talk.say("what is a clean-out?")[0]
