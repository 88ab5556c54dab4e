"""The tagger ships as it is made from the marked messages, and reads what they tell."""

from collections import Counter

from bot.phrases import tagging
from bot.phrases.homes import read_home
from tests.phrases.homes_measured import measured, situation_of
from tests.phrases.marked import hands, templates
from tests.tools.tagging import MOST_BYTES, pack, sources_hash

LEAST_WHOLE = 0.6
"""Share of the messages it was made from that are read to the last plant, place, light, find and product."""


def test_the_weights_are_made_from_the_messages_as_they_stand() -> None:
    assert tagging.model().sources == sources_hash(), "python -m tests.tools.tagging"
    assert len(tagging.FILE.read_bytes()) <= MOST_BYTES


def test_the_same_messages_give_the_same_bytes() -> None:
    some, shapes = hands()["22"][:12], templates()[:4]
    assert pack(some, shapes) == pack(some, shapes)


def test_what_the_messages_tell_is_mostly_read_and_seldom_written_wrong() -> None:
    counts: Counter[str] = Counter()
    for name, told in hands().items():
        if told[0].is_planned:
            for one in told[int(name) % 4 :: 4]:
                counts += measured(one, read_home(one.text, situation_of(one)))
    assert counts["whole"] >= LEAST_WHOLE * counts["messages"]
    assert counts["sure though not whole"] <= counts["messages"] / 25
