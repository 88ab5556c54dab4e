"""A household in a group chat, privacy mode on: commands and replies reach the bot, nothing else is answered."""

from bot.actions.incoming import Incoming, Text
from bot.domain.journal import Found, Treated
from tests.journeys.talking import OWNER, PARTNER, STRANGER, Talk

GROUP = -100_200


def set_up_group(talk: Talk) -> None:
    """Found the home in a group."""
    talk.say("/start", chat=GROUP)
    talk.say("Gent", chat=GROUP)
    talk.say("hoya, landing, 15 cm\nivy, study", chat=GROUP)


def test_a_home_lives_in_a_group_and_the_evening_comes_there(stranger_talk: Talk) -> None:
    talk = stranger_talk
    set_up_group(talk)
    talk.say("hoya 12 longtailed mealybugs", chat=GROUP)
    talk.evening()
    assert {one.chat for one in talk.nudges} == {GROUP}
    talk.say("done", chat=GROUP)
    assert any(isinstance(one, Treated) for _, one in talk.told())


def test_somebody_joins_in_the_group_by_its_code(stranger_talk: Talk) -> None:
    talk = stranger_talk
    set_up_group(talk)
    code = talk.say("invite", chat=GROUP)[0].rpartition(" ")[2]
    assert talk.say(f"/start {code}", person=PARTNER, chat=GROUP)[0].startswith("Welcome.")
    talk.say("ivy 8 spider mites", person=PARTNER, chat=GROUP)
    assert [one.pest for _, one in talk.told() if isinstance(one, Found)] == ["spider_mite"]
    talk.evening()
    assert [one.chat for one in talk.nudges] == [GROUP]  # one message for the group, not one a member


def test_a_stranger_in_the_group_neither_reads_nor_writes(stranger_talk: Talk) -> None:
    talk = stranger_talk
    set_up_group(talk)
    before = len(talk.entries())
    (refusal,) = talk.say("plants", person=STRANGER, chat=GROUP)
    assert refusal.endswith("Who shares them can write “invite” for you.")
    assert talk.say("hoya died", person=STRANGER, chat=GROUP) == []  # no second answer within an hour
    assert len(talk.entries()) == before


def test_what_is_not_meant_for_the_bot_is_not_answered(stranger_talk: Talk) -> None:
    talk = stranger_talk
    set_up_group(talk)
    before = len(talk.entries())
    incoming = Incoming(
        update_id=900,
        chat=GROUP,
        person=OWNER,
        name="Ada",
        kind=Text("hoya died"),
        at=talk.now,
        is_group=True,
        addressed=False,
    )
    with talk.database.unit() as store:
        said = talk.conversation.hear(incoming, store, talk.now)
    assert (said.answers, said.edits) == ([], [])
    assert len(talk.entries()) == before
