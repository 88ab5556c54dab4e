"""How far a case is: rounds done and to come, looks, the chance that nothing is left, the day it leaves."""

from bot.domain.climate import cool_days
from bot.domain.gap import plan_gap
from bot.domain.household import Case
from bot.domain.length import least_rounds
from bot.domain.outbreak import Outbreak, once
from bot.domain.pest import Pest
from bot.domain.release import (
    NEVER,
    ROOTS_AGAIN_DAYS,
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
from bot.domain.remedy import CANNOT_LIFT, choose_product, remedy
from bot.domain.trade import Grade, Level, Method
from bot.domain.value import Value, cached_property

_WEEK = 7  # looks are weekly, so a question about roots stands for one of them [d]


class Progress(Value, dict=True):
    """
    How far a case is: rounds, forecast, release.

    All of it is worked out when somebody wants to know: planning an evening seldom does.
    """

    outbreak: Outbreak

    @property
    def case(self) -> Case:
        return self.outbreak.case

    @property
    def pest(self) -> Pest:
        return self.outbreak.pest

    @cached_property
    def rounds_done(self) -> int:
        """Rounds so far; a use of nematodes stands for as many as the pest's row says."""
        outbreak, worth = self.outbreak, self.pest.least.nematodes
        if worth == 1:
            return len(outbreak.round_days)
        used = {
            one.on
            for one in outbreak.treatments
            if one.method is Method.NEMATODES
            or ((product := outbreak.product_of(one)) is not None and product.ingredient == "nematodes")
        }
        return sum(worth if day in used else 1 for day in outbreak.round_days)

    @cached_property
    def rounds_needed(self) -> int:
        return least_rounds(self.pest, self.outbreak.cool, self.gap_days)

    @cached_property
    def gap_days(self) -> float:
        """Days between rounds: as planned, or as they were done where that is longer. [d]."""
        outbreak = self.outbreak
        main = remedy(outbreak).main
        product = None if main is None else main.product
        if main is not None and main.method is Method.CLEAN_OUT:
            product = choose_product(outbreak, self.pest.fight.round_by)  # of the rounds that follow it
        planned = float(plan_gap(self.pest, outbreak.warm, outbreak.label_days(product)).aim_days)
        days = outbreak.round_days
        if len(days) > 1:  # two rounds on neighbouring days are a slip, not the rhythm to come
            return max(planned, (days[-1] - days[0]).days / (len(days) - 1))
        return planned

    @cached_property
    def is_finished(self) -> bool:
        return self.rounds_done >= self.rounds_needed and self.state.is_finished

    @property
    def qualifies(self) -> bool:
        """Whether it may leave isolation today: who owes rounds may not, whatever else."""
        return self.is_finished and self.state.qualifies

    @cached_property
    def state(self) -> ReleaseState:
        """How the release rule judges it today."""
        return release_state(self.record, self.outbreak.today)

    @cached_property
    def release(self) -> ReleaseForecast:
        """When it may leave isolation if every check from now on finds none."""
        return forecast_release(self.record, self.outbreak.today, now=self.state)

    @cached_property
    def record(self) -> ReleaseRecord:
        outbreak, pest = self.outbreak, self.pest
        start, today = outbreak.last_find_on, outbreak.today
        looks = [CleanCheck(check.on, check.level) for check in outbreak.plant.checks if check.on > start]
        return ReleaseRecord(
            pest=pest,
            temperature=outbreak.cool,
            daily=cool_days(outbreak.household, outbreak.plant, min(start, outbreak.case.opened_on), today),
            started_on=outbreak.case.opened_on,
            last_find_on=start,
            checks=merged_looks(pest, looks),  # once here, and not for every day looked at
            last_look_on=last_look(pest, looks),
            is_merged=True,
            treated_on=max(
                (one.on for one in outbreak.treatments if one.method is not Method.PREDATORS), default=None
            ),
            unpotted_on=max(outbreak.days_of(Method.CLEAN_OUT), default=None),
            rounds_done=self.rounds_done,
            rounds_since_find=sum(day > start for day in outbreak.round_days),
            rounds_needed=self.rounds_needed,
            rounds_gap_days=max(1, round(self.gap_days)),
            strict=outbreak.household.is_strict,
            root_prone=outbreak.is_root_prone,
            cannot_lift=outbreak.is_root_prone and CANNOT_LIFT in outbreak.plant.traits,
            root_looks=root_looks(looks, start, today),
            # one look misses half of them: two where more than a few may sit there. Judgement.
            root_looks_needed=1 + (outbreak.is_root_prone and outbreak.case.worst is not Grade.FEW),
        )


progress = once(Progress)
"""Give how far a case is, the same value as long as the outbreak is the same."""


@once
def wants_root_look(outbreak: Outbreak) -> bool:
    """
    Whether the next look is one at the roots, of a plant whose pest may sit there.

    Root-prone kinds do not leave without it; the others wait longer without it, for a few live in any mix.
    At a repotting, for the pot is off then; else from h1 days after the last find; then every fortnight, for
    as long as the plant is kept for other reasons too.
    """
    is_asked = (
        outbreak.pest.at_roots and not outbreak.pest.rooted and CANNOT_LIFT not in outbreak.plant.traits
    )
    if not is_asked:
        return False
    found, today = progress(outbreak), outbreak.today
    state = found.state
    looks = [one.on for one in outbreak.plant.checks if one.level is Level.ROOTS]
    if found.record.root_looks and looks:
        return (today - max(looks)).days >= ROOTS_AGAIN_DAYS and not state.qualifies
    if any(today in outbreak.days_of(method) for method in (Method.REPOT, Method.CLEAN_OUT)):
        return True
    if state.h1_on == NEVER or today < state.h1_on:
        return False
    return (today - state.h1_on).days % ROOTS_AGAIN_DAYS < _WEEK
