"""Answers about finds, signs and looks."""

from collections import Counter

from bot.actions.log_check import CheckLogged
from bot.actions.log_find import FindInPast, FindLogged
from bot.actions.log_sign import SignLogged
from bot.domain.release import Level, can_show
from bot.domain.remedy import Because
from bot.domain.trade import Grade, Sign
from bot.wording.acts import planned
from bot.wording.conditions import condition_words, hard_words, rounds_words
from bot.wording.days import day, listed, near_day
from bot.wording.labels import ask_of_eating
from bot.wording.saying import says
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


SIGNS = {
    Sign.WEBBING: "webbing",
    Sign.HONEYDEW: "honeydew",
    Sign.FLUFF: "fluff",
    Sign.PITS: "pits",
    Sign.SPECKS: "specks",
    Sign.CAST_SKINS: "cast skins",
}


@says
def find(told: FindLogged, voice: Voice) -> str:
    """Confirm a find; say what to do now."""
    many = str(told.count) if told.count is not None else GRADES[told.grade]
    where = f" in the {told.where}" if told.where else ""
    lines = [f"Written for {near_day(told.on, voice.today)}: {told.pest} on {told.plant}{where}, {many}."]
    if told.is_reopened:
        lines.append(f"That reopens the case on {told.plant}.")
    elif told.is_new_case:
        lines.append("A case is open.")
    else:
        lines.append("The days without a find start again.")
    if not told.is_isolated and told.progress.pest.fight.is_set_apart:
        lines.append(
            f"Keep {told.plant} apart now. If it cannot be moved, {told.place or 'its place'} is the isolation room."
        )
    if told.neighbours:
        lines.append(f"On watch beside it: {listed(told.neighbours)}.")
    if told.tell is not None:
        lines.append(f"Which kind can wait; planned is for the worse. {told.tell}")
    if told.is_new_pest:
        pest = told.progress.pest
        lines.append(f"It hides in {pest.hides}. It gets around: {pest.spreads}.")
    lines.append(_find_plan(told, voice))
    earliest = told.progress.release.earliest_on
    if earliest is not None:
        lines.append(f"Back at the earliest {day(earliest)}, if every check from now on finds none.")
    return "\n".join(line for line in lines if line)


def _find_plan(told: FindLogged, voice: Voice) -> str:
    step = told.step
    if step is None:
        lines = [_nothing_fits(told, "look")] if told.seek or told.to_read else []
        return "\n".join([*lines, *([] if told.hard is None else [_hard(told, voice)])])
    what = planned([(act.method, None) for act in step.acts])
    with_what = f" with {told.product}" if told.product else ""
    on = max(told.tonight or step.aim_on, voice.today)
    lines = [f"Plan: {what}{with_what}, first {near_day(on, voice.today)}; {rounds_words(told.progress)}."]
    if step.last_on is not None:
        lines = [f"Plan: {what}{with_what}, next {near_day(on, voice.today)}; {rounds_words(told.progress)}."]
    if step.because is Because.NO_PRODUCT:
        lines.append(_nothing_fits(told, what))
    if told.to_read is not None and told.is_isolated:
        lines.append(ask_of_eating(told.to_read))
    if told.hard is not None:
        lines.append(_hard(told, voice))
    elif told.grade is Grade.MANY and told.progress.pest.fight.is_discarded:
        lines.append("That bad, extension services advise discarding a plant that is cheap to replace.")
    return "\n".join(lines)


def _hard(told: FindLogged, voice: Voice) -> str:
    assert told.hard is not None
    return hard_words(told.hard, told.plant, told.progress.pest, voice)


def _nothing_fits(told: FindLogged, what: str) -> str:
    if told.to_read is not None:
        return f"Until its label is known to allow what is eaten, no {told.to_read.product}: {what}."
    seek = f" Look for {listed(told.seek, 'or')}, labelled for houseplants indoors." if told.seek else ""
    return f"Nothing on your shelf fits: until then {what}.{seek}"


@says
def check(told: CheckLogged, voice: Voice) -> str:
    """Confirm looks; say what they mean for each case."""
    lines = [
        f"Written for {near_day(told.on, voice.today)}: none seen on {listed(told.plants)} ({LEVELS[told.level]})."
    ]
    several = {name for name, count in Counter(name for name, _ in told.cases).items() if count > 1}
    for name, state in told.cases:
        if not can_show(state.pest, told.level):
            lines.append(
                f"{name}: {LEVELS[told.level]} does not show {state.pest.name}; {LEVELS[state.pest.looking.ask]} would."
            )
        if name not in told.ready:
            which = f", {state.pest.name}" if name in several else ""
            lines.append(f"{name}{which}: {condition_words(state, voice.today)}")
    lines += [
        f"{name} may leave isolation by the rule. Say “put {name} back” when you do." for name in told.ready
    ]
    return "\n".join(lines)


@says
def sign(outcome: SignLogged, voice: Voice) -> str:
    """Confirm a sign; say by when to look."""
    return (
        f"Written: {SIGNS[outcome.sign]} on {listed(outcome.plants)}, {near_day(outcome.on, voice.today)}. "
        f"A sign is no living pest yet: please look closely by {near_day(outcome.check_by, voice.today)}."
    )


@says
def _find_in_past(told: FindInPast, voice: Voice) -> str:
    return (
        f"Written for {near_day(told.on, voice.today)}: {told.pest} on {told.plant}. "
        "Its case has been closed or corrected since, so the plan stays as it is."
    )
