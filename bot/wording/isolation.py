"""Answers about what is kept apart and what may go back."""

from collections.abc import Iterable, Sequence
from datetime import date

from bot.actions.isolate import IsolatedThem
from bot.actions.release_plant import NotYet, ReleasedThem
from bot.actions.show_isolated import IsolatedList
from bot.actions.show_release import ReleaseInfo
from bot.domain.gathering import gathered
from bot.domain.household import Plant
from bot.domain.progress import Progress
from bot.wording.conditions import held_words
from bot.wording.days import counted, day, in_runs, listed, near_day
from bot.wording.labels import ask_of_eating
from bot.wording.lines import AFTER, SHORT, heights
from bot.wording.saying import says, says_shortly
from bot.wording.voice import Voice

_Apart = tuple[Plant, str | None, tuple[Progress, ...]]
"""A plant, its place, and how far its cases are."""


@says_shortly
def _isolated_them(told: IsolatedThem, voice: Voice) -> str:
    return "\n".join([_apart_now(told, voice), *([ask_of_eating(told.to_read)] if told.to_read else [])])


def _apart_now(told: IsolatedThem, voice: Voice) -> str:
    names, are = voice.plants(told.plants), "is" if len(told.plants) == 1 else "are"
    if told.rooms:
        return (
            f"Written: {names} {'stays' if are == 'is' else 'stay'}, so all of {listed(told.rooms)} counts as apart. "
            "Look over whatever you carry out of it."
        )
    if told.quarantine_until is not None:
        return (
            f"Written: {names} {are} apart until {day(told.quarantine_until)}, with a look a week. "
            f"“quarantine {told.plants[0]} for 3 weeks” makes it shorter."
        )
    return f"Written: {names} {are} apart."


@says_shortly
def _released(told: ReleasedThem, voice: Voice) -> str:
    lines = []
    for by_rule in (True, False):
        names = [name for name, is_ruled, _ in told.plants if is_ruled is by_rule]
        if names:
            how = "all-clear" if by_rule else "on your word, before the all-clear"
            lines.append(f"Written: {listed(names)} {'goes' if len(names) == 1 else 'go'} back, {how}.")
    watched = {until: name for name, _, until in told.plants if until}
    lines += [f"Look at {name} weekly until {day(until)}." for until, name in watched.items()]
    lines += [AFTER, *_over(told, voice), AFTER]
    if told.not_isolated:
        lines.append(
            f"{listed(told.not_isolated)} {'was' if len(told.not_isolated) == 1 else 'were'} not apart."
        )
    if told.asking is not None:
        lines.append(f"Where {'does it' if len(told.plants) == 1 else 'do they'} stand now?")
    return "\n".join(lines)


def _over(told: ReleasedThem, voice: Voice) -> list[str]:
    """Say what an outbreak came to: days, treatments, counts, with a warm word."""
    lines = []
    for state in told.ended:
        days = counted((voice.today - state.case.opened_on).days, "day")
        counts = [str(find.count) for find in state.case.finds if find.count is not None]
        seen = f", seen {listed(counts)}, then none" if counts else ""
        lines.append(f"Well done: over in {days} and {counted(state.rounds_done, 'treatment')}{seen}.")
    return lines


def release_words(states: tuple[Progress, ...], voice: Voice) -> str:
    if len(states) == 1:
        return held_words(states[0], voice.today)
    return " ".join(f"{state.pest.name}: {held_words(state, voice.today)}" for state in states)


@says_shortly
def _isolated(told: IsolatedList, voice: Voice) -> str:
    if not told.plants:
        lines = ["No plant is apart."]
    else:
        apart = [one for one in told.plants if one[0].isolated_on]
        waiting = [one for one in told.plants if not one[0].isolated_on]
        lines = [f"Apart, {counted(len(apart), 'plant')}:"] if apart else []
        to_go = f"{voice.plants([one[0].name for one in waiting])}; {_until(waiting, voice)}"
        wait = [f"Still to be set apart: {to_go}"] if waiting else []
        each, ways = [_apart(one, voice) for one in apart], [*_by_place(apart, voice)]
        shown = next((way for way in (each, *ways) if heights([*lines, *wait, *way]) <= SHORT), [])
        is_whole = shown == each or (shown == ways[0] and _is_one_end(apart, voice))
        counted_only = [one for one in waiting if one[0].name not in to_go]
        lines += [*shown, *wait, AFTER, *([] if is_whole else each)]
        lines += [_apart(one, voice) for one in counted_only]
    if told.watched:
        watched = [name for name, _, _ in told.watched]
        lines.append(f"Look at weekly: {min(voice.plants(watched), listed(in_runs(watched)), key=len)}.")
    return "\n".join(lines)


def _is_one_end(apart: Sequence[_Apart], voice: Voice) -> bool:
    """Whether all are of one pest, and those of a place free on one day: no more is to be told of each."""
    days = gathered((one[1], _until([one], voice)) for one in apart)
    pests = {state.pest.key for _, _, states in apart for state in states}
    return len(pests) == 1 and all(len({*of}) == 1 for of in days.values())


def _by_place(apart: Sequence[_Apart], voice: Voice) -> Iterable[list[str]]:
    """Give who is apart place by place: named with the days, named, or counted."""
    there = gathered((one[1] or "no place yet", one) for one in apart)
    names = {place: listed(in_runs([plant.name for plant, _, _ in of])) for place, of in there.items()}
    yield [f"{place}: {names[place]}; {_until(of, voice)}" for place, of in there.items()]
    yield [f"{place}: {of}." for place, of in names.items()]
    yield [f"{place}, {len(of)}: {_until(of, voice)}" for place, of in there.items()]
    yield [f"{listed(f'{place} {len(of)}' for place, of in there.items())}."]


def _apart(one: _Apart, voice: Voice) -> str:
    plant, place, states = one
    what = ", ".join([*(state.pest.name for state in states), *([place] if place else [])])
    return f"{plant.name} ({what}): {_until([one], voice)}"


def _until(of: Sequence[_Apart], voice: Voice) -> str:
    """Say from when plants are free at best, the last of them where they differ."""
    days = sorted(on for plant, _, states in of if (on := _free_on(plant, states)) is not None)
    if not days:
        return "no day in sight yet."
    return f"free from {near_day(days[0], voice.today)}{f' to {day(days[-1])}' if days[-1] > days[0] else ''} at best."


def _free_on(plant: Plant, states: Sequence[Progress]) -> date | None:
    if plant.quarantine_until is not None:
        return plant.quarantine_until
    return max((on for state in states if (on := state.release.earliest_on) is not None), default=None)


@says
def _release_info(told: ReleaseInfo, voice: Voice) -> str:
    beside = {
        name: f" {voice.plants(others)} beside it had living ones on {day(on)}: that holds it back too."
        for name, others, on in told.beside
        if others
    }
    lines = []
    for name, states, isolated_on in told.of:
        if states:
            lines.append(f"{name}: {release_words(states, voice)}{beside.get(name, '')}")
        else:
            since = f" since {day(isolated_on)}" if isolated_on else ""
            lines.append(f"{name} is apart{since} without a case: it may go back when you like.")
    lines += [
        f"{name} is new: apart until {day(until)}, then a look that finds none."
        for name, until in told.quarantined
    ]
    if names := [name for name, _, because in told.free if because is None]:
        lines.append(f"Not apart: {voice.plants(names)}.")
    for name, until, because in told.free:
        if because is not None:
            end = (
                f"until {day(until)}" if until else f"while {because} has its case" if because != name else ""
            )
            lines.append(f"{name}: not apart; looked at weekly {end}".rstrip() + ".")
    return "\n".join(lines) or "No plant is apart."


@says
def _not_yet(told: NotYet, voice: Voice) -> str:
    if told.quarantine_until is not None:
        return (
            f"{told.plant} is new: apart until {day(told.quarantine_until)}, then a look that finds none. "
            "It may go earlier on your word."
        )
    return f"{told.plant} is not there yet: {release_words(told.progress, voice)}"
