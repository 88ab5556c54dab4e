"""Two tired people with one home full of plants."""

import re
from datetime import timedelta

import pytest

from bot.domain.journal import Treated
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
    assert talk.say("plants", person=PARTNER)[0].startswith("landing: hoya and small hoya")


def test_a_code_is_good_once_and_for_two_days(talk: Talk) -> None:
    first, second = code(talk), code(talk)
    assert first != second
    talk.say(f"/start {first}", person=PARTNER)
    assert talk.say(f"/start {first}", person=STRANGER)[0].startswith("This bot keeps one home's plants")
    talk.now += timedelta(days=2, minutes=1)
    assert talk.say(f"/start {second}", person=STRANGER)[0].startswith("This bot keeps one home's plants")


def test_both_get_the_nudge_and_both_saying_done_is_one_round(shared: Talk) -> None:
    shared.say("hoya 12 longtailed mealybugs")
    shared.evening()
    assert {one.chat for one in shared.nudges} == {OWNER, PARTNER}
    shared.say("done", person=PARTNER)
    assert "one round, not two" in shared.say("done")[0]
    assert sum(isinstance(payload, Treated) for _, payload in shared.told()) == 1


def test_undo_takes_back_only_ones_own_words(shared: Talk) -> None:
    shared.say("hoya 12 longtailed mealybugs")
    shared.say("ivy clean", person=PARTNER)
    assert shared.say("undo")[0].startswith("Taken back: today: hoya longtailed mealybug.")
    assert "ivy" in shared.say("undo", person=PARTNER)[0]


def test_a_member_may_leave_after_a_second_word(shared: Talk) -> None:
    assert shared.say("leave", person=PARTNER)[0].startswith("Leave this home?")
    shared.press("Stay", person=PARTNER)
    assert shared.say("plants", person=PARTNER)[0].startswith("landing")
    shared.say("leave", person=PARTNER)
    assert shared.press("Yes, leave", person=PARTNER)[0].startswith("You no longer share these plants")
    assert shared.say("plants", person=PARTNER)[0].startswith("This bot keeps one home's plants")
    shared.say("hoya 12 longtailed mealybugs")
    shared.evening()
    assert {one.chat for one in shared.nudges} == {OWNER}


def test_the_founder_stays_while_others_share_the_plants(shared: Talk) -> None:
    assert shared.say("leave")[0].startswith("You founded this home and others share it")


def test_a_wrong_code_is_a_strangers_word(talk: Talk) -> None:
    assert talk.say("/start abcdefgh", person=STRANGER)[0].startswith("This bot keeps one home's plants")
