"""How far a case is, in words: treatments, looks, chances, what holds the plant back."""

from collections.abc import Sequence
from datetime import date
from typing import assert_never

from bot.domain.pest import Pest
from bot.domain.progress import Progress
from bot.domain.release import FRESH_DAYS, Condition
from bot.domain.remedy import Hard
from bot.wording.days import counted, day, listed, near_day
from bot.wording.voice import Voice

NEVER_ABOVE = 0.98
COUNTS = 3
"""So many counts show which way it goes, in one line. Judgement. [1]"""
_ODDS = ((0.95, "19 in 20"), (0.9, "9 in 10"), (0.8, "4 in 5"), (0.75, "3 in 4"))
"""Chances as they are said, from 75 % on; below it looks are counted."""


def hard_words(hard: Hard, plant: str, pest: Pest, voice: Voice) -> str:
    """Say plainly that a case is hard to win, and what is sure instead."""
    match hard:
        case Hard.EXHAUSTED:
            return f"Hard to win now: discard {plant}, or move it cooler."
        case Hard.WITHOUT_HELP:
            days = pest.fight.label_sought_days
            return f"Hard to win unwiped: a label of {days} days or less, a cooler place, or discard {plant}."
        case Hard.TOO_WARM:
            return f"Hard to win from {voice.warmth(pest.fight.warm_from_c or 0)}: cool it."
        case _:
            assert_never(hard)


def percent(share: float) -> str:
    """Say a chance with two digits, never above 98 %."""
    return f"{round(100 * min(share, NEVER_ABOVE))} %"


def rounds_words(state: Progress) -> str:
    """Say how many treatments are done and about how many are to come; not while the kind of pest is open."""
    done = f"treatment {state.rounds_done} done" if state.rounds_done else "no treatment yet"
    if state.is_finished:
        return f"{done}, no more needed"
    more = state.release.more_rounds
    if more is None:
        return f"{done}; too cold there to say how many more" if state.state.too_cold else done
    return done if state.pest.of else f"{done}, about {more} more"


BINDING = {
    Condition.PROBABILITY: "the chance that nothing is left is still too small",
    Condition.CHECKS: "too few looks",
    Condition.LATE_CHECKS: "two looks are needed late, when hidden young would have grown to a size you can see",
    Condition.ROUNDS: "the treatments are not finished",
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
    days, found_on = state.state.days_since_find, state.record.last_find_on
    near = " near it" if found_on > state.case.last_find_on else ""
    if days <= 0:
        return f"living ones{near} today, looks count from tomorrow"
    if state.state.counted_checks == 0:
        return f"no look since living ones near it, {day(found_on)}" if near else "no look has counted yet"
    share = state.state.probability if state.pest.looking.has_chance else 0
    words = next((words for least, words in _ODDS if share >= least), None)
    return looks_words(state) if words is None else f"{words} likely free"


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
    """Say how sure it is and the earliest day."""
    chance, earliest = _chance(state), state.release.earliest_on
    if state.state.qualifies:
        return f"{chance}: all-clear."
    if earliest is None:
        held = state.state.binding[0] if state.state.binding else Condition.PROBABILITY
        return f"{chance}. No day in sight yet: {binding_words(held, state)}."
    words = f"{chance}; free from {near_day(earliest, today)} at best."
    if state.is_finished and (until := state.state.leave_alone_until) is not None and until > today:
        words += f" Leave it alone until {day(until)}: no spray, rinse, wipe; a look may lift, tap, scrape one cover."
    return words


def held_words(state: Progress, today: date) -> str:
    """Say in full what holds a plant back."""
    words, earliest = condition_words(state, today), state.release.earliest_on
    if state.state.qualifies or earliest is None:
        return words
    days = state.state.days_since_find
    without = f" {counted(days, 'day')} without a find." if days > 0 else ""
    words += f"{without} It takes {counted(state.release.more_checks, 'clean look')} more"
    if state.release.binding is not None:
        words += f"; what holds it: {binding_words(state.release.binding, state)}"
    if Condition.ROOTS in state.state.binding and state.release.binding is not Condition.ROOTS:
        words += "; and once the roots"
    return words + "."


def seen_lately(state: Progress) -> list[int]:
    """Give the last counts of living ones, a look with none seen as 0; nothing where one was no number."""
    finds = [(find.on, find.count) for find in state.case.finds]
    looks = [(look.on, 0) for look in state.record.checks if look.on > state.record.last_find_on]
    lately = [count for _, count in sorted([*finds, *looks], key=lambda one: one[0])][-COUNTS:]
    return [] if len(lately) < 2 or None in lately else [count for count in lately if count is not None]  # noqa: PLR2004 - one count is no row


def all_clear(names: Sequence[str]) -> list[str]:
    """Say which plants may go back, and how to tell that they did."""
    return [f"All-clear for {listed(names)}: “put {names[0]} back”."] if names else []
