"""What people write without having read anything: short, sloppy, and about something else than was asked."""

import pytest

from bot.domain.journal import CheckedClean, Found, HeldUntil, HouseholdSet, PlantSet, Treated
from bot.domain.trade import Grade, Method
from tests.journeys.talking import PARTNER, Talk

PLACES_ADDED = ("landing", "kitchen", "study")


def plants(talk: Talk) -> dict[str, str | None]:
    home = talk.home
    return {one.name: home.places[one.place].name if one.place else None for one in home.living}


@pytest.mark.parametrize(
    ("line", "name", "place"),
    [
        ("fern; study; 12cm", "fern", "study"),
        ("- bay laurel (study)", "bay laurel", "study"),
        ("palm - kitchen", "palm", "kitchen"),
        ("2) calathea, landing", "calathea", "landing"),
        ("peace lily, bathroom, 20 cm", "peace lily", "bathroom"),
    ],
)
def test_a_plant_is_added_however_its_line_is_written(talk: Talk, line: str, name: str, place: str) -> None:
    assert talk.say(line)[0].startswith("Written, 1 plant:")
    assert plants(talk)[name] == place


def test_a_plant_at_a_place_nobody_knows_is_offered_before_it_is_written(talk: Talk) -> None:
    before = plants(talk)
    assert talk.say("peace lily, bathroom") == [
        "“peace lily, bathroom”: is that a new plant and its place? Not written yet."
    ]
    assert plants(talk) == before
    talk.press("Add peace lily")
    assert plants(talk) == before | {"peace lily": "bathroom"}


def test_one_bad_line_does_not_lose_the_list(talk: Talk) -> None:
    answer = talk.say("aloe, study\ncactus, study, 9 cm\nbasil, a, b, c, d\nrosemary, kitchen")[0]
    assert "I could not read “basil, a, b, c, d”" in answer
    assert {"aloe", "cactus", "rosemary"} <= set(plants(talk))
    assert "basil" not in plants(talk)


@pytest.mark.parametrize(
    "text",
    ["im in leeds, near roundhay", "I live near Leeds", "near Leeds", "my flat is in leeds", "town: Leeds"],
)
def test_a_town_is_found_in_what_people_say_of_it(stranger_talk: Talk, text: str) -> None:
    stranger_talk.say("/start")
    assert stranger_talk.say(text)[0].startswith("Written: Leeds, Europe/London.")


def test_plants_told_before_the_town_are_kept_and_the_town_is_asked_again(stranger_talk: Talk) -> None:
    stranger_talk.say("/start")
    answer = stranger_talk.say("hoya, landing, 15 cm\nivy, study")[0]
    assert answer.endswith("Which town are the plants in? A shared location will do too.")
    assert plants(stranger_talk) == {"hoya": "landing", "ivy": "study"}
    assert "Which way do the windows look: landing and study?" in stranger_talk.say("Gent")[0]
    assert stranger_talk.say("west")[0].startswith("Written: landing (looks west).")


def test_a_town_is_never_taken_for_a_plant(stranger_talk: Talk) -> None:
    stranger_talk.say("/start")
    stranger_talk.say("Gent")
    assert stranger_talk.say("town: Leeds")[0].startswith("Written: Leeds")
    assert plants(stranger_talk) == {}


def test_questions_of_the_setting_up_can_be_put_off(stranger_talk: Talk) -> None:
    stranger_talk.say("/start")
    assert stranger_talk.say("skip")[0].startswith("Put off. Without the town")
    stranger_talk.say("hoya, landing")
    assert plants(stranger_talk) == {"hoya": "landing"}
    stranger_talk.say("Gent")
    assert stranger_talk.say("later")[0].startswith(
        "Written: landing (window unknown: I treat it as sun all day)."
    )


def test_the_window_is_not_asked_again_with_each_plant(talk: Talk) -> None:
    assert "Which way does the window" in talk.say("palm, hall, 20 cm")[0]
    assert "Which way does the window" not in talk.say("fern, hall, 20 cm")[0]


def test_back_ends_a_pause_and_the_pause_is_mentioned_where_it_matters(talk: Talk) -> None:
    assert "until you write “back”" in talk.say("stop")[0]
    for text in ("what's due", "/start", "hoya 3 longtailed mealybugs"):
        assert talk.say(text)[-1].endswith("I am quiet; “back” ends that.")
    assert talk.say("back") == ["Good to have you back. The evenings go on."]
    assert "quiet" not in talk.say("what's due")[0]
    assert isinstance(talk.told()[-1][1], HeldUntil)


def test_a_plant_to_be_deleted_is_asked_first(talk: Talk) -> None:
    assert talk.say("delete the ivy")[0].startswith("Shall ivy go off the list")
    assert "ivy" in plants(talk)
    assert talk.press("Take ivy off") == ["Written: ivy gone."]
    assert "ivy" not in plants(talk)
    assert talk.say("remove the palm")[0].startswith("I know no plant called “palm”")


@pytest.mark.parametrize("text", ["thanks ada", "ok thank you", "cheers mate", "good night", "hello"])
def test_courtesies_write_nothing_and_are_returned(talk: Talk, text: str) -> None:
    before = talk.entries()
    assert talk.say(text)[0] in {
        "You are welcome.",
        "Good night.",
        "Hello. “what's due” shows what comes next.",
    }
    assert talk.entries() == before


def test_half_seven_is_half_past_seven_in_the_evening(talk: Talk) -> None:
    assert talk.say("nudge me at half seven")[0].startswith("Written: evening at 19:30")


def test_quiet_from_two_is_two_at_night(talk: Talk) -> None:
    talk.say("nudge me at 21:00")
    assert talk.say("quiet from 2 to 9")[0].endswith("quiet from 02:00 to 09:00.")
    assert isinstance(talk.told()[-1][1], HouseholdSet)


@pytest.mark.parametrize("text", ["2 not 12", "it was 2", "no, 2", "hoya was 2 not 12"])
def test_a_wrong_count_is_set_right_and_not_a_second_find(talk: Talk, text: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say(text)
    finds = [payload for _, payload in talk.told() if isinstance(payload, Found)]
    assert finds == [Found(pest="longtailed_mealybug", grade=Grade.FEW, count=2, where=None)]


def test_a_count_with_nothing_found_before_sets_nothing_right(talk: Talk) -> None:
    before = talk.entries()
    talk.say("it was 5")
    assert talk.entries() == before


def test_a_correction_of_several_plants_is_not_guessed(talk: Talk) -> None:
    talk.say("hoya 3 citrus mealybugs, orchid 2 citrus mealybugs")
    before = talk.entries()
    (answer,) = talk.say("that was the coffee plant")
    assert "moth orchid 2 citrus mealybug" in answer
    assert "hoya 3 citrus mealybug" in answer
    assert talk.entries() == before


def test_a_new_plant_is_not_corrected_into_another(talk: Talk) -> None:
    talk.say("aloe, study")
    before = talk.entries()
    talk.say("that was the small hoya")
    assert talk.entries() == before
    assert plants(talk)["small hoya"] == "landing"


def test_all_done_and_none_seen_offers_the_look(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("all done, none seen")
    talk.press("None seen on them")
    told = [(plant, type(payload)) for plant, payload in talk.told()[-2:]]
    assert told == [("hoya", Treated), ("hoya", CheckedClean)]


def test_finds_on_several_plants_are_set_apart_with_one_press(talk: Talk) -> None:
    talk.say("hoya 3 citrus mealybugs, orchid 2 citrus mealybugs")
    assert talk.press("They are apart now") == ["Written: hoya and moth orchid are apart."]


def test_the_history_of_an_unknown_plant_is_not_everybodys(talk: Talk) -> None:
    assert talk.say("history of the fern")[0].startswith("I know no plant called “fern”")


def test_a_plant_that_dies_leaves_only_real_neighbours_on_watch(talk: Talk) -> None:
    assert talk.say("ivy died") == ["Written: ivy gone."]
    talk.say("hoya 12 longtailed mealybugs")
    (answer,) = talk.say("the hoya died")
    assert answer.startswith(
        "Written: hoya gone. Old mix and leaves go into a closed bag, not on the compost."
    )
    assert answer.endswith("Still look at small hoya weekly.")


def test_lateness_is_judged_by_the_day_told(talk: Talk) -> None:
    # The label's 7 days after 2 May is 9 May, the first day of the window; 14 May lies behind its end.
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("sprayed the hoya")
    talk.passes(days=12)
    assert "later than planned" not in talk.say("sprayed the hoya on 9 may")[0]
    talk.say("undo")
    assert "hoya: a little later than planned" in talk.asks("sprayed the hoya")


def test_a_product_that_comes_while_a_wipe_is_asked_does_not_double_the_answer(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Gent", "ivy, study, 12 cm", "study looks north"))
    stranger_talk.say("ivy 3 citrus mealybugs")
    assert "Wipe ivy" in stranger_talk.evening()[0]
    stranger_talk.say("got alcohol")
    assert stranger_talk.say("done")[0].startswith("Written: ivy wiped.")
    done = [payload for _, payload in stranger_talk.told() if isinstance(payload, Treated)]
    assert [one.method for one in done] == [Method.WIPE]
    stranger_talk.passes(days=8)
    stranger_talk.say("swabbed the ivy")
    assert "treatment 2 done" in stranger_talk.say("why ivy")[0]


def test_a_partner_cannot_correct_what_the_other_told(talk: Talk) -> None:
    talk.joins()
    talk.say("hoya 12 longtailed mealybugs")
    before = talk.entries()
    talk.say("it was 2", person=PARTNER)
    assert talk.entries() == before


def test_names_of_new_plants_are_kept_as_typed(talk: Talk) -> None:
    talk.say("Queen of the Night, study, 12 cm")
    assert PlantSet in {type(payload) for plant, payload in talk.told() if plant == "Queen of the Night"}


def test_an_old_button_never_writes_for_another_day(talk: Talk) -> None:
    talk.say("sprayed the calathea and hoya")
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    later = talk.button("Not tonight")
    talk.say("which")
    talk.say("some scale")
    asked = talk.shown[1][-1].buttons[0][0].data
    talk.passes(days=16)
    before = talk.entries()
    for data in (later, asked):
        assert talk.press_data(data) == ["That button is from an earlier message. Please say it in words."]
    assert talk.new_since(len(before)) == []


NEW_HOME = (
    "/start",
    "i live in ghent",
    "monstera, living room, 24cm\nphalaenopsis, living room\npothos, bedroom\nbasil, kitchen window, 12 cm",
    "south",
    "north",
    "its outside with morning sun",
)


def test_a_find_is_told_bit_by_bit_as_people_do(stranger_talk: Talk) -> None:
    talk = stranger_talk
    talk.set_up(NEW_HOME)
    assert talk.say("my monstera has white fluffy bugs in the leaf joints") == [
        "How many on monstera? A number, or few, some, many."
    ]
    assert talk.say("about 20")[0].startswith("Written: 20 mealybugs on monstera.")
    assert talk.say("yes its apart now") == ["Written: monstera is apart."]
    assert talk.say("i put it in the bathroom")[0].startswith(
        "Did you mean “moved monstera to the bathroom”?"
    )
    talk.press("Yes")
    standing = {
        one.name: talk.home.places[one.place].name for one in talk.home.living if one.place is not None
    }
    assert standing["monstera"] == "bathroom"


def test_a_question_is_answered_by_a_name_in_part_or_a_grade(stranger_talk: Talk) -> None:
    talk = stranger_talk
    talk.set_up(NEW_HOME)
    talk.say("monstera has mealybugs")
    assert "many mealybugs on monstera" in talk.say("lots")[0]
    talk.say("swabbed")
    assert talk.say("pothos")[0].startswith("Written: pothos swabbed")


@pytest.mark.parametrize(
    ("text", "on_the_shelf"),
    [
        ("i have neem oil and rubbing alcohol", {"neem": None, "alcohol": None}),
        ("got neem oil concentrate, label says every 9 days", {"neem": 9}),
        ("bought soap, 500 ml, every 8 days", {"soap": 8}),
    ],
)
def test_the_shelf_is_told_in_ones_own_words(
    stranger_talk: Talk, text: str, on_the_shelf: dict[str, int | None]
) -> None:
    stranger_talk.set_up(NEW_HOME)
    stranger_talk.say(text)
    products = stranger_talk.home.products.values()
    assert {product.ingredient: product.label.gap_days for product in products} == on_the_shelf


def test_what_is_asked_in_passing_is_answered(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    assert talk.say("what's the plan")[0].startswith("today, Sat 2 May: wipe hoya, then soap")
    assert talk.say("i forgot")[0].startswith("today, Sat 2 May: wipe hoya, then soap")
    assert talk.say("how's the hoya doing")[0].startswith("hoya: living ones today")
    assert talk.say("is the ivy ok?")[0].startswith("ivy, at study: no pest told")
    assert talk.say("when will this be over")[0].startswith("hoya: ")
    talk.passes(days=1)
    assert talk.say("how's the hoya")[0].startswith("hoya: no look has counted yet;")


def test_a_refusal_with_its_reason_is_one_refusal(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    assert talk.say("can't do it tonight, too tired")[0].startswith("Put off: hoya, tomorrow, Sun 3 May.")


@pytest.mark.parametrize("words", ["away from 30 may to 8 may", "away from 8 may to 12 may to 14 may"])
def test_a_holiday_whose_ends_are_unclear_is_not_guessed(talk: Talk, words: str) -> None:
    before = talk.entries()
    assert talk.say(words)[0].startswith("From when until when?")
    assert talk.entries() == before


def test_a_holiday_that_begins_later_is_kept_with_both_its_ends(talk: Talk) -> None:
    assert talk.say("i'm going on holiday from friday until the 30th of may")[0].startswith(
        "I stay quiet from Fri 8 May until Sat 30 May."
    )


def test_pests_said_to_be_gone_are_asked_for_a_look(talk: Talk) -> None:
    before = talk.entries()
    assert talk.say("the bugs are gone from the hoya")[0].startswith("What did you see on hoya?")
    assert talk.entries() == before


def test_the_last_of_a_product_is_no_longer_planned_with(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    assert talk.say("no soap left")[0].startswith("Written: no insecticidal soap left.")
    assert talk.say("what's due")[0].startswith("today, Sat 2 May: wipe hoya")
    talk.say("got soap, 500 ml")
    assert talk.say("what's due")[0].startswith("today, Sat 2 May: wipe hoya, then soap")


def test_till_when_is_answered_by_a_time_or_a_number_of_days(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("nudge me later today")
    assert talk.say("at 9pm") == ["Put off: hoya, at 21:00 tonight."]
    talk.say("nudge me later today")
    assert talk.say("2 days")[0].startswith("Put off: hoya, Mon 4 May.")


def test_a_grade_and_a_sign_answer_how_many(talk: Talk) -> None:
    talk.say("spider mites on ivy")
    answers = talk.say("loads, and webbing too")
    assert "many spider mites on ivy" in answers[0]
    assert "webbing on ivy" in answers[0]


def test_declining_an_offer_changes_nothing(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("put hoya back")
    before = talk.entries()
    assert talk.say("keep it apart") == ["All right, it stays as it is. Nothing is written."]
    assert talk.entries() == before


def test_a_product_named_with_done_was_used_the_way_it_is_used(talk: Talk) -> None:
    talk.say("no soap left")
    talk.say("hoya 12 longtailed mealybugs")
    assert "Wipe hoya" in talk.evening()[0]
    assert talk.say("did the hoya with soap")[0].startswith("Written: hoya sprayed (soap).")
    talk.say("wiped the leaves of the hoya")
    methods = [payload.method for _, payload in talk.told() if isinstance(payload, Treated)]
    assert methods == [Method.SPRAY, Method.WIPE]


def test_an_empty_shelf_names_what_would_reach_the_pest(talk: Talk) -> None:
    assert (
        "To get: Bacillus thuringiensis israelensis for houseplants and sticky cards."
        in talk.say("some fungus gnats on the ivy")[0]
    )
    talk.say("no soap left")
    answer = talk.say("some spider mites on the hoya")[0]
    assert "To get: horticultural oil for houseplants." in answer


def test_the_history_of_something_that_is_no_plant_is_nobodys(talk: Talk) -> None:
    assert talk.say("history banana")[0].startswith("I know no plant called “banana”")


@pytest.mark.parametrize(("plant", "asks"), [("orchid", True), ("hoya", True), ("ivy", False)])
def test_mites_on_what_other_mites_live_on_are_asked_about_and_fought_as_spider_mites(
    talk: Talk, plant: str, *, asks: bool
) -> None:
    answer = talk.asks(f"{plant} has mites, a few")
    assert ("Sunken silvery patches, no web: flat." in answer) is asks
    labels = [one.label for shown in talk.shown[1] for row in shown.buttons for one in row]
    assert ("cyclamen mite" in labels) is asks
    (case,) = next(one for one in talk.home.living if one.name == plant or plant in one.name).open_cases
    assert case.pest == "spider_mite"
    if asks:
        talk.press("flat mite")
        assert [case.pest for one in talk.home.living for case in one.open_cases] == ["flat_mite"]


def test_a_case_that_is_hard_to_win_says_so_and_offers_to_give_the_plant_up(talk: Talk) -> None:
    talk.set_up(("study is 26 degrees", "usual"))
    (answer,) = talk.say("ivy 8 spider mites")
    assert "Hard to win from 23 °C: cool it." in answer
    assert "Discarded it" in talk.labels()
    assert "Hard to win" in talk.asks("why ivy")
    talk.press("Discarded it")
    assert "ivy" not in [one.name for one in talk.home.living]


def test_a_new_plant_that_is_poisonous_to_the_cat_is_said(talk: Talk) -> None:
    talk.say("we have a cat")
    assert "Poisonous to cats: peace lily" in talk.say("peace lily, kitchen")[0]


@pytest.mark.parametrize(
    ("words", "method"),
    [("i gave it a shower instead", Method.RINSE), ("washed it under the tap", Method.RINSE)],
)
def test_another_way_than_was_asked_is_of_the_one_plant_asked(talk: Talk, words: str, method: Method) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert [(plant, one.method) for plant, one in talk.told() if isinstance(one, Treated)] == [
        ("hoya", method)
    ]


@pytest.mark.parametrize(
    "words",
    [
        "the ivy cannot be unpotted, full stop",
        "ivy stays in its pot",
        "no clean-out for the ivy",
        "the ivy will not be repotted",
    ],
)
def test_a_plant_that_stays_in_its_pot_is_asked_for_no_clean_out_any_more(talk: Talk, words: str) -> None:
    talk.say("ivy 40 citrus mealybugs")
    assert "lean-out" in "".join(talk.evening())
    talk.say(words)
    assert "no clean-out" in talk.shown[1][-1].text
    talk.passes(days=1)
    for _ in range(6):
        asked = "".join(talk.evening())
        assert "lean-out" not in asked
        talk.say("ivy done")
        talk.say("ivy 9 citrus mealybugs")
        talk.passes(days=3)


def test_a_clean_out_left_for_tonight_is_no_trait_of_the_plant(talk: Talk) -> None:
    talk.say("ivy 40 citrus mealybugs")
    talk.evening()
    for words in ("no clean-out for the ivy tonight", "no clean-out for the ivy yet"):
        talk.say(words)
    assert "cannot-lift" not in next(one for one in talk.home.living if one.name == "ivy").traits
