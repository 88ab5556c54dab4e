"""A question is answered for what it asks about, and tells nothing."""

import pytest

from tests.journeys.talking import Talk

HOME = ("new plant: chilli, kitchen", "got soap, ready to use, every 7 days")


@pytest.fixture
def home(talk: Talk) -> Talk:
    talk.set_up(HOME)
    return talk


@pytest.mark.parametrize(
    ("asked", "product"),
    [
        ("may i use neem on the ivy", "neem oil"),
        ("is horticultural oil right for the ivy?", "horticultural oil"),
        ("can the ivy be treated with rubbing alcohol?", "isopropyl alcohol"),
    ],
)
def test_a_product_that_is_not_at_hand_is_answered_for_itself(home: Talk, asked: str, product: str) -> None:
    answer = home.asks(asked)
    assert answer.startswith(f"{product} on ivy: ")
    assert "soap" not in answer


def test_several_products_are_answered_each(home: Talk) -> None:
    answer = home.asks("is neem or soap right for the ivy?")
    assert "neem oil on ivy: " in answer
    assert "insecticidal soap on ivy: " in answer


def test_what_is_dangerous_about_a_product_that_is_not_at_hand_is_told_of_it(home: Talk) -> None:
    answer = home.asks("are pyrethrins safe for the cat?")
    assert "\npyrethrins: " in answer
    assert "insecticidal soap: " not in answer


@pytest.mark.parametrize(
    ("asked", "product"),
    [
        ("how many days after soap may we eat the chilli?", "soap"),
        ("can i use neem on the chilli and eat it afterwards?", "neem oil"),
    ],
)
def test_no_days_are_promised_of_a_label_that_nobody_read(home: Talk, asked: str, product: str) -> None:
    answer = home.asks(asked)
    assert answer.startswith(f"chilli: after {product} only if its label allows what is eaten")
    assert "nothing to wait for" not in answer


def test_the_days_of_a_label_that_was_read_are_told(home: Talk) -> None:
    home.say("soap label says 2 days before harvest")
    assert home.asks("how many days after soap may we eat the chilli?").startswith(
        "chilli: 2 days to wait after soap, by its label"
    )


@pytest.mark.parametrize(
    "asked",
    [
        "can i put toothpaste on the ivy?",
        "is lavender oil right for the ivy?",
        "may i use mineral spirit on the ivy?",
        "could we try dry ice powder on the ivy?",
    ],
)
def test_what_nobody_knows_is_not_answered_for_the_shelf(home: Talk, asked: str) -> None:
    answer = home.asks(asked)
    assert answer.startswith("That is beyond me")
    assert "yes" not in answer


@pytest.mark.parametrize(
    "asked", ["would spirit help on the ivy?", "should i swab the ivy with spirit - yes or no"]
)
def test_spirit_is_rubbing_alcohol_and_a_yes_or_no_tells_nothing(home: Talk, asked: str) -> None:
    assert home.asks(asked).startswith("isopropyl alcohol on ivy: ")


@pytest.mark.parametrize("text", ["this evening", "Tonight then", "TODAY -", "and today", "so, tonight?"])
def test_a_bare_word_for_this_evening_asks_what_is_due(home: Talk, text: str) -> None:
    home.say("ivy 12 mealybugs")
    assert "wipe ivy" in home.asks(text)


@pytest.mark.parametrize(
    "asked", ["have we done the ivy yet", "did we soap the ivy this morning", "did i already treat the ivy"]
)
def test_whether_something_was_done_is_no_telling(home: Talk, asked: str) -> None:
    home.say("ivy 12 mealybugs")
    assert home.asks(asked) == "By my notes ivy was not treated yet."
    home.say("sprayed the ivy with soap")
    assert home.asks(asked) == "Last treated:\ntoday: ivy sprayed"


def test_when_something_was_treated_last_is_the_last_of_each_way(home: Talk) -> None:
    assert home.asks("when was the latest spraying?") == "By my notes nothing was treated yet."
    home.say("ivy 12 mealybugs")
    home.say("wiped the ivy yesterday")
    home.say("sprayed the ivy with soap")
    assert (
        home.asks("when was the ivy last wiped?") == "Last treated:\ntoday: ivy sprayed\nFri 1 May: ivy wiped"
    )
    assert home.asks("what was the last treatment?") == "Last treated:\ntoday: ivy sprayed"


def test_whether_a_product_was_bought_is_answered_by_the_shelf(home: Talk) -> None:
    assert home.asks("have we bought soap already?").startswith("On the shelf:\ninsecticidal soap")


@pytest.mark.parametrize(
    "asked", ["which ones are infested", "how many of my plants have bugs?", "what plants have a problem now"]
)
def test_the_sick_are_listed_and_no_others(home: Talk, asked: str) -> None:
    assert home.asks(asked) == "By my notes no plant has a pest."
    home.say("ivy 12 mealybugs")
    answer = home.asks(asked)
    assert "ivy" in answer
    assert "1 plant, by what you told me." in answer
    assert "chilli" not in answer


@pytest.mark.parametrize(
    "asked", ["which plants are healthy?", "how many plants are ok", "which ones are clean"]
)
def test_the_well_are_listed_and_no_others(home: Talk, asked: str) -> None:
    home.say("ivy 12 mealybugs")
    answer = home.asks(asked)
    assert "chilli" in answer
    assert "ivy" not in answer


@pytest.mark.parametrize(
    "asked",
    [
        "has the ivy got bugs",
        "how many mealybugs did i see on the ivy",
        "what is wrong with the ivy",
    ],
)
def test_how_one_plant_is_is_told_of_it(home: Talk, asked: str) -> None:
    assert "no pest told; no look told yet." in home.asks(asked)
    home.say("ivy 12 mealybugs")
    assert "mealybug, 12 seen today" in home.asks(asked)


@pytest.mark.parametrize(
    ("asked", "answer"),
    [
        ("what do you mean by “free from”?", "Free from: The first day"),
        ("what does put off mean", "Put off: You told me it is not done"),
        ("explain treatment", "Round: One evening's treatment"),
        ("what is meant by a clean check?", "Clean: A look that found nothing alive"),
        ("how many is many?", "Few: Up to 5 animals"),
        ("armoured or soft scale, how do they differ?", "Scale kinds: Soft scale leaves"),
        ("define neem oil", "Neem oil: Oil of the neem tree"),
        ("should we wear goggles for that?", "Gloves: Gloves with every product."),
        ("is a respirator needed, do i need one? i mean a mask", "Mask: Where the label asks"),
        ("is spraying allowed when breastfeeding?", "Pregnant: Let somebody else"),
        ("could those mites harm my baby?", "Bite: None of these feeds on people or pets."),
        ("who wrote you?", "Robot: I am a program"),
        ("must i treat all the healthy ones as a precaution?", "Precaution: No: a plant with no pest"),
        ("do we have to throw out the old compost?", "New soil: Only at a clean-out"),
        ("what happens if i do nothing about it?", "Untreated: They breed"),
        ("might those bugs crawl over to the chilli?", "Spread: Most walk"),
    ],
)
def test_what_the_bot_speaks_of_it_explains(home: Talk, asked: str, answer: str) -> None:
    home.say("ivy 12 mealybugs")
    assert home.asks(asked).startswith(answer)


def test_what_is_asked_about_the_bugs_is_not_answered_for_the_spray(home: Talk) -> None:
    assert not home.asks("is the spray against these bugs dangerous for kids?").startswith("Bite")


def test_an_open_question_is_answered_behind_what_was_asked_of_it(home: Talk) -> None:
    home.say("mealybug ivy")
    assert home.asks("how many are some?").startswith("Few: Up to 5 animals")
    assert home.say("some")[0].startswith("Written: some mealybugs on ivy.")


@pytest.mark.parametrize(
    "asked", ["how can one tell which direction it faces?", "how do we work out what way the window faces"]
)
def test_how_a_window_is_found_out_is_no_answer_to_it(stranger_talk: Talk, asked: str) -> None:
    for told in ("/start", "Leeds", "hoya, jade and ivy in the den"):
        stranger_talk.say(told)
    before = len(stranger_talk.entries())
    assert stranger_talk.say(asked)[0].startswith("Compass: ")
    assert stranger_talk.new_since(before) == []
    assert stranger_talk.say("west")[0].startswith("Written: den (looks west).")


@pytest.mark.parametrize("asked", ["may the cat lick the soap?", "is it ok if the kids touch the soap"])
def test_what_is_asked_ahead_is_answered_beside_the_help(home: Talk, asked: str) -> None:
    assert "insecticidal soap: The label is the law" in home.asks(asked)


@pytest.mark.parametrize("told", ["the cat licked the soap", "can the cat die, it licked the soap"])
def test_what_has_happened_is_first_aid_alone(home: Talk, told: str) -> None:
    assert home.asks(told).startswith("Stop, get away from it")


def test_when_all_of_it_ends_is_told_of_what_is_kept_apart(home: Talk) -> None:
    home.say("ivy 12 mealybugs")
    assert "free from" in home.asks("when am i finished with all of this?")


def test_whether_a_plant_is_well_is_how_its_case_stands_or_when_it_was_looked_at(home: Talk) -> None:
    assert home.asks("are the ivy and the chilli ok?").endswith(
        "chilli, at kitchen: no pest told; no look told yet."
    )
    home.say("chilli clean")
    assert home.asks("is the chilli healthy?") == (
        "chilli, at kitchen: no pest told; looked at and clean today, Sat 2 May."
    )
    home.say("ivy 12 mealybugs")
    assert home.asks("is the ivy clean?").startswith("ivy: living ones today")
