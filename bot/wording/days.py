"""Days, times and lists as people say them."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
SHORTEST_RUN = 3
"""So many numbers in a row are said as from and to. Judgement. [1]"""
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day(on: date) -> str:
    """Say a day: "Sat 9 May"."""
    return f"{_WEEKDAYS[on.weekday()]} {on.day} {_MONTHS[on.month - 1]}"


def month(number: int) -> str:
    """Say a month: "May"."""
    return _MONTHS[number - 1]


def near_day(on: date, today: date) -> str:
    """Say a day with its nearness: "today, Sat 9 May"."""
    words = {today: "today", today + timedelta(days=1): "tomorrow", today - timedelta(days=1): "yesterday"}
    return f"{words[on]}, {day(on)}" if on in words else day(on)


def listed(names: Iterable[str], joint: str = "and") -> str:
    """Join names as in speech: "a, b and c"."""
    all_names = list(names)
    if len(all_names) < 2:  # noqa: PLR2004 - a pair needs the joint
        return "".join(all_names)
    return f"{', '.join(all_names[:-1])} {joint} {all_names[-1]}"


def in_runs(names: Iterable[str]) -> list[str]:
    """Say numbers of one name in a row as one: "AV 1 to 30"."""
    runs: list[list[str]] = []
    for name in names:
        stem, _, number = name.rpartition(" ")
        is_next = number.isdigit() and runs and runs[-1][-1] == f"{stem} {int(number) - 1}"
        if is_next:
            runs[-1].append(name)
        else:
            runs.append([name])
    said = (run if len(run) < SHORTEST_RUN else [f"{run[0]} to {run[-1].rpartition(' ')[2]}"] for run in runs)
    return [one for run in said for one in run]


def some(names: Sequence[str], most: int, joint: str = "and") -> str:
    """Join names, of many the first and how many more there are."""
    rest = len(names) - most
    return listed(names, joint) if rest <= 0 else f"{', '.join(names[:most])} {joint} {rest} more"


def counted(number: int, one: str, many: str | None = None) -> str:
    """Say a number with its noun."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def plural(pest: str) -> str:
    """Say a pest's name of several animals: mealybugs, whiteflies; scale and thrips stay as they are."""
    if pest.endswith(("s", "scale")):
        return pest
    return f"{pest[:-1]}ies" if pest.endswith("y") else f"{pest}s"


def dated(on: date, today: date) -> str:
    """Say for which day something is written, today left unsaid: "Written", "Written for Fri 1 May"."""
    return "Written" if on == today else f"Written for {day(on)}"


def lowered(text: str) -> str:
    """Begin a sentence small, within another."""
    return text[:1].lower() + text[1:]
