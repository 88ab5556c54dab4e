"""What stands in the journal is what was told: no round lost, none made up, nobody's word taken back by another."""

import pytest

from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.log_sign import LogSign
from bot.actions.set_place import SetPlace
from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import CheckedClean, Found, IsolatedNow, Treated, WorkTicked
from bot.domain.trade import Level, Method, Sign
from bot.domain.window import Facing
from tests.journeys.talking import PARTNER, Talk


def rounds(talk: Talk) -> list[tuple[str | None, Method, str | None]]:
    products = talk.home.products
    return [
        (plant, payload.method, None if payload.product is None else products[payload.product].ingredient)
        for plant, payload in talk.told()
        if isinstance(payload, Treated)
    ]


HOYA = PlantId(1)
SOAP = ("hoya", Method.SPRAY, "soap")
SPINOSAD = ("hoya", Method.SPRAY, "spinosad")


@pytest.fixture
def treated(talk: Talk) -> Talk:
    talk.say("got spinosad")
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("sprayed hoya with soap")
    assert rounds(talk) == [SOAP]
    return talk


@pytest.mark.parametrize(
    "words",
    ["sprayed hoya with spinosad", "hoya sprayed with spinosad", "sprayed the hoya today with spinosad"],
)
def test_the_same_day_with_another_product_is_asked_and_not_dropped(treated: Talk, words: str) -> None:
    assert "instead, or besides?" in treated.say(words)[0]
    assert rounds(treated) == [SOAP]
    treated.press("Besides soap")
    assert rounds(treated) == [SOAP, SPINOSAD]


def test_instead_takes_the_earlier_entry_back(treated: Talk) -> None:
    treated.say("sprayed hoya with spinosad")
    treated.press("Instead of soap")
    assert rounds(treated) == [SPINOSAD]


def test_told_twice_is_written_once_and_said_so(treated: Talk) -> None:
    for words in ("sprayed hoya with soap", "sprayed the hoya", "hoya sprayed with soap"):
        answer = treated.say(words)[0]
        assert answer.startswith("Stood there already")
        assert "Written" not in answer.splitlines()[0]
    assert rounds(treated) == [SOAP]


def test_a_product_told_after_the_round_completes_it(talk: Talk) -> None:
    talk.say("got neem")
    talk.say("sprayed ivy")
    assert rounds(talk) == [("ivy", Method.SPRAY, None)], (
        "two products are on the shelf, and nobody asked for one"
    )
    talk.say("sprayed ivy with neem")
    assert rounds(talk) == [("ivy", Method.SPRAY, "neem")]


def test_what_both_told_stands_when_one_takes_it_back(treated: Talk) -> None:
    treated.joins()
    treated.say("sprayed hoya with soap", person=PARTNER)
    assert len(treated.home.plants[HOYA].treatments) == 1, "two words, one round"
    treated.say("undo")
    assert rounds(treated) == [SOAP], "the other's word stands"
    treated.say("undo", person=PARTNER)
    assert rounds(treated) == []


DONES = ["done", "all done", "did it all", "finished"]


@pytest.mark.parametrize("words", DONES)
def test_a_bare_done_writes_what_was_announced_and_no_plant_of_no_message(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(minutes=5)
    talk.tell(LogSign(plants=(PlantId(5),), sign=Sign.WEBBING))
    talk.say(words)
    assert {plant for plant, _, _ in rounds(talk)} == {"hoya"}


@pytest.mark.parametrize("words", DONES)
def test_what_changed_after_it_was_announced_is_asked(talk: Talk, words: str) -> None:
    talk.say("hoya 3 longtailed mealybugs")
    talk.evening()
    asked = {(task.method, task.product) for task in talk.home.nudge.tasks} if talk.home.nudge else set()
    talk.passes(minutes=5)
    talk.say("hoya many longtailed mealybugs")
    answer = talk.say(words)[0]
    assert rounds(talk) == [], answer
    assert "full clean-out" in answer.lower() or "cleaned out" in answer
    talk.press("Full clean-out done")
    assert [method for _, method, _ in rounds(talk)][:1] == [Method.CLEAN_OUT]
    assert asked


@pytest.mark.parametrize("words", DONES)
@pytest.mark.parametrize(
    "putting_right", ["the 40 on the hoya were 3", "undo", "it was 4 on the hoya not 40"]
)
def test_what_was_put_right_and_never_named_is_asked(talk: Talk, words: str, putting_right: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.passes(minutes=5)
    assert "clean-out" in "".join(talk.say("hoya 40 longtailed mealybugs"))
    talk.passes(minutes=5)
    talk.say(putting_right)
    if "Change it" in talk.labels():
        talk.press("Change it")
    assert "nothing is written yet" in talk.say(words)[0]
    assert rounds(talk) == []
    talk.press("All of that")
    assert [method for _, method, _ in rounds(talk)] == [Method.WIPE, Method.SPRAY]


def test_a_product_that_no_answer_named_is_asked_about(talk: Talk) -> None:
    talk.say("ivy 8 longtailed mealybugs")
    talk.say("used up all the soap")
    talk.say("no soap left")
    talk.say("got spinosad")
    answer = talk.say("done")[0]
    assert "spinosad" not in {product for _, _, product in rounds(talk)}, answer


def test_an_evening_after_the_change_names_it_and_done_is_enough(talk: Talk) -> None:
    talk.say("hoya 40 longtailed mealybugs")
    talk.say("the 40 on the hoya were 3")
    talk.press("Change it")
    talk.evening()
    talk.say("done")
    assert [method for _, method, _ in rounds(talk)] == [Method.SWAB]


def test_an_evening_that_no_message_named_is_asked_about(talk: Talk) -> None:
    talk.say("ivy 28 spider mites", at=talk.now.replace(hour=21))
    talk.passes(days=1)  # nobody looked at the clock meanwhile: the bot was down
    assert "nothing is written yet" in talk.say("done")[0]
    assert rounds(talk) == []


def test_of_two_clean_outs_one_is_asked_about_after_the_other(talk: Talk) -> None:
    talk.say("hoya many longtailed mealybugs")
    talk.say("ivy many longtailed mealybugs")
    talk.evening()
    (answer,) = talk.say("done")
    assert answer.startswith("hoya: ")
    assert talk.labels() == ["Full clean-out done", "Wiped"]
    assert "ivy: cleaned out or wiped?" in talk.press("Wiped")[0]
    assert rounds(talk) == [("hoya", Method.WIPE, None)]
    talk.say("did the clean out")
    assert rounds(talk)[1:] == [("ivy", Method.CLEAN_OUT, None)], "only of the plant that was asked about"


@pytest.mark.parametrize("words", ["done except ivy", "all but the ivy", "did all except ivy"])
def test_what_is_left_out_is_not_said_to_be_no_treatment(talk: Talk, words: str) -> None:
    talk.say("ivy 8 longtailed mealybugs")
    talk.evening()
    (answer,) = talk.say(words)
    assert "No treatment" not in answer
    assert "Still open tonight: wipe ivy, then soap." in answer
    assert rounds(talk) == []


@pytest.mark.parametrize("words", ["dnoe", "doen", "doone", "finshed"])
def test_a_misspelt_done_alone_is_offered(talk: Talk, words: str) -> None:
    talk.say("ivy 8 longtailed mealybugs")
    talk.evening()
    assert "Did you mean “" in talk.say(words)[0]
    assert rounds(talk) == []
    talk.press("Yes")
    assert {plant for plant, _, _ in rounds(talk)} == {"ivy"}


def test_a_clean_out_that_is_told_is_not_asked_about_again(talk: Talk) -> None:
    talk.say("hoya many longtailed mealybugs")
    talk.say("ivy 8 longtailed mealybugs")
    talk.evening()
    talk.press("Full clean-out done")
    before = rounds(talk)
    answer = talk.say("done")[0]
    assert "cleaned out or" not in answer
    assert {plant for plant, _, _ in rounds(talk)[len(before) :]} == {"ivy"}


def test_an_earlier_evenings_button_writes_what_its_message_said(talk: Talk) -> None:
    talk.say("hoya 3 longtailed mealybugs")
    talk.evening()
    announced = talk.home.nudge
    assert announced is not None
    button = talk.button("All done")
    talk.passes(days=1)
    talk.say("hoya many longtailed mealybugs")
    talk.press_data(button)
    told = [(payload.method, payload.product) for _, payload in talk.told() if isinstance(payload, Treated)]
    assert told == [(task.method, task.product) for task in announced.tasks if task.method is not None]
    assert [one.on for one in talk.home.plants[HOYA].treatments] == [announced.on]


def test_nothing_is_put_off_after_it_is_done(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("done")
    for words in ("not tonight", "later", "tomorrow"):
        before = len(talk.told())
        talk.say(words)
        assert len(talk.told()) == before
    assert talk.home.plants[HOYA].postponed_to is None


def test_nothing_is_put_off_into_the_past(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(days=4)
    talk.say("not tonight")
    until = talk.home.plants[HOYA].postponed_to
    assert until is None or until >= talk.now.date()


@pytest.mark.parametrize("words", ["done", "that is done", "finished"])
def test_a_find_told_on_a_work_day_leaves_the_stage_open(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("moth orchid 12 longtailed mealybugs")
    talk.press("They are apart now") if "They are apart now" in talk.labels() else talk.press(
        "It is apart now"
    )
    talk.say("work day")
    talk.say("ivy 8 spider mites")
    assert "It is apart now" in talk.labels()
    before = len(talk.told())
    talk.say(words)
    assert [type(payload) for _, payload in talk.told()[before:]] == [WorkTicked], (
        "the stage shown, nothing else"
    )
    talk.press("It is apart now")
    talk.say(words)
    assert sum(isinstance(payload, WorkTicked) for _, payload in talk.told()[before:]) == 2
    assert not any(isinstance(payload, Treated) for _, payload in talk.told()), "the second stage sets apart"


def test_a_release_asks_where_the_plant_stands_and_moves_it(talk: Talk) -> None:
    talk.say("hoya 3 longtailed mealybugs")
    talk.say("moved hoya to study")
    talk.passes(days=30)
    talk.say("put hoya back")
    if "Put it back anyway" in talk.labels():
        talk.press("Put it back anyway")
    assert talk.labels()[0] == "Now at landing"
    talk.press("Now at landing")
    home = talk.home
    assert home.places[home.plants[HOYA].place or PlaceId(0)].name == "landing"


def test_every_plant_whose_look_is_written_was_named_or_its_whole_place_was(talk: Talk) -> None:
    for shelf in range(1, 5):
        lines = [
            NewPlant(name=f"violet {shelf}{letter}", place=f"shelf {shelf}") for letter in "abcdefghijklmno"
        ]
        talk.tell(AddPlants(tuple(lines), is_sure=True))
    talk.say("check everything every saturday")
    text = "\n".join(talk.evening())
    before = len(talk.told())
    talk.say("all clean")
    assert len(talk.told()) - before > 20, "looks by place"
    places = {plant.name: plant.place for plant in talk.home.living}
    names = {number: place.name for number, place in talk.home.places.items()}
    for plant, payload in talk.told()[before:]:
        assert isinstance(payload, CheckedClean)
        assert plant is not None
        place = places[plant]
        assert plant in text or (
            (place is not None and f"at {names[place]}" in text)
            or f"all {len(talk.home.living)} plants" in text
        ), plant


def test_a_button_settles_its_own_lines_and_leaves_the_others(talk: Talk) -> None:
    talk.say("hoya 3 longtailed mealybugs")
    talk.say("ivy webbing")
    talk.passes(days=1)
    talk.evening()
    if "None seen" not in talk.labels():
        talk.evening()
    assert {"All done", "None seen"} <= set(talk.labels())
    talk.press("None seen")
    edited = [answer for _, _, answer in talk.heard[-1].edits if answer is not None]
    assert [one.label for row in edited[0].buttons for one in row] == ["All done", "Not tonight"]
    talk.press("All done")
    assert [answer for _, _, answer in talk.heard[-1].edits] == [None], "nothing is left to press"


def test_an_answered_question_says_so_and_changes_only_when_asked(talk: Talk) -> None:
    talk.say("attic")
    talk.tell(SetPlace(name="attic"))
    north, east = talk.button("north"), talk.button("east")
    talk.press_data(north)
    talk.passes(days=21)
    answer = talk.press_data(east)[0]
    assert answer.startswith("That was answered Sat 2 May: “north”. Change it to “east”?")
    attic = next(one for one in talk.home.places.values() if one.name == "attic")
    assert attic.facing is Facing.N
    talk.press("Change it")
    assert next(one for one in talk.home.places.values() if one.name == "attic").facing is Facing.E


def test_two_taps_on_one_question_open_one_case(talk: Talk) -> None:
    talk.say("orchid 3 scale")
    kinds = [talk.button("brown soft scale"), talk.button("armoured scale")]
    talk.press("It is apart now")
    talk.press_data(kinds[0])
    talk.press_data(kinds[1])
    assert sum(len(plant.open_cases) for plant in talk.home.living) == 1
    assert all(plant.is_apart for plant in talk.home.living if plant.cases)


def test_a_list_of_names_that_is_cut_says_so_and_takes_another_name(talk: Talk) -> None:
    talk.tell(AddPlants(tuple(NewPlant(name=f"violet {number}") for number in range(1, 13)), is_sure=True))
    answer = talk.say("3 longtailed mealybugs")[0]
    assert len(talk.labels()) == 8
    assert "any other name can be typed" in answer


def test_two_cases_of_one_plant_always_name_the_pest(talk: Talk) -> None:
    talk.say("ivy 12 spider mites")
    talk.say("ivy 3 longtailed mealybugs")
    talk.passes(days=2)
    for words in ("ivy clean", "sprayed ivy with soap", "when can ivy go back"):
        answer = talk.say(words)[0]
        if "More" in talk.labels():
            answer += talk.press("More")[0]
        assert "spider mite" in answer, (words, answer)
        assert "mealybug" in answer, (words, answer)


@pytest.fixture
def told_since(talk: Talk) -> Talk:
    """Two plants stand in the evening's message; a find on a third is told under it, with first steps tonight."""
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("moth orchid 12 longtailed mealybugs")
    talk.evening()
    talk.passes(minutes=5)
    talk.say("ivy 8 spider mites")
    return talk


@pytest.mark.parametrize(
    ("words", "written", "is_open"),
    [
        ("done except hoya", {"moth orchid"}, "hoya"),
        ("all but the hoya", {"moth orchid"}, "hoya"),
        ("did everything apart from the moth orchid", {"hoya"}, "moth orchid"),
        ("done", {"hoya", "moth orchid"}, "ivy"),
        ("that's all done for tonight", {"hoya", "moth orchid"}, "ivy"),
    ],
)
def test_a_plant_told_of_under_an_open_message_is_done_only_when_named(
    told_since: Talk, words: str, written: set[str], is_open: str
) -> None:
    answer = told_since.say(words)[0]
    assert {plant for plant, _, _ in rounds(told_since)} == written
    still_open = next(line for line in answer.splitlines() if line.startswith("Still open tonight"))
    assert is_open in still_open
    assert "ivy" in still_open
    told_since.say("ivy done")
    assert {plant for plant, _, _ in rounds(told_since)} == written | {"ivy"}


def test_done_again_with_nothing_else_open_is_the_plant_told_of_since(told_since: Talk) -> None:
    told_since.say("done")
    told_since.say("done")
    assert {plant for plant, _, _ in rounds(told_since)} == {"hoya", "moth orchid", "ivy"}


def test_all_but_the_only_plant_announced_is_asked(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(minutes=5)
    talk.say("ivy 8 spider mites")
    talk.say("done except hoya")
    assert rounds(talk) == []
    assert "ivy" in talk.labels()


@pytest.fixture
def repeated_late(talk: Talk) -> Talk:
    """The repeat comes at 21:45, when no spray is through before the quiet hours any more."""
    talk.say("evening at 20:45")
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    assert "Sprayed hoya already?" in talk.evening()[0]
    talk.passes(minutes=5)
    return talk


WIPED = ("hoya", Method.WIPE, None)


def test_all_done_does_not_write_what_its_message_says_is_too_late(repeated_late: Talk) -> None:
    repeated_late.press("All done")
    assert rounds(repeated_late) == [WIPED]
    edited = [answer for _, _, answer in repeated_late.heard[-1].edits if answer is not None]
    left = {one.label for answer in edited for row in answer.buttons for one in row}
    assert left == {"Sprayed", "Not tonight"}, "what is left keeps its own name"


def test_what_was_sprayed_before_it_was_too_late_has_its_own_button_and_words(repeated_late: Talk) -> None:
    repeated_late.press("Sprayed")
    assert rounds(repeated_late) == [SOAP]
    repeated_late.press("All done")
    assert set(rounds(repeated_late)) == {SOAP, WIPED}


@pytest.mark.parametrize("words", ["done", "all done", "did it", "👍"])
def test_a_bare_done_under_a_late_repeat_is_not_what_it_says_to_be_too_late(
    repeated_late: Talk, words: str
) -> None:
    repeated_late.say(words)
    assert rounds(repeated_late) == [WIPED]
    answer = repeated_late.say("done")[0]
    assert "One treatment, not two" in answer or "Stood there already" in answer or "sprayed hoya" in answer
    assert rounds(repeated_late) == [WIPED]
    repeated_late.say("sprayed")
    assert set(rounds(repeated_late)) == {SOAP, WIPED}


@pytest.mark.parametrize(("pest", "hand"), [("thrips", "Rinsed"), ("longtailed mealybugs", "Wiped")])
@pytest.mark.parametrize("words", ["done", "did it all", "finished"])
def test_a_bare_done_of_a_clean_out_offers_the_handwork_of_that_pest(
    talk: Talk, pest: str, hand: str, words: str
) -> None:
    """Thrips are rinsed off, mealybugs wiped: common practice, no source."""
    talk.say(f"hoya 200 {pest}")
    talk.evening()
    talk.passes(minutes=5)
    talk.say(words)
    assert rounds(talk) == [], "a clean-out is written only when named"
    assert hand in talk.labels()


def test_an_evening_partly_settled_says_what_is_left(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("moth orchid 12 longtailed mealybugs")
    talk.evening()
    talk.say("hoya done")
    (edited,) = [answer for _, _, answer in talk.heard[-1].edits if answer is not None]
    lines = edited.text.splitlines()
    assert lines[0].startswith("Tonight")
    assert "Settled: hoya." in lines
    assert not any("hoya" in line for line in lines if not line.startswith("Settled"))
    assert "moth orchid" in edited.text
    talk.press("All done")
    assert {plant for plant, _, _ in rounds(talk)} == {"hoya", "moth orchid"}


@pytest.mark.parametrize("words", DONES)
def test_what_was_done_another_way_is_not_written_a_second_way(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say("swabbed hoya with alcohol")
    talk.say(words)
    assert [method for _, method, _ in rounds(talk)] == [Method.SWAB, Method.SPRAY], "not wiped besides"


@pytest.mark.parametrize("words", ["sprayed", "sprayed the hoya", "sprayed hoya with soap"])
def test_the_handwork_of_a_line_is_offered_where_only_the_spray_was_told(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(minutes=3)
    talk.say(words)
    assert rounds(talk) == [SOAP]
    assert talk.labels() == ["Wiped first too"]
    talk.press("Wiped first too")
    assert set(rounds(talk)) == {SOAP, WIPED}
    talk.say("sprayed hoya")
    assert "Wiped first too" not in talk.labels(), "it stands there"


@pytest.mark.parametrize("words", DONES)
def test_what_is_put_off_is_not_done_by_a_bare_done(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("moth orchid 12 longtailed mealybugs")
    talk.evening()
    talk.say("not tonight for the moth orchid")
    talk.say(words)
    assert {plant for plant, _, _ in rounds(talk)} == {"hoya"}
    talk.say("moth orchid done")
    assert {plant for plant, _, _ in rounds(talk)} == {"hoya", "moth orchid"}


@pytest.mark.parametrize("words", ["done", "did it all", "finished", "i did it"])
@pytest.mark.parametrize(("label", "day"), [("Last night", 2), ("Today", 3)])
def test_done_after_the_night_is_asked_with_the_day(talk: Talk, words: str, label: str, day: int) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(hours=13)
    assert talk.say(words) == ["hoya: done last night, Sat 2 May, or today? Not written yet."]
    assert rounds(talk) == []
    talk.press(label)
    assert {one.happened_on.day for one in talk.entries() if isinstance(one.payload, Treated)} == {day}
    assert [method for _, method, _ in rounds(talk)] == [Method.WIPE, Method.SPRAY]


@pytest.mark.parametrize("words", ["did the ivy", "ivy done", "the ivy is done", "did the ivy yesterday"])
def test_done_of_a_plant_of_which_nothing_was_asked_is_no_spray(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(minutes=5)
    talk.say(words)
    assert rounds(talk) == []


@pytest.mark.parametrize("words", ["did the hoya yesterday", "hoya done yesterday", "did hoya on saturday"])
def test_done_of_an_earlier_day_is_what_its_message_asked(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.passes(days=1, minutes=5)
    talk.say(words)
    assert [method for _, method, _ in rounds(talk)] == [Method.WIPE, Method.SPRAY]
    assert {one.happened_on.day for one in talk.entries() if isinstance(one.payload, Treated)} == {2}


@pytest.mark.parametrize(
    "words", ["rinsed ivy with soap", "ivy rinsed with soap", "rinsed the ivy today with soap"]
)
def test_nobody_rinses_with_soap_that_is_two_treatments(talk: Talk, words: str) -> None:
    talk.say(words)
    assert rounds(talk) == [("ivy", Method.RINSE, None), ("ivy", Method.SPRAY, "soap")]


@pytest.mark.parametrize("words", DONES)
def test_a_spray_that_nobody_doubts_is_written_and_not_asked_for_before_its_label_lets(
    talk: Talk, words: str
) -> None:
    talk.say("hoya 10 spider mites")
    talk.evening()
    talk.say("all done")
    talk.passes(days=15)
    assert "rinse hoya, then soap" in talk.evening()[0].lower()
    sprayed_on = talk.now.date()
    assert "prune, rinse, then soap" in talk.say("hoya 4 spider mites")[0]
    written = len(rounds(talk))
    answer = talk.say(words)[0]
    assert rounds(talk)[written:] == [("hoya", Method.RINSE, None), SOAP], answer
    while (asked := talk.evening()) and (talk.now.date() - sprayed_on).days < 7:
        assert "soap" not in asked[0], asked[0]


@pytest.mark.parametrize(
    ("seen", "clean"),
    [
        ("ivy has longtailed mealybugs", "all clean"),
        ("there are longtailed mealybugs on the ivy", "everything else is clean"),
        ("ivy maybe 9 longtailed mealybugs in there somewhere", "all clean, none seen anywhere"),
    ],
)
def test_all_clean_is_not_of_a_plant_whose_find_waits_for_an_answer(
    talk: Talk, seen: str, clean: str
) -> None:
    talk.say(seen)
    assert not talk.told() or not any(isinstance(one, Found) for _, one in talk.told())
    talk.say(clean)
    for label in ("Yes", "None seen on them"):
        if label in talk.labels():
            talk.press(label)
    assert "ivy" not in {plant for plant, told in talk.told() if isinstance(told, CheckedClean)}


def test_none_is_the_number_that_was_asked_for(talk: Talk) -> None:
    talk.say("ivy has longtailed mealybugs")
    talk.say("none")
    assert talk.told()[-1] == ("ivy", CheckedClean(Level.PLAIN))


@pytest.mark.parametrize(
    "words", ["hoya 9 longtailed mealybugs with a lens", "with the lens: 9 longtailed mealybugs on hoya"]
)
def test_a_find_by_the_lens_is_a_find(talk: Talk, words: str) -> None:
    talk.say(words)
    assert [one.count for _, one in talk.told() if isinstance(one, Found)] == [9]


@pytest.mark.parametrize("words", ["they are apart now", "both are apart now", "moved them apart"])
def test_they_are_those_that_were_just_told_of(talk: Talk, words: str) -> None:
    talk.say("orchid 3 longtailed mealybugs")
    talk.say("ivy 3 thrips, small hoya 4 thrips")
    talk.say("got a lens")
    talk.say(words)
    if "Yes" in talk.labels():
        talk.press("Yes")
    assert {plant for plant, one in talk.told() if isinstance(one, IsolatedNow)} == {"ivy", "small hoya"}


@pytest.mark.parametrize("words", ["yes", "ok", "yes yes", "okay"])
def test_who_agrees_to_nothing_is_told_what_is_due(outbreak: Talk, words: str) -> None:
    outbreak.evening()
    (answer,) = outbreak.say(words)
    assert "Nothing is written" not in answer
    assert "hoya" in answer


@pytest.mark.parametrize(
    "words",
    [
        "rubbed the coffee down with alcohol and the swab, found none",
        "coffee swabbed with alcohol. none left on it",
        "swabbed coffee, none at all",
        "sprayed the coffee with soap, saw none",
        "washed the coffee off. None on it.",
    ],
)
def test_a_look_that_found_none_beside_a_treatment_is_taken_or_said_to_be_left_out(
    talk: Talk, words: str
) -> None:
    talk.say("coffee 5 citrus mealybugs")
    (answer,) = talk.say(words)
    if "Did you mean" in answer:
        assert "coffee plant clean" in answer or "without" in answer, answer
        return
    of_coffee = [payload for plant, payload in talk.told() if plant == "coffee plant"]
    assert any(isinstance(one, Treated) for one in of_coffee)
    assert any(isinstance(one, CheckedClean) for one in of_coffee), answer


@pytest.mark.parametrize(
    ("words", "method"),
    [
        ("Wiped the ivy. The soap is used up", Method.WIPE),
        ("rinsed the ivy, the soap is empty now", Method.RINSE),
        ("pruned the ivy and ran out of soap", Method.PRUNE),
        ("I swabbed the ivy; soap bottle is empty", Method.SWAB),
    ],
)
def test_a_bottle_told_empty_beside_a_treatment_is_no_product_of_it(
    talk: Talk, words: str, method: Method
) -> None:
    talk.say("ivy 9 citrus mealybugs")
    (answer,) = talk.say(words)
    if "Did you mean" in answer:
        assert "no insecticidal soap left" in answer
        talk.press("Yes")
    assert [(plant, way) for plant, way, product in rounds(talk) if product != "soap"] == [("ivy", method)]
    assert next(one for one in talk.home.products.values() if one.ingredient == "soap").stock_ml == 0


@pytest.mark.parametrize(
    ("words", "ways"),
    [
        ("wiped the ivy and sprayed it with the oil", [Method.WIPE, Method.SPRAY]),
        ("ivy wiped, then sprayed with the oil", [Method.WIPE, Method.SPRAY]),
    ],
)
def test_the_oil_is_the_one_oil_at_hand(talk: Talk, words: str, ways: list[Method]) -> None:
    talk.say("got canola oil")
    talk.say("ivy 9 citrus mealybugs")
    if "Did you mean" in talk.say(words)[0]:
        talk.press("Yes")
    assert [(way, product) for _, way, product in rounds(talk)] == [
        (way, "rapeseed_oil" if way is Method.SPRAY else None) for way in ways
    ]
    talk.say("the oil label says every 9 days")
    assert [one.ingredient for one in talk.home.products.values()].count("oil") == 0
