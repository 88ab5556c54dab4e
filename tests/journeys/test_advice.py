"""What is asked before anything is done: what may be used, when the sun is off, what to buy."""

from datetime import date

import ephem
import pytest

from tests.journeys.talking import Talk

PLANTS = "hoya, landing\nivy, study\nwhite sage, balcony\nchilli, kitchen"


@pytest.fixture
def home(stranger_talk: Talk) -> Talk:
    stranger_talk.say("/start")
    stranger_talk.say("Gent")
    stranger_talk.say(PLANTS)
    stranger_talk.say(
        "the landing has no window, the study faces south, the kitchen looks west and the balcony is outside"
    )
    return stranger_talk


def test_what_may_be_used_names_the_rule_that_forbids_it_and_writes_nothing(home: Talk) -> None:
    home.say("got neem, ready to use, every 7 days, not for edibles")
    before = home.entries()
    (text,) = home.say("can i use neem on the chilli")
    assert text.startswith("neem oil on chilli: no, it is not for plants that are eaten.")
    (text,) = home.say("is the neem ok for the ivy?")
    assert text.startswith("neem oil on ivy: yes; out of direct sun; one leaf first")
    assert home.entries() == before


def test_what_was_just_used_may_be_used_again_from_the_labels_day_on(home: Talk) -> None:
    home.say("got neem, ready to use, every 7 days")
    home.say("hoya 12 longtailed mealybugs")
    home.say("sprayed hoya with neem")
    assert "neem oil on hoya: yes, from Sat 9 May on" in home.say("what can i spray on the hoya")[0]


def test_nothing_on_the_shelf_and_not_on_the_shelf_are_said(home: Talk) -> None:
    home.say("hoya 12 longtailed mealybugs")
    assert home.say("what can i spray on the hoya")[0].startswith("Nothing is on your shelf yet.")
    assert "For hoya nothing on the shelf fits. Look for" in home.say("what should i buy?")[0]
    home.say("got soap, ready to use, every 7 days, 30 ml")
    (text,) = home.say("what do we need from the shop")
    assert text == "soap: about 30 mL left, and one evening for hoya takes 60 mL."
    home.say("got soap, 1 litre")
    assert home.say("what should i buy?")[0].startswith("By my notes nothing is missing")


def test_two_plants_with_the_same_find_both_lack_a_product(home: Talk) -> None:
    home.say("hoya 12 longtailed mealybugs")
    home.say("ivy 12 longtailed mealybugs")
    assert "For hoya and ivy nothing on the shelf fits." in home.say("what should i buy?")[0]


def test_the_sun_of_a_place_ends_no_later_than_the_sun_itself(home: Talk) -> None:
    (text,) = home.say("when does the kitchen get sun?")
    assert text.startswith("kitchen (looks west): sun at most ")
    # outside check: sunset of 2 May 2026 at 51.1 N 3.7 E by ephem (XEphem's library), local time two hours ahead
    place = ephem.Observer()
    place.lat, place.lon, place.date = "51.1", "3.7", f"{date(2026, 5, 2)} 12:00"
    sunset = place.next_setting(ephem.Sun()).datetime()
    hour, minute = map(int, text.split(" to ")[1].split(" ")[0].split(":"))
    seen = (hour - 2) * 60 + minute
    assert abs(seen - (sunset.hour * 60 + sunset.minute)) <= 10
    assert home.say("when is the sun off the landing?")[0].startswith(
        "landing (no window): no direct sun today."
    )


def test_a_question_that_nobody_can_answer_gets_no_list_for_an_answer(home: Talk) -> None:
    home.say("hoya 12 longtailed mealybugs")
    for text in ("should i move it away from the others?", "should i bin the hoya?", "is the study nice?"):
        assert home.say(text)[0].startswith(("I did not understand", "Did you mean", "That is beyond me")), (
            text
        )


def test_a_leaf_is_counted_once_for_what_a_wash_takes_off_is_published_nowhere(talk: Talk) -> None:
    talk.say("ivy 12 spider mites")
    assert "“leaf 12 before, 3 after”" in talk.say("how do i rinse the ivy")[0]
    assert "nowhere we found: count one leaf" in "\n".join(_whole(talk, "why more ivy"))
    assert talk.say("leaf 3 before, 12 after")[0].startswith("3 before and 12 after cannot be.")
    # 9 of 12 came off: 75 %
    assert "75 % come off here, by 1 count" in talk.say("leaf 12 before, 3 after")[0]
    assert "leaf 12 before" not in talk.say("how do i rinse the ivy")[0]
    assert "75 % by your own count" in "\n".join(_whole(talk, "why more ivy"))
    talk.say("undo")
    assert talk.home.leaves == []


def _whole(talk: Talk, text: str) -> list[str]:
    said = talk.say(text)
    while "More" in talk.labels():
        said += talk.press("More")
    return said
