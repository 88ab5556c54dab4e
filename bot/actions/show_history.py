"""What was told, oldest first; of some days, by whom."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.domain.fold import valid
from bot.domain.identity import MemberId, PlantId
from bot.domain.journal import Background, Draft, Entry, Found, HeldUntil, PlantSet


class OfEntries(Outcome):
    """Speaks of entries: the wording's key, plant, day of each."""

    what: tuple[tuple[str, str | None, date], ...]


class ToldAlready(OfEntries):
    """What was told stands there since it was told before."""


class History(Outcome):
    """What was told: day, plant, word, and who told it where several share the plants."""

    lines: tuple[tuple[date, str | None, str, str | None], ...]
    plant: str | None


class DidOn(Outcome, kw_only=True):
    """What was told of some days, by one member or by all who share the plants."""

    lines: tuple[tuple[date, str | None, str, str | None], ...]
    who: str | None
    since: date
    until: date


class LastTreated(Outcome):
    """The last treatments: of named plants each way, of all what was done on the last day."""

    lines: tuple[tuple[date, str | None, str, str | None], ...]
    plants: tuple[str, ...]


HISTORY_DAYS = 60
WEEK = timedelta(days=7)


@answers(Topic.LOG)
def show_history(command: Ask, desk: Desk) -> History | DidOn | LastTreated:
    """Give what was told in some weeks, or of some days, of a plant or of all, by one or by all."""
    if command.is_latest:
        return _last_treated(command, desk)
    plant, days = command.plants[0] if command.plants else None, _days(command, desk)
    if days is None and command.who is None:
        lines = history_lines(desk, plant, desk.today - timedelta(days=HISTORY_DAYS))
        return History(tuple(lines), desk.plant(plant).name if plant is not None else None)
    since, until = days or (desk.today - WEEK, desk.today)
    lines = [line for line in history_lines(desk, plant, since, command.who) if line[0] <= until]
    who = next((one.name for one in desk.members if one.id == command.who), None)
    told = tuple((on, name, key, None if who else by) for on, name, key, by in lines)
    return DidOn(lines=told, who=who, since=since, until=until)


def _last_treated(command: Ask, desk: Desk) -> LastTreated:
    lines = [
        line
        for plant in command.plants or (None,)
        for line in history_lines(desk, plant, date.min)
        if line[2].startswith("Treated:")
    ]
    if command.plants:
        kept = {(name, key): (on, name, key, who) for on, name, key, who in lines}
        lines = sorted(kept.values(), key=lambda line: line[0])
    else:
        lines = [line for line in lines if line[0] == lines[-1][0]]
    return LastTreated(tuple(lines), desk.names(command.plants))


def _days(command: Ask, desk: Desk) -> tuple[date, date] | None:
    """Give the first and the last day that are asked about."""
    today = desk.today
    monday = today - timedelta(days=today.weekday())
    if command.on is not None:
        return command.on, command.on
    match command.when:
        case "today" | "tonight":
            return today, today
        case "yesterday":
            return today - timedelta(days=1), today - timedelta(days=1)
        case "week":
            return monday, today
        case "last-week":
            return monday - WEEK, monday - timedelta(days=1)
        case "away":
            return _away(desk)
        case _:
            return None


def _away(desk: Desk) -> tuple[date, date] | None:
    """Give the last days for which whoever asks was away, or the home rested."""
    told = [one for one in valid(desk.entries) if isinstance(one.payload, HeldUntil)]
    mine = [one for one in told if one.member == desk.member.id or not one.payload.is_own]  # type: ignore[attr-defined]
    return None if not mine else (mine[-1].happened_on, desk.today)


def plant_name(desk: Desk, entry: Entry | Draft) -> str | None:
    """Name the plant an entry is of, if it is still known."""
    if entry.plant is None or entry.plant not in desk.household.plants:
        return None
    return desk.household.plants[entry.plant].name


def described(entries: Iterable[Entry | Draft], desk: Desk) -> tuple[tuple[str, str | None, date], ...]:
    """Give what entries told: the wording's key, plant, day."""
    return tuple((describe(one), plant_name(desk, one), one.happened_on) for one in entries)


def told_already(outcomes: Sequence[Outcome], desk: Desk) -> list[Outcome]:
    """Say of a message that told nothing new that it stands there; what it asks is still asked."""
    if not desk.told_already or desk.has_told:
        return list(outcomes)
    what = tuple((describe(one), plant_name(desk, one), one.happened_on) for one in desk.told_already)
    return [ToldAlready(what, asking=next((one.asking for one in outcomes if one.asking), None))]


def describe(entry: Entry | Draft) -> str:
    """Give the wording's key for what an entry told: its kind, with the method or pest where it has one."""
    kind = type(entry.payload).__name__
    match entry.payload:
        case Found(pest=pest):
            return f"Found:{pest}"
        case PlantSet(name=None, place=None, pot_cm=None):
            return "Described"
        case PlantSet(name=None, place=None):
            return "Potted"
        case PlantSet(name=None):
            return "Moved"
        case payload if hasattr(payload, "method"):
            return f"Treated:{payload.method.value}"
        case _:
            return kind


def history_lines(
    desk: Desk, plant: PlantId | None, since: date, by: MemberId | None = None
) -> list[tuple[date, str | None, str, str | None]]:
    """
    Give what was told of plants and the shelf since a day, oldest first; settings are no history.

    The last of each line is who told it, where several share the plants.
    """
    names = desk.authors
    entries = sorted(valid(desk.entries), key=lambda one: (one.happened_at, one.id))
    return [
        (entry.happened_on, plant_name(desk, entry), describe(entry), names.get(entry.member))
        for entry in entries
        if entry.happened_on >= since
        and not isinstance(entry.payload, Background)
        and (plant is None or entry.plant == plant)
        and by in {None, entry.member}
    ]
