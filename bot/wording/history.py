"""What was told, in words."""

from collections.abc import Sequence
from datetime import date

from bot.domain.trade import Method
from bot.wording.days import day
from bot.wording.rounds import DONE

TOLD = {
    "HouseholdSet": "settings",
    "PlaceSet": "a place",
    "PlaceGone": "a place removed",
    "PlantRenamed": "another name",
    "Described": "what it is like",
    "Potted": "a pot",
    "PlantSet": "a new plant",
    "Moved": "a change of place",
    "ProductSet": "a product on the shelf",
    "SignSeen": "a sign",
    "CheckedClean": "none seen",
    "Postponed": "put off",
    "IsolatedNow": "kept apart",
    "ReleasedNow": "left isolation",
    "LostNow": "gone",
    "PestCorrected": "another pest",
    "TemperatureRead": "a temperature",
    "RoutineSet": "a habit",
    "HeldUntil": "a pause",
    "WalkBegun": "a check walk",
    "WalkPassed": "passed by",
    "WalkEnded": "the end of the check walk",
    "PhotoTaken": "a photo",
    "CalendarGiven": "a calendar file",
    "SprayUsed": "spray used",
    "UsualByMonth": "a usual temperature",
    "WorkBegun": "a work day",
    "WorkTicked": "a stage of the work day",
    "WorkEnded": "the end of the work day",
}


def told_words(key: str) -> str:
    """Word one entry's key."""
    kind, _, detail = key.partition(":")
    if kind == "Treated":
        return DONE[Method(detail)]
    if kind == "Found":
        return detail.replace("_", " ")
    return TOLD.get(kind, kind)


def history_text(lines: Sequence[tuple[str, str | None, date]], today: date, joint: str = "\n") -> str:
    """Word entries one after the other."""
    return joint.join(
        f"{'today' if on == today else day(on)}: {plant + ' ' if plant else ''}{told_words(key)}"
        for key, plant, on in lines
    )


def told_lines(lines: Sequence[tuple[date, str | None, str, str | None]], today: date) -> str:
    """List what was told, one a line, and by whom where several share the plants."""
    return "\n".join(
        f"{history_text([(key, plant, on)], today)}{f' ({who})' if who else ''}"
        for on, plant, key, who in lines
    )
