"""What once was written wrongly, said again in other words: what the journal holds, and what is asked."""

from datetime import UTC, date, time, timedelta

import pytest

from bot.actions.action import ButtonText, Choice, Expecting
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.ask import Ask, Topic
from bot.actions.log_check import LogCheck
from bot.actions.release_plant import ReleasePlant
from bot.domain.journal import (
    CheckedClean,
    Found,
    Heard,
    Postponed,
    TemperatureRead,
    Treated,
    Voided,
    WorkTicked,
)
from bot.domain.trade import Level
from tests.journeys.talking import OWNER, PARTNER, Talk


def kinds(talk: Talk, since: int) -> set[type]:
    return {type(payload) for payload in talk.new_since(since)}


def count(talk: Talk) -> int:
    return len(talk.entries())


@pytest.fixture
def phals(talk: Talk) -> Talk:
    """Five numbered orchids, two of them with mealybugs, and a second product."""
    talk.tell(AddPlants(tuple(NewPlant(name=f"phal {number}") for number in range(1, 6)), is_sure=True))
    talk.say("got spinosad")
    talk.say("phal 2 8 longtailed mealybugs")
    talk.say("phal 4 8 longtailed mealybugs")
    return talk


@pytest.fixture
def many(talk: Talk) -> Talk:
    """Sixty-five plants at seven places, of which tonight's look is for some."""
    for shelf in range(1, 5):
        plants = (
            NewPlant(name=f"violet {shelf}{letter}", place=f"shelf {shelf}") for letter in "abcdefghijklmno"
        )
        talk.tell(AddPlants(tuple(plants), is_sure=True))
    talk.say("check everything every saturday")
    talk.evening()
    return talk


@pytest.fixture
def asked_tonight(talk: Talk) -> Talk:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("ivy 8 spider mites")
    talk.evening()
    talk.passes(minutes=5)
    return talk


@pytest.mark.parametrize(
    "words", ["no not a plant", "not a plant", "no no that is not a plant at all", "no, is no plant"]
)
def test_a_denial_of_an_offer_puts_nothing_off(asked_tonight: Talk, words: str) -> None:
    asked_tonight.say("calathea has 3 thrips")
    before = count(asked_tonight)
    answer = asked_tonight.say(words)[0]
    assert kinds(asked_tonight, before) == set(), "it speaks of the plant that was offered"
    assert "calathea" not in {plant.name for plant in asked_tonight.home.living}
    assert "stays as it is" in answer


@pytest.mark.parametrize("words", ["nudge me", "remind me", "please remind me", "ask me again"])
def test_who_wants_to_be_reminded_is_asked_when(asked_tonight: Talk, words: str) -> None:
    before = count(asked_tonight)
    asked_tonight.say(words)
    assert kinds(asked_tonight, before) == set(), "no evening was named"


@pytest.mark.parametrize(
    "words",
    ["no, not phal 4 but phal 2", "it was phal 2, not phal 4", "sorry, i meant phal 2, not phal 4"],
)
def test_a_plant_told_wrongly_is_put_right_and_none_is_put_off(phals: Talk, words: str) -> None:
    phals.evening()
    phals.say("sprayed phal 4 with soap")
    before = count(phals)
    phals.say(words)
    assert kinds(phals, before) == {Voided, Treated}
    assert [plant for plant, told in phals.told() if isinstance(told, Treated)] == ["phal 2"]


def test_a_plant_told_wrongly_is_not_taken_from_what_tells_of_another(phals: Talk) -> None:
    phals.say("sprayed phal 4 with soap")
    phals.say("ivy 8 spider mites")
    before = count(phals)
    phals.say("no, not phal 4 but phal 2")
    assert kinds(phals, before) == set(), "the last was said of the ivy"


@pytest.mark.parametrize(
    "words",
    [
        "i didn't spray the hoya",
        "didnt spray hoya, sorry",
        "sorry, the hoya i have not sprayed",
        "the hoya was not sprayed",
    ],
)
def test_a_round_denied_after_it_was_written_is_shown_to_be_deleted(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("sprayed hoya with soap")
    before = count(talk)
    answer = talk.say(words)[0]
    assert kinds(talk, before) == set(), "it is not put off: it is down as done"
    assert "hoya sprayed (soap)" in answer
    talk.press("Delete it")
    assert not any(isinstance(told, Treated) for _, told in talk.told())


@pytest.mark.parametrize("sign", ["ok 👍", "👍 ok", "okay 👌", "yes ✅"])
def test_a_sign_with_a_nod_under_another_answer_writes_nothing(asked_tonight: Talk, sign: str) -> None:
    asked_tonight.say("what is a crown")
    before = count(asked_tonight)
    asked_tonight.say(sign)
    assert kinds(asked_tonight, before) == set()


@pytest.mark.parametrize("sign", ["ok 👍", "👍"])
def test_a_sign_with_a_nod_under_the_evening_is_done(asked_tonight: Talk, sign: str) -> None:
    before = count(asked_tonight)
    asked_tonight.say(sign)
    assert kinds(asked_tonight, before) == {Treated}


@pytest.mark.parametrize(
    "words", ["done except hoya", "all but hoya", "i've done everything apart from the hoya"]
)
def test_all_but_the_only_plant_leaves_it_open_and_says_so(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(minutes=5)
    before = count(talk)
    answer = talk.say(words)[0]
    assert kinds(talk, before) == set()
    assert "Still open tonight: wipe hoya, then soap." in answer


@pytest.mark.parametrize(
    "words",
    ["this evening i have no time", "no time this evening", "sorry can't do it tonight", "not tonight"],
)
def test_no_time_this_evening_is_another_evening(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(days=3, hours=-6)
    talk.say(words)
    assert talk.home.plants[1].postponed_to == talk.now.date() + timedelta(days=1)  # type: ignore[index]


@pytest.mark.parametrize(
    "words", ["done", "k done", "okay that one is all done now", "ready", "finished with these"]
)
def test_done_on_a_work_day_is_its_stage_alone(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("coffee plant 12 longtailed mealybugs")
    talk.say("work day")
    talk.say("ivy has 8 spider mites")
    before = count(talk)
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert kinds(talk, before) <= {WorkTicked}, "nobody has treated anything yet"


@pytest.mark.parametrize(
    "words",
    [
        "all clean",
        "looked at everything all good nothing there",
        "checked everything, all clean",
        "everything clean, i see no animal",
    ],
)
def test_what_was_found_today_is_not_clean_with_the_rest(talk: Talk, words: str) -> None:
    talk.say("check everything every saturday")
    talk.at(date(2026, 5, 9), 19)
    talk.say("coffee plant has 3 whiteflies")
    talk.evening()
    talk.passes(minutes=5)
    talk.say(words)
    clean = {plant for plant, told in talk.told() if isinstance(told, CheckedClean)}
    assert clean == {"hoya", "small hoya", "moth orchid", "ivy"}


@pytest.mark.parametrize(
    "words",
    [
        "checked everything, all clean",
        "i have looked at all plants, no animal",
        "checked all my plants nothing",
        "looked at all plants none seen",
    ],
)
def test_a_look_at_all_of_many_plants_is_asked_with_their_number(many: Talk, words: str) -> None:
    before = count(many)
    answer = many.say(words)[0]
    assert kinds(many, before) == set()
    assert "all 65 plants" in answer
    many.press("None seen on them")
    assert sum(isinstance(told, CheckedClean) for told in many.new_since(before)) == 65


@pytest.mark.parametrize(
    "words",
    [
        "on 2 may phal 2 got spinosad, not soap",
        "phal 2 saturday: spinosad not soap",
        "phal 2 the 2 may was spinosad, no soap",
        "saturday phal 2 had spinosad instead of soap",
    ],
)
def test_a_product_told_wrongly_days_ago_is_shown_and_changed_on_a_tap(phals: Talk, words: str) -> None:
    phals.say("sprayed phal 2 with soap")
    phals.passes(days=2)
    before = count(phals)
    answer = phals.say(words)[0]
    assert kinds(phals, before) == set()
    assert "phal 2 sprayed (soap)" in answer
    phals.press("Change it")
    (told,) = [told for _, told in phals.told() if isinstance(told, Treated)]
    assert told.product is not None
    assert phals.home.products[told.product].ingredient == "spinosad"


@pytest.mark.parametrize("words", ["made all, only hoya not", "all of them, just hoya no"])
def test_a_plant_left_out_is_not_offered_as_done(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(minutes=5)
    before = count(talk)
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert not kinds(talk, before) & {Treated, Found, Postponed} - {Postponed}


@pytest.fixture
def shelved(talk: Talk) -> Talk:
    """Plants at places that are called shelves."""
    names = {"kerrii": "shelf 1", "carnosa": "shelf 1", "violet 1": "shelf 2", "violet 2": "shelf 2"}
    talk.tell(
        AddPlants(tuple(NewPlant(name=name, place=place) for name, place in names.items()), is_sure=True)
    )
    return talk


@pytest.mark.parametrize(
    "words", ["shelf 1 all clean", "shelf 1 nothing found", "checked shelf 1, none seen", "shelf 1 is clean"]
)
def test_a_shelf_that_plants_stand_on_is_a_place_and_not_the_products(shelved: Talk, words: str) -> None:
    answer = shelved.say(words)[0]
    if "None seen" in shelved.labels():
        shelved.press("None seen")
    assert "On the shelf" not in answer
    assert {plant for plant, told in shelved.told() if isinstance(told, CheckedClean)} == {
        "kerrii",
        "carnosa",
    }


@pytest.mark.parametrize(
    "words",
    [
        "sprayed all of shelf 2 except violet 2 with soap",
        "on shelf 2 i have spray all with soap but not violet 2",
    ],
)
def test_a_round_on_a_shelf_leaves_out_whom_it_names(shelved: Talk, words: str) -> None:
    shelved.say(words)
    assert [plant for plant, told in shelved.told() if isinstance(told, Treated)] == ["violet 1"]


@pytest.mark.parametrize(
    "words", ["what's on the shelf", "shelf", "what do i have on my shelf?", "show me the shelf"]
)
def test_the_shelf_without_more_is_the_products(shelved: Talk, words: str) -> None:
    assert "insecticidal soap" in shelved.say(words)[0]


@pytest.mark.parametrize(
    "words",
    ["kitchen is 21 degrees", "it's twenty one degrees in the kitchen right now", "kitchen has 21 degree"],
)
def test_degrees_that_would_be_freezing_in_a_room_are_asked(talk: Talk, words: str) -> None:
    """21 degrees Fahrenheit are 6 below freezing, 21 Celsius a warm room: (21 - 32) / 1.8 = -6.1."""
    talk.say("us units")
    before = count(talk)
    talk.say(words)
    assert kinds(talk, before) == set()
    talk.press("21 °C")
    (told,) = talk.new_since(before)
    assert isinstance(told, TemperatureRead)
    assert told.celsius == 21


def test_a_usual_warmth_in_the_homes_own_degrees_is_not_asked(talk: Talk) -> None:
    talk.say("us units")
    before = count(talk)
    talk.say("kitchen is 70 degrees")
    (told,) = talk.new_since(before)
    assert isinstance(told, TemperatureRead)
    assert round(told.celsius, 1) == 21.1, "(70 - 32) / 1.8"


@pytest.mark.parametrize(
    ("words", "celsius"),
    [("landing is 21½ degrees", 21.5), ("it's twenty two and a half degrees on the landing", 22.5)],
)
def test_a_half_is_no_digit_of_the_number(talk: Talk, words: str, celsius: float) -> None:
    before = count(talk)
    talk.say(words)
    (told,) = talk.new_since(before)
    assert isinstance(told, TemperatureRead)
    assert told.celsius == celsius


@pytest.mark.parametrize(
    "words",
    ["label says every 5 days", "every 5 days", "the label says 5 days", "it says on the label every 5 days"],
)
def test_a_label_without_its_product_is_asked_whose_it_is(talk: Talk, words: str) -> None:
    talk.passes(hours=1)  # right after a product it is that one's
    before = count(talk)
    talk.say(words)
    assert kinds(talk, before) == set()
    talk.press("Label of isopropyl alcohol")
    told = {one.ingredient: one.label.gap_days for one in talk.home.products.values()}
    assert told == {"soap": 7, "alcohol": 5}


@pytest.mark.parametrize(
    "words", ["is hoya clean?", "hoya clean?", "is the hoya ok now?", "how sure are you the hoya is clean"]
)
def test_whether_a_plant_is_clean_is_answered_by_how_its_case_stands(talk: Talk, words: str) -> None:
    talk.say("hoya 3 longtailed mealybugs")
    before = count(talk)
    assert talk.say(words)[0].startswith("hoya: living ones today")
    assert kinds(talk, before) == set()


@pytest.mark.parametrize(
    "words", ["which plants have mealybugs", "who has mealybugs?", "list mealybug plants"]
)
def test_who_has_a_pest_is_told_by_that_pest(talk: Talk, words: str) -> None:
    talk.say("hoya 3 longtailed mealybugs")
    talk.say("ivy 8 spider mites")
    assert talk.say(words)[0] == "landing: hoya"


@pytest.mark.parametrize(
    ("words", "known"),
    [
        ("is my landlord at home", "What's due"),
        ("how do i get rid of spider webs in the attic", "What's due"),
        ("will the hoya flower", "History of hoya"),
        ("should i repot the hoya", "History of hoya"),
        ("do i need a bigger pot", "What's due"),
        ("how tall will the hoya grow", "History of hoya"),
        ("do longtailed mealybugs sleep at night", "About longtailed mealybug"),
        ("what's 2 + 2", "What's due"),
    ],
)
def test_what_nobody_told_the_bot_is_beyond_it_and_it_offers_what_it_knows(
    talk: Talk, words: str, known: str
) -> None:
    talk.say("ivy 8 spider mites")
    before = count(talk)
    answer = talk.say(words)[0]
    assert kinds(talk, before) == set()
    assert answer.startswith("That is beyond me")
    assert known in talk.labels()
    assert "ivy" not in answer, "what is due is no answer to it"
    assert talk.press(known)[0]
    assert kinds(talk, before) == set()


@pytest.mark.parametrize(
    "words",
    [
        "sprayed hoya with soap on 15 may",
        "the 15 may hoya was sprayed with soap",
        "on the 15th of may i sprayed the hoya with soap as well",
        "sprayed hoya with soap last friday",
    ],
)
def test_a_use_told_backwards_is_held_against_the_label_too(talk: Talk, words: str) -> None:
    """The label told is 7 days; from 15 to 18 May are 3."""
    talk.say("hoya 12 longtailed mealybugs")
    talk.at(date(2026, 5, 20), 12)
    talk.say("sprayed hoya with soap on 18 may")
    assert "only 3 days before the next soap, the label says 7" in talk.say(words)[0]
    assert "label says" not in talk.say("sprayed hoya with soap on 4 may")[0], "11 days before"


@pytest.mark.parametrize(
    "words",
    ["can i put bleach", "can i use bleach?", "would it be fine if i used twice as much", "double dose ok?"],
)
def test_a_plan_that_harms_is_refused_however_shortly_it_is_asked(talk: Talk, words: str) -> None:
    before = count(talk)
    assert talk.say(words)[0].startswith("Please don’t")
    assert kinds(talk, before) == set()


@pytest.mark.parametrize(
    "words",
    [
        "got imidacloprid granules",
        "imidacloprid granules",
        "bought systemic granules",
        "got imidacloprid concentrate",
    ],
)
def test_a_bottle_told_to_the_last_word_is_no_emergency(talk: Talk, words: str) -> None:
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert "imidacloprid" in {one.ingredient for one in talk.home.products.values()}


@pytest.mark.parametrize("words", ["got soap in my eye", "alcohol on my skin", "i have soap in the mouth"])
def test_a_bottle_and_a_body_are_an_emergency(talk: Talk, words: str) -> None:
    before = count(talk)
    assert "poison centre" in talk.say(words)[0]
    assert kinds(talk, before) == set()


@pytest.mark.parametrize(
    "words",
    [
        "nudge me at 09:00",
        "nudge me at 9 in the morning",
        "write me 9 am please",
        "from now on at 9 a.m. please",
    ],
)
def test_an_hour_of_the_morning_is_not_made_one_of_the_evening(talk: Talk, words: str) -> None:
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert talk.home.evening == time(9)


@pytest.mark.parametrize("words", ["nudge me at 9", "nudge me at 9 pm", "nudge me at 21:00"])
def test_an_hour_without_its_half_of_the_day_is_of_the_evening(talk: Talk, words: str) -> None:
    talk.say(words)
    assert talk.home.evening == time(21)


@pytest.mark.parametrize(
    ("words", "evening"),
    [
        ("write at 20h30", time(20, 30)),
        ("evening at 20 h 15", time(20, 15)),
        ("nudge me at 19H45", time(19, 45)),
        ("write to me at midday", time(12)),
        ("nudge me at noon", time(12)),
        ("evening at half 8", time(20, 30)),
    ],
)
def test_an_hour_is_read_however_it_is_written(talk: Talk, words: str, evening: time) -> None:
    talk.say(words)
    assert talk.home.evening == evening


@pytest.mark.parametrize("words", ["/done", "/clean", "/mix", "/walk", "/history", "/work_day"])
@pytest.mark.parametrize("told", [("/start",), ("/start", "Gent")])
def test_a_command_is_no_town_and_no_plant(stranger_talk: Talk, told: tuple[str, ...], words: str) -> None:
    stranger_talk.set_up(told)
    before = count(stranger_talk)
    (answer,) = stranger_talk.say(words)
    assert "town called" not in answer
    assert "list" not in answer
    assert kinds(stranger_talk, before) == set()


def test_a_morning_hour_puts_nothing_off_to_the_evening(asked_tonight: Talk) -> None:
    before = count(asked_tonight)
    asked_tonight.say("remind me at nine am")
    put_off = [told for told in asked_tonight.new_since(before) if isinstance(told, Postponed)]
    assert all(told.at is None and told.on > asked_tonight.now.date() for told in put_off), "no nine tonight"


@pytest.mark.parametrize(
    ("words", "on"),
    [
        ("sprayed hoya with soap last night", date(2026, 5, 10)),
        ("sprayed hoya with soap yesterday", date(2026, 5, 10)),
        ("i sprayed the hoya with soap yesterday evening", date(2026, 5, 10)),
        ("sprayed hoya with soap", date(2026, 5, 10)),
        ("sprayed hoya with soap the day before yesterday", date(2026, 5, 9)),
    ],
)
def test_after_midnight_last_night_is_the_evening_that_still_goes_on(
    talk: Talk, words: str, on: date
) -> None:
    """Half past midnight of Monday 11 May: last night was Sunday's."""
    talk.say("hoya 12 longtailed mealybugs")
    talk.at(date(2026, 5, 11), 0, 30)
    talk.say(words)
    (told,) = [one for one in talk.entries() if isinstance(one.payload, Treated)]
    assert told.happened_on == on


@pytest.mark.parametrize(
    "words",
    ["is it safe to pick tomatoes on saturday", "can we eat the tomatoes?", "when can i harvest the tomato"],
)
def test_picking_is_eating(talk: Talk, words: str) -> None:
    """Three days are told before eating: 2 May + 3 = 5 May."""
    talk.say("new plant: tomato, kitchen")
    talk.say("soap 3 days before harvest")
    talk.say("sprayed tomato with soap")
    assert "not before Tue 5 May" in talk.say(words)[0]


@pytest.mark.parametrize(
    "words",
    [
        "can I pick the tomatoes tomorrow?",
        "is the tomato fine to eat tomorrow",
        "can we harvest tomatoes on monday?",
    ],
)
def test_what_is_due_tonight_is_waited_for_before_eating(talk: Talk, words: str) -> None:
    """Three days are told before eating: 2 May + 3 = 5 May, Monday is the 4th."""
    talk.set_up(("new plant: tomato, kitchen", "soap 3 days before harvest", "tomato 20 aphids"))
    answer = talk.say(words)[0]
    assert answer.startswith("No, not ")
    assert "soap is due this evening, and after it not before Tue 5 May" in answer
    talk.evening()
    talk.say("done")
    assert "not before Tue 5 May, soap was used on Sat 2 May" in talk.say(words)[0]


@pytest.mark.parametrize(
    "words",
    [
        "nope, the coffee didn't get anything",
        "no it didn't",
        "no, the coffee was not sprayed",
        "no i did not",
    ],
)
def test_what_was_offered_is_denied_and_nothing_is_put_off(talk: Talk, words: str) -> None:
    talk.say("coffee 8 longtailed mealybugs")
    talk.evening()
    talk.say("coffee got soap")
    assert talk.labels()[0] == "Yes"
    before = count(talk)
    assert "stays as it is" in talk.say(words)[0]
    assert kinds(talk, before) == set()


@pytest.mark.parametrize("words", ["no thats not it", "that's wrong", "no, not that one", "nope"])
def test_what_was_just_written_is_shown_where_it_is_denied(talk: Talk, words: str) -> None:
    """Under what was written stand buttons of what may be told besides; the no is not of them."""
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("hoya sprayed with soap")
    assert "Wiped first too" in talk.labels()
    assert "hoya sprayed. Take that back?" in talk.say(words)[0]
    talk.press("Take it back")
    assert not [one for _, one in talk.told() if isinstance(one, Treated)]


@pytest.mark.parametrize(
    ("words", "names"),
    [
        ("wiped all the begonias", {"begonia rex", "begonia maculata"}),
        ("begonias wiped", {"begonia rex", "begonia maculata"}),
        ("wiped the violets", {"AV 1", "AV 2"}),
        ("wiped the cacti", {"mammillaria 1", "mammillaria 2", "christmas cactus"}),
        ("the cacti got wiped", {"mammillaria 1", "mammillaria 2", "christmas cactus"}),
        ("wiped the peppers", {"peppers"}),
        ("wiped chillies", {"chillies"}),
    ],
)
def test_plants_are_called_by_what_they_are_and_by_their_own_name_first(
    talk: Talk, words: str, names: set[str]
) -> None:
    begonias, numbered = (
        ("begonia rex", "begonia maculata"),
        ("AV 1", "AV 2", "mammillaria 1", "mammillaria 2"),
    )
    told = (*begonias, *numbered, "christmas cactus", "peppers", "chillies")
    talk.tell(AddPlants(tuple(NewPlant(name=one) for one in told), is_sure=True))
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert {plant for plant, one in talk.told() if isinstance(one, Treated)} == names


@pytest.mark.parametrize("words", ["who has got mealies?", "who has mealies", "who has got mealybugs?"])
def test_who_has_a_pest_is_asked_by_any_of_its_words(talk: Talk, words: str) -> None:
    talk.set_up(("hoya 12 mealybugs", "coffee 3 longtailed mealybugs"))
    assert talk.say(words)[0] == "landing: hoya\nkitchen: coffee plant"


@pytest.mark.parametrize(
    ("words", "asked"),
    [
        (
            "fern, kitchen\njade plant, study\ntwo peace lilies, landing\nphilodendron micans, landing",
            "“fern, kitchen” and 4 plants more: are they new, each at its place?",
        ),
        (
            "three cacti, study\nzebra plant, landing\npothos marble queen, landing\nmonstera deliciosa, study",
            "“cactus 1, study” and 5 plants more: are they new, each at its place?",
        ),
    ],
)
def test_a_second_list_is_asked_back_in_whole_names_with_its_number(
    talk: Talk, words: str, asked: str
) -> None:
    assert talk.say(words)[0] == f"{asked} Not written yet."


@pytest.mark.parametrize("words", ["yes", "yes please", "yeah"])
def test_yes_answers_a_question_of_yes_and_no(talk: Talk, words: str) -> None:
    talk.joins()
    talk.say("leave", person=PARTNER)
    assert talk.say(words, person=PARTNER)[0].startswith("You no longer share these plants")


@pytest.mark.parametrize("words", ["i'm lost", "im lost", "i don't get it", "I do not understand"])
def test_who_is_lost_gets_help_and_loses_no_plant(asked_tonight: Talk, words: str) -> None:
    before = count(asked_tonight)
    assert asked_tonight.say(words)[0].startswith("Write as you would to a friend")
    assert kinds(asked_tonight, before) == set()


@pytest.mark.parametrize(
    "words", ["why hoya", "how is the hoya", "so what about hoya", "hoya", "the hoya please"]
)
def test_a_plants_name_alone_puts_no_plant_back(talk: Talk, words: str) -> None:
    """The evening's message offers [Put hoya back] beside [None seen] and [Why]."""
    hoya = next(plant for plant in talk.home.living if plant.name == "hoya")
    offered = (
        Choice(ButtonText.NONE_SEEN, (LogCheck(plants=(hoya.id,), level=Level.PLAIN),)),
        Choice(ButtonText.PUT_BACK, (ReleasePlant(plants=(hoya.id,), confirmed=True),), "hoya"),
        Choice(ButtonText.WHY, (Ask(topic=Topic.WHY),)),
    )
    talk.say("hoya 12 longtailed mealybugs")
    with talk.database.unit() as store:
        (home,) = store.households()
        store.ask(home, OWNER, Expecting.LINES, offered, talk.now.astimezone(UTC))
    before = count(talk)
    talk.say(words)
    assert kinds(talk, before) <= {Heard}
