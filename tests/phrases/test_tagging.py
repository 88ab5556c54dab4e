"""The tagger ships as it is made from the marked messages, and reads what they tell."""

import random
from collections import Counter

from bot.phrases import tagging
from bot.phrases.homes import read_home
from bot.phrases.lexicon import is_ordinary
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


def test_ordinary_words_are_known_and_invented_ones_seldom_taken_for_them() -> None:
    assert all(map(is_ordinary, ["neighbour", "neighbor", "colours", "wondering", "gallery", "kettle"]))
    assert not any(map(is_ordinary, ["monstera", "hoya", "zamioculcas", "tradescantia", "calathea"]))
    source = random.Random(5)
    invented = ["".join(source.choices("bcdfghjklmnpqrstvwxz", k=8)) for _ in range(10_000)]
    # five bits a word, 41,000 words in 368,000 bits: (1 - exp(-5 * 41 / 368)) ** 5 = .014
    assert sum(map(is_ordinary, invented)) / len(invented) < 0.02
