"""What a person did not say themselves, just now, is asked about or corrects; help comes whatever is going on."""

import pytest

from bot.actions.incoming import Photo, Quoted, Text
from bot.domain.identity import HouseholdId
from bot.domain.journal import CheckedClean, Found, LostNow, Treated
from tests.journeys.talking import OWNER, PARTNER, STRANGER, Talk


@pytest.mark.parametrize("words", ["ivy is dead", "hoya 12 longtailed mealybugs", "sprayed ivy with soap"])
def test_what_is_passed_on_is_written_only_on_a_tap(talk: Talk, words: str) -> None:
    before = len(talk.told())
    assert "You passed on" in talk.passes_on(words)[0]
    assert len(talk.told()) == before
    talk.press("Write it")
    assert len(talk.told()) == before + 1


def test_what_is_passed_on_may_be_left_out_and_questions_are_answered(talk: Talk) -> None:
    before = len(talk.told())
    talk.passes_on("ivy is dead")
    talk.press("Leave it out")
    assert len(talk.told()) == before
    assert not isinstance(talk.told()[-1][1], LostNow)
    assert "ivy" in talk.passes_on("where is the ivy")[0]


@pytest.mark.parametrize(
    "edited", ["hoya 30 longtailed mealybugs", "30 longtailed mealybugs on the hoya", "ivy clean"]
)
def test_an_edited_message_says_anew_what_it_said(talk: Talk, edited: str) -> None:
    talk.send(Text("hoya 3 longtailed mealybugs"), message_id=70)
    answer = talk.edits(70, edited)[0]
    assert answer.startswith("Instead of what that message said before (today: hoya longtailed mealybug)")
    told = [payload for _, payload in talk.told() if isinstance(payload, Found | CheckedClean)]
    assert len(told) == 1, "one message, one word"
    assert isinstance(told[0], CheckedClean) or told[0].count == 30


def test_a_message_of_another_group_with_the_same_number_is_another(talk: Talk) -> None:
    """Numbers are given group by group, and a home may be spoken with in two."""
    with talk.database.unit() as store:
        store.join_household(HouseholdId(1), PARTNER, -5, "Bo")
        store.join_household(HouseholdId(1), STRANGER, -6, "Cy")
    talk.send(Text("hoya 3 longtailed mealybugs"), message_id=70, chat=-5)
    told = talk.told()
    talk.send(Text("ivy clean"), message_id=70, chat=-6, is_edit=True)
    assert talk.told()[:-1] == told
    assert isinstance(talk.told()[-1][1], CheckedClean)


def test_an_edit_of_what_was_not_understood_is_a_new_word(talk: Talk) -> None:
    talk.send(Text("hoay xx 3 lmealy"), message_id=71)
    talk.edits(71, "hoya 3 longtailed mealybugs")
    assert [payload.count for _, payload in talk.told() if isinstance(payload, Found)] == [3]


def test_an_edit_of_what_others_hang_on_is_asked_about(talk: Talk) -> None:
    talk.send(Text("attic faces north"), message_id=72)
    before = len(talk.entries())
    assert "besides? Nothing is changed yet." in talk.edits(72, "attic faces south")[0]
    assert len(talk.new_since(before)) == 0


def test_an_edit_of_the_others_number_never_touches_ones_own(talk: Talk) -> None:
    talk.joins()
    talk.send(Text("hoya 3 longtailed mealybugs"), message_id=5)
    talk.send(Text("ivy clean"), message_id=5, person=PARTNER)
    talk.edits(5, "ivy 2 spider mites", person=PARTNER)
    assert any(isinstance(payload, Found) and payload.count == 3 for _, payload in talk.told())


@pytest.mark.parametrize("sign", ["👍", "✅", "👌🏽"])
def test_a_lone_sign_counts_only_under_an_open_evening(talk: Talk, sign: str) -> None:
    talk.say("ivy 12 spider mites")
    talk.say(sign)
    assert not any(isinstance(payload, Treated) for _, payload in talk.told()), (
        "under an answer it is a courtesy"
    )
    talk.evening()
    talk.say("what's due")
    talk.say(sign)
    assert not any(isinstance(payload, Treated) for _, payload in talk.told()), "under another answer, too"


def test_a_lone_sign_directly_under_the_evening_is_done(talk: Talk) -> None:
    talk.say("ivy 12 spider mites")
    talk.evening()
    talk.say("👍")
    assert any(isinstance(payload, Treated) for _, payload in talk.told())


def test_a_sign_as_a_reply_to_something_else_says_nothing(talk: Talk) -> None:
    talk.say("ivy 12 spider mites")
    talk.evening()
    talk.send(Text("👍"), quoted=Quoted(4711, "Hello", is_ours=True))
    assert not any(isinstance(payload, Treated) for _, payload in talk.told())


EMERGENCY = "my daughter drank the spray"


@pytest.mark.parametrize("so_far", [(), ("/start",), ("/start", "Gent"), ("/start", "Gent", "hoya, landing")])
def test_an_emergency_is_heard_while_the_bot_asks_for_town_plants_or_windows(
    talk: Talk, so_far: tuple[str, ...]
) -> None:
    new = Talk(talk.database)
    for text in so_far:
        new.say(text)
    before = len(new.entries()) if so_far else 0
    assert "poison centre" in new.say(EMERGENCY)[-1]
    assert len(new.entries() if so_far else ()) == before


def test_an_emergency_is_heard_edited_passed_on_under_a_photo_and_from_a_stranger(talk: Talk) -> None:
    before = talk.told()
    talk.send(Text("hoya clean"), message_id=9)
    assert "poison centre" in talk.edits(9, EMERGENCY)[0]
    assert "poison centre" in talk.passes_on(EMERGENCY)[0]
    assert "poison centre" in talk.send(Photo("file", EMERGENCY))[0]
    assert "poison centre" in talk.say(EMERGENCY, person=STRANGER)[0]
    assert "poison centre" in talk.say(EMERGENCY, person=STRANGER)[0], "not once an hour"
    assert len(talk.told()) == len(before) + 1, "the look, and nothing else"
    assert talk.shown[OWNER]


@pytest.mark.parametrize("words", ["no", "No, not that.", "wrong one"])
def test_a_bare_no_is_of_the_last_exchange_and_postpones_nothing(talk: Talk, words: str) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.press("It is apart now")
    before = len(talk.told())
    answer = talk.say(words)[0]
    assert answer.startswith("The last you told me: today: hoya kept apart")
    assert len(talk.told()) == before
    talk.press("Take it back")
    assert len(talk.told()) == before - 1


def test_a_bare_no_under_a_question_leaves_only_that(talk: Talk) -> None:
    talk.joins()
    talk.say("hoya 12 longtailed mealybugs")
    talk.say("leave", person=PARTNER)
    before = len(talk.entries())
    assert talk.say("no", person=PARTNER)[0].startswith("All right")
    assert len(talk.new_since(before)) == 0


def test_a_bare_no_directly_under_the_evening_is_not_tonight(talk: Talk) -> None:
    talk.say("hoya 12 longtailed mealybugs")
    talk.evening()
    assert talk.say("no")[0].startswith("Put off")
