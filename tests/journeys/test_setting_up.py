from datetime import time

import pytest

from bot.domain.journal import HouseholdSet, PlaceSet, PlantSet, ProductSet
from bot.domain.trade import Form
from bot.domain.window import Facing, Outdoors
from tests.journeys.talking import HOME, PARTNER, Talk


@pytest.fixture
def talk(stranger_talk: Talk) -> Talk:
    return stranger_talk


def test_start_asks_for_the_town_and_nothing_else(talk: Talk) -> None:
    (answer,) = talk.say("/start")
    assert answer.startswith("Hello Ada.")
    assert "Which town are the plants in?" in answer
    assert talk.entries() == ()


def test_a_town_by_its_english_name_gives_zone_and_clock(talk: Talk) -> None:
    talk.say("/start")
    (answer,) = talk.say("Ghent")
    assert answer.startswith("Written: Ghent, Europe/Brussels. Your clock shows 10:00.")
    assert talk.told() == [
        (None, HouseholdSet(town="Ghent", latitude=51.0, longitude=3.7, zone="Europe/Brussels"))
    ]


def test_one_of_many_springfields_is_chosen_by_button(talk: Talk) -> None:
    talk.say("/start")
    assert talk.say("Springfield") == ["There are 8 places called Springfield. Which one?"]
    assert talk.told() == []
    assert talk.press("Springfield, Illinois, US")[0].startswith("Written: Springfield, America/Chicago.")
    assert talk.home.zone_name == "America/Chicago"


def test_a_shared_location_is_kept_to_a_tenth_of_a_degree(talk: Talk) -> None:
    talk.say("/start")
    (answer,) = talk.share(51.0543, 3.7174)
    assert answer.startswith("Written: 51.1, 3.7, Europe/Brussels.")
    assert talk.told() == [
        (None, HouseholdSet(town="51.1, 3.7", latitude=51.1, longitude=3.7, zone="Europe/Brussels"))
    ]


def test_typed_coordinates_do_as_well(talk: Talk) -> None:
    talk.say("/start")
    assert talk.say("-33.9, 151.2")[0].startswith("Written: -33.9, 151.2, Australia/Sydney.")


def test_plants_come_one_a_line_with_place_and_pot(talk: Talk) -> None:
    talk.set_up(HOME[:2])
    (answer,) = talk.say(HOME[2])
    assert answer.startswith(
        "Written, 5 plants:\nlanding: hoya and small hoya\nkitchen: moth orchid and coffee plant\nstudy: ivy\n\n"
        "Which way do the windows look: landing, kitchen and study?"
    )
    home = talk.home
    assert [plant.name for plant in home.living] == [
        "hoya",
        "small hoya",
        "moth orchid",
        "coffee plant",
        "ivy",
    ]
    assert [one.pot_cm for _, one in talk.told() if isinstance(one, PlantSet)][:2] == [15, None]
    assert [place.name for place in home.places.values()] == ["landing", "kitchen", "study"]


def test_the_window_question_is_answered_by_button_then_by_word(talk: Talk) -> None:
    talk.set_up(HOME[:3])
    (answer,) = talk.press("no window")
    assert answer.startswith(
        "Written: landing (no window).\n\nWhich way do the windows look: kitchen and study?"
    )
    assert talk.say("west")[0].startswith(
        "Written: kitchen (looks west).\n\nWhich way does the window at study"
    )
    (answer,) = talk.say("north east")
    assert answer.startswith("Written: study (looks north-east).\n\nThat will do. I write at 20:00")
    assert talk.labels()[-1] == "Nothing yet"
    facings = [one.facing for _, one in talk.told() if isinstance(one, PlaceSet)]
    assert facings == [None, None, None, Facing.NONE, Facing.W, Facing.NE]


def test_a_window_can_stay_unknown_and_counts_as_sun_all_day(talk: Talk) -> None:
    talk.set_up(HOME[:3])
    assert talk.press("don't know")[0].startswith(
        "Written: landing (window unknown: I treat it as sun all day)."
    )


def test_a_balcony_and_a_lamp_are_told_in_a_sentence(talk: Talk) -> None:
    talk.set_up(HOME[:3])
    assert talk.say("balcony is outdoors, afternoon sun")[0].startswith(
        "Written: balcony (outdoors, afternoon sun)."
    )
    assert talk.say("landing has no window, light until 18:00")[0].startswith(
        "Written: landing (no window, grow light until 18:00)."
    )
    places = {place.name: place for place in talk.home.places.values()}
    assert places["balcony"].outdoors is Outdoors.AFTERNOON
    assert places["landing"].lamp_until == time(18)


def test_a_plant_told_twice_is_one_plant(talk: Talk) -> None:
    talk.set_up(HOME[:2])
    answer = talk.asks("hoya, landing\nHoya, landing\nfern, landing")
    assert "Written, 2 plants:" in answer
    assert "I have Hoya already." in answer
    talk.say("new plant: hoya, landing")
    assert [plant.name for plant in talk.home.living] == ["hoya", "fern"]


def test_start_again_says_what_is_still_missing(talk: Talk) -> None:
    talk.say("/start")
    assert talk.say("/start") == [
        "Good to see you. Which town are the plants in? A shared location will do too."
    ]
    talk.say("Gent")
    assert talk.say("/start") == ["Good to see you. Send your plants one a line, like “hoya, landing”."]
    talk.say("hoya, landing")
    assert talk.say("/start") == [
        "Good to see you. “what's due”, “what is apart?” and “help” are good first words."
    ]


def test_the_evening_stays_out_of_the_quiet_hours(talk: Talk) -> None:
    talk.set_up()
    before = len(talk.entries())
    assert talk.say("nudge me at 23:00")[0].startswith("An evening at 23:00 would lie in your quiet hours")
    assert len(talk.entries()) == before
    assert talk.say("nudge me at 19:30") == ["Written: evening at 19:30, quiet from 22:00 to 08:00."]
    assert talk.say("quiet 23-7") == ["Written: evening at 19:30, quiet from 23:00 to 07:00."]
    assert talk.say("settings")[0].startswith(
        "Town: Gent, Europe/Brussels\nEvening: 19:30\nQuiet: 23:00 to 07:00\nMeasures: metric measures and °C, 24 hours\n3 places, 5 plants\n"
    )


def test_the_shelf_keeps_what_the_label_says_and_marks_what_is_assumed(talk: Talk) -> None:
    talk.set_up(HOME[:6])
    assert talk.say("shelf") == [
        "The shelf is empty. Say for instance “got soap, ready to use, every 7 days”."
    ]
    assert talk.say("got alcohol")[0].startswith(
        "On the shelf: isopropyl alcohol, every 3 days at the soonest (assumed: what does your label say?).\n"
        "Highly flammable"
    )
    assert talk.say("got alcohol, every 5 days")[0].startswith(
        "On the shelf: isopropyl alcohol, every 5 days at the soonest."
    )
    assert talk.say("bought 500 ml soap concentrate")[0].startswith(
        "On the shelf: insecticidal soap, concentrate, 500 mL, every 7 days at the soonest (assumed"
    )
    shelf = [one for _, one in talk.told() if isinstance(one, ProductSet)]
    assert [(one.ingredient, one.label.form, one.label.gap_days) for one in shelf] == [
        ("alcohol", None, None),
        ("alcohol", None, 5),
        ("soap", Form.CONCENTRATE, None),
    ]
    assert talk.say("shelf") == [
        "On the shelf:\nisopropyl alcohol, every 5 days\ninsecticidal soap, every 7 days, 500 mL"
    ]


def test_questions_before_any_plant_say_how_to_begin(talk: Talk) -> None:
    talk.set_up(HOME[:2])
    for text in ("isolated?", "what's due", "why"):
        assert talk.say(text) == ["I know no plants yet. Send them one a line, like “hoya, landing”."]


def test_plants_are_listed_by_place(talk: Talk) -> None:
    talk.set_up()
    talk.say("new plant: fern")
    (answer,) = talk.say("plants")
    assert answer.startswith(
        "landing: hoya and small hoya\nkitchen: moth orchid and coffee plant\nstudy: ivy"
    )
    assert answer.endswith("6 plants in all.")


def test_nobody_else_may_found_a_household_but_a_partner_may_speak(talk: Talk) -> None:
    talk.set_up()
    assert talk.say("/start", person=PARTNER)[0].startswith("This bot keeps one home's plants")
    talk.joins()
    assert talk.say("/start", person=PARTNER) == [
        "Good to see you. “what's due”, “what is apart?” and “help” are good first words."
    ]


@pytest.mark.parametrize(
    ("text", "standing"),
    [
        (
            "hey! i've got a monstera and a fern, both in the living room",
            {"monstera": "living room", "fern": "living room"},
        ),
        ("We have an ivy on the sill and a hoya in the bathroom.", {"ivy": "sill", "hoya": "bathroom"}),
        ("I have a palm", {"palm": None}),
    ],
)
def test_plants_are_told_as_to_a_friend(
    stranger_talk: Talk, text: str, standing: dict[str, str | None]
) -> None:
    stranger_talk.set_up(("/start", "Gent"))
    stranger_talk.say(text)
    home = stranger_talk.home
    found = {one.name: home.places[one.place].name if one.place else None for one in home.living}
    assert found == standing


def test_a_sentence_is_no_plant(stranger_talk: Talk) -> None:
    stranger_talk.set_up(("/start", "Gent"))
    for text in (
        "hi! what do you need, exactly",
        "i've got no idea what they are called, sorry!",
        "we have them everywhere?",
    ):
        stranger_talk.say(text)
        assert stranger_talk.home.living == [], text


@pytest.mark.parametrize("text", ["living room faces south-west", "the living room faces south west"])
def test_a_room_is_a_place(stranger_talk: Talk, text: str) -> None:
    stranger_talk.set_up(("/start", "Gent", "fern, landing", "no window"))
    assert stranger_talk.say(text)[0].startswith("Written: living room (looks south-west).")
    assert stranger_talk.say("monstera, living room")[0].startswith(
        "Written, 1 plant:\nliving room: monstera"
    )


@pytest.mark.parametrize("town", ["Ghent", "gent", "I live in Ghent"])
def test_the_town_may_be_told_behind_a_find_that_came_first(talk: Talk, town: str) -> None:
    talk.say("/start")
    talk.say("hoya 12 mealybugs")
    told = talk.say(town)
    if "Yes" in talk.labels():
        told = talk.press("Yes")
    assert "ent, Europe/Brussels" in " ".join(told)
    assert talk.home.town == town.title().rpartition(" ")[2]


@pytest.mark.parametrize("text", ["nothing yet", "I've nothing yet", "no sprays", "nothing at hand"])
def test_who_has_nothing_to_treat_with_is_told_what_to_get(stranger_talk: Talk, text: str) -> None:
    told = (
        "/start",
        "my hoya has 12 mealybugs",
        "Gent",
        "hoya and ivy in the kitchen",
        "kitchen faces north",
    )
    for one in told:
        stranger_talk.say(one)
    count = len(stranger_talk.entries())
    (answer,) = stranger_talk.say(text)
    assert answer.startswith("For hoya nothing on the shelf fits. Look for ")
    assert not stranger_talk.new_since(count)


def test_nothing_seen_yet_is_no_question_of_what_to_get(stranger_talk: Talk) -> None:
    for one in ("/start", "Gent", "hoya and ivy in the kitchen", "kitchen faces north"):
        stranger_talk.say(one)
    (answer,) = stranger_talk.say("nothing yet")
    assert "Look for" not in answer


def _standing(talk: Talk) -> dict[str, str | None]:
    home = talk.home
    return {one.name: home.places[one.place].name if one.place else None for one in home.living}


def _windows(talk: Talk) -> dict[str, Facing | None]:
    return {one.name: one.facing for one in talk.home.places.values()}


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("the snuggery", "snuggery"),
        ("Potting hut.", "Potting hut"),
        ("in the inglenook, north window", "inglenook"),
        ("belvedere. no window there, only a lamp", "belvedere"),
    ],
)
def test_whatever_answers_where_a_plant_stands_is_its_place(talk: Talk, text: str, place: str) -> None:
    for one in ("/start", "my hoya has 12 mealybugs", "Gent", text):
        talk.say(one)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert _standing(talk) == {"hoya": place}


@pytest.mark.parametrize(
    "text",
    [
        "snuggery: hoya, ivy. tap room, west: yucca",
        "- snuggery: hoya and ivy\n- tap room, west window: yucca",
        "hoya and ivy in the snuggery, the yucca in the tap room, tap room faces west",
    ],
)
def test_a_room_nobody_listed_is_a_place_where_one_stands(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent"))
    talk.say(text)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert _standing(talk) == {"hoya": "snuggery", "ivy": "snuggery", "yucca": "tap room"}
    assert _windows(talk)["tap room"] is Facing.W


@pytest.mark.parametrize(
    "text",
    [
        "hoya and ivy in the study, lamp only",
        "the study has a hoya and an ivy under a grow light",
        "study, just a dim little lamp: hoya, ivy",
        "hoya and ivy stand in the study and there is only artificial lamp light",
    ],
)
def test_a_lamp_alone_is_no_window(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent"))
    talk.say(text)
    assert _windows(talk) == {"study": Facing.NONE}


def test_a_lamp_beside_a_window_is_no_lack_of_one(talk: Talk) -> None:
    talk.set_up(("/start", "Gent"))
    talk.say("hoya in the study, east window with a lamp")
    assert _windows(talk) == {"study": Facing.E}


@pytest.mark.parametrize(
    "text",
    [
        "hoya and ivy in the attic, yucca in the den, both north",
        "attic: hoya, ivy. den: yucca. attic and den face north",
        "attic, north: hoya, ivy\nden same: yucca",
    ],
)
def test_windows_told_together_are_of_each(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent"))
    talk.say(text)
    assert _standing(talk) == {"hoya": "attic", "ivy": "attic", "yucca": "den"}
    assert _windows(talk) == {"attic": Facing.N, "den": Facing.N}


@pytest.mark.parametrize(
    ("text", "standing"),
    [
        ("my hoya, not the kitchen, the hall", {"hoya": "hall"}),
        ("the hoya is in the hall not in the kitchen", {"hoya": "hall"}),
        ("hoya in the hall. not an ivy", {"hoya": "hall"}),
        ("an ivy, no wait, it's a hoya in the hall", {"hoya": "hall"}),
    ],
)
def test_what_is_denied_is_not_written(talk: Talk, text: str, standing: dict[str, str]) -> None:
    talk.set_up(("/start", "Gent"))
    talk.say(text)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert _standing(talk) == standing
    assert "kitchen" not in _windows(talk)


@pytest.mark.parametrize(
    "text",
    [
        "um, well, ta, I've a poor lil hoya and the sad ivy in the den",
        "hang on. right, mornin. hoya and ivy in the den",
        "sweet as, the den w/ a hoya and an ivy, pet",
    ],
)
def test_small_talk_is_no_plant_and_no_part_of_a_name(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent"))
    talk.say(text)
    assert _standing(talk) == {"hoya": "den", "ivy": "den"}


OFFERED = "a hoya and a philodndron in the kitchen, a yucca in the hall and the hoya has 12 mealybugs"


@pytest.mark.parametrize(
    ("put_right", "standing"),
    [
        ("no, the hoya is in the hall", {"hoya": "hall", "philodendron": "kitchen", "yucca": "hall"}),
        ("hoya in the study, not the kitchen", {"hoya": "study", "philodendron": "kitchen", "yucca": "hall"}),
        ("the yucca is in the den", {"hoya": "kitchen", "philodendron": "kitchen", "yucca": "den"}),
    ],
)
@pytest.mark.parametrize("first", ["", "Something else"])
def test_an_offer_put_right_loses_nothing_of_the_rest(
    talk: Talk, first: str, put_right: str, standing: dict[str, str]
) -> None:
    talk.set_up(("/start", "Gent"))
    assert talk.say(OFFERED)[0].startswith(
        "Did you mean “kitchen: hoya, philodendron; hall: yucca; 12 mealybugs on hoya”"
    )
    if first:
        assert talk.press(first)[0].startswith("What is wrong in it?")
    talk.say(put_right)
    talk.press("Yes")
    assert _standing(talk) == standing
    assert [(one.name, one.cases[0].finds[0].count) for one in talk.home.living if one.cases] == [
        ("hoya", 12)
    ]


@pytest.mark.parametrize(
    "put_right", ["No, not hoya. Ivy.", "wrong, it's not the hoya, it's the ivy", "not the hoya, an ivy"]
)
def test_a_find_goes_to_the_plant_that_was_meant(talk: Talk, put_right: str) -> None:
    for one in ("/start", "white flies on the hoya, ten, quite unsettling", put_right):
        talk.say(one)
    talk.press("Yes")
    assert [(one.name.lower(), one.cases[0].finds[0].count) for one in talk.home.living] == [("ivy", 10)]


@pytest.mark.parametrize(
    "text",
    [
        "I live in the city of Gent. hoya in the den, no window",
        "gent. den, no window: hoya",
        "hoya in the den, no window. gent",
    ],
)
def test_a_town_within_a_longer_message_is_heard(talk: Talk, text: str) -> None:
    talk.say("/start")
    talk.say(text)
    assert (talk.home.town, _standing(talk)) == ("Gent", {"hoya": "den"})


@pytest.mark.parametrize("text", ["ivy in the bedrom", "ivy, bedroon", "an ivy stands in the bedrrom"])
def test_a_misspelt_place_founds_no_second_one(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent", "hoya in the bedroom", "north"))
    talk.say(text)
    assert set(_windows(talk)) == {"bedroom"}
    talk.press(next(one for one in talk.labels() if one in {"Yes", "Add ivy"}))
    assert set(_windows(talk)) == {"bedroom"}


@pytest.mark.parametrize(
    "text",
    [
        "hall: fern, yucca. den south: pothos, jade",
        "the hall has a fern and a yucca, and in the den, facing south, are a pothos and a jade",
        "hall, no window: fern and yucca\nden, south window: pothos and jade",
    ],
)
def test_plants_told_after_the_setting_up_are_heard_with_their_places(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent", "hoya in the kitchen", "north", "hoya 12 mealybugs", "got soap"))
    talk.say(text)
    if "Yes" in talk.labels():
        talk.press("Yes")
    standing = {"hoya": "kitchen", "fern": "hall", "yucca": "hall", "pothos": "den", "jade": "den"}
    assert _standing(talk) == standing
    assert _windows(talk)["den"] is Facing.S


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("wipe with what?", "Wiping"),
        ("er, wipe it how", "Wiping"),
        ("swab with what exactly?", "Swabbing"),
        ("which leaves do I prune?", "Cutting back"),
        ("rinse which side?", "Rinsing"),
        ("where should I move it?", "Keeping a plant apart"),
        ("put it apart where?", "Keeping a plant apart"),
        ("do they bite us?", "Bite: None of these feeds on people"),
    ],
)
def test_a_short_question_back_is_answered(talk: Talk, text: str, said: str) -> None:
    talk.set_up(("/start", "Gent", "hoya in the hall", "north", "hoya 12 mealybugs"))
    count = len(talk.entries())
    assert talk.say(text)[0].startswith(said)
    assert not talk.new_since(count)


@pytest.mark.parametrize(
    "text",
    [
        "I think my hoya in the den has 4 mealybugs?",
        "so if it's ok, the den has a hoya and it has 4 mealybugs",
        "I've a hoya in the den with 4 mealybugs, if that helps?",
        "hoya in the den, 4 mealybugs on it, would soap do?",
    ],
)
def test_what_is_told_shyly_or_beside_a_question_is_told(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent"))
    talk.say(text)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert _standing(talk) == {"hoya": "den"}
    assert [one.cases[0].finds[0].count for one in talk.home.living] == [4]


@pytest.mark.parametrize(
    "text",
    [
        "big old weeping fig from my grandmother in the study",
        "weeping fig from grandma, study",
        "the huge old yucca from my aunt, hall",
    ],
)
def test_a_list_of_plants_is_no_accident(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent"))
    (answer,) = talk.say(text)
    assert "poison" not in answer
    assert list(_standing(talk).values()) in (["study"], ["hall"])


@pytest.mark.parametrize(
    "text",
    [
        "my baby got the dieffenbachia in the kitchen",
        "the cat had the lily in the hall",
        "dieffenbachia sap in my eye",
    ],
)
def test_an_accident_while_a_home_is_told_is_heard(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent"))
    before = len(talk.entries())
    (answer,) = talk.say(text)
    assert "poison centre" in answer
    assert not talk.new_since(before)


@pytest.mark.parametrize("text", ["patio not patoi", "sorry, patio, not patoi", "I meant patio not patoi!"])
def test_a_place_told_with_a_slip_is_put_right(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent", "hoya in the hall", "north", "patoi is outdoors"))
    if "Yes" in talk.labels():
        talk.press("Yes")
    talk.say(text)
    assert set(_windows(talk)) == {"hall", "patio"}


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("number four weeping fig from the office window, study", "weeping fig 4"),
        ("nr 3 yucca from the hall, study", "yucca 3"),
        ("number 2 hoya from the kitchen, now in the study", "hoya 2"),
    ],
)
def test_a_number_told_before_a_name_is_of_its_name(talk: Talk, text: str, name: str) -> None:
    talk.set_up(("/start", "Gent"))
    talk.say(text)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert _standing(talk) == {name: "study"}


@pytest.mark.parametrize(
    "text", ["got 16 oz of neem oil", "I have neem oil, 16 oz", "16 ounces neem oil at home"]
)
def test_how_much_there_is_of_a_product_is_kept(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Portland, Oregon", "hoya in the hall", "north"))
    talk.say(text)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert [round(one.stock_ml or 0) for one in talk.home.products.values()] == [
        473
    ]  # 16 US fl oz of 29.57 mL


@pytest.mark.parametrize("text", ["i have sope", "got some sope", "there is sope in the cupboard"])
def test_a_product_spelt_by_ear_is_offered(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent", "hoya in the hall", "north"))
    count = len(talk.entries())
    assert "soap" in talk.say(text)[0]
    assert not talk.new_since(count)


@pytest.mark.parametrize("text", ["hoya has 3 mealybugs", "got soap", "what's due"])
def test_the_windows_are_asked_once_and_not_under_every_answer(talk: Talk, text: str) -> None:
    talk.set_up(("/start", "Gent"))
    assert "Which way do the windows look" in talk.say("hoya in the hall, ivy in the den")[0]
    assert "window" not in talk.say(text)[0]


@pytest.mark.parametrize("text", ["moved the ivy to the guest room", "Took the ivy into the guest room"])
def test_a_plant_taken_to_a_new_room_has_that_room_made(talk: Talk, text: str) -> None:
    talk.set_up()
    talk.say(text)
    talk.press("Yes")
    assert _standing(talk)["ivy"] == "guest room"


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("lemon on friday", "lemon"),
        ("fern and pothos are fine", "fern"),
        ("my fern has seen better days", "fern"),
    ],
)
def test_a_plant_named_by_a_part_of_its_name_is_no_new_one(talk: Talk, text: str, name: str) -> None:
    talk.set_up(("/start", "Gent", "boston fern, pothos and lemon tree in the hall", "hall faces north"))
    talk.say(text)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert name not in _standing(talk)
    assert len(_standing(talk)) == len(("boston fern", "pothos", "lemon tree"))


def test_who_tells_a_window_with_the_place_that_was_asked_for_tells_both(talk: Talk) -> None:
    talk.set_up(("/start", "Gent", "my hoya has 12 mealybugs", "it is in the den, big windows to the south"))
    assert _standing(talk) == {"hoya": "den"}
    assert _windows(talk) == {"den": Facing.S}


def test_the_others_are_those_that_were_not_told(talk: Talk) -> None:
    talk.set_up(
        ("/start", "Gent", "study: hoya. den: ivy. attic: fern", "den faces south, the others are north")
    )
    assert _windows(talk) == {"study": Facing.N, "den": Facing.S, "attic": Facing.N}


OF_ONE_PLACE = "grimdle (no window, lamp): hoya, agave, zimmet"


@pytest.mark.parametrize("first", ["", "Something else"])
@pytest.mark.parametrize(
    ("told", "now"),
    [
        ("cold grimdle it is called, not grimdle", "cold grimdle (no window, lamp): hoya, agave, zimmet"),
        ("The place is called wold room, not grimdle.", "wold room (no window, lamp): hoya, agave, zimmet"),
        (
            "wrong. not 'grimdle'. place is cold orrel, window south",
            "cold orrel (s): hoya, agave, zimmet",
        ),
        ("it's a wee grimdle, not just a grimdle", "wee grimdle (no window, lamp): hoya, agave, zimmet"),
        ("rename grimdle: brask", "brask (no window, lamp): hoya, agave, zimmet"),
        ("remove zimmet", "grimdle (no window, lamp): hoya, agave"),
        ("there is no plant called zimmet", "grimdle (no window, lamp): hoya, agave"),
        ("no, zimmet is a place", "grimdle (no window, lamp): hoya, agave"),
    ],
)
def test_what_is_put_right_in_an_offer_changes_that_and_keeps_the_rest(
    talk: Talk, first: str, told: str, now: str
) -> None:
    talk.say("/start")
    assert OF_ONE_PLACE in talk.say("I live in Ghent. grimdle: hoya, agave, zimmet (lamp only)")[0]
    if first:
        talk.press(first)
    assert talk.say(told) == [f"Did you mean “{now}”? Not written yet."]


@pytest.mark.parametrize(
    ("told", "name"),
    [
        ("it's called rear lounge", "rear lounge"),
        ("sorry, it is the far lounge, not the lounge", "far lounge"),
        ("not the lounge, the sunroom", "sunroom"),
        ("there is no lounge, only upper lounge", "upper lounge"),
    ],
)
def test_a_room_that_was_named_wrong_is_called_what_it_is(talk: Talk, told: str, name: str) -> None:
    talk.set_up(("/start", "Gent", "lounge: aloe and jade"))
    assert talk.say(told) == [f"Did you mean “rename lounge to {name}”? Not written yet."]
    talk.press("Yes")
    assert _standing(talk) == {"aloe": name, "jade": name}


def test_what_is_told_beside_a_better_name_is_read_too(talk: Talk) -> None:
    talk.set_up(("/start", "Gent", "lounge: aloe"))
    talk.say("it is west lounge, not lounge. Also pantry: two figs, north window")
    talk.press("Yes")
    assert _standing(talk) == {"aloe": "west lounge", "fig 1": "pantry", "fig 2": "pantry"}
    assert _windows(talk)["pantry"] is Facing.N


@pytest.mark.parametrize(
    ("told", "windows"),
    [
        ("no clue about the attic", {"attic": Facing.UNKNOWN}),
        ("could not tell you for the den", {"den": Facing.UNKNOWN}),
        ("den is east, no idea about the attic", {"den": Facing.E, "attic": Facing.UNKNOWN}),
        ("it is north", {"attic": Facing.N}),
        ("all of them face west", {"attic": Facing.W, "den": Facing.W}),
    ],
)
def test_a_window_told_is_that_of_the_room_that_is_meant(
    talk: Talk, told: str, windows: dict[str, Facing]
) -> None:
    talk.set_up(("/start", "Gent", "attic: aloe. den: jade", told))
    assert {name: way for name, way in _windows(talk).items() if way is not None} == windows


def test_the_same_place_is_where_the_last_plant_went(talk: Talk) -> None:
    talk.set_up(("/start", "Gent", "aloe", "snug", "west", "jade", "same"))
    assert _standing(talk) == {"aloe": "snug", "jade": "snug"}


def test_a_town_that_was_asked_for_is_no_room_of_its_name(talk: Talk) -> None:
    talk.set_up(("/start", "aloe with mealybugs", "Bath"))
    assert talk.home.town == "Bath"
    assert not talk.home.places


def test_a_town_that_is_led_in_is_written_though_the_rest_is_only_offered(stranger_talk: Talk) -> None:
    stranger_talk.say("/start")
    answer = "\n".join(stranger_talk.say("so we live in Tampere and the den has an ivy and a fern, zomaar"))
    assert answer.startswith("Written: Tampere")
    assert answer.count("?") == 1, "one open question"
    assert "Which town" not in "\n".join(stranger_talk.press("Yes"))


def test_a_town_that_must_be_asked_about_is_offered_with_the_rest(stranger_talk: Talk) -> None:
    stranger_talk.say("/start")
    answer = stranger_talk.say(
        "hee Ada we live in Springfield and in the den stand the ivy and the fern zomaar"
    )[0]
    assert answer.startswith("Did you mean “Springfield; den: ivy, fern”")
    assert "Written, 2 plants" in stranger_talk.press("Yes")[0]
