"""When the roots of a plant are looked at: since the last find, until it is done, and again."""

from bot.domain.outbreak import Outbreak, once
from bot.domain.progress import CANNOT_LIFT, progress
from bot.domain.release import NEVER, ROOTS_AGAIN_DAYS
from bot.domain.trade import Level, Method

_WEEK = 7  # looks are weekly, so a question stands for one of them [d]


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
