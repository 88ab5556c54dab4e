"""When the roots of a plant are to be looked at: once since the last find, asked for until it is done."""

from bot.domain.outbreak import Outbreak, once
from bot.domain.progress import progress
from bot.domain.release import NEVER, Condition
from bot.domain.trade import Method

AGAIN_DAYS = 30
"""A look at the roots that was not done is asked for again after this long. Judgement. [d]"""
_WEEK = 7  # looks are weekly, so a question stands for one of them [d]


@once
def wants_root_look(outbreak: Outbreak) -> bool:
    """
    Whether the next look is one at the roots, where that is wanted at all.

    At a repotting, for the pot is off then; else from h1 days after the last find; then monthly.
    """
    state = progress(outbreak).state
    if Condition.ROOTS not in state.binding:
        return False
    today = outbreak.today
    if any(today in outbreak.days_of(method) for method in (Method.REPOT, Method.CLEAN_OUT)):
        return True
    if state.h1_on == NEVER or today < state.h1_on:
        return False
    return (today - state.h1_on).days % AGAIN_DAYS < _WEEK
