"""One open question a chat: the evening's message ends it, names it once, and asks one of its own at most."""

import pytest

from bot.actions.action import ButtonText, Choice, Command
from bot.actions.add_plants import AddPlants, NewPlant
from bot.actions.decline import Decline
from bot.actions.incoming import Press
from bot.actions.incomplete import Incomplete, Missing
from bot.actions.log_check import LogCheck
from bot.actions.log_find import LogFind
from bot.actions.log_round import LogRound
from bot.actions.lose_plant import LosePlant
from bot.domain.identity import PlantId
from bot.domain.journal import Found, IsolatedNow, Treated
from bot.domain.trade import Method
from tests.journeys.talking import OWNER, Talk


@pytest.mark.parametrize("words", ["mealybugs on the ivy", "ivy has mites", "bugs on ivy again, mites"])
def test_a_find_without_its_number_is_asked_once_more_in_the_evening(talk: Talk, words: str) -> None:
    talk.say(words)
    assert "How many on ivy?" in talk.shown[OWNER][-1].text
    (text,) = talk.evening()
    assert text == "You saw something on ivy: how many?"
    talk.passes(minutes=3)
    talk.say("5")
    assert [payload.count for _, payload in talk.told() if isinstance(payload, Found)] == [5]


def test_it_is_named_once_and_its_buttons_still_do(talk: Talk) -> None:
    began = talk.now.date()
    talk.say("mealybugs on the ivy")
    button = talk.button("A few (up to 5)")
    talk.evening()
    assert talk.evening() == [], "once"
    talk.passes(days=1)
    talk.press_data(button)
    (found,) = [one for one in talk.entries() if isinstance(one.payload, Found)]
    assert found.happened_on == began, "the day it was seen"


def test_what_was_offered_and_not_answered_is_named_under_the_evenings_message(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("swabed teh hoya and coffe")
    assert "Did you mean" in talk.shown[OWNER][-1].text
    (text,) = talk.evening()
    assert text.splitlines()[-1] == "Not written: “swabbed hoya and coffee plant”."
    talk.press("Write it")
    assert sum(isinstance(payload, Treated) for _, payload in talk.told()) == 2
    assert "Not written" not in "".join(talk.evening())


HOYA, IVY = PlantId(1), PlantId(5)
LIKELY: list[tuple[Command, str, type]] = [
    (LogFind(plants=(HOYA,), count=4, pest="longtailed_mealybug"), "hoya", Found),
    (LogRound(plants=(HOYA,), method=Method.SWAB), "hoya", Treated),
    (LogRound(plants=(IVY,), method=Method.WIPE), "ivy", Treated),
    (LogFind(plants=(IVY,), count=7, pest="spider_mite"), "ivy", Found),
]
"""What may be offered of what somebody said, the plant, and what a yes would write."""


def offers(talk: Talk, command: Command) -> None:
    """Let the bot offer what it made of some words."""
    yes = Choice(ButtonText.YES, (command,), "“what was said”")
    otherwise = Choice(ButtonText.SOMETHING_ELSE, (Decline(),))
    talk.tell(Incomplete(missing=Missing.MEANT, text=yes.of, choices=(yes, otherwise)))
    assert "Did you mean" in talk.shown[OWNER][-1].text


@pytest.mark.parametrize(("command", "name", "kind"), LIKELY)
@pytest.mark.parametrize("yes", ["yes", "yep", "ok"])
def test_a_bare_yes_on_a_later_day_is_asked_anew_with_its_day(
    talk: Talk, command: Command, name: str, kind: type, yes: str
) -> None:
    offers(talk, command)
    talk.passes(days=1)
    assert "yesterday, Sat 2 May: shall I write it? Not written yet." in talk.say(yes)[0]
    assert not [one for one in talk.entries() if isinstance(one.payload, kind)]
    talk.press("Write it")
    told = [one for one in talk.entries() if isinstance(one.payload, kind)]
    assert {one.happened_on.day for one in told} == {2}
    assert name in {talk.home.plants[one.plant].name for one in told if one.plant is not None}


def test_done_left_lying_never_writes_what_the_next_evening_asks(talk: Talk) -> None:
    """Offered on an evening that asked for one thing; the next message asks for something else."""
    talk.say("ivy 9 spider mites")
    talk.evening()
    asked = {(task.plant, task.method) for task in talk.home.nudge.tasks} if talk.home.nudge else set()
    evening = talk.now.date()
    ivy = LogRound(plants=(PlantId(5),))
    yes = Choice(ButtonText.YES, (ivy,), "“ivy done”")
    talk.tell(Incomplete(missing=Missing.MEANT, text=yes.of, choices=(yes,)))
    talk.say("hoya 4 longtailed mealybugs", at=talk.now.replace(hour=23))
    told = "\n".join(talk.evening())
    assert "Not written: “ivy done yesterday”." in told
    talk.press("Write it")
    done = [one for one in talk.entries() if isinstance(one.payload, Treated)]
    assert {(one.plant, one.payload.method) for one in done if isinstance(one.payload, Treated)} == asked
    assert {one.happened_on for one in done} == {evening}


@pytest.mark.parametrize(
    "next_words", ["mealybugs on the ivy", "sister in law gave me a orchid. its in the bedroom"]
)
@pytest.mark.parametrize(("command", "name", "kind"), LIKELY[:2])
def test_what_another_question_passes_by_is_named_once(
    talk: Talk, command: Command, name: str, kind: type, next_words: str
) -> None:
    offers(talk, command)
    (answer,) = talk.say(next_words)
    assert "Not written: “" in answer
    assert name in answer.rpartition("Not written: “")[2]
    (again,) = talk.say("ivy has mites")
    assert name not in again
    assert not [payload for _, payload in talk.told() if isinstance(payload, kind)]


def test_what_was_told_in_other_words_since_is_not_named(talk: Talk) -> None:
    offers(talk, LIKELY[0][0])
    talk.say("hoya 4 longtailed mealybugs")
    assert "Not written" not in "".join(talk.say("mealybugs on the ivy"))
    assert "Not written" not in "".join(talk.evening())


def test_several_left_open_are_one_line_and_one_button_under_the_evenings_message(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    offers(talk, LIKELY[1][0])
    offers(talk, LIKELY[3][0])
    (text,) = talk.evening()
    assert text.splitlines()[-1] == "Not written: 2 things you told, of hoya and ivy."
    assert not [label for label in talk.labels() if label.startswith("Write")]
    (shown,) = talk.press("Not written: show")
    assert "swabbed hoya" in shown
    assert "7 spider mites on ivy" in shown
    talk.press("Write: 7 spider mites on ivy")
    found = [payload.count for name, payload in talk.told() if isinstance(payload, Found) and name == "ivy"]
    assert found == [7]


def test_a_look_told_later_leaves_the_find_that_was_only_offered(talk: Talk) -> None:
    offers(talk, LIKELY[3][0])
    offers(talk, LogCheck(plants=(IVY,)))
    (text,) = talk.evening() or [""]
    assert "spider mite" not in text


@pytest.mark.parametrize("lost", ["the ivy died", "threw the ivy out"])
def test_nothing_is_named_of_a_plant_that_is_gone(talk: Talk, lost: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    offers(talk, LIKELY[2][0])
    talk.say(lost)
    assert talk.home.plants[IVY].lost_on is not None
    assert "Not written" not in "".join(talk.evening())


@pytest.mark.parametrize(
    "words",
    ["the ivy is pushing up daisies", "i fear the ivy sits in the bin now"],
)
@pytest.mark.parametrize("is_alone", [True, False])
def test_all_done_is_not_of_a_plant_said_to_be_gone(talk: Talk, words: str, is_alone: bool) -> None:  # noqa: FBT001
    talk.say("ivy 9 spider mites")
    if not is_alone:
        talk.say("hoya 12 longtailed mealybugs")
    talk.say(words)
    if "Did you mean" not in talk.shown[OWNER][-1].text:
        offers(talk, LosePlant((IVY,)))
    talk.evening()
    talk.passes(minutes=3)
    (answer,) = talk.say("all done")
    assert "Nothing is written of ivy: said to be gone, and not answered." in answer
    talk.passes(days=1)
    assert "Not written: “ivy died”." in talk.evening()[0], "until it is answered"
    talk.say("all done")
    assert not talk.home.plants[IVY].treatments
    assert bool(talk.home.plants[HOYA].treatments) is not is_alone
    talk.press("The plant is lost")
    assert talk.home.plants[IVY].lost_on is not None


def test_a_treatment_told_by_its_name_is_written_all_the_same(talk: Talk) -> None:
    talk.say("ivy 9 spider mites")
    offers(talk, LosePlant((IVY,)))
    talk.evening()
    talk.say("rinsed the ivy")
    assert [one.method for one in talk.home.plants[IVY].treatments] == [Method.RINSE]


@pytest.mark.parametrize("yes", ["yes", "[Yes]"])
def test_what_was_passed_by_is_written_and_the_other_question_stays(talk: Talk, yes: str) -> None:
    offers(talk, LIKELY[1][0])
    offers(talk, LIKELY[3][0])
    (written,) = talk.press("Write: swabbed hoya")
    assert written.endswith("And “what was said”? Nothing of that is written yet.")
    _ = talk.press("Yes") if yes == "[Yes]" else talk.say(yes)
    told = {(name, type(payload)) for name, payload in talk.told() if isinstance(payload, Found | Treated)}
    assert told == {("hoya", Treated), ("ivy", Found)}


def test_a_question_in_the_evening_is_asked_after_three_evenings_then_weekly(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    began, asked = talk.now.date(), []
    for _ in range(24):
        (text,) = talk.evening() or [""]
        if "Can it be set apart?" in text:
            asked.append((talk.now.date() - began).days)
        talk.passes(minutes=3)
        talk.say("done")
        talk.say("all clean")
    assert asked[:1] == [3] or all((day - 3) % 7 == 0 for day in asked)


@pytest.mark.parametrize(("label", "is_apart"), [("It is apart now", True), ("Cannot be moved", False)])
def test_the_evenings_question_has_its_buttons(talk: Talk, label: str, is_apart: bool) -> None:  # noqa: FBT001
    talk.say("hoya 12 longtailed mealybugs")
    texts = [text for _ in range(5) for text in talk.evening()]  # the first is said again
    assert "hoya still stands among others. Can it be set apart?" in texts[-1]
    talk.press(label)
    assert [payload.apart for _, payload in talk.told() if isinstance(payload, IsolatedNow)] == [is_apart]


def test_an_answered_question_shows_its_answer_and_loses_its_buttons(talk: Talk) -> None:
    talk.say("attic")
    if "Add attic" in talk.labels():
        talk.press("Add attic")
    talk.say("hoya 12 longtailed mealybugs")
    text = talk.shown[OWNER][-1].text
    talk.send(Press(talk.button("It is apart now"), 41, "callback", text))
    ((chat, message, answer),) = [one for one in talk.heard[-1].edits if one[1] == 41]
    assert (chat, message) == (OWNER, 41)
    assert answer is not None
    assert answer.text == f"{text}\nAnswered: “It is apart now”."
    assert [one.label for row in answer.buttons for one in row] in ([], ["Why"], ["How", "Why"]), (
        "what only explains may stay"
    )


def last_edit(talk: Talk) -> tuple[str, list[str]]:
    ((_, _, answer),) = talk.heard[-1].edits
    assert answer is not None
    return answer.text.splitlines()[-1], [one.label for row in answer.buttons for one in row]


@pytest.mark.parametrize(
    ("words", "shown"), [("12", "12"), ("many", "Many"), ("a few", "A few (up to 5)"), ("hoya 12", "hoya 12")]
)
def test_a_typed_answer_is_shown_under_the_question_too(talk: Talk, words: str, shown: str) -> None:
    talk.say("hoya has mealybugs")
    talk.say(words)
    assert last_edit(talk) == (f"Answered: “{shown}”.", [])


@pytest.mark.parametrize("words", ["it is apart now", "it's apart now", "yes it is apart now"])
def test_of_two_things_asked_the_other_keeps_its_buttons(talk: Talk, words: str) -> None:
    talk.say("hoya 12 mealybugs")
    assert "citrus mealybug" in talk.labels()
    talk.say(words)
    answer, left = last_edit(talk)
    assert answer == "Answered: “It is apart now”."
    assert left[:2] == ["citrus mealybug", "longtailed mealybug"]
    assert not {"It is apart now", "Cannot be moved"} & set(left)
    talk.press("citrus mealybug")
    assert [case.pest for case in talk.home.plants[PlantId(1)].open_cases] == ["citrus_mealybug"]


@pytest.mark.parametrize("words", ["ivy 3 spider mites", "is the hoya clean?", "thanks", "all clean"])
def test_what_answers_something_else_leaves_the_question_its_buttons(talk: Talk, words: str) -> None:
    talk.say("hoya has mealybugs")
    talk.say(words)
    assert talk.heard[-1].edits == []


@pytest.mark.parametrize("words", ["loft is 21 degrees", "loft 21 C", "it's 21 in the loft"])
def test_what_is_asked_anew_has_no_answer_yet(talk: Talk, words: str) -> None:
    talk.say("loft is 20 degrees")
    asked = talk.shown[OWNER][-1].text.splitlines()[-1]
    talk.say(words)
    assert talk.shown[OWNER][-1].text.splitlines()[-1] == asked.replace("20", "21")
    assert talk.heard[-1].edits == []


@pytest.mark.parametrize("why", ["why", "why?", "why do you ask", "why not"])
@pytest.mark.parametrize(("command", "name", "kind"), LIKELY[:3])
def test_why_under_an_offer_is_about_the_offer(
    talk: Talk, command: Command, name: str, kind: type, why: str
) -> None:
    talk.say("coffee 3 longtailed mealybugs")
    offers(talk, command)
    offered = talk.labels()
    (answer,) = talk.say(why)
    assert answer.startswith("Of your words I made “what was said”.")
    assert talk.labels() == offered
    talk.say("yes")
    told = [one.plant for one in talk.entries() if isinstance(one.payload, kind)]
    assert name in {talk.home.plants[one].name for one in told if one is not None}


@pytest.mark.parametrize(
    "words",
    ["the living room faces east", "write me at 19:00", "nudge me at 7pm", "living room: west window"],
)
@pytest.mark.parametrize(("command", "name", "kind"), LIKELY[:2])
def test_a_window_or_an_hour_told_answers_no_offer(
    talk: Talk, command: Command, name: str, kind: type, words: str
) -> None:
    """Whatever is told beside it, the offer waits for its own answer."""
    offers(talk, command)
    talk.say(words)
    talk.press("Yes")
    assert [plant for plant, payload in talk.told() if isinstance(payload, kind)] == [name]


@pytest.mark.parametrize("words", ["what do i do tonight then", "what's due?", "anything to do today"])
def test_what_is_to_be_done_hangs_on_a_find_without_its_number(talk: Talk, words: str) -> None:
    talk.say("mealybugs on the ivy")
    (answer,) = talk.say(words)
    assert "You saw something on ivy: how many?" in answer
    talk.press("A few (up to 5)")
    assert any(isinstance(payload, Found) for _, payload in talk.told())


def test_two_products_told_at_once_are_cautioned_of_once(stranger_talk: Talk) -> None:
    stranger_talk.say("/start")
    (answer,) = stranger_talk.say("i have neem oil and insecticidal soap")
    more = "\n".join(stranger_talk.press("More")) if "More" in stranger_talk.labels() else ""
    assert (answer + more).count("label is the law") == (answer + more).count("Gloves") == 1


@pytest.mark.parametrize(
    "words", ["what now?", "what's due", "done", "showered it", "how long does it take?"]
)
def test_who_asks_for_what_hangs_on_an_offered_home_is_offered_it_again(
    stranger_talk: Talk, words: str
) -> None:
    stranger_talk.say("/start")
    offers(stranger_talk, AddPlants(plants=(NewPlant(name="calathea"),), is_sure=True))
    (answer,) = stranger_talk.say(words)
    assert "Did you mean “what was said”?" in answer
    assert "know no plants" not in answer
    stranger_talk.press("Yes")
    assert [plant.name for plant in stranger_talk.home.living] == ["calathea"]


def test_what_is_left_open_asks_for_what_is_not_known(talk: Talk) -> None:
    (asked,) = talk.say("the ivy has one or two bugs too")
    assert "Which pest is it on ivy?" in asked
    (answer,) = talk.say("what's due")
    assert "You saw something on ivy: which pest?" in answer


@pytest.mark.parametrize(
    "words",
    [
        "my lemon tree has scale. brown bumps on the stems and the leaves are sticky",
        "the jade has mealybugs, white fluff in the crowns",
    ],
)
def test_a_sign_told_with_a_find_is_no_question_of_what_it_could_be(stranger_talk: Talk, words: str) -> None:
    stranger_talk.say("/start")
    (answer,) = stranger_talk.say(words)
    assert "How many on " in answer
    assert "likely" not in answer


@pytest.mark.parametrize("days", [2, 4, 9])
def test_what_was_offered_days_ago_is_named_no_more(talk: Talk, days: int) -> None:
    offers(talk, LIKELY[1][0])
    talk.passes(days=days)
    assert "Not written" not in "".join(talk.say("ivy has mites"))
    assert "Not written" not in "".join(talk.evening())


@pytest.mark.parametrize(
    "words", ["wiped the ivy", "ivy 4 spider mites", "ivy clean", "rinsed the ivy today"]
)
def test_of_two_things_offered_at_once_none_is_named_where_one_was_told_otherwise(
    talk: Talk, words: str
) -> None:
    """ "Repotted. It died" was made of words that told of no death; the treatment was told again in others."""
    talk.say("hoya 12 longtailed mealybugs")
    yes = Choice(ButtonText.YES, (LogRound(plants=(IVY,), method=Method.WIPE), LosePlant((IVY,))), "“so”")
    talk.tell(Incomplete(missing=Missing.MEANT, text=yes.of, choices=(yes,)))
    talk.passes(minutes=3)
    talk.say(words)
    assert "Not written" not in "".join(talk.evening())
    talk.passes(days=1)
    assert "Not written" not in "".join(talk.evening())
