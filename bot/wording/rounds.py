"""Answers about treatments done and put off."""

from collections.abc import Iterable
from datetime import date

from bot.actions.log_round import (
    DonePlant,
    NothingDue,
    OtherProduct,
    RoundLogged,
    WhichTreatment,
)
from bot.actions.postpone import PutOff
from bot.domain.course import Step
from bot.domain.gap import Lateness
from bot.domain.gathering import gathered
from bot.wording.acts import DONE, asked, by_acts, done
from bot.wording.conditions import rounds_words
from bot.wording.days import counted, dated, day, listed, lowered, near_day
from bot.wording.labels import eat_from, spent, warned
from bot.wording.lines import AFTER, height
from bot.wording.saying import says, says_shortly
from bot.wording.voice import MANY, Voice

FEW = 2
"""Of so many plants treated it is told one by one how far they are. Judgement. [1]"""


@says_shortly
def _round_done(told: RoundLogged, voice: Voice) -> str:
    first, *detail = _done_line(told, voice)
    lines = [first]
    lines += [
        f"{one.plant}: only {counted(one.days, 'day')} {'before the next' if one.is_before else 'after the last'} {one.product}, the label says "
        f"{one.label_days}. The label is the law where you live, so wait longer next time."
        for one in told.warnings
    ]
    lines += [warned(*one) for one in told.against]
    lines += [eat_from(*one, told.on) for one in told.eat_from if one[1] is None or one[1] > told.on]
    lines += [*_open(told, voice), AFTER, *_next_lines(told, voice)]
    lines += [eat_from(*one, told.on) for one in told.eat_from if one[1] is not None and one[1] <= told.on]
    lines += [
        f"First {product} on {voice.plants(plants)}: look for burnt edges in 1 to 2 days."
        for product, plants in by_product(told.first_uses).items()
    ]
    lines += [_late_line(one.name, one.late) for one in told.done if one.late is not None]
    lines += [*(spent(one) for one in told.spent), *detail]
    return "\n".join(line for line in lines if line)


def _open(told: RoundLogged | NothingDue, voice: Voice) -> list[str]:
    """Say what of tonight is still to do, and to look at."""
    lines = []
    if told.still_open:
        works = by_acts((name, (method, product)) for name, method, product in told.still_open)
        said = "; ".join(lowered(asked(acts, voice.plants(names))[:-1]) for acts, names in works.items())
        who = voice.plants(list(dict.fromkeys(name for name, _, _ in told.still_open)))
        line = f"Still open tonight: {said}."
        lines.append(line if height(line) <= FEW else f"Still open tonight: {who}.")
    if told.mornings:
        lines.append(f"Tomorrow morning: {voice.plants(told.mornings)}.")
    if isinstance(told, NothingDue) and told.too_late:
        lines.append(
            f"{voice.plants(told.too_late)}: too late to spray tonight. Done before? “sprayed {told.too_late[0]}”."
        )
    if told.checks_open:
        lines.append(
            f"What did you see on {voice.plants(told.checks_open)}? “all clean”, or “{told.checks_open[0]} 3”."
        )
    return lines


def by_product(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    return gathered((product, plant) for plant, product in pairs)


def _done_line(told: RoundLogged, voice: Voice) -> list[str]:
    """Say what was written, and of much only of how many plants: each work is a line that may wait."""
    works = by_acts((one.name, (one.method, one.product)) for one in told.done)
    parts = [done(acts, voice.plants(names)) for acts, names in works.items()]
    again = list(dict.fromkeys(one.name for one in told.done if one.is_repeat))
    names = list(dict.fromkeys(one.name for one in told.done))
    said = "; ".join(parts)
    is_much = len(works) > 1 and (len(names) > MANY or (height(said) > FEW and bool(_open(told, voice))))
    said = f"{len(names)} plants treated" if is_much else said
    detail = [f"{part}." for part in parts] if is_much else []
    if all(one.is_repeat for one in told.done):
        return [
            f"Stood there already for {near_day(told.on, voice.today)}: {said}. One treatment, not two.",
            *detail,
        ]
    stood = f"{len(again)} of them" if is_much else voice.plants(again)
    note = f" {stood} stood there already: one treatment, not two." if again else ""
    return [f"{dated(told.on, voice.today)}: {said}.{note}", *detail]


def _late_line(name: str, step: Step) -> str:
    if step.last_on is None or step.lateness is Lateness.ON_TIME:
        return ""
    if step.lateness is Lateness.MISSED:
        return (
            f"{name}: later than {day(step.closes_on)}, so young ones may have grown up: one treatment more."
        )
    return f"{name}: a little later than planned; little harm."


def _next_lines(told: RoundLogged, voice: Voice) -> list[str]:
    """Say what comes next: how far each of a few is, of many only when."""
    last = [one for one in told.done if one.progress]
    if len(last) > FEW:
        days = gathered((_then(one, _evening_of(one.name, told), voice), one.name) for one in last)
        return [f"{then[:1].upper()}{then[1:]}: {voice.plants(names)}." for then, names in days.items()]
    return [
        f"{one.name}{', ' if len(one.progress) > 1 else ': '}"
        + "; ".join(
            f"{f'{state.pest.name}: ' if len(one.progress) > 1 else ''}{rounds_words(state)}"
            for state in one.progress
        )
        + f"; {_then(one, _evening_of(one.name, told), voice)}."
        for one in last
    ]


def _then(one: DonePlant, evening: date | None, voice: Voice) -> str:
    step = one.next
    if step is None:
        is_over = all(state.is_finished for state in one.progress)
        return "only looks from now on" if is_over else "nothing on the shelf fits the next"
    return f"next {near_day(evening or max(step.aim_on, voice.today), voice.today)}"


def _evening_of(name: str, told: RoundLogged) -> date | None:
    """Find the evening that will bring the plant up: evenings are joined, so it may not be the best day."""
    return next((on for on, names in told.evenings if name in names), None)


@says
def _other_product(told: OtherProduct, voice: Voice) -> str:
    return (
        f"For {near_day(told.on, voice.today)} {listed(told.plants)} {'is' if len(told.plants) == 1 else 'are'} down as "
        f"{DONE[told.method]} with {told.before}. Was {told.now} used instead, or besides? Nothing is changed yet."
    )


@says_shortly
def _which_treatment(told: WhichTreatment, voice: Voice) -> str:
    ways = [
        listed(f"{DONE[method]}{f' with {product}' if product else ''}" for method, product in way)
        for way in told.of
    ]
    then = f" Then {voice.plants(told.others)}." if told.others else ""
    return f"{told.plant}: {listed(ways, 'or')}? For that one nothing is written yet.{then}"


@says_shortly
def _nothing_due(told: NothingDue, voice: Voice) -> str:
    nothing = (
        "Nothing is written." if told.still_open else "No treatment is open right now, so I wrote nothing."
    )
    lines = [nothing, *_open(told, voice)]
    if len(lines) == 1 and told.next_on is not None:
        lines.append(f"Next: {near_day(told.next_on, voice.today)}.")
    return "\n".join(lines)


@says_shortly
def _put_off(told: PutOff, voice: Voice) -> str:
    tonight = None if told.at is None else f"at {voice.clock(told.at)} tonight"
    lines = [
        f"Put off: {voice.plants(names)}, {tonight or near_day(on, voice.today)}." for on, names in told.moved
    ]
    missed = [name for name, step in told.costs if step.lateness is Lateness.MISSED]
    late = [name for name, step in told.costs if name not in missed and step.last_on is not None]
    if missed:
        lines.append(f"Past the best days by then: {voice.plants(missed)}; about one treatment more each.")
    if late:
        lines.append(f"A little late by then: {voice.plants(late)}; little harm if it stays at that.")
    return "\n".join(lines)
