"""How far a case is, in words: treatments, looks, chances, what holds the plant back."""

from datetime import date
from typing import assert_never

from bot.domain.pest import Pest
from bot.domain.progress import Progress
from bot.domain.release import FRESH_DAYS, Condition
from bot.domain.remedy import Hard
from bot.wording.days import counted, day, near_day
from bot.wording.voice import Voice

NEVER_ABOVE = 0.98
_ODDS = ((0.95, "19 in 20"), (0.9, "9 in 10"), (0.8, "4 in 5"), (0.75, "3 in 4"))
"""Chances as they are said, from 75 % on; below it looks are counted."""


def hard_words(hard: Hard, plant: str, pest: Pest, voice: Voice) -> str:
    """Say plainly that a case is hard to win, and what is sure instead."""
    match hard:
        case Hard.EXHAUSTED:
            return f"Hard to win: alive again, no strong step is left. Discard {plant}, or move it cooler."
        case Hard.WITHOUT_HELP:
            days = pest.fight.label_sought_days
            return (
                f"Hard to win: {plant} bears no washing. Look for a product labelled for every {days} days or less, "
                "else a cooler place, or discard it."
            )
        case Hard.TOO_WARM:
            return f"Hard to win from {voice.warmth(pest.fight.warm_from_c or 0)}: a cooler place helps most."
        case _:
            assert_never(hard)


def percent(share: float) -> str:
    """Say a chance with two digits, never above 98 %."""
    return f"{round(100 * min(share, NEVER_ABOVE))} %"


def odds(share: float) -> str | None:
    """Say a chance in words, None where it is too small to say."""
    return next((words for least, words in _ODDS if share >= least), None)


def rounds_words(state: Progress) -> str:
    """Say how many treatments are done and about how many are to come."""
    done = counted(state.rounds_done, "treatment") + " done"
    if state.is_finished:
        return f"{done}, no more needed"
    more = state.release.more_rounds
    if more is None:
        return f"{done}; too cold there to say how many more" if state.state.too_cold else done
    return f"{done}, about {more} more" if state.rounds_done else f"about {counted(more, 'treatment')}"


BINDING = {
    Condition.PROBABILITY: "the chance that nothing is left is still too small",
    Condition.CHECKS: "too few looks",
    Condition.LATE_CHECKS: "two looks are needed late, when hidden young would have grown to a size you can see",
    Condition.ROUNDS: "the treatments are not finished",
    Condition.UNREACHABLE: "so sure nobody can be by looking",
    Condition.ROOTS: "one look at the roots",
    Condition.FRESH: f"a look younger than {FRESH_DAYS} days and later than the last treatment",
}


def binding_words(condition: Condition, state: Progress) -> str:
    """Say what holds a plant back, in the words of its pest."""
    if condition is Condition.SPAN:
        return span_words(state.pest)
    if condition is Condition.CONTACT_FREE:
        until = state.state.leave_alone_until
        return "it is left alone first" + (f", until {day(until)}" if until else "")
    return BINDING[condition]


def span_words(pest: Pest) -> str:
    """Say what the days without a find wait for."""
    if pest.rooted:
        return "young ones in the mix could still be growing"
    if pest.bears_live_young:
        return "young ones nobody saw could still be growing"
    return "an egg laid on the day of the last find could still be growing"


def _chance(state: Progress) -> str:
    """Say the chance from 75 % on, else the looks; where something living was seen today neither."""
    days = state.state.days_since_find
    if days <= 0:
        return "living ones were seen today, so looks count from tomorrow on"
    if state.state.counted_checks == 0:
        return f"{counted(days, 'day')} without a find, but no look has counted yet"
    words = odds(state.state.probability) if state.pest.looking.has_chance else None
    if words is None:
        return f"{looks_words(state)}, {counted(days, 'day')} without a find"
    return f"{words} likely free, {counted(days, 'day')} without a find"


def looks_words(state: Progress) -> str:
    """Say which clean look this is, of how many, while that number is fixed."""
    seen, least = state.state.counted_checks, looks_needed(state)
    if seen >= least or (state.state.looks_share < seen / least):
        return counted(seen, "clean look")
    return f"clean look {seen} of {least}"


def looks_needed(state: Progress) -> int:
    """Give how many looks of the way used last, or asked for, suffice."""
    needed = state.pest.looking.needed
    last = state.record.checks[-1].level if state.record.checks else state.pest.looking.ask
    return needed.get(last, needed.get(state.pest.looking.ask, 1))


def condition_words(state: Progress, today: date) -> str:
    """Say the chance, the earliest day and what binds, with what a lens would gain."""
    if state.state.qualifies:
        return f"{_chance(state)}, may leave isolation by the rule."
    chance = _chance(state)
    earliest = state.release.earliest_on
    if earliest is None:
        held = state.state.binding[0] if state.state.binding else Condition.PROBABILITY
        return f"{chance}. No date in sight: {binding_words(held, state)}."
    words = f"{chance}. Back {near_day(earliest, today)} at the earliest, after {counted(state.release.more_checks, 'more clean look', 'more clean looks')}"
    if state.release.binding is not None:
        words += f"; what holds it: {binding_words(state.release.binding, state)}"
    if Condition.ROOTS in state.state.binding and state.release.binding is not Condition.ROOTS:
        words += "; and once the roots"
    lens = state.release.with_lens_on
    if lens is not None and lens < earliest:
        words += f". With a lens each time: {day(lens)}"
    if state.is_finished and (until := state.state.leave_alone_until) is not None and until > today:
        words += f". Leave it alone until {day(until)}: no spray, rinse, wipe; a look may lift, tap, scrape one cover"
    return words + "."
