"""Answers to "is it working"."""

from bot.actions.show_trend import TrendShown
from bot.domain.trend import LEAST_COUNTS, STANDS_FOR, Call
from bot.wording.days import counted, day
from bot.wording.saying import says

LOOK_ELSEWHERE = (
    "Before you change the product, look where they hide (roots, sheaths, under the rim), for ants, at the "
    "neighbours, and whether the spray reached every underside."
)


@says
def _trend_words(told: TrendShown) -> str:
    lines = [f"{told.plant}, {told.pest}: {_call(told)}"]
    if told.trend.call in {Call.CANNOT_TELL, Call.PROBABLY_RISING}:
        lines.append(LOOK_ELSEWHERE)
    graded = sum(point.is_graded for point in told.points)
    if graded:
        lines.append(
            f"{graded} of {counted(len(told.points), 'count')} only told a few, some or many: I count "
            f"{', '.join(str(number) for number in STANDS_FOR.values())} for these (our judgement)."
        )
    return "\n".join(lines)


def _call(told: TrendShown) -> str:
    found = told.trend
    factor = ""
    if found.weekly_factor is not None:
        factor = f", about {_change(found.weekly_factor)} each week"
    if found.weekly_range is not None:
        low, high = found.weekly_range
        factor += f" (in 4 of 5 such records {_change(low)} to {_change(high)})"
    sure = (
        ""
        if found.p_falling is None
        else f" By chance alone they would fall like this {_chance(found.p_falling)}."
    )
    match found.call:
        case Call.TOO_EARLY:
            return _too_early(told)
        case Call.FALLING:
            return f"falling{factor}.{sure}"
        case Call.PROBABLY_FALLING:
            return f"probably falling{factor}.{sure}"
        case Call.CANNOT_TELL:
            return f"cannot tell yet from {counted(len(told.points), 'count')}{factor}."
        case Call.PROBABLY_RISING:
            return f"probably rising{factor}."


def _change(factor: float) -> str:
    return f"{round(100 * abs(1 - factor))} % {'fewer' if factor < 1 else 'more'}"


def _chance(share: float) -> str:
    return "less than 1 time in 100" if share < 0.01 else f"about {round(100 * share)} times in 100"  # noqa: PLR2004


def _too_early(told: TrendShown) -> str:
    if len(told.points) < LEAST_COUNTS:
        return (
            f"too early to tell from {counted(len(told.points), 'count')}; it takes {LEAST_COUNTS}. "
            "Tell me at each look how many you see."
        )
    assert told.hatch_due_on is not None
    return (
        f"too early to tell: eggs laid before the first treatment can hatch until {day(told.hatch_due_on)}."
    )
