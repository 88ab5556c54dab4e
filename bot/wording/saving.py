"""What goes first when time is short."""

from collections.abc import Sequence

from bot.actions.save_time import TimeSaved, Turn
from bot.domain.effort import Sort
from bot.wording.acts import planned
from bot.wording.days import listed, some
from bot.wording.saying import says

SHOWN = 6
SORTS = {Sort.DISCARD: "Discard", Sort.CUT: "Cut hard, then treat", Sort.TREAT: "Treat", Sort.WATCH: "Watch"}


@says
def time_saved(told: TimeSaved) -> str:
    """Give the order, the minutes, and what may be given up."""
    if told.sorts:
        return _sorted_out(told)
    if not told.now:
        return "Nothing is due tonight."
    first = sum(one.minutes for one in told.now)
    lines = [f"First, about {first} min:", *turns(told.now)]
    if told.later:
        rest = sum(one.minutes for one in told.later)
        lines.append(f"Can wait, {rest} min: {some([one.plant for one in told.later], SHOWN)}.")
    if told.given_up:
        lines.append(f"Or give up {some(told.given_up, SHOWN, 'or')}: “threw out the {told.given_up[0]}”.")
    return "\n".join(lines)


def turns(told: Sequence[Turn]) -> list[str]:
    lines = []
    for number, one in enumerate(told[:SHOWN], start=1):
        acts = [(method, None) for method in one.methods if method]
        work = planned(acts) if acts else "look"
        lines.append(f"{number} {one.plant}: {work}, {one.minutes} min")
    if len(told) > SHOWN:
        lines.append(f"then {listed(one.plant for one in told[SHOWN:])}")
    return lines


def _sorted_out(told: TimeSaved) -> str:
    lines = [f"{SORTS[sort]}: {some(told.sorts[sort], SHOWN)}." for sort in Sort if told.sorts.get(sort)]
    hours = f"That is about {told.hours_a_week:.1f} hours a week"
    saved = f", {told.hours_saved:.1f} less without those to discard" if told.hours_saved else ""
    lines.append(f"{hours}{saved}.")
    if told.now:
        lines.append(f"Tonight first: {some([one.plant for one in told.now], SHOWN)}.")
    return "\n".join(lines)
