"""Answers to "is it working", and their picture: readable on a phone and by the colour-blind."""

import io
from collections.abc import Callable
from datetime import timedelta
from typing import Any

from bot.actions.show_trend import TrendShown
from bot.domain.trend import LEAST_COUNTS, STANDS_FOR, Call, Count
from bot.wording.answer import Attachment
from bot.wording.days import counted, day
from bot.wording.saying import says
from bot.wording.voice import Voice

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


# Okabe and Ito's palette, told apart with any colour vision.
_BLUE, _ORANGE, _SKY, _GREY = "#0072B2", "#D55E00", "#56B4E9", "#555555"
_WIDTH_IN, _HEIGHT_IN, _DOTS_PER_IN = 5.0, 4.0, 150
_MOST_TICKS = 4
_LEAST_POINTS = 2


def trend_chart(told: TrendShown, voice: Voice) -> Attachment | None:
    """Draw the counts of a case; None where there is nothing to compare yet."""
    if len(told.points) < _LEAST_POINTS:
        return None
    # loaded for a chart only: it would double the memory of a bot that draws none
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # noqa: PLC0415
    from matplotlib.figure import Figure  # noqa: PLC0415

    figure = Figure(figsize=(_WIDTH_IN, _HEIGHT_IN), dpi=_DOTS_PER_IN, layout="constrained")
    FigureCanvasAgg(figure)
    axes = figure.add_subplot()
    _draw(axes, told, voice)
    held = io.BytesIO()
    figure.savefig(held, format="png")
    return Attachment(f"{told.plant}.png", held.getvalue())


def _draw(axes: Any, told: TrendShown, voice: Voice) -> None:
    first = told.points[0].on
    if told.band and told.trend.call is not Call.TOO_EARLY:
        days = [(one.on - first).days for one in told.band]
        lows, highs = [one.low for one in told.band], [one.high for one in told.band]
        axes.fill_between(days, lows, highs, color=_SKY, alpha=0.35, linewidth=0, label="likely course")
        axes.plot(days, [one.middle for one in told.band], color=_BLUE, linewidth=1)
    kinds: tuple[tuple[str, Callable[[Count], bool], dict[str, Any]], ...] = (
        ("counted", lambda one: one.number > 0 and not one.is_graded, {"color": _BLUE}),
        (
            "about",
            lambda one: one.number > 0 and one.is_graded,
            {"facecolor": _SKY, "edgecolor": _BLUE, "marker": "D"},
        ),
        ("none seen", lambda one: one.number == 0, {"facecolor": "white", "edgecolor": _BLUE}),
    )
    for label, is_of, look in kinds:
        points = [((one.on - first).days, one.number) for one in told.points if is_of(one)]
        if points:
            axes.scatter(*zip(*points, strict=True), s=50, zorder=3, label=label, **look)
    rounds = [(on - first).days for on in told.rounds]
    most = max(1, *(one.number for one in told.points))
    if rounds:
        axes.scatter(rounds, [-0.08 * most] * len(rounds), marker="^", color=_ORANGE, s=60, label="treatment")
    axes.set_ylim(-0.16 * most, 1.15 * most)
    _label(axes, told, voice)


def ticks(told: TrendShown, voice: Voice) -> dict[int, str]:
    """Give the days that are written under a chart, counted from its first."""
    first = told.points[0].on
    span = max((max(told.points[-1].on, *told.rounds, first) - first).days, 1)
    shown = {round(span * number / (_MOST_TICKS - 1)) for number in range(_MOST_TICKS)}
    return {one: voice.local(day(first + timedelta(days=one))) for one in sorted(shown)}


def _label(axes: Any, told: TrendShown, voice: Voice) -> None:
    shown = ticks(told, voice)
    axes.set_xticks(list(shown), list(shown.values()), fontsize=11)
    axes.tick_params(axis="y", labelsize=11)
    axes.yaxis.get_major_locator().set_params(integer=True)
    axes.set_title(f"{told.plant}: {told.pest}", fontsize=13, color="black")
    axes.set_ylabel("seen alive", fontsize=12, color=_GREY)
    axes.spines[["top", "right"]].set_visible(False)
    axes.figure.legend(fontsize=10, frameon=False, loc="outside lower center", ncols=3)
