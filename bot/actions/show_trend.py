"""Is it working: the counts of a case over time, what to make of them, and what to draw."""

from datetime import date, timedelta
from math import ceil, isfinite

from bot.actions.action import Outcome
from bot.actions.ask import Ask, Topic, answers
from bot.actions.desk import Desk
from bot.domain.climate import temperature_on
from bot.domain.household import Case, Plant
from bot.domain.trend import STANDS_FOR, Band, Count, Trend, fitted_band, hatch_wave_days, trend


class TrendShown(Outcome, kw_only=True):
    """How the counts on a plant go; points are counts or what a grade stands for, nought for none seen."""

    plant: str
    pest: str
    trend: Trend
    points: tuple[Count, ...]
    rounds: tuple[date, ...]
    band: tuple[Band, ...]
    hatch_due_on: date | None


class NoTrend(Outcome):
    """Nothing is open whose counts could be followed."""

    plant: str | None


@answers(Topic.TREND)
def show_trend(command: Ask, desk: Desk) -> TrendShown | NoTrend:
    """Follow the newest open case of the plant asked about, or of the one with most to show."""
    asked = [desk.plant(plant) for plant in command.plants] or desk.household.living
    cases = [(plant, case) for plant in asked for case in plant.open_cases]
    if not cases:
        return NoTrend(asked[0].name if command.plants else None)
    plant, case = max(cases, key=lambda one: len(_points(*one)))
    points = _points(plant, case)
    hatch_due_on = _hatch_due_on(plant, case, desk)
    return TrendShown(
        plant=plant.name,
        pest=desk.knowledge.pests[case.pest].name,
        trend=trend(points, hatch_due_on),
        points=points,
        rounds=tuple(desk.outbreak(plant.id, case).round_days),
        band=fitted_band(points),
        hatch_due_on=hatch_due_on,
    )


def _points(plant: Plant, case: Case) -> tuple[Count, ...]:
    """Give one count a day, finds before looks: a grade stands for what it usually is."""
    found = {check.on: Count(check.on, 0) for check in plant.checks if check.on >= case.opened_on}
    for find in case.finds:
        is_graded = find.count is None
        number = STANDS_FOR[find.grade] if find.count is None else find.count
        if find.on not in found or number > found[find.on].number:
            found[find.on] = Count(find.on, number, is_graded)
    return tuple(count for _, count in sorted(found.items()))


def _hatch_due_on(plant: Plant, case: Case, desk: Desk) -> date | None:
    rounds = desk.outbreak(plant.id, case).round_days
    if not rounds:
        return None
    pest = desk.knowledge.pests[case.pest]
    days = hatch_wave_days(pest, temperature_on(desk.household, plant, desk.today))
    return rounds[0] + timedelta(days=ceil(days)) if isfinite(days) else None
