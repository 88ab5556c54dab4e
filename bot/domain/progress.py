"""How far a case is: rounds done and to come, looks, the chance that nothing is left, the day it leaves."""

from datetime import date
from functools import cached_property

from bot.domain.climate import cool_days
from bot.domain.gap import plan_gap
from bot.domain.household import Case
from bot.domain.length import least_rounds
from bot.domain.outbreak import Outbreak, once
from bot.domain.pest import Pest
from bot.domain.release import (
    CleanCheck,
    ReleaseForecast,
    ReleaseRecord,
    ReleaseState,
    forecast_release,
    last_look,
    merged_looks,
    release_state,
    root_looks,
)
from bot.domain.remedy import choose_product, remedy
from bot.domain.trade import Grade, Method
from bot.domain.value import Value

CANNOT_LIFT = "cannot-lift"
"""The trait of a plant whose roots cannot be looked at."""


class Progress(Value, kw_only=True, dict=True):
    """
    How far a case is: rounds, forecast, release.

    State and forecast are computed when somebody wants to know: planning an evening seldom does.
    """

    case: Case
    pest: Pest
    temperature: float | None
    """The cool side, for length and release. [degC]"""
    warm: float | None
    """The warm side, for the gap. [degC]"""
    rounds_done: int
    rounds_since_find: int
    gap_days: float
    record: ReleaseRecord
    today: date

    @cached_property
    def is_finished(self) -> bool:
        """Whether the rounds may stop."""
        return self.record.rounds_done >= self.record.rounds_needed and self.state.is_finished

    @property
    def qualifies(self) -> bool:
        """Whether it may leave isolation today: who owes rounds may not, whatever else."""
        return self.is_finished and self.state.qualifies

    @cached_property
    def state(self) -> ReleaseState:
        """How the release rule judges it today."""
        return release_state(self.record, self.today)

    @cached_property
    def release(self) -> ReleaseForecast:
        """When it may leave isolation if every check from now on finds none."""
        return forecast_release(self.record, self.today, now=self.state)


@once
def progress(outbreak: Outbreak) -> Progress:
    """Give how far a case is: rounds done and needed, chance of freedom, earliest release."""
    pest = outbreak.pest
    gap_days = _usual_gap(outbreak)
    start = outbreak.last_find_on
    looks = [CleanCheck(check.on, check.level) for check in outbreak.plant.checks if check.on > start]
    record = ReleaseRecord(
        pest=pest,
        temperature=outbreak.cool,
        daily=cool_days(outbreak.household, outbreak.plant, min(start, outbreak.started_on), outbreak.today),
        started_on=outbreak.started_on,
        last_find_on=start,
        checks=merged_looks(pest, looks),  # once here, and not for every day looked at
        last_look_on=last_look(pest, looks),
        is_merged=True,
        treated_on=max(
            (one.on for one in outbreak.treatments if one.method is not Method.PREDATORS), default=None
        ),
        unpotted_on=max(outbreak.days_of(Method.CLEAN_OUT), default=None),
        rounds_done=_rounds_done(outbreak),
        rounds_since_find=sum(day > start for day in outbreak.round_days),
        rounds_needed=least_rounds(pest, outbreak.cool, gap_days),
        rounds_gap_days=max(1, round(gap_days)),
        strict=outbreak.household.is_strict,
        root_prone=outbreak.is_root_prone,
        cannot_lift=outbreak.is_root_prone and CANNOT_LIFT in outbreak.plant.traits,
        root_looks=root_looks(looks, start, outbreak.today),
        # one look misses half of them: two where more than a few may sit there. Judgement.
        root_looks_needed=1 + (outbreak.is_root_prone and outbreak.case.worst is not Grade.FEW),
    )
    return Progress(
        case=outbreak.case,
        pest=pest,
        temperature=outbreak.cool,
        warm=outbreak.warm,
        rounds_done=record.rounds_done,
        rounds_since_find=record.rounds_since_find,
        gap_days=gap_days,
        record=record,
        today=outbreak.today,
    )


def _rounds_done(outbreak: Outbreak) -> int:
    """Count rounds; a use of nematodes stands for as many as the pest's row says."""
    worth = outbreak.pest.least.nematodes
    if worth == 1:
        return len(outbreak.round_days)
    used = {
        one.on
        for one in outbreak.treatments
        if one.method is Method.NEMATODES
        or ((product := outbreak.product_of(one)) is not None and product.ingredient == "nematodes")
    }
    return sum(worth if day in used else 1 for day in outbreak.round_days)


def _usual_gap(outbreak: Outbreak) -> float:
    """Give the days between rounds: as planned, or as they were done where that is longer. [d]."""
    found = remedy(outbreak)
    product = None if found.main is None else found.main.product
    if found.main is not None and found.main.method is Method.CLEAN_OUT:
        product = choose_product(outbreak, outbreak.pest.fight.round_by)  # of the rounds that follow it
    label = outbreak.label_days(product)
    planned = float(plan_gap(outbreak.pest, outbreak.warm, label).aim_days)
    days = outbreak.round_days
    if len(days) > 1:  # two rounds on neighbouring days are a slip, not the rhythm to come
        return max(planned, (days[-1] - days[0]).days / (len(days) - 1))
    return planned
