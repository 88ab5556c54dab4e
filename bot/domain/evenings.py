"""One household, several plants: the fewest evenings that serve them all."""

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date

from bot.domain.gathering import gathered
from bot.domain.value import Value


class Need(Value, kw_only=True):
    """One plant's window; from `label_on` it may join an evening that takes place anyway."""

    key: int
    opens_on: date
    aim_on: date
    closes_on: date
    label_on: date | None = None


class _Span(Value):
    first: int
    aim: int
    last: int


_Way = tuple[int, int, tuple[int, ...]]  # evenings, days off the aims, the days


def fewest_evenings(needs: Sequence[Need]) -> tuple[tuple[date, tuple[int, ...]], ...]:
    """
    Cover every window by the fewest evenings; among those, the ones nearest the aims, then the earliest.

    A window reaches back to the day the label allows, so that a plant can join an earlier evening; the
    label's day also holds when it is later than the window's opening. Gives the evenings in order, each with
    the keys it serves. ValueError if a window closes before it opens or before the label allows.
    """
    if not needs:
        return ()
    spans = [_span(need) for need in needs]
    alike = Counter(spans)  # plants treated together share their window
    days = _best_days(alike)
    evening = {span: _nearest(span, days) for span in alike}
    served = gathered((evening[span], need.key) for need, span in zip(needs, spans, strict=True))
    return tuple((date.fromordinal(day), tuple(sorted(served[day]))) for day in sorted(served))


def _span(need: Need) -> _Span:
    first = (need.label_on or need.opens_on).toordinal()
    last = need.closes_on.toordinal()
    if first > last or need.opens_on > need.closes_on:
        raise ValueError(f"the window of {need.key} closes on {need.closes_on}, before it opens")
    return _Span(first, min(max(need.aim_on.toordinal(), first), last), last)


def _nearest(span: _Span, days: Sequence[int]) -> int:
    return min((abs(day - span.aim), day) for day in days if span.first <= day <= span.last)[1]


def _best_days(spans: Mapping[_Span, int]) -> tuple[int, ...]:
    # The cost only bends at an aim or at the end of a window: no other day can be better.
    candidates = sorted({day for span in spans for day in (span.first, span.aim, span.last)})
    best: dict[int, _Way] = {}
    finals: list[_Way] = []
    for day in candidates:
        ways = [_extended(spans, way, day) for way in ((0, 0, ()), *best.values())]
        if found := [way for way in ways if way is not None]:
            best[day] = min(found)
            if (rest := _cost(spans, day, None)) is not None:
                count, total, days = best[day]
                finals.append((count, total + rest, days))
    return min(finals)[2]


def _extended(spans: Mapping[_Span, int], way: _Way, day: int) -> _Way | None:
    count, total, days = way
    step = _cost(spans, days[-1] if days else None, day)
    return None if step is None else (count + 1, total + step, (*days, day))


def _cost(spans: Mapping[_Span, int], before: int | None, after: int | None) -> int | None:
    """Add up the days off their aim of the windows aiming between two neighbouring evenings."""
    total = 0
    for span, count in spans.items():
        if (before is not None and span.aim <= before) or (after is not None and span.aim > after):
            continue
        reach = [abs(day - span.aim) for day in (before, after) if day and span.first <= day <= span.last]
        if not reach:
            return None
        total += count * min(reach)
    return total
