"""
Sixty talks over an evening or two, as unlike people would have them: what each message writes, and no more.

`talks/homes.txt` has the homes, `talks/talks.txt` the talks. `=` names what the message before tells: plant and entry
by semicolons, `~` before what may be written too, `*` for anything; a talk's number is how many of its messages were
understood at once when it was first held. Their sum may only rise.
"""

import re
from datetime import date
from fnmatch import fnmatchcase
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from bot.domain.fold import valid
from bot.domain.household import Household
from bot.domain.identity import EntryId
from bot.domain.journal import (
    Background,
    CheckedClean,
    Entry,
    Found,
    IsolatedNow,
    PlantSet,
    Postponed,
    SignSeen,
    Treated,
    Voided,
)
from bot.storage.database import Database
from tests.journeys.talking import OWNER, PARTNER, Talk

FOLDER = Path(__file__).parent / "talks"
LEAST_UNDERSTOOD = 102


def chunks(name: str) -> dict[str, list[str]]:
    """Give the lines under each heading of a file."""
    text = (FOLDER / name).read_text("utf-8")
    parts = (part.splitlines() for part in re.split(r"^## ", text, flags=re.MULTILINE)[1:])
    return {head: [line for line in lines if line] for head, *lines in parts}


HOMES, TALKS = chunks("homes.txt"), chunks("talks.txt")


def shown(entry: Entry, home: Household, today: date) -> str:
    """Give an entry in a word or two, as the talks name it."""
    plant = "" if entry.plant is None else home.plants[entry.plant].name
    match entry.payload:
        case Treated(method=method, product=product):
            with_what = "" if product is None else f" {home.products[product].ingredient}"
            return f"{plant} {method.value}{with_what}"
        case Found(count=count, grade=grade):
            return f"{plant} found {grade.value if count is None else count}"
        case CheckedClean():
            return f"{plant} clean"
        case Postponed(on=on):
            return f"{plant} later +{(on - today).days}"
        case IsolatedNow(apart=apart):
            return f"{plant} {'apart' if apart else 'stays'}"
        case PlantSet(place=place) if place is not None:
            return f"{plant} at {home.places[place].name}"
        case SignSeen(sign=sign):
            return f"{plant} sign {sign.value}"
        case other:
            return f"{plant} {type(other).__name__}".strip()


def standing(talk: Talk) -> dict[EntryId, str]:
    """Give what stands in the journal of what people told."""
    kept = (one for one in valid(talk.entries()) if not isinstance(one.payload, Background | Voided))
    return {one.id: shown(one, talk.home, talk.now.date()) for one in kept}


def says(talk: Talk, line: str) -> tuple[list[str], str]:
    """Do what a line says; give what it wrote or took back, and what was answered."""
    before = standing(talk)
    answers: list[str] = []
    if line == "--- evening":
        talk.evening()
        talk.passes(minutes=7)
    elif line.startswith("--- +"):
        talk.passes(days=int(line.split()[1]))
    elif line.startswith("["):
        talk.press(line[1:-1])
    else:
        talk.passes(minutes=1)
        text = line.removeprefix("Bo: ").replace("\\n", "\n")
        answers = talk.say(text, person=PARTNER if line.startswith("Bo: ") else OWNER)
    after = standing(talk)
    new = [text for one, text in after.items() if one not in before]
    return new + [f"void {text}" for one, text in before.items() if one not in after], "\n".join(answers)


@cache
def played(head: str) -> tuple[int, tuple[tuple[str, str], ...]]:
    """Hold a talk: how many of its messages were understood at once, and where more was written than told."""
    _, home, _ = head.split()
    with TemporaryDirectory() as folder:
        talk = Talk(Database("", Path(folder)))
        try:
            return _heard(talk, home, TALKS[head])
        finally:
            talk.database.close()


def _heard(talk: Talk, home: str, lines: list[str]) -> tuple[int, tuple[tuple[str, str], ...]]:
    for line in HOMES[home]:
        says(talk, line)
    if home == "E":
        talk.joins()
    right, wrong = 0, []
    for line, told in zip(lines, [*lines[1:], ""], strict=True):
        if line[:1] in {"=", "?"}:
            continue
        new, answer = says(talk, line)
        if told[:1] not in {"=", "?"}:
            continue
        expected = [one.strip() for one in told[1:].split(";") if one.strip() and told.startswith("=")]
        may = [one.lstrip("~") for one in expected]
        wrong += [(line, answer) for one in new if not any(fnmatchcase(one, each) for each in may)]
        needed = [one for one in expected if one[0] not in "~*"]
        is_told = all(any(fnmatchcase(one, each) for one in new) for each in needed)
        right += is_told and (told.startswith("=") or re.search(told[2:], answer, re.IGNORECASE) is not None)
    return right, tuple(wrong)


@pytest.mark.parametrize("head", TALKS)
def test_a_talk_writes_what_it_tells_and_no_more(head: str) -> None:
    assert played(head)[1] == ()


def test_as_many_messages_are_understood_at_once_as_before() -> None:
    """Only the sum is held: what is trained anew understands another message here and there."""
    assert sum(played(head)[0] for head in TALKS) >= LEAST_UNDERSTOOD, "it may only rise"
