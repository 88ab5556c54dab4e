"""How meanings are compared, each worked by hand."""

import pytest

from tests.phrases.meanings import asked_of, fits, untold, writes
from tests.phrases.situation import EVENING


@pytest.mark.parametrize(
    ("meant", "expected"),
    [
        ("done hoya ivy method=spray", "done ivy method=spray + done hoya method=spray"),
        ("find ivy 3 pest=citrus_mealybug where=axils", "find ivy 3 pest=mealies"),
        ("none ivy level=lens + goon", "none ivy ?level=lens"),
        ("none ivy", "none ivy ?level=lens"),
        ("done hoya + later ivy on=2026-05-07", "done hoya + ?later ivy"),
        ("done hoya", "done hoya + ?later ivy"),
        ("ask due", "ask log hoya | ask due"),
        ("thanks", "-"),
        ("ask due", "-"),
        ("isolate ivy days=42", "isolate ivy"),
        ("later ivy on=2026-05-07 at=10:00", "later ivy on=2026-05-07 ?at=10:00"),
    ],
)
def test_these_are_the_same(meant: str, expected: str) -> None:
    assert fits(meant, expected)
    assert untold(meant, expected) == ()


@pytest.mark.parametrize(
    ("meant", "expected", "too_much"),
    [
        ("done hoya ivy", "done hoya", 1),
        ("done hoya", "done hoya ivy", 0),
        ("find ivy 3 pest=scale", "find ivy 3 pest=mealybug", 1),
        ("done hoya", "done hoya method=spray", 1),
        ("done hoya method=spray", "done hoya", 1),
        ("ask due", "done hoya", 0),
        ("find ivy 3", "find ivy 3 pest=mite", 0),
        ("done ivy method=wipe", "done ivy method=wipe on=2026-05-05", 1),
        ("lost ivy", "-", 1),
        ("done hoya + later fern", "done hoya + ?later ivy", 1),
        ("undo", "ask due | ask log hoya", 1),
    ],
)
def test_these_are_not_and_some_write_what_was_not_told(meant: str, expected: str, too_much: int) -> None:
    assert not fits(meant, expected)
    assert len(untold(meant, expected)) == too_much


def test_a_look_walk_or_question_writes_nothing() -> None:
    assert not writes("ask due + mix ml=500 + walk")
    assert writes("ask due + none ivy")


def test_the_method_that_was_asked_need_not_be_said() -> None:
    asked = asked_of(EVENING)
    assert asked == {"hoya": "method=spray", "orchid": "method=spray", "coffee": "method=swab"}
    assert fits("done hoya method=spray", "done hoya", asked)
    assert fits("done hoya", "done hoya method=spray", asked)
    assert not fits("done hoya method=wipe", "done hoya", asked)
