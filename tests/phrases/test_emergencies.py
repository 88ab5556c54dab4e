"""What went wrong is heard before everything else, whatever is being asked just then."""

import time

import pytest

from bot.actions.action import Expecting
from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.incomplete import Incomplete
from bot.actions.not_understood import NotUnderstood
from bot.domain.value import replace
from bot.phrases.emergencies import Alarm, alarm, danger, hear_emergency, weights
from bot.phrases.hearing import understand
from tests.phrases.situation import EVENING, table
from tests.tools.alarm import FOLDER, all_lines, hash_of, rows_of

LINES = [row for file in sorted(FOLDER.glob("*.tsv")) for row in rows_of(file)]
NOBODY = replace(EVENING, plants=(), places=(), shelf=(), tonight=())
HEARD_AT_LEAST = 0.985
"""Of lines it is made from; what it hears of people it has not met stands in drawers.md."""


def is_helped(text: str, expecting: Expecting = Expecting.NOTHING) -> bool:
    home = NOBODY if expecting in {Expecting.TOWN, Expecting.PLANTS} else EVENING
    return isinstance(understand(text, replace(home, expecting=expecting))[0], GiveFirstAid)


def test_the_weights_are_made_from_the_lines_that_stand_here() -> None:
    assert weights().tables == hash_of(all_lines()), "`python -m tests.tools.alarm` makes them anew"


@pytest.mark.parametrize("expecting", list(Expecting))
def test_whatever_is_being_asked_it_is_heard_first(expecting: Expecting) -> None:
    told = [text for text, what in LINES if what == "exposure"]
    heard = [text for text in told if is_helped(text, expecting)]
    assert len(heard) >= HEARD_AT_LEAST * len(told)


def test_lines_that_taught_nothing_are_heard_and_the_harmless_seldom() -> None:
    rows = [row for file in sorted((FOLDER / "apart").glob("*.tsv")) for row in rows_of(file)]
    helped = {what: [is_helped(text) for text, kind in rows if kind == what] for what in ("exposure", "none")}
    assert sum(helped["exposure"]) >= 0.96 * len(helped["exposure"])
    assert sum(helped["none"]) <= 0.26 * len(helped["none"])


def test_what_may_be_something_else_is_helped_and_read() -> None:
    helped, *rest = understand("my son and the dog were here when i sprayed the hoya", EVENING)
    assert helped == GiveFirstAid(in_doubt=True)
    assert rest
    assert all(isinstance(one, Incomplete | NotUnderstood) for one in rest)


@pytest.mark.parametrize(
    "text",
    [
        "i mixed the soap with my bare hands and now they are on fire",
        "my niece put the swab in her mouth",
        "the spray hit the dog's eyes",
        "ivy sap all over my arms, big red bumps",
    ],
)
def test_an_emergency_in_words_nobody_wrote_down(text: str) -> None:
    assert is_helped(text)


def test_what_somebody_owns_or_does_is_rarely_taken_for_one() -> None:
    told = (
        "horticultural oil i own",
        "veranda faces south, staghorn fern there as well and we have white oil",
        "my father in law gave me spinosad and rubbing alcohol",
        "At home I have: sulphur dust. Nothing more.",
        "plus blue sticky traps",
        "drenched the two with bti",
        "is the scale dead or alive?",
        "the ficus tipped over and snapped. put it in the bin",
        "who sprays?",
        "my cousin has it too, what should he do",
        "Am I talking to a human or a program?",
    )
    for home in (EVENING, NOBODY):
        heard = [alarm(text, home) for text in told]
        assert Alarm.LOUD not in heard
        assert heard.count(Alarm.NONE) >= len(told) - 2


def test_a_count_of_pests_is_no_emergency_number() -> None:
    for text in ("ivy 112 spider mites", "911 aphids on the bay", "hoya 999"):
        assert hear_emergency(text, EVENING) is None


def test_a_dangerous_plan_is_answered_with_the_danger_in_every_state() -> None:
    for expecting in Expecting:
        for text, what in LINES:
            if what in {"bleach", "flame"}:
                (meant,) = understand(text, replace(NOBODY, expecting=expecting))
                assert meant == NotUnderstood(text, reason=what)


def test_what_people_usually_say_is_rarely_taken_for_one() -> None:
    usual = [
        wording
        for name in ("golden.tsv", "wordings.tsv")
        for wording, meaning in table(name)
        if not meaning.startswith("exposure")
    ]
    assert [one for one in usual if hear_emergency(one, EVENING) is not None] == []
    assert sum(is_helped(one) for one in usual) <= 0.01 * len(usual)
    assert not any(danger(one, EVENING) for one in usual)


def test_listening_grows_with_the_message_no_faster() -> None:
    def spent(text: str) -> float:
        started = time.process_time()
        for _ in range(5):
            hear_emergency(text, EVENING)
        return time.process_time() - started

    spent("warm up")
    assert spent("the cat sat on the pot " * 400) < 40 * spent("the cat sat on the pot " * 20)
