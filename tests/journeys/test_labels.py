"""Labels, animals and kinds of plant in the chat."""

import pytest

from bot.domain.journal import Treated
from tests.journeys.talking import Talk


def test_an_edible_plant_is_recognised_and_can_be_set_right(talk: Talk) -> None:
    answer = talk.say("chilli, kitchen, 12 cm")[0]
    assert "Taken as eaten: chilli." in answer
    assert talk.say("the chilli is not edible") == ["Written: chilli not edible."]
    assert talk.say("the hoya is edible")[0].startswith("Written: hoya edible")


def test_after_a_use_on_an_edible_plant_the_day_to_eat_again_is_said(talk: Talk) -> None:
    talk.say("chilli, kitchen, 12 cm")
    talk.say("soap: 3 days before harvest")
    assert "chilli: do not eat before Tue 5 May, and wash it." in talk.say("sprayed the chilli with soap")[0]


def test_a_product_for_no_edible_is_written_with_a_warning_and_never_planned(talk: Talk) -> None:
    talk.say("no soap left")
    talk.say("chilli, kitchen, 12 cm")
    talk.say("got acetamiprid, ready to use")
    talk.say("chilli 12 melon aphids")
    assert talk.say("what's due")[0].startswith("today, Sat 2 May: prune chilli, then rinse")
    answer = talk.say("sprayed the chilli with acetamiprid")[0]
    assert "it is not for plants that are eaten" in answer
    assert "chilli: do not eat from it any more." in answer
    assert isinstance(talk.told()[-1][1], Treated)


def test_why_names_what_is_passed_over(talk: Talk) -> None:
    talk.say("no soap left")
    talk.say("got pyrethrins, ready to use")
    talk.say("hoya 12 melon aphids")
    assert talk.say("what's due")[0].startswith("today, Sat 2 May: prune hoya, rinse, then pyrethrins")
    assert talk.say("we have a cat")[0].startswith("Written: a cat at home.")
    assert talk.say("what's due")[0].startswith("today, Sat 2 May: prune hoya, then rinse")
    assert "Not pyrethrins: it is dangerous to the animals you told me of." in talk.asks("why hoya")
    assert talk.say("no cats here") == ["Written: no animals."]
    assert talk.say("what's due")[0].startswith("today, Sat 2 May: prune hoya, rinse, then")


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("the soap label says max 6 a year", "uses_a_year", 6),
        ("soap: at most 4 uses per season", "uses_a_year", 4),
        ("soap 2 days before harvest", "harvest_days", 2),
        ("the soap is not for edibles", "is_for_edibles", False),
        ("soap is only for outdoors", "is_for_indoors", False),
        ("the soap is labelled for houseplants", "is_for_indoors", True),
        ("the strength of the soap is 49%", "strength_percent", 49),
    ],
)
def test_the_label_is_told_in_a_sentence(talk: Talk, text: str, field: str, value: object) -> None:
    talk.say(text)
    (soap,) = [one for one in talk.home.products.values() if one.ingredient == "soap"]
    assert getattr(soap.label, field) == value


@pytest.mark.parametrize("text", ["the cat licked it", "is the chilli edible?", "do we have a cat"])
def test_a_question_or_an_accident_is_no_fact(talk: Talk, text: str) -> None:
    before = talk.entries()
    talk.say(text)
    assert talk.entries() == before


def test_nothing_of_a_label_told_is_lost(talk: Talk) -> None:
    talk.say("the soap label says every 14 days, max 6 a year")
    (soap,) = [one for one in talk.home.products.values() if one.ingredient == "soap"]
    assert (soap.label.gap_days, soap.label.uses_a_year) == (14, 6)


def test_ants_come_first(talk: Talk) -> None:
    before = talk.entries()
    assert talk.say("ants on the hoya")[0].startswith("Ants first")
    assert talk.entries() == before


def test_warm_rooms_get_a_word_before_soap(talk: Talk) -> None:
    talk.say("landing is 28 degrees")
    talk.say("hoya 12 longtailed mealybugs")
    assert "Warm at hoya: the coolest hour, and not on dry leaves." in talk.evening()[0]


def test_why_says_whose_label_it_is(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("sprayed the hoya")
    assert "Label of soap: not before 7 days (as you told me)." in talk.say("why more hoya")[0]


def test_a_place_may_be_colder_in_winter(talk: Talk) -> None:
    assert talk.say("landing is 15 degrees in winter") == [
        "Written: landing usually has 15 °C in Dec, Jan and Feb."
    ]
    assert talk.say("the kitchen has 17 degrees in january") == ["Written: kitchen usually has 17 °C in Jan."]
    landing = next(place for place in talk.home.places.values() if place.name == "landing")
    assert {month for month, celsius in landing.by_month.items() if celsius == 15} == {12, 1, 2}


def test_root_prone_plants_are_lifted_every_fortnight_while_a_case_is_open(talk: Talk) -> None:
    talk.say("coffee 3 citrus mealybugs")
    talk.say("swabbed the coffee")
    talk.passes(days=24)  # citrus mealybug at 18 degC: 99/9.5 + 133.7/10.3 = 23.4 days until young would show
    # a full evening shows it behind [More]
    assert "Lift coffee plant out of the pot once" in "\n".join(talk.evening() + talk.press("More"))
    talk.say("coffee plant clean, roots too")
    talk.passes(days=7)
    assert "Lift" not in "\n".join(talk.evening() + talk.press("More"))
    talk.passes(days=7)  # one look misses half of what sits there
    assert "Lift coffee plant" in "\n".join(talk.evening() + talk.press("More"))


@pytest.mark.parametrize("told", ["ivy cannot be washed", "the ivy can't be rinsed"])
def test_a_plant_that_bears_no_water_is_asked_for_no_rinse(talk: Talk, told: str) -> None:
    talk.say("ivy 8 spider mites")
    assert talk.evening()[0].splitlines()[1].startswith("Prune ivy, rinse,")
    assert talk.say(told)[0].startswith("Written: ivy not to be washed")
    talk.say("not tonight")
    assert talk.evening()[0].splitlines()[1] == "Prune ivy, wipe, then soap."


def test_what_is_spent_is_named_in_the_evening_with_what_takes_its_place(talk: Talk) -> None:
    talk.set_up(
        ("got neem, ready to use, max 1 a year", "hoya 12 longtailed mealybugs", "sprayed the hoya with neem")
    )
    talk.passes(days=7)
    nudge = talk.evening()[0]
    assert "No more neem oil on hoya for now: its uses for a year are spent; next with soap." in nudge


def test_the_evening_asks_what_a_label_says_of_eating_and_shows_how_it_is_done(talk: Talk) -> None:
    talk.set_up(("chilli, kitchen, 12 cm", "chilli 12 melon aphids"))
    nudge = talk.evening()[0]
    assert "Does the soap's label allow plants that are eaten, how many days before?" in nudge
    assert {"No, or not named", "Yes: 0 d before eating"} <= set(talk.labels())
    talk.press("More")
    assert talk.press("How")[0].startswith("Rinsing")
    talk.press("Yes: 0 d before eating")
    assert "then soap" in talk.say("what's due")[0]


def test_a_limit_a_year_without_a_product_asks_which(talk: Talk) -> None:
    talk.passes(hours=1)
    assert talk.say("at most 4 uses a year") == ["Which product?"]
    talk.press("Label of isopropyl alcohol")
    assert [one.label.uses_a_year for one in talk.home.products.values()] == [None, 4]
