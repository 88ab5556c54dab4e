"""
Recorded lives, lived again: what people typed and pressed, each at its own hour, whatever the bot says to it today.

A button is pressed only where the answer to the same words still shows it; what was asked then may not be asked now.
"""

import re
from datetime import datetime

from tests.journeys.talking import OWNER, ZONE, Talk
from tests.journeys.transcribe import PEOPLE

_SAID = re.compile(r"(Ada|Bo): (.*)")
_PRESSED = re.compile(r"(Ada|Bo) presses \[(.*)\]")
_LATER = re.compile(r"--- \+(\d+) (h|d)")
_EVENING = re.compile(r"--- next evening, \w+ (\d+ \w+ \d+:\d+)")
_CODE = re.compile(r"/start (\S{12})")


_GONE = " (is not asked any more)"


def live(recorded: str, talk: Talk) -> str:
    """Do it all again; give the talk as it goes today."""
    shown: list[str] = []
    answers: list[list[str]] = []
    texts: list[str] = []
    lines = recorded.splitlines()
    starts = [number for number, line in enumerate(lines) if _is_step(line)]
    were = ["\n".join(lines[a:b]) for a, b in zip(starts, [*starts[1:], len(lines)], strict=True)]
    for number, was in enumerate(were):
        step = was.partition("\n")[0]
        before = {person: len(talk.shown.get(person, [])) for person in PEOPLE.values()}
        if said := _SAID.fullmatch(step):
            text = said[2].replace("\\n", "\n").replace("CODE", _code(talk))
            talk.say(text, person=PEOPLE[said[1]])
        elif pressed := _PRESSED.fullmatch(step):
            asked = next(one for one in range(number - 1, -1, -1) if f"[{pressed[2]}]" in were[one])
            is_same = pressed[2] != "Yes" or _is_offered_alike(were[asked], texts[asked])
            about, today = (_asked_about(pressed[2], one) for one in (were[asked], texts[asked]))
            is_of_a_walk = pressed[2] in _OF_A_WALK
            if about and about != today and (today or is_of_a_walk):
                words = f"{about} {pressed[2].lower()}{', with a lens' if is_of_a_walk else ''}"
                talk.say(words, person=PEOPLE[pressed[1]])
                step += f" (in words, “{words}”: {today or 'nothing'} is asked about)"
            else:
                step += _press(pressed[2], PEOPLE[pressed[1]], answers[asked] if is_same else [], talk)
        elif later := _LATER.match(step):
            talk.passes(**{{"h": "hours", "d": "days"}[later[2]]: int(later[1])})
        elif evening := _EVENING.match(step):
            _pass_until(datetime.strptime(f"2026 {evening[1]}", "%Y %d %b %H:%M").replace(tzinfo=ZONE), talk)
        new = [
            (person, answer)
            for person in PEOPLE.values()
            for answer in talk.shown.get(person, [])[before[person] :]
        ]
        texts.append("\n".join(answer.text for _, answer in new))
        answers.append(
            [
                f"{person}\t{one.label}\t{one.data}"
                for person, answer in new
                for row in answer.buttons
                for one in row
            ]
            if not step.endswith(_GONE)
            else answers[asked]  # what was written at once has its buttons a step earlier
        )
        shown += ["", step]
        for person, answer in new:
            shown += [
                f"    {'' if person == OWNER else '(to Bo) '}{line}" for line in answer.text.split("\n")
            ]
            shown += ["    " + " ".join(f"[{one.label}]" for one in row) for row in answer.buttons]
    return "\n".join(shown)


def _is_offered_alike(then: str, today: str) -> bool:
    """Whether a yes means the same, or a part of it: the same sentences, or a home's list or shelf read better."""
    before, now = (re.findall(r"(?:Did you mean|Not noted yet:)\s+“([^”?]*)", one) for one in (then, today))
    are_alike = (all(one and kind(one[0]) for one in (before, now)) for kind in (_is_of_home, _is_of_shelf))
    said = [set(one[0].split(". ")) if one else set() for one in (now, before)]
    return before == now or (bool(said[0]) and said[0] <= said[1]) or any(are_alike)


def _asked_about(label: str, shown: str) -> str:
    """Name the window or the plant of a walk that a press of a direction, or of what was seen, answers."""
    if re.match(r"north|south|east|west|no window", label):
        asked = re.search(r"Which way do.*? First (.+?);|Which way does the window at (.+?) look", shown)
        return (asked[1] or asked[2]) if asked else ""
    asked = re.search(r"\d+ of \d+: (.+?),", shown) if label in _OF_A_WALK else None
    return asked[1] if asked else ""


_OF_A_WALK = ("None seen", "A few", "Some", "Many")


def _is_of_home(offered: str) -> bool:
    return bool(
        re.search(
            r": | \((?:[nesw]{1,2}|no window|all-day|morning|afternoon|shade|unknown)\)"
            r"|\bplace [^,.”]+, ",
            offered,
        )
    )


def _is_of_shelf(offered: str) -> bool:
    return offered.startswith("got ")


def _is_step(line: str) -> bool:
    return bool(_SAID.fullmatch(line) or _PRESSED.fullmatch(line) or line.startswith("--- "))


def _press(label: str, person: int, buttons: list[str], talk: Talk) -> str:
    for button in buttons:
        whose, shown, data = button.split("\t")
        if (int(whose), shown) == (person, label):
            talk.press_data(data, person=person)
            return ""
    return _GONE


def _pass_until(at: datetime, talk: Talk) -> None:
    while (due := talk.next_at()) is not None and due <= at:
        talk.tick(max(due, talk.now))
        if talk.next_at() == due:
            break
    talk.now = max(at, talk.now)


def _code(talk: Talk) -> str:
    for answer in reversed(talk.shown.get(OWNER, [])):
        if found := _CODE.search(answer.text):
            return found[1]
    return ""
