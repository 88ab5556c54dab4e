"""Measures, temperatures and clocks as a household is used to, and what evenings really take."""

from decimal import Decimal

from bot.domain.consumption import spray_factor
from bot.domain.journal import HouseholdSet, SprayUsed
from bot.domain.measure import Units
from tests.journeys.talking import Talk


def test_a_town_in_the_states_brings_its_measures_and_its_clock(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Chicago"))
    (answer,) = stranger_talk.say("nudge me at 7:30 pm")
    assert answer == "Written: evening at 7:30 pm, quiet from 10 pm to 8 am."
    assert (stranger_talk.home.units, stranger_talk.home.clock_hours) == (Units.US, 12)
    stranger_talk.say("24 hour clock")
    stranger_talk.say("metric")
    stranger_talk.say("I live in Chicago")  # told once is told: the town does not bring them again
    assert (stranger_talk.home.units, stranger_talk.home.clock_hours) == (Units.METRIC, 24)


def test_us_measures_are_read_and_written(talk: Talk) -> None:
    talk.set_up(("us units", "got neem concentrate", "kitchen is 75 degrees"))
    # (75 - 32) x 5/9 = 23.9 degC
    (kitchen,) = (place for place in talk.home.places.values() if place.name == "kitchen")
    assert list(kitchen.readings.values()) == [23.9]
    assert talk.say("kitchen is 75 degrees") == [
        "Written: kitchen is at 75 °F. Is that usual there, or just now?"
    ]
    talk.say("usual")
    assert talk.say("kitchen is 75 degrees") == ["Written: kitchen is at 75 °F."]
    # A US quart is 946.35 mL; at 7.8 mL/L it takes 7.38 mL, one and a half US teaspoons of 4.93 mL: 7.39 mL.
    (answer,) = talk.say("mix 1 quart of neem")
    assert answer.startswith("For 32 fl oz: 31.8 fl oz water, 1½ tsp neem oil.")


def test_imperial_measures_are_read_and_written(talk: Talk) -> None:
    talk.set_up(("imperial", "got neem concentrate"))
    # An imperial pint is 568.26 mL of 20 fl oz; at 7.8 mL/L it takes 4.43 mL, by a syringe of tenths 4.4.
    (answer,) = talk.say("mix 1 pint of neem")
    assert answer.startswith("For 20 fl oz: 19.8 fl oz water, 4.4 mL neem oil.")


def test_the_sums_of_a_mixture_are_shown_on_why(talk: Talk) -> None:
    talk.set_up(("got neem concentrate",))
    talk.say("mix 750 ml of neem")
    assert talk.labels() == ["Why this much", "Safety"]
    answer = talk.asks("why")
    assert "Product: 750 mL at 7.8 mL per litre is 5.85 mL; by a syringe that is 6 mL (+3 %)." in answer
    assert "Never past 15.6 mL per litre, the most by labels of its kind." in answer
    assert "children and animals out until dry" in answer


def test_a_caution_is_said_with_the_product_and_not_with_every_mixture(talk: Talk) -> None:
    assert "children and animals out until dry" in talk.say("got neem concentrate")[0]
    assert "children and animals out until dry" not in talk.say("mix 750 ml of neem")[0]


def test_tonights_message_says_what_to_mix(talk: Talk) -> None:
    talk.set_up(("got neem concentrate every 7 days", "no soap left", "hoya 12 longtailed mealybugs"))
    (nudge,) = talk.evening()
    # 60 mL for a pot of 15 cm at 7.8 mL/L: 0.47 mL; a syringe of tenths measures 0.5, and 0.5 is for 64.1 mL.
    assert "Wipe hoya, then neem oil.\nMix: 64.5 mL water, 0.5 mL neem oil." in nudge
    assert "Product: 65 mL at 7.8 mL per litre is 0.507 mL" in talk.asks("why this much?")
    assert "Product:" not in talk.say("why")[0]
    assert talk.say("how much neem do i need for hoya")[0].startswith("For 65 mL (hoya): 64.5 mL water")


def test_two_products_tonight_are_two_mixtures(talk: Talk) -> None:
    talk.set_up(
        ("got neem concentrate", "no soap left", "got azadirachtin concentrate, label says 10 ml per litre")
    )
    talk.set_up(("hoya 12 longtailed mealybugs", "ivy 8 fungus gnats"))
    (answer,) = talk.say("mix for tonight")
    assert answer.count("(hoya): ") == answer.count("(ivy): ") == 1
    assert "neem oil" in answer
    assert "azadirachtin" in answer


def test_what_an_evening_took_teaches_how_much_to_mix(talk: Talk) -> None:
    talk.set_up(
        ("got neem concentrate 500 ml", "no soap left", "hoya 12 longtailed mealybugs", "sprayed the hoya")
    )
    # Reckoned 60 mL for a pot of 15 cm, taken 90: half as much again.
    (answer,) = talk.say("used 90 ml")
    assert (
        answer
        == "Written for Sat 2 May: 90 mL for hoya. I reckon with 1.5 times the usual amount from now on."
    )
    assert talk.told()[-1][1] == SprayUsed(Decimal(90))
    assert spray_factor(talk.home) == Decimal("1.5")
    assert talk.say("mix for the hoya")[0].startswith("For 90 mL (hoya): ")
    # 90 mL at 7.8 mL/L took 0.7 mL of 500.
    assert "neem oil, every 7 days, about 499 mL left by what was sprayed since" in talk.say("shelf")[0]
    talk.say("undo")
    assert spray_factor(talk.home) == 1


def test_use_without_a_spray_writes_nothing(talk: Talk) -> None:
    before = len(talk.entries())
    assert talk.say("used 300 ml")[0].startswith("No spray is written for today, Sat 2 May")
    assert talk.new_since(before) == []


def test_settings_are_kept_in_the_journal(talk: Talk) -> None:
    talk.say("12 hour clock")
    assert talk.told()[-1][1] == HouseholdSet(clock_hours=12)
    assert talk.say("nudge me at 19:30") == ["Written: evening at 7:30 pm, quiet from 10 pm to 8 am."]
    talk.say("undo")
    talk.say("undo")
    assert talk.home.clock_hours == 24
