"""When the next round is due: the window between two rounds."""

import enum
import math
from dataclasses import dataclass
from typing import Literal

from bot.domain.development import GAP_DEFAULT, MARGIN, held, is_too_cold
from bot.domain.pest import Pest
from bot.domain.trade import Method

_SLACK_DAYS = 3  # the window opens this long before its upper end
_MITES_LABEL_DAYS = 7  # from here on most mite campaigns fail in simulation


class Lateness(enum.Enum):
    """How a round stands to the pest's own time."""

    ON_TIME = "on time"
    LATE = "late"
    MISSED = "missed"


@dataclass(frozen=True, slots=True, kw_only=True)
class GapPlan:
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
    capped_by: Literal["biology", "cap"]
    slack_days: int
    label_outlasts: bool
    wants_shorter_label: bool
    too_cold: bool
    above_range: bool


def plan_gap(pest: Pest, temperature: float | None, label_days: int | None) -> GapPlan:
    """
    Plan the days from one round to the next so that nothing hatches and grows up in between.

    Parameters
    ----------
    pest
        Vulnerable time on the fast side, its share f and its cap.
    temperature
        Mean of the place; unknown counts as 24, warm, which is the cautious side here. [degC]
    label_days
        Least days the label asks between two uses; none for work by hand. [d]

    Returns
    -------
    GapPlan
        Held between T0 + 3 and the pest's upper bound, and says so. The label is never undercut.

    Raises
    ------
    ValueError
        If the label's days are negative.

    References
    ----------
    .. [karacaoglu2017] first instar of the citrus mealybug, the model for the other windows.
    """
    if label_days is not None and label_days < 0:
        raise ValueError(f"a label cannot ask for {label_days} d between two uses")
    asked = GAP_DEFAULT if temperature is None else temperature
    used = max(held(pest, asked), pest.gap.t0 + MARGIN)
    window = pest.gap.dd / (used - pest.gap.t0)
    upper = max(1, math.floor(min(pest.gap_f * window, pest.gap_cap_days)))
    missed = max(math.floor(window), upper)
    opens, closes, handwork = _bounds(upper, missed, label_days or 0)
    outlasts = (label_days or 0) > missed
    return GapPlan(
        opens_days=opens,
        closes_days=closes,
        aim_days=opens,
        window_days=window,
        upper_days=upper,
        missed_after_days=missed,
        handwork_days=handwork,
        label_days=label_days,
        temperature=used,
        capped_by="cap" if pest.gap_f * window > pest.gap_cap_days else "biology",
        slack_days=max(0, upper - opens),
        label_outlasts=outlasts,
        wants_shorter_label=outlasts or _is_long_for_mites(pest, label_days),
        too_cold=is_too_cold(pest.gap, asked),
        above_range=asked > pest.t_high,
    )


def _bounds(upper: int, missed: int, label: int) -> tuple[int, int, tuple[int, ...]]:
    if label <= upper:
        return max(1, label, upper - _SLACK_DAYS), upper, ()
    if label <= missed:
        return label, missed, ()
    return label, label + 1, _spread(label, missed)


def _spread(label: int, missed: int) -> tuple[int, ...]:
    pieces = math.ceil(label / missed)
    return tuple((2 * label * piece + pieces) // (2 * pieces) for piece in range(1, pieces))


def _is_long_for_mites(pest: Pest, label_days: int | None) -> bool:
    return Method.PRUNE in pest.fight.strong and (label_days is None or label_days >= _MITES_LABEL_DAYS)


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
