"""Who shares which home: invitations, two homes of one person, two people of one name, names meant to disturb."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest

from bot.actions.incoming import Photo, Reaction
from bot.actions.naming import shown_name
from bot.domain.identity import HouseholdId
from bot.domain.journal import Found, Treated
from tests.journeys.talking import OWNER, PARTNER, STRANGER, Talk

GROUP = -100_200
OVER = "That invitation is no longer good"
CLEO = STRANGER


def code(talk: Talk, person: int = OWNER) -> str:
    found = re.search(r"/start (\S+)", talk.say("invite", person=person)[0])
    assert found is not None
    return found[1]


@pytest.fixture
def anyone(talk: Talk) -> Talk:
    """Anybody may found a home, as with DUSKROUND_OPEN=1."""
    talk.conversation = replace(talk.conversation, may_found=lambda _person, _text: True)
    return talk


@pytest.fixture
def two_homes(anyone: Talk) -> Talk:
    """Bo has a home of his own with a fern and shares Ada's."""
    for text in ("/start", "Gent", "fern, sill\nhoya, sill", "sill faces north"):
        anyone.say(text, person=PARTNER)
    assert anyone.say(f"/start {code(anyone)}", person=PARTNER)[0].startswith(
        "Welcome. You share 5 plants with Ada"
    )
    return anyone


def homes(talk: Talk) -> int:
    with talk.database.unit() as store:
        return len(store.households())


def test_an_invitation_wins_over_founding_where_anyone_may_found(anyone: Talk) -> None:
    assert anyone.say(f"/start {code(anyone)}", person=PARTNER)[0].startswith("Welcome. You share 5 plants")
    assert homes(anyone) == 1


@pytest.mark.parametrize("spoil", ["used", "old", "taken back"])
def test_an_invitation_that_is_over_gets_one_clear_line_and_founds_nothing(anyone: Talk, spoil: str) -> None:
    given = code(anyone)
    match spoil:
        case "used":
            anyone.say(f"/start {given}", person=PARTNER)
        case "old":
            anyone.now += timedelta(days=2, minutes=1)
        case _:
            with anyone.database.unit() as store:
                store.end_invites(HouseholdId(1), anyone.now)
    anyone.say("hello", person=CLEO)
    assert anyone.say(f"/start {given}", person=CLEO) == [
        "That invitation is no longer good: it was used, taken back or is older than two days. Ask for a new one."
    ]
    assert homes(anyone) == 1


def test_a_removed_member_returns_by_no_code_made_before(talk: Talk) -> None:
    talk.say(f"/start {code(talk)}", person=PARTNER)
    of_his_own, of_the_owner = code(talk, PARTNER), code(talk)
    talk.say("remove Bo from this home")
    talk.press("Yes, remove Bo")
    for old in (of_his_own, of_the_owner):
        assert talk.say(f"/start {old}", person=PARTNER)[0].startswith(OVER)
        assert talk.say(f"/start {old}", person=CLEO)[0].startswith(OVER)
    assert talk.say(f"/start {code(talk)}", person=PARTNER)[0].startswith("Welcome.")


def test_who_leaves_takes_their_invitations_along(talk: Talk) -> None:
    talk.say(f"/start {code(talk)}", person=PARTNER)
    made, of_the_owner = code(talk, PARTNER), code(talk)
    talk.say("leave", person=PARTNER)
    talk.press("Yes, leave", person=PARTNER)
    assert talk.say(f"/start {made}", person=CLEO)[0].startswith(OVER)
    assert talk.say(f"/start {of_the_owner}", person=CLEO)[0].startswith("Welcome.")


def test_a_member_spends_no_invitation_of_their_own_home(talk: Talk) -> None:
    given = code(talk)
    assert talk.say(f"/start {given}")[0].startswith("You share these plants already")
    assert talk.say(f"/start {given}", person=PARTNER)[0].startswith("Welcome.")


def test_two_homes_in_one_chat_are_told_apart_by_a_button(two_homes: Talk) -> None:
    talk = two_homes
    talk.passes(hours=2)
    assert talk.say("fern 8 spider mites", person=PARTNER) == [
        "You share more than one home. Which is this about?"
    ]
    assert talk.labels(PARTNER) == ["My home", "With Ada"]
    (answer,) = talk.press("My home", person=PARTNER)
    assert answer.startswith("Written: 8 spider mites on fern")
    assert [type(one.payload) for one in talk.entries(2)].count(Found) == 1
    assert [type(one.payload) for one in talk.entries(1)].count(Found) == 0
    # for a while it is clear which home is meant
    assert talk.say("isolated?", person=PARTNER)[0].startswith("Still to be set apart: fern; free from ")
    talk.passes(hours=2)
    talk.say("plants", person=PARTNER)
    assert "landing: hoya and small hoya" in talk.press("With Ada", person=PARTNER)[0]
    assert talk.say("fern died", person=PARTNER) != []
    assert "fern" in {plant.name for plant in talk.home_of(2).living}
    # the other member is asked nothing
    assert "landing" in talk.say("plants")[0]


def test_what_no_button_can_say_again_is_sent_again(two_homes: Talk) -> None:
    talk = two_homes
    talk.passes(hours=2)
    assert talk.send(Photo("file", "hoya"), person=PARTNER) == [
        "You share more than one home. Which is this about? Then please send it again."
    ]
    assert talk.press("With Ada", person=PARTNER) == ["This is about the home with Ada now."]
    assert talk.send(Photo("file", "hoya"), person=PARTNER) == ["Written: a photo of hoya."]
    assert talk.home_of(1).plants[next(iter(talk.home_of(1).plants))].photos


def test_each_home_says_whose_evening_it_is_and_its_buttons_answer_it(two_homes: Talk) -> None:
    talk = two_homes
    talk.say("hoya 12 longtailed mealybugs")
    talk.passes(hours=2)
    talk.say("hoya 12 longtailed mealybugs", person=PARTNER)
    talk.press("My home", person=PARTNER)
    talk.passes(hours=2)
    said: dict[str, str] = {}
    while len(said) < 2:
        talk.evening()
        for one in talk.nudges:
            if one.chat == PARTNER:
                said[one.answer.text.partition("\n")[0]] = one.answer.buttons[0][0].data
    assert set(said) == {"My home:", "With Ada:"}
    assert not any(
        one.answer.text.startswith(("My home", "With")) for one in talk.nudges if one.chat == OWNER
    )
    talk.press_data(said["With Ada:"], person=PARTNER)
    assert Treated in {type(one.payload) for one in talk.entries(1)}
    assert Treated not in {type(one.payload) for one in talk.entries(2)}


def test_a_sign_under_an_evening_s_message_is_about_its_home(two_homes: Talk) -> None:
    talk = two_homes
    talk.say("hoya 12 longtailed mealybugs")
    talk.passes(hours=2)
    talk.evening()
    with talk.database.unit() as store:
        ((_, message, _),) = [
            one for one in store.nudged_messages(HouseholdId(1), talk.now.date()) if one[0] == PARTNER
        ]
    talk.passes(hours=2)
    talk.send(Reaction(("👍",), message), person=PARTNER)
    assert Treated in {type(one.payload) for one in talk.entries(1)}
    assert Treated not in {type(one.payload) for one in talk.entries(2)}


def test_an_emergency_is_heard_before_it_is_asked_which_home(two_homes: Talk) -> None:
    two_homes.passes(hours=2)
    (answer,) = two_homes.say("bleach in my eye", person=PARTNER)
    assert "rinse" in answer.lower()


def test_a_group_has_its_own_home_whatever_else_its_people_share(two_homes: Talk) -> None:
    talk = two_homes
    talk.say("/start", person=CLEO, chat=GROUP)
    talk.say("Gent", person=CLEO, chat=GROUP)
    talk.say("ivy, study", person=CLEO, chat=GROUP)
    given = code(talk)
    assert talk.say(f"/start {given}", person=77, chat=GROUP)[0].startswith(
        "Another home is talked of in this group"
    )
    assert talk.say(f"/start {given}", person=77)[0].startswith("Welcome.")  # it was not spent
    talk.say(
        f"/start {talk.say('invite', person=CLEO, chat=GROUP)[0].rpartition(' ')[2]}",
        person=PARTNER,
        chat=GROUP,
    )
    talk.passes(hours=2)
    assert talk.say("plants", person=PARTNER, chat=GROUP)[0].startswith("study: ivy")
    assert talk.say("plants", person=PARTNER)[0].startswith("You share more than one home")


def test_of_two_with_one_name_either_goes_by_a_button(talk: Talk) -> None:
    talk.names[CLEO] = "bo"
    for person in (PARTNER, CLEO):
        talk.say(f"/start {code(talk)}", person=person)
    assert talk.say("members") == ["Ada (owner), Bo and bo 2."]
    assert talk.labels() == ["Remove Bo", "Hand over to Bo", "Remove bo 2", "Hand over to bo 2"]
    assert talk.press("Remove bo 2")[0].startswith("Shall bo 2 no longer share these plants?")
    assert talk.press("Yes, remove bo 2")[0] == "bo 2 no longer shares these plants."
    assert "landing" in talk.say("plants", person=PARTNER)[0]
    assert talk.say("plants", person=CLEO)[0].startswith("This bot keeps one home's plants")


def test_a_name_that_nobody_can_type_is_handed_the_home_by_a_button(talk: Talk) -> None:
    talk.names[PARTNER] = "J.R."
    talk.say(f"/start {code(talk)}", person=PARTNER)
    assert talk.say("hand over to Cleo")[0].startswith("I know nobody else called “Cleo” here, only J.R.")
    talk.press("Hand over to J.R.")
    assert talk.press("Yes, to J.R.")[0] == "J.R. owns this home now."
    assert talk.say("members", person=PARTNER) == ["J.R. (owner), Ada."]


def test_a_button_about_somebody_who_left_does_nothing(talk: Talk) -> None:
    for person in (PARTNER, CLEO):
        talk.say(f"/start {code(talk)}", person=person)
    talk.say("members")
    button = talk.button("Remove Bo")
    talk.say("leave", person=PARTNER)
    talk.press("Yes, leave", person=PARTNER)
    assert talk.press_data(button)[0].startswith("Whoever that was for shares these plants no longer.")


BAD_NAMES: dict[str, Callable[[str], str]] = {
    "line break": lambda name: f"{name}\n(owner)",
    "override": lambda name: f"\u202e{name}",
    "isolate": lambda name: f"\u2067{name}\u2066",
    "zero": lambda name: f"{name}\x00\x07",
    "line separator": lambda name: f"{name}\u2028\u2029now",
    "long": lambda name: name * 500,
}


@pytest.mark.parametrize("kind", BAD_NAMES)
def test_no_name_breaks_a_line_or_turns_it(talk: Talk, kind: str) -> None:
    """Names are shown cleaned, also such as an earlier version wrote down raw."""
    talk.names[PARTNER] = BAD_NAMES[kind]("Bo")
    talk.say(f"/start {code(talk)}", person=PARTNER)
    talk.say("ivy 8 spider mites", person=PARTNER)
    talk.evening()
    talk.say("done", person=PARTNER)
    texts = [answer.text for answers in talk.shown.values() for answer in answers]
    texts += [answer.text for said in talk.heard for _, _, answer in said.edits if answer is not None]
    labels = [
        one.label for shown in talk.shown.values() for each in shown for row in each.buttons for one in row
    ]
    assert talk.say("members")[0].count("\n") == 0
    for text in (*texts, *labels, *talk.say("members"), *talk.say("history")):
        assert not re.search("[\u202a-\u202e\u2066-\u2069\x00\x07\u2028\u2029]|Bo\n\\(owner\\)", text)


@pytest.mark.parametrize("name", ["", "\u202e", " \n ", "\x00"])
def test_a_name_of_nothing_is_somebody(name: str) -> None:
    assert shown_name(name) == "Somebody"


def test_who_is_forgotten_in_one_home_is_told_of_the_other(two_homes: Talk) -> None:
    talk = two_homes
    talk.say("forget me for good", person=PARTNER)
    assert talk.press("With Ada", person=PARTNER)[0].startswith("That erases your name")
    assert talk.say("forget me for good", person=PARTNER)[0].endswith(
        "You still share another home; say “forget me” there too if you wish."
    )
    assert talk.say("members") == ["Only Ada. “invite” makes a code for somebody."]
    assert talk.say("plants", person=PARTNER)[0].startswith("sill: fern")
