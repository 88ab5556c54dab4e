"""Mixing in the chat: amounts by the label, and nothing written."""

import pytest

from tests.journeys.talking import Talk


@pytest.fixture
def mixing(talk: Talk) -> Talk:
    talk.say("got neem oil concentrate")
    return talk


@pytest.mark.parametrize(
    ("text", "amounts"),
    [
        ("mix 750 ml of neem", "For 750 mL: 744 mL water, 6 mL neem oil."),  # 0.75 x 7.8 = 5.85
        ("how much neem for 500 ml", "For 500 mL: 496.1 mL water, 3.9 mL neem oil."),
        ("1 tbsp per gallon, need 1.5 l of neem", "For 1.5 L: 1.494 L water, 6 mL neem oil."),  # 5.86
        ("5 ml per litre for 2 l of neem", "For 2 L: 1.99 L water, 10 mL neem oil."),
        ("mix a litre of neem 1:99", "For 1 L: 990 mL water, 10 mL neem oil."),
        ("mix a litre of neem, 1 part to 99 parts", "For 1 L: 990 mL water, 10 mL neem oil."),
        (
            "dilute 70% alcohol to 25% for 400 ml",
            "For 400 mL: 260 mL water, 140 mL isopropyl alcohol.",
        ),  # 142.9
        (
            "mix 250 ml of neem with a spoon",
            "For 250 mL: 247.5 mL water, ½ tsp (2.5 mL) neem oil.",
        ),  # 1.95 is nearer to 2.5 than to 1.25
        ("mix 100 ml of neem with a dropper", "For 100 mL: 99.2 mL water, 16 drops (0.8 mL) neem oil."),
    ],
)
def test_a_mixture_is_told_in_amounts_that_can_be_measured(mixing: Talk, text: str, amounts: str) -> None:
    before = mixing.entries()
    assert mixing.say(text)[0].split("\n")[0] == amounts
    assert mixing.entries() == before


def test_percent_asks_of_what(mixing: Talk) -> None:
    assert mixing.say("mix 2 litres of neem at 0.5%")[0].startswith("0.5 % of what")
    # 0.5 % active from 70 %: 7.143 mL/L, 14.29 mL, measured 14.5.
    assert mixing.press("Of the active ingredient")[0].startswith("For 2 L: 1.986 L water, 14.5 mL")
    mixing.say("mix 2 litres of neem at 0.5%")
    assert mixing.say("of the bottle's content")[0].startswith("For 2 L: 1.99 L water, 10 mL neem oil.")


def test_the_told_label_is_the_most(mixing: Talk) -> None:
    assert "5 mL per litre" in mixing.say("the neem label says 5 ml per litre")[0]
    assert "as your label says" in mixing.say("mix 1 l of neem")[0]
    answer = mixing.say("mix 1 l of neem at 8 ml per litre")[0]
    assert answer.startswith("For 1 L: 995 mL water, 5 mL neem oil.\nWhat you said is past your label")


def test_another_strength_makes_another_rate_and_another_most(mixing: Talk) -> None:
    mixing.say("the strength of the alcohol is 99%")
    # 357.1 mL/L of 70 % is 357.1 x 70 / 99 = 252.495 mL/L of 99 %; more than labels allow of 70 % is not allowed of 99 % either.
    mixing.say("mix 1 l of alcohol")
    assert "252.5 mL per litre" in mixing.press("A concentrate")[0]
    mixing.say("mix 1 l of alcohol at 90%")
    assert (
        "past what labels of isopropyl alcohol usually allow" in mixing.press("Of the active ingredient")[0]
    )
    assert "past what labels" in mixing.say("dilute 70% alcohol to 60% for 400 ml")[0]


def test_too_little_to_measure_is_said(mixing: Talk) -> None:
    (answer,) = mixing.say("mix 20 ml of neem with a spoon")
    assert answer.startswith("That takes 0.156 mL of neem oil, too little to measure that way.")


def test_ready_made_is_not_thinned(mixing: Talk) -> None:
    assert mixing.say("mix 1 l of soap") == [
        "insecticidal soap on your shelf is ready to use: use it as it is, do not thin it."
    ]


def test_tonights_plants_say_how_much_is_needed(talk: Talk) -> None:
    talk.say("no soap left")
    talk.say("got neem oil concentrate, 30 ml")
    talk.say("hoya 12 longtailed mealybugs")
    answer = talk.asks("mix for tonight")
    # One plant in a pot of 15 cm: 60 mL, our estimate; 0.06 x 7.8 = 0.468 mL; 0.5 can be measured, for 64.1 mL.
    assert answer.startswith("For 65 mL (hoya): 64.5 mL water, 0.5 mL neem oil.")
    assert "Rounded to what can be measured" not in answer
    assert "Your stock lasts for 60 such evenings." in answer


def test_the_form_is_asked_once(talk: Talk) -> None:
    talk.say("got horticultural oil")
    assert talk.say("mix 1 l of horticultural oil") == [
        "Is your horticultural oil a concentrate, or ready to use?"
    ]
    assert "For 1 L: 990 mL water, 10 mL horticultural oil." in talk.press("A concentrate")[0]
    assert talk.say("mix 1 l of horticultural oil")[0].startswith("For 1 L")


@pytest.mark.parametrize(
    "text", ["mix 0 ml of neem", "mix 1 l of neem at 150%", "mix 1 l of neem at 0%", "mix -2 l"]
)
def test_impossible_mixtures_are_declined(mixing: Talk, text: str) -> None:
    before = mixing.entries()
    assert "For 1 L" not in mixing.say(text)[0]
    assert mixing.entries() == before


@pytest.mark.parametrize(
    ("volume", "spoons"),
    [
        ("1 gal", "1 tsp"),
        ("2 qt", "½ tsp"),
        ("1 qt", "¼ tsp"),
        ("3 gallons", "1 tbsp"),
    ],
)
def test_a_rate_is_kept_exactly_as_told(talk: Talk, volume: str, spoons: str) -> None:
    # 1 US tsp to the US gallon of 4 quarts: ½ tsp to half of it, ¼ to a quart, 1 tbsp to three.
    talk.set_up(("us units", "got neem concentrate", "neem label says 1 tsp per gallon"))
    (answer,) = talk.say(f"mix {volume} of neem")
    assert f"water, {spoons} neem oil." in answer
    assert "Rounded" not in answer


def test_the_finest_tool_told_decides_the_rounding(talk: Talk) -> None:
    talk.set_up(("got neem concentrate", "neem label says 1 ml per litre"))
    # .35 mL by a syringe of tenths: .4 would pass 1 mL/L, and .3 is 14 % less
    assert "Rounded to what can be measured: -14 %" in talk.say("mix 350 ml of neem")[0]
    assert talk.say("i have a measuring jug and a 10 ml syringe")[0].startswith("Written: you measure with")
    assert "too little to measure that way" in talk.say("mix 350 ml of neem")[0]
    talk.say("got a 1 ml syringe")
    assert "0.34 mL neem oil" in talk.say("mix 350 ml of neem")[0]  # .35 would be .36 by its marks of .02
    assert "20 mL neem oil" in talk.say("mix 20 l of neem")[0]  # two fillings of 10 mL
    talk.say("no 1 ml syringe")
    assert "too little to measure that way" in talk.say("mix 350 ml of neem")[0]
