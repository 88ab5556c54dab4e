"""How far a case is, in words: rounds, chances, what holds the plant back."""

from datetime import date

from bot.domain.course import Progress
from bot.domain.release import Condition
from bot.wording.days import counted, day, near_day

NEVER_ABOVE = 0.98


def percent(share: float) -> str:
    """Say a chance with two digits, never above 98 %."""
    return f"{round(100 * min(share, NEVER_ABOVE))} %"


def rounds_words(state: Progress) -> str:
    """Say how many rounds are done and how many it takes."""
    least = f"{counted(state.rounds_done, 'round')} done of at least {state.forecast.minimum}"
    if state.forecast.likely is None:
        return least
    low, high = state.forecast.likely
    if low is None:
        return f"{least}; at this rhythm it may not be won"
    if high is None:
        return f"{least}, likely {low} or more"
    return f"{least}, likely {low} to {high}" if high > low else f"{least}, likely about {low}"


BINDING = {
    Condition.PROBABILITY: "the chance that nothing is left is still too small",
    Condition.SPAN: "an egg laid on the day of the last find could still be growing",
    Condition.CHECKS: "too few checks 5 or more days apart",
    Condition.LATE_CHECKS: "two checks are needed late, when hidden young would have grown to a size you can see",
    Condition.SPRAY_FREE: "a clean look counts only some time after the last round",
    Condition.ROUNDS: "the rounds are not finished",
    Condition.UNREACHABLE: "without a look at the roots the needed certainty cannot be reached",
}


def _chance(state: Progress) -> str:
    """Say the chance; where something living was seen today there is none to say."""
    days = state.state.days_since_find
    if days <= 0:
        return "living ones were seen today, so looks count from tomorrow on"
    if state.state.counted_checks == 0:
        return f"{counted(days, 'day')} without a find, but no look has counted yet"
    return f"{percent(state.state.probability)} likely free, {counted(days, 'day')} without a find"


def condition_words(state: Progress, today: date) -> str:
    """Say the chance, the earliest day and what binds, with what a lens would gain."""
    if state.state.qualifies:
        return f"{percent(state.state.probability)}, may leave isolation by the rule."
    chance = _chance(state)
    earliest = state.release.earliest_on
    if earliest is None:
        held = state.state.binding[0] if state.state.binding else Condition.PROBABILITY
        return f"{chance}. No date in sight: {BINDING[held]}."
    words = f"{chance}. Back {near_day(earliest, today)} at the earliest, after {counted(state.release.more_checks, 'more clean check', 'more clean checks')}"
    if state.release.binding is not None:
        words += f"; what holds it: {BINDING[state.release.binding]}"
    lens = state.release.with_lens_on
    if lens is not None and lens < earliest:
        words += f". With a lens each time: {day(lens)}"
    return words + "."
