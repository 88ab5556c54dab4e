"""Words for what is asked about an evening's work, and what goes first when time is short."""

from collections.abc import Iterable, Sequence

from bot.actions.save_time import TimeSaved, Turn
from bot.actions.tell_of_work import (
    AfterTold,
    HeatTold,
    InsteadTold,
    LateTold,
    LookingTold,
    OrderTold,
    StepsTold,
    WasteTold,
    WithTold,
    Work,
)
from bot.domain.effort import Sort
from bot.domain.gathering import gathered
from bot.wording.acts import asked, planned
from bot.wording.conditions import rounds_words
from bot.wording.days import counted, day, listed, lowered, near_day, some
from bot.wording.labels import against
from bot.wording.saying import says, says_shortly
from bot.wording.voice import Voice

ROOM_C = 21
"""An example of how warm a room is. [degC]"""


def _works(works: Iterable[Work], voice: Voice) -> list[str]:
    """Say what is done and when, plants with the same work in one line."""
    lines = []
    alike = gathered(
        ((one.on, tuple((method, name) for method, _, name in one.acts)), one.plant) for one in works
    )
    for (on, acts), names in alike.items():
        words = asked(acts, voice.plants(names))
        when = "Tonight" if on == voice.today else near_day(on, voice.today)
        lines.append(f"{when[:1].upper()}{when[1:]}: {lowered(words)}")
    return lines


@says_shortly
def _with_told(told: WithTold, voice: Voice) -> str:
    lines = _works(told.works, voice)
    lines += [f"{method.value.capitalize()}: {lowered(tool)}" for method, tool in told.tools]
    lines += [
        f"{name.capitalize()}: every {counted(gap, 'day')}, {'by your label' if is_told else 'as is usual'}."
        for name, gap, is_told in told.products
    ]
    return "\n".join([*lines, *(["“mix for tonight” gives the amounts."] if told.products else [])])


@says_shortly
def _steps_told(told: StepsTold) -> str:
    return "\n".join(
        line
        for one in told.ways
        for line in (
            f"{one.title}: {one.plant}." if one is told.ways[0] else f"{one.title}.",
            *(f"• {step}" for step in one.steps),
        )
    )


@says_shortly
def _order_told(told: OrderTold) -> str:
    return "\n".join(
        [
            f"About {told.minutes} min. Clean ones first, hands carry pests (common practice):",
            *turns(told.turns),
        ]
    )


@says_shortly
def _late_told(told: LateTold, voice: Voice) -> str:
    alike = gathered((_as_good(one, voice), one.plant) for one in told.works)
    lines = [f"{voice.plants(names)}: {words}." for words, names in alike.items()]
    hours = [
        f"{listed(f'{voice.clock(start)} to {voice.clock(end)}' for start, end in sun.spans)} at {sun.place.name}"
        for sun in told.sun
        if sun.spans
    ]
    lines.append("Later, young ones may grow up: about one treatment more. Left out, it starts anew.")
    when = f"Any hour out of the sun ({listed(hours)})." if hours else "Morning or evening, out of the sun."
    return "\n".join([*lines, when])


def _as_good(one: Work, voice: Voice) -> str:
    if one.closes_on is None or one.opens_on is None:
        return near_day(one.on, voice.today)
    if one.closes_on < voice.today:
        return f"late since {day(one.closes_on)}, tonight helps most"
    since = "" if one.opens_on <= voice.today else f"{day(one.opens_on)} to "
    why = f" (how fast they grow at {voice.warmth(one.warmth)})" if one.warmth is not None else ""
    return f"{since or 'until '}{day(one.closes_on)} is as good{why}"


@says_shortly
def _instead_told(told: InsteadTold, voice: Voice) -> str:
    both = [one for one in told.works if len(one.acts) > 1 and any(name for _, _, name in one.acts)]
    until = max((one.closes_on for one in both if one.closes_on is not None), default=None)
    lines = ["By hand goes what you see, the spray gets what you miss: so both."] if both else []
    if until is not None and until >= voice.today:
        lines.append(f"Only by hand tonight? Say so; the spray until {day(until)} then.")
    pests = {one.pest.name: one.pest for one in told.works if one.pest is not None}
    for name, pest in pests.items():
        well, partly, never = pest.reached
        lines.append(f"{name.capitalize()}: a spray reaches {well}; partly {partly}; not {never}.")
    lines += [f"Not {name}: {against(refusals)}." for name, refusals in told.passed_over]
    return "\n".join(lines or _works(told.works, voice))


@says_shortly
def _heat_told(told: HeatTold, voice: Voice) -> str:
    lines = [
        f"{name.capitalize()}: from {voice.warmth(coldest)} to {voice.warmth(hottest)}, out of direct sun."
        for name, coldest, hottest in told.products
    ] or ["A wipe or a rinse: any warmth of a room, out of the sun."]
    for name, warmth, sun in told.places:
        if warmth is None:
            continue
        told_warmth = " to ".join(dict.fromkeys(map(voice.warmth, warmth)))
        bounds = [(low, high) for _, low, high in told.products]
        is_fine = all(low <= warmth[0] and warmth[1] <= high for low, high in bounds)
        spans = listed(f"{voice.clock(start)} to {voice.clock(end)}" for start, end in sun.spans)
        sunny = f", sun {spans}" if spans and told.has_town else ""
        lines.append(
            f"{name}: {told_warmth} as you told{sunny}, {'fine' if is_fine else 'not now: wait for it'}."
        )
    untold = [name for name, warmth, _ in told.places if warmth is None]
    if untold:
        example = voice.warmth(ROOM_C).replace(" °", " ")
        lines.append(f"{listed(untold)}: nobody has told how warm; “{untold[0]} is {example}”.")
    return "\n".join(lines)


@says_shortly
def _after_told(told: AfterTold) -> str:
    return "\n".join(
        line if number else f"After the {method.value}: {lowered(line)}"
        for method, lines in told.of
        for number, line in enumerate(lines)
    )


@says_shortly
def _waste_told(told: WasteTold) -> str:
    keeps = [
        f"A mix of {name} keeps {counted(hours, 'hour')}, its label may say less."
        for name, hours in told.keeps
    ]
    return "\n".join([*keeps, *told.lines])


@says_shortly
def _looking_told(told: LookingTold) -> str:
    lines = [f"{pest.name.capitalize()}: {pest.hides}." for pest in told.pests]
    lines.append("Clean is a look that finds nothing alive. How: “how do I use a lens”.")
    lines += [
        f"{name}: {counted(state.state.counted_checks, 'clean look')} so far, {rounds_words(state)}."
        for name, state in told.looked
    ]
    return "\n".join(lines)


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
