"""Two tired people with one home full of plants."""

import re
from datetime import timedelta

import pytest

from bot.domain.identity import HouseholdId, PlantId
from bot.domain.journal import LineTaken, Treated
from tests.journeys.talking import OWNER, PARTNER, STRANGER, Talk


def code(talk: Talk) -> str:
    found = re.search(r"/start (\S+)", talk.say("invite")[0])
    assert found is not None
    return found[1]


@pytest.fixture
def shared(talk: Talk) -> Talk:
    talk.say(f"/start {code(talk)}", person=PARTNER)
    return talk


def test_an_invitation_lets_one_person_in_and_tells_the_other(talk: Talk) -> None:
    answers = talk.say(f"/start {code(talk)}", person=PARTNER)
    assert answers[0].startswith("Welcome. You share 5 plants with Ada from now on")
    assert answers[1] == "Bo shares your plants from now on."
    assert [answer.text for answer in talk.shown[OWNER]][-1] == "Bo shares your plants from now on."
    assert "landing: hoya and small hoya" in talk.say("plants", person=PARTNER)[0]


def test_a_code_is_good_once_and_for_two_days(talk: Talk) -> None:
    first, second = code(talk), code(talk)
    assert first != second
    talk.say(f"/start {first}", person=PARTNER)
    assert talk.say(f"/start {first}", person=STRANGER)[0].startswith("That invitation is no longer good")
    talk.now += timedelta(days=2, minutes=1)
    assert talk.say(f"/start {second}", person=STRANGER)[0].startswith("That invitation is no longer good")


def test_both_get_the_nudge_and_both_saying_done_is_one_round(shared: Talk) -> None:
    shared.say("hoya 12 longtailed mealybugs")
    shared.evening()
    assert {one.chat for one in shared.nudges} == {OWNER, PARTNER}
    shared.say("done", person=PARTNER)
    assert "One treatment, not two" in shared.say("done")[0]
    assert sum(isinstance(payload, Treated) for _, payload in shared.told()) == 4, (
        "wiped, then sprayed, and each has a word of their own"
    )
    assert len(shared.home.plants[PlantId(1)].treatments) == 2


def test_undo_takes_back_only_ones_own_words(shared: Talk) -> None:
    shared.say("hoya 12 longtailed mealybugs")
    shared.say("ivy clean", person=PARTNER)
    assert shared.say("undo")[0].startswith("Taken back: today: hoya longtailed mealybug.")
    assert "ivy" in shared.say("undo", person=PARTNER)[0]


def test_a_member_may_leave_after_a_second_word(shared: Talk) -> None:
    assert shared.say("leave", person=PARTNER)[0].startswith("Leave this home?")
    shared.press("Stay", person=PARTNER)
    assert "landing" in shared.say("plants", person=PARTNER)[0]
    shared.say("leave", person=PARTNER)
    assert shared.press("Yes, leave", person=PARTNER)[0].startswith("You no longer share these plants")
    assert shared.say("plants", person=PARTNER)[0].startswith("This bot keeps one home's plants")
    shared.say("hoya 12 longtailed mealybugs")
    shared.evening()
    assert {one.chat for one in shared.nudges} == {OWNER}


def test_the_founder_stays_while_others_share_the_plants(shared: Talk) -> None:
    assert shared.say("leave")[0].startswith("You own this home and others share it")


def test_a_wrong_code_is_a_strangers_word(talk: Talk) -> None:
    assert talk.say("/start abcdefgh", person=STRANGER)[0].startswith("This bot keeps one home's plants")


def test_the_owner_hands_the_home_over_and_may_leave_then(shared: Talk) -> None:
    assert shared.say("hand over to Bo")[0].startswith("Shall Bo own this home")
    assert shared.press("Yes, to Bo") == ["Bo owns this home now.", "You own this home now."]
    assert shared.shown[PARTNER][-1].text == "You own this home now."
    assert shared.say("members") == ["Bo (owner), Ada. “leave” ends your part."]
    shared.say("leave")
    shared.press("Yes, leave")
    assert shared.say("members", person=PARTNER) == ["Only Bo. “invite” makes a code for somebody."]


def test_the_owner_removes_somebody_after_a_second_word(shared: Talk) -> None:
    assert shared.say("remove Bo from this home")[0].startswith("Shall Bo no longer share these plants?")
    assert "landing" in shared.say("plants", person=PARTNER)[0]
    assert shared.press("Yes, remove Bo")[0] == "Bo no longer shares these plants."
    assert shared.shown[PARTNER][-1].text.startswith("You no longer share these plants")
    assert shared.say("plants", person=PARTNER)[0].startswith("This bot keeps one home's plants")


def test_only_the_owner_removes_hands_over_and_erases(shared: Talk) -> None:
    for text in ("remove Ada from this home", "hand over to Ada", "erase this home"):
        assert shared.say(text, person=PARTNER) == ["Only Ada may do that. Nothing is written."]


def test_a_name_nobody_has_is_asked_back(shared: Talk) -> None:
    assert shared.say("remove Cleo from this home") == [
        "I know nobody else called “Cleo” here, only Bo. Nothing is written."
    ]


def test_a_member_is_forgotten_and_the_plants_keep_what_was_told(shared: Talk) -> None:
    shared.say("ivy 8 spider mites", person=PARTNER)
    assert shared.say("forget me for good", person=PARTNER)[0].startswith(
        "That erases your name"
    )  # asked first
    assert shared.say("forget me for good", person=PARTNER)[0].startswith("Erased: your name, your account")
    assert shared.say("plants", person=PARTNER)[0].startswith("This bot keeps one home's plants")
    assert shared.say("isolated?")[0].startswith("Still to be set apart: ivy; free from ")
    assert shared.say("members") == ["Only Ada. “invite” makes a code for somebody."]
    with shared.database.unit() as store:
        document = store.exported(HouseholdId(1), shared.database.photos)
    assert [(one["name"], one["person"]) for one in document["members"]] == [("Ada", OWNER), ("", 0)]


def test_an_owner_with_others_hands_over_or_erases_for_all(shared: Talk) -> None:
    assert "“hand over to Bo”, then “forget me”" in shared.say("forget me")[0]
    assert shared.say("forget me for good")[0].startswith("Bo shares this home and you own it.")
    assert "for you and Bo for good" in shared.say("erase this home")[0]
    answers = shared.say("erase this home for good")
    assert answers[0].startswith("Erased: this home")
    assert shared.shown[PARTNER][-1].text.startswith("Ada erased this home")
    for person in (OWNER, PARTNER):
        assert shared.say("plants", person=person)[0].startswith("This bot keeps one home's plants")
    with shared.database.unit() as store:
        assert store.households() == ()
    # the founder may begin anew, and finds nothing of the old home
    assert shared.say("/start")[0].startswith("Hello Ada.")
    assert shared.say("skip")
    assert shared.say("plants") == ["I know no plants yet. Send them one a line, like “hoya, landing”."]


def test_nothing_is_erased_without_the_sentence(shared: Talk) -> None:
    shared.say("forget me", person=PARTNER)
    for text in ("yes", "ok", "forget me", "for good"):
        shared.say(text, person=PARTNER)
    assert "landing" in shared.say("plants", person=PARTNER)[0]


def test_an_export_is_offered_before_anything_is_erased(talk: Talk) -> None:
    talk.say("forget me")
    assert talk.labels() == ["Export first", "Keep everything"]
    assert talk.press("Export first") == ["Which file?"]
    # after that the sentence asks again: it is never taken from an old message
    assert talk.say("erase this home for good")[0].startswith("That erases this home for good")


@pytest.mark.parametrize(
    "words", ["I do the landing", "I'll do the hoya", "i will take the hoya tonight", "leave the hoya to me"]
)
def test_a_line_of_tonight_can_be_taken(talk: Talk, words: str) -> None:
    talk.joins()
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    before = [entry for _, entry in talk.told() if isinstance(entry, Treated)]
    assert talk.say(words, person=PARTNER)[0].startswith("Written: you do hoya tonight. Ada knows.")
    assert talk.shown[OWNER][-1].text == "Bo does hoya tonight."
    (edit,) = [one for where, _, one in talk.heard[-1].edits if where == OWNER]
    assert edit is not None
    assert "Bo does hoya." in edit.text
    assert "Answered" not in edit.text
    assert [entry for _, entry in talk.told() if isinstance(entry, Treated)] == before, (
        "a promise is no treatment"
    )
    count = len(talk.nudges)
    talk.evening()
    assert [one.chat for one in talk.nudges[count:]] == [PARTNER], "the repeat is the taker's alone"
    talk.say("done", person=PARTNER)
    assert sum(isinstance(entry, Treated) for _, entry in talk.told()) == 2


def test_where_something_is_left_for_nobody_the_repeat_goes_to_all(talk: Talk) -> None:
    talk.joins()
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("ivy 8 longtailed mealybugs")
    talk.evening()
    talk.say("i do the ivy", person=PARTNER)
    count = len(talk.nudges)
    talk.evening()
    assert {one.chat for one in talk.nudges[count:]} == {OWNER, PARTNER}


@pytest.mark.parametrize(
    "words", ["i do the ivy", "i do not do the hoya", "leave the hoya", "i do like the hoya"]
)
def test_what_is_not_open_or_no_promise_takes_nothing(talk: Talk, words: str) -> None:
    talk.joins()
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    talk.say(words, person=PARTNER)
    assert not any(isinstance(entry, LineTaken) for _, entry in talk.told())
