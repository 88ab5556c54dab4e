"""Answers about treatments done and put off."""

from collections.abc import Iterable
from datetime import date

from bot.actions.log_round import DonePlant, NothingDue, OtherProduct, RoundLogged, WhichTreatment
from bot.actions.postpone import PutOff
from bot.domain.course import Step
from bot.domain.gap import Lateness
from bot.wording.acts import DONE, by_acts, done
from bot.wording.conditions import rounds_words
from bot.wording.days import counted, day, listed, near_day
from bot.wording.labels import eat_from, spent, warned
from bot.wording.saying import says
from bot.wording.voice import Voice


@says
def round_done(told: RoundLogged, voice: Voice) -> str:
    """Confirm treatments; say what follows."""
    lines = [_done_line(told, voice)]
    lines += [
        f"{one.plant}: only {counted(one.days, 'day')} after the last {one.product}, the label says "
        f"{one.label_days}. It is written; the label is the law where you live, so wait longer next time."
        for one in told.warnings
    ]
    lines += [warned(*one) for one in told.against]
    lines += _first_uses(told)
    lines += [eat_from(*one, told.on) for one in told.eat_from]
    lines += [_late_line(one.name, one.late) for one in told.done if one.late is not None]
    if told.still_open:
        lines.append(f"Still open tonight: {listed(told.still_open)}.")
    if told.mornings:
        lines.append(f"Tomorrow morning: {listed(told.mornings)}.")
    lines += [spent(one) for one in told.spent]
    lines += _next_lines(told, voice)
    if told.checks_open:
        lines.append(
            f"What did you see on {listed(told.checks_open)}? “all clean”, or “{told.checks_open[0]} 3”."
        )
    return "\n".join(line for line in lines if line)


def _first_uses(told: RoundLogged) -> list[str]:
    """Ask for a look after a product's first use on plants."""
    return [
        f"First {product} on {listed(plants)}: look for burnt edges after 24 to 48 hours."
        for product, plants in by_product(told.first_uses).items()
    ]


def by_product(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    """Gather plants by the product they meet."""
    gathered: dict[str, list[str]] = {}
    for plant, product in pairs:
        gathered.setdefault(product, []).append(plant)
    return gathered


def _done_line(told: RoundLogged, voice: Voice) -> str:
    works = by_acts((one.name, (one.method, one.product)) for one in told.done)
    parts = [done(acts, names) for acts, names in works.items()]
    again = list(dict.fromkeys(one.name for one in told.done if one.is_repeat))
    if all(one.is_repeat for one in told.done):
        return f"Stood there already for {near_day(told.on, voice.today)}: {'; '.join(parts)}. One round, not two."
    note = f" {listed(again)} stood there already: one round, not two." if again else ""
    return f"Written for {near_day(told.on, voice.today)}: {'; '.join(parts)}.{note}"


def _late_line(name: str, step: Step) -> str:
    if step.last_on is None or step.lateness is Lateness.ON_TIME:
        return ""
    if step.lateness is Lateness.MISSED:
        return f"{name}: this round came after the {day(step.closes_on)}, so young ones may have grown up; count on one round more."
    return (
        f"{name}: a little later than planned ({day(step.closes_on)}); little harm, what follows moves along."
    )


def _next_lines(told: RoundLogged, voice: Voice) -> list[str]:
    lines = []
    for one in told.done:
        then = _then(one, _evening_of(one.name, told), voice)
        if len(one.progress) == 1:
            lines.append(f"{one.name}: {rounds_words(one.progress[0])}{then}.")
        elif one.progress:
            cases = "; ".join(f"{state.pest.name}: {rounds_words(state)}" for state in one.progress)
            lines.append(f"{one.name}, {cases}{then}.")
    return lines


def _then(one: DonePlant, evening: date | None, voice: Voice) -> str:
    step = one.next
    if step is None:
        is_over = all(state.is_finished for state in one.progress)
        return "; no more rounds needed, checks go on" if is_over else "; nothing on the shelf fits the next"
    on = evening or max(step.aim_on, voice.today)
    if on >= step.closes_on:
        return f"; next {near_day(on, voice.today)}"
    return f"; next {near_day(on, voice.today)}, by {day(step.closes_on)} at the latest"


def _evening_of(name: str, told: RoundLogged) -> date | None:
    """Find the evening that will bring the plant up: evenings are joined, so it may not be the best day."""
    return next((on for on, names in told.evenings if name in names), None)


@says
def _other_product(told: OtherProduct, voice: Voice) -> str:
    return (
        f"For {near_day(told.on, voice.today)} {listed(told.plants)} {'is' if len(told.plants) == 1 else 'are'} down as "
        f"{DONE[told.method]} with {told.before}. Was {told.now} used instead, or besides? Nothing is changed yet."
    )


@says
def _which_treatment(told: WhichTreatment) -> str:
    ways = [
        listed(f"{DONE[method]}{f' with {product}' if product else ''}" for method, product in way)
        for way in told.of
    ]
    return f"{told.plant}: {listed(ways, 'or')}? For that one nothing is written yet."


@says
def nothing_due(told: NothingDue, voice: Voice) -> str:
    """Say what is open instead."""
    lines = ["No treatment is open right now, so I wrote nothing."]
    if told.mornings:
        lines.append(f"Tomorrow morning: {listed(told.mornings)}.")
    if told.too_late:
        names = listed(told.too_late)
        lines.append(f"{names}: too late to spray tonight. Sprayed before? “sprayed {told.too_late[0]}”.")
    if told.checks_open:
        lines.append(
            f"What did you see on {listed(told.checks_open)}? “all clean”, or “{told.checks_open[0]} 3”."
        )
    if len(lines) == 1 and told.next_on is not None:
        lines.append(f"Next: {near_day(told.next_on, voice.today)}.")
    return "\n".join(lines)


@says
def put_off(told: PutOff, voice: Voice) -> str:
    """Confirm another evening and what it costs."""
    when = f"at {voice.clock(told.at)} tonight" if told.at is not None else near_day(told.on, voice.today)
    lines = [f"Put off: {listed(told.plants)}, {when}."]
    for name, step in told.costs:
        if step.lateness is Lateness.MISSED:
            lines.append(
                f"{name} would be past {day(step.closes_on)} by then: count on about one round more."
            )
        elif step.last_on is not None:
            lines.append(f"{name} runs past {day(step.closes_on)} by then; little harm if it stays at that.")
    return "\n".join(lines)
