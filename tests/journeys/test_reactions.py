"""A sign put under the evening's message answers it; anywhere else it says nothing."""

from bot.actions.incoming import Reaction
from bot.domain.journal import Treated
from tests.journeys.talking import PARTNER, Talk


def nudged(talk: Talk) -> int:
    """Have an evening's message sent about the ivy; give its number."""
    talk.say("ivy 12 spider mites")
    talk.evening()
    with talk.database.unit() as store:
        household = store.households()[0]
        nudge = store.member(talk.nudges[-1].chat, talk.nudges[-1].chat)
        assert nudge is not None
        on = talk.now.date()
        return store.nudged_messages(household, on)[-1][1]


def treatments(talk: Talk) -> int:
    return sum(isinstance(one, Treated) for _, one in talk.told())


def test_a_thumb_under_the_evenings_message_is_done(talk: Talk) -> None:
    message = nudged(talk)
    before = treatments(talk)
    talk.send(Reaction(("👍",), message))
    assert treatments(talk) > before


def test_a_second_thumb_writes_nothing_more(talk: Talk) -> None:
    message = nudged(talk)
    talk.send(Reaction(("👍🏽",), message))
    once = treatments(talk)
    (answer,) = talk.send(Reaction(("✅",), message))
    assert "Stood there already" in answer
    assert treatments(talk) == once


def test_a_thumb_elsewhere_or_another_sign_or_a_strangers_says_nothing(talk: Talk) -> None:
    message = nudged(talk)
    before = len(talk.entries())
    assert talk.send(Reaction(("👍",), message + 77)) == []
    assert talk.send(Reaction(("😢",), message)) == []
    assert talk.send(Reaction(("👍",), message), person=PARTNER) == []
    assert len(talk.entries()) == before
