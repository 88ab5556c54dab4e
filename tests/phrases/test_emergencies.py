"""What went wrong is heard before everything else, whatever is being asked just then."""

from dataclasses import replace

import pytest

from bot.actions.give_first_aid import GiveFirstAid
from bot.actions.not_understood import NotUnderstood
from bot.actions.situation import Expecting
from bot.phrases.emergencies import hear_emergency
from bot.phrases.reading import understand
from tests.phrases.situation import EVENING, table

LINES = list(table("emergencies.tsv"))
NOBODY = replace(EVENING, plants=(), places=(), shelf=(), tonight=())


def heard(text: str) -> str:
    told = hear_emergency(text, EVENING)
    if isinstance(told, NotUnderstood):
        return told.reason
    return "none" if told is None else "exposure"


@pytest.mark.parametrize(("text", "what"), LINES)
def test_an_emergency_is_known_by_who_and_what(text: str, what: str) -> None:
    assert heard(text) == what


@pytest.mark.parametrize("expecting", list(Expecting))
def test_whatever_is_being_asked_it_is_heard_first(expecting: Expecting) -> None:
    for home in (EVENING, NOBODY):
        waiting = replace(home, expecting=expecting)
        missed = [
            text
            for text, what in LINES
            if what == "exposure" and understand(text, waiting) != (GiveFirstAid(),)
        ]
        assert missed == []


def test_a_dangerous_plan_is_answered_with_the_danger_in_every_state() -> None:
    for expecting in Expecting:
        for text, what in LINES:
            if what in {"bleach", "flame"}:
                (meant,) = understand(text, replace(NOBODY, expecting=expecting))
                assert meant == NotUnderstood(text, reason=what)


def test_usual_lines_are_no_emergencies() -> None:
    usual = [
        wording
        for name in ("golden.tsv", "wordings.tsv")
        for wording, meaning in table(name)
        if not meaning.startswith("exposure")
    ]
    assert [wording for wording in usual if hear_emergency(wording, EVENING) is not None] == []
