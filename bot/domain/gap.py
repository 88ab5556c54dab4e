"""When the next round is due: the window between two rounds."""

import enum
import math
from datetime import date, timedelta
from functools import lru_cache

from bot.domain.development import FAST_DEFAULT, MARGIN, held, is_too_cold
from bot.domain.pest import Pest
from bot.domain.value import Value

_WEEK = 7  # [d]


class Lateness(enum.Enum):
    """How a round stands to the pest's own time."""

    ON_TIME = "on time"
    LATE = "late"
    MISSED = "missed"


class GapPlan(Value, kw_only=True):
    """The window of the next round, counted in days from the last one, and what it rests on."""

    opens_days: int
    closes_days: int
    aim_days: int
    window_days: float  # W, the vulnerable time of the fastest insect
    upper_days: int  # U, the last day that keeps a reserve
    missed_after_days: int
    handwork_days: tuple[int, ...]
    label_days: int | None
    temperature: float  # [degC] as used
    label_outlasts: bool
    wants_shorter_label: bool
    too_cold: bool
    above_range: bool

    def days_after(self, last: date) -> tuple[date, date, date]:
        """Give the days on which it opens, is best and closes, counted from a day."""
        opens, aim, closes = (
            last + timedelta(days=n) for n in (self.opens_days, self.aim_days, self.closes_days)
        )
        return opens, aim, closes


@lru_cache(maxsize=1024)
def plan_gap(
    pest: Pest, temperature: float | None, label_days: int | None, *, is_hurried: bool = False
) -> GapPlan:
    """
    Plan the days from one round to the next so that nothing hatches and grows up in between.

    The window is the pest's vulnerable time on the fast side, its share and its cap, or fixed days, at the
    warm side of the place [degC]: unknown counts as 24, it is held between T0 + 3 and the pest's upper bound,
    and the plan says so. The label's least days between two uses [d], not negative (else ValueError), are
    never undercut; a hurried plan opens as soon as they are over.

    .. [karacaoglu2017] first instar of the citrus mealybug, the model for the other windows.
    """
    if label_days is not None and label_days < 0:
        raise ValueError(f"a label cannot ask for {label_days} d between two uses")
    asked = FAST_DEFAULT if temperature is None else temperature
    used = max(held(pest, asked), pest.gap.t0 + MARGIN)
    window = pest.gap.dd / (used - pest.gap.t0)
    fixed = next(((first, last) for to_c, first, last in pest.gap_steps if asked <= to_c), None)
    upper = fixed[1] if fixed else max(1, math.floor(min(pest.gap_f * window, pest.gap_cap_days)))
    missed = upper if fixed else max(math.floor(window), upper)
    label = label_days or 0
    # a short window opens half way: nobody wipes a plant every evening
    first = fixed[0] if fixed else upper - min(pest.gap_slack_days, upper // 2)
    opens, closes = _bounds(1 if is_hurried and label else first, upper, missed, label)
    outlasts = label > missed
    return GapPlan(
        opens_days=opens,
        closes_days=closes,
        aim_days=opens,
        window_days=float(missed) if fixed else window,
        upper_days=upper,
        missed_after_days=missed,
        handwork_days=_between(pest, used, opens, missed, outlasts=outlasts),
        label_days=label_days,
        temperature=used,
        label_outlasts=outlasts,
        wants_shorter_label=outlasts or _is_longer_than_sought(pest, label_days),
        too_cold=is_too_cold(pest.gap, asked),
        above_range=asked > pest.t_high,
    )


def _bounds(first: int, upper: int, missed: int, label: int) -> tuple[int, int]:
    if label <= upper:
        return max(1, label, first), upper
    return label, missed if label <= missed else label + 1


def _between(pest: Pest, celsius: float, gap: int, missed: int, *, outlasts: bool) -> tuple[int, ...]:
    """Spread handwork over the days between two uses: where the label is too long, and so many a week."""
    fight = pest.fight
    if fight.handwork is None:
        return ()
    a_week = next((times for below_c, times in fight.between_a_week if celsius < below_c), 0)
    number = gap * a_week // _WEEK
    if outlasts:
        number = max(number, math.ceil(gap / missed) - 1, fight.between_least)
    pieces = min(number, gap - 1) + 1
    return tuple((2 * gap * piece + pieces) // (2 * pieces) for piece in range(1, pieces))


def _is_longer_than_sought(pest: Pest, label_days: int | None) -> bool:
    sought = pest.fight.label_sought_days
    return sought is not None and (label_days is None or label_days > sought)


def lateness(plan: GapPlan, days_since_last: int) -> Lateness:
    """
    Judge a round by the days since the last one of any method.

    Where the label alone pushes the window past U, its last day is still on time: the bot asked for it.
    Where handwork fills the label's wait, only the pest's own time counts.
    """
    on_time = plan.upper_days if plan.label_outlasts else max(plan.upper_days, plan.closes_days)
    if days_since_last <= on_time:
        return Lateness.ON_TIME
    return Lateness.LATE if days_since_last <= plan.missed_after_days else Lateness.MISSED
