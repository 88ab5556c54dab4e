"""Answers about finds, signs and looks."""

from collections import Counter
from collections.abc import Sequence
from datetime import timedelta

from bot.actions.log_check import CheckLogged, UnfitLook
from bot.actions.log_find import FindLogged, FindsLogged, Need
from bot.domain.course import Step
from bot.domain.gathering import gathered
from bot.domain.progress import Progress
from bot.domain.release import can_show
from bot.domain.trade import Grade, Level
from bot.wording.acts import planned
from bot.wording.conditions import all_clear, condition_words, hard_words, rounds_words
from bot.wording.days import dated, day, listed, plural
from bot.wording.labels import ask_of_eating
from bot.wording.lines import AFTER, heights
from bot.wording.saying import says, says_shortly
from bot.wording.voice import Voice

GRADES = {Grade.FEW: "a few", Grade.SOME: "some", Grade.MANY: "many"}


LEVELS = {
    Level.GLANCE: "a glance",
    Level.PLAIN: "a plain look",
    Level.LENS: "a look with a lens",
    Level.ROOTS: "a look at the roots",
    Level.TAP: "a tap over white paper",
    Level.CARD: "a sticky card",
    Level.TAPE: "tape round a stem",
    Level.POTATO: "a slice of potato",
}

NEEDS = {
    Need.LENS: "a lens",
    Need.CARD: "sticky cards",
    Need.SPIRIT: "70 % alcohol",
    Need.GOGGLES: "goggles",
    Need.MIX: "fresh potting mix",
}
_OUTSIDE = frozenset({"stem", "leaf", "underside"})
FEW_CASES = 2
"""So many cases are told one by one under a look. Judgement. [1]"""


@says_shortly
def _find(told: FindLogged, voice: Voice) -> str:
    where = f", {'on' if told.where in _OUTSIDE else 'in'} the {told.where}" if told.where else ""
    lines = [f"{dated(told.on, voice.today)}: {' '.join(_amount(told))} on {told.plant}{where}."]
    lines += [f"{number} {step}" for number, step in enumerate(_steps(told, voice), 1)]
    if told.to_read is not None and told.is_isolated:
        lines.append(ask_of_eating(told.to_read))
    lines.append(AFTER)
    needs, later = _to_get(told)
    lines += needs
    if told.hard is not None:
        lines.append(hard_words(told.hard, told.plant, told.progress.pest, voice))
    if told.is_reopened:
        lines.append("That opens its case again.")
    if told.progress.rounds_done and not told.is_new_case:
        lines.append(f"Living ones, so it takes longer: {rounds_words(told.progress)}.")
    if told.to_read is not None and not told.is_isolated:
        lines.append(f"No {told.to_read} before its label is read.")
    if told.tell is not None:
        lines.append(f"Which kind can wait. {told.tell}")
    earliest = told.progress.release.earliest_on
    if earliest is not None and not told.needs:
        lines.append(f"Free from {day(earliest)} at best.")
    if told.hard is None and told.grade is Grade.MANY and told.progress.pest.fight.is_discarded:
        lines.append("So many: extension services would bin a plant that is cheap to replace.")
    lines += later
    return "\n".join(lines)


def _amount(told: FindLogged) -> tuple[str, str]:
    many = str(told.count) if told.count is not None else GRADES[told.grade]
    return many, told.pest if told.count == 1 else plural(told.pest)


@says_shortly
def _finds(told: FindsLogged, voice: Voice) -> str:
    """Say many finds as one: what was seen, then each work with its plants."""
    first = told.finds[0]
    amounts = gathered((_amount(one), one.plant) for one in told.finds)
    is_one_pest = len({one.pest for one in told.finds}) == 1
    seen = "; ".join(
        f"{many}{'' if is_one_pest and place else f' {pest}'} on {voice.plants(names)}"
        for place, ((many, pest), names) in enumerate(amounts.items())
    )
    apart = [one.plant for one in told.finds if not one.is_isolated and one.progress.pest.fight.is_set_apart]
    planned_works = ((_find_plan(one, one.step, voice), one.plant) for one in told.finds if one.step)
    works = gathered((work.rstrip("."), plant) for work, plant in planned_works)
    everybody = {one.plant for one in told.finds}
    steps = ["Move them away from the others now."] if apart else []
    steps += [
        f"{work}{'' if set(names) == everybody else f': {voice.plants(names)}'}."
        for work, names in works.items()
    ]
    others = dict.fromkeys(name for one in told.finds for name in one.neighbours if name not in everybody)
    steps += [f"Look at {voice.plants(list(others))} too."] if others else []
    numbered = [f"{number} {step}" for number, step in enumerate(steps, 1)]
    lines = [f"{dated(first.on, voice.today)}: {seen}.", *numbered[:1], AFTER, *numbered[1:]]
    needs, later = _to_get(max(told.finds, key=lambda one: len(one.needs)))
    reads = dict.fromkeys(one.to_read for one in told.finds if one.to_read is not None)
    tells = dict.fromkeys(one.tell for one in told.finds if one.tell is not None)
    return "\n".join(
        [
            *lines,
            *needs,
            *(f"No {product} before its label is read." for product in reads),
            *(f"Which kind can wait. {tell}" for tell in tells),
            *later,
        ]
    )


def _to_get(told: FindLogged) -> tuple[list[str], list[str]]:
    """Say what to get now, and what where it fits: before the rest what does better than the product at hand."""
    needs = [NEEDS[one] for one in told.needs]
    if told.seek and told.to_read is None:
        needs.insert(0, told.seek[0] if told.product else f"{told.seek[0]} for houseplants")
    is_cut = bool(told.seek) and told.product is not None
    now, later = (needs[:2], needs[2:]) if is_cut else (needs, [])
    return (
        [f"To get: {listed(now)}."] if now else [],
        [f"And {listed(later)}; what is sprayed is labelled for houseplants."] if later else [],
    )


def _steps(told: FindLogged, voice: Voice) -> list[str]:
    steps = []
    if not told.is_isolated and told.progress.pest.fight.is_set_apart:
        steps.append("Move it away from the others now.")
    if told.step is not None:
        steps.append(_find_plan(told, told.step, voice))
    if told.stays_moist:
        steps.append("Its mix must stay moist: nothing by hand.")
    if told.neighbours:
        line = f"Look at {listed(told.neighbours)} too."
        there = dict(voice.standing).get(told.place or "", ())
        where = f"the {len(told.neighbours)} others at {told.place}"
        others = where if set(told.neighbours) <= {*there} else voice.plants(told.neighbours)
        steps.append(line if heights([f"1 {line}"]) == 1 else f"Look at {others} too.")
    return steps


def _find_plan(told: FindLogged, step: Step, voice: Voice) -> str:
    on = max(told.tonight or step.aim_on, voice.today)
    when = {voice.today: "Tonight", voice.today + timedelta(days=1): "Tomorrow"}.get(on, day(on))
    what = planned([(act.method, None) for act in step.acts[:-1]] + [(step.acts[-1].method, told.product)])
    return f"{when}: {what}."


@says_shortly
def _check(told: CheckLogged, voice: Voice) -> str:
    how = "" if told.level is Level.PLAIN else f", {LEVELS[told.level]}"
    lines = [f"{dated(told.on, voice.today)}: none seen on {voice.plants(told.plants)}{how}."]
    if told.left_out:
        lines.append(f"Not {voice.plants(told.left_out)}: pests there, so a look has to name them.")
    lines += all_clear(told.ready)
    cases = [(name, state) for name, state in told.cases if name not in told.ready]
    cases.sort(key=lambda one: not can_show(one[1].pest, told.level))
    lines += [
        f"{name}: {LEVELS[told.level]} does not show {plural(state.pest.name)}; {LEVELS[state.pest.looking.ask]} would."
        for name, state in cases
        if not can_show(state.pest, told.level)
    ]
    lines.append(AFTER)
    return "\n".join([*lines, *cases_words(cases, voice)])


@says
def _unfit_look(told: UnfitLook, voice: Voice) -> str:
    return (
        f"{LEVELS[told.level].capitalize()} does not show {plural(told.pest)}, so nothing is written. "
        f"How else did you look at {voice.plants(told.plants)}?"
    )


def cases_words(cases: Sequence[tuple[str, Progress]], voice: Voice) -> list[str]:
    """Say how far cases are: each of a few, of many how far the first and the last are."""
    if len(cases) <= FEW_CASES:
        several = {name for name, count in Counter(name for name, _ in cases).items() if count > 1}
        return [
            f"{name}{f', {state.pest.name}' if name in several else ''}: {condition_words(state, voice.today)}"
            for name, state in cases
        ]
    dated_cases = sorted(
        (state.release.earliest_on, name) for name, state in cases if state.release.earliest_on is not None
    )
    if not dated_cases:
        return []
    (first, name), (last, _) = dated_cases[0], dated_cases[-1]
    until = f", the last {day(last)}" if last > first else ""
    return [f"First all-clear at best: {name} {day(first)}{until}. “what is apart?” lists them."]
