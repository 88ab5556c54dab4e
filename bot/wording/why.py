"""Why: the terms, the assumption, the source, and what would change it."""

from datetime import date

from bot.actions.explain import ReasonOf, Reasons
from bot.domain.campaign import Evidence
from bot.domain.course import Step
from bot.domain.measure import Units
from bot.domain.progress import Progress
from bot.domain.remedy import Because
from bot.domain.slot import SlotKind
from bot.wording.acts import planned
from bot.wording.conditions import hard_words, held_words, percent, rounds_words
from bot.wording.days import counted, day, near_day
from bot.wording.labels import against
from bot.wording.rules import cite, rule_lines
from bot.wording.saying import says_shortly
from bot.wording.setting_up import FACINGS, OUTDOORS
from bot.wording.voice import Voice

BECAUSE = {
    Because.FEW: "up to 5 in one spot: by hand, one by one",
    Because.SOME: "a spray reaches what a swab misses",
    Because.MANY: "many: a clean-out first, then sprays",
    Because.START: "the strong first step frees most and saves days (a simulation; judgement)",
    Because.FEW_STILL: "living ones after three treatments by hand, so a spray joins",
    Because.FEW_UNSEEN: "few, three times by hand: the spray is for the young nobody sees",
    Because.STALL: "still alive two weeks after the start or the last strong step: what hides outlasts a spray",
    Because.STALL_HELD: "still alive, and no strong step is left or due: the shortest gap; look for hidden sites, ants, a neighbour plant",
    Because.DRY_FIRST: "found late in the day: rinsed tonight, sprayed tomorrow on dry leaves",
    Because.NO_PRODUCT: "nothing on the shelf fits, so handwork",
    Because.BETWEEN: "the label forbids the product this soon, so handwork bridges the gap",
    Because.AT_ROOTS: "no spray reaches what may sit at its roots: the mix goes, and again after four weeks",
    Because.ROOTS: "it lives in the mix, where no leaf spray reaches it",
}


@says_shortly
def _reasons_text(told: Reasons, voice: Voice) -> str:
    if not told.of:
        return "No case is open, so nothing is planned and there is nothing to explain."
    text = "\n\n".join(_reason(one, voice, in_full=told.in_full) for one in told.of)
    if told.in_full or not any(one.progress for one in told.of):
        return text
    more = f"why more {told.of[0].plant}" if len(told.of) == 1 else "why more"
    return f"{text}\n“{more}” gives the sums and sources."


def _reason(one: ReasonOf, voice: Voice, *, in_full: bool) -> str:
    if not one.progress:
        return _without_case(one)
    lines = []
    for state in one.progress:
        lines += _case(one, state, voice) if in_full else _short_case(one, state, voice)
    if one.placement is not None:
        lines.append(_sun(one, voice))
    return "\n".join(lines)


def _without_case(one: ReasonOf) -> str:
    lines = []
    if one.watch is not None:
        cause, until, days = one.watch
        end = f"until {day(until)}" if until is not None else "as long as its case is open, and after that"
        lines.append(
            f"{one.plant} is on watch because it shared a place with {cause}, {end}: an egg laid unseen takes "
            f"{counted(days, 'day')} to a grown insect at that warmth."
        )
    if one.quarantine_until is not None:
        lines.append(
            f"{one.plant} is new, apart until {day(one.quarantine_until)}: extension services advise three to "
            "six weeks for new plants; I take the longer (from memory)."
        )
    return "\n".join(lines) or f"{one.plant}: no open case."


def _sun(one: ReasonOf, voice: Voice) -> str:
    """Say what the evening's hour rests on."""
    assert one.placement is not None
    slot = one.placement.slot
    window = "the window is unknown, so I count sun all day"
    if one.place is not None and one.place.outdoors is not None:
        window = f"{one.place.name} is {OUTDOORS[one.place.outdoors]}"
    elif one.place is not None and one.place.facing is not None:
        window = f"{one.place.name}: {FACINGS[one.place.facing]}"
    back = f", back at {voice.clock(slot.sun_back_at)}" if slot.sun_back_at else ""
    if one.place is not None and not one.place.exposure.sees_sun and one.place.lamp_until is None:
        return f"Hour: {window}: no direct sun comes there; from {voice.clock(slot.start_at)}."
    hour = f"it is off from {voice.clock(slot.start_at)}{back}"
    if slot.kind is SlotKind.MORNING:
        hour = f"it stays too long that evening; the next morning it is off from {voice.clock(slot.start_at)}{back}"
    elif slot.kind is SlotKind.LATE:
        hour = "no start is left before the quiet hours tonight, so it is tomorrow"
    elif slot.kind is SlotKind.MOVE:
        hour = "it leaves no hour that evening or the next morning, so the plant is moved out of it first"
    return (
        f"Hour: {window}; oil, soap and neem burn in direct sun. By the sun's path there (Meeus, low precision, kept "
        f"on the safe side) {hour}."
    )


def _short_case(one: ReasonOf, state: Progress, voice: Voice) -> list[str]:
    lines = [f"{one.plant}, {state.pest.name}: {rounds_words(state)}."]
    if one.step is not None:
        lines += [_next(one, one.step, voice.today), _short_gap(one.step, voice)]
        lines += [*_shorter_label(one.step), *_bounds(one.step, state)]
    lines += [
        hard_words(hard, one.plant, state.pest, voice) for pest, hard in one.hard if pest == state.pest.key
    ]
    lines += [f"Not {name}: {against(refusals)}." for name, refusals in one.passed_over]
    lines.append(f"Going back: {held_words(state, voice.today)}")
    return lines


def _short_gap(step: Step, voice: Voice) -> str:
    gap = step.gap
    if gap is None:
        return "The first treatment is due at once."
    label = f", the label waits {gap.label_days}" if gap.label_days else ""
    reach = f"at {voice.warmth(gap.temperature)} in reach {gap.window_days:.1f} days{label}"
    return f"Next {_span(step)}: {reach}."


def _span(step: Step) -> str:
    if step.opens_on == step.closes_on:
        return f"on {day(step.opens_on)}"
    return f"{day(step.opens_on)} to {day(step.closes_on)}"


def _next(one: ReasonOf, step: Step, today: date) -> str:
    what = planned([(act.method, one.product if act.product else None) for act in step.acts])
    reason = f"because {BECAUSE[step.because]}"
    if step.closes_on < today:
        return f"The next {what} was due by {near_day(step.closes_on, today)}, {reason}."
    if step.aim_on < today:
        return f"The next {what} is due now, by {near_day(step.closes_on, today)}, {reason}."
    return f"{what[:1].upper()}{what[1:]}, {reason}."


def _shorter_label(step: Step) -> list[str]:
    """Say where a product labelled for a shorter gap would do better."""
    if step.gap is not None and step.gap.label_outlasts:
        return [
            "The label is longer than the pest allows: a product labelled for a shorter gap would do better."
        ]
    if step.gap is not None and step.gap.wants_shorter_label:
        return ["It often outruns 7 to 9 days: a product labelled for a shorter gap would do better."]
    return []


def _bounds(step: Step, state: Progress) -> list[str]:
    """Say where the studies end."""
    lines = []
    if step.gap is not None and step.gap.too_cold:
        lines.append("It is too cold there to tell how fast they grow.")
    if step.gap is not None and step.gap.above_range:
        lines.append(f"It is hotter than the studies cover ({state.pest.t_high:g} °C); I use that bound.")
    return lines


def _case(one: ReasonOf, state: Progress, voice: Voice) -> list[str]:
    lines = [f"{one.plant}, {state.pest.name}: {rounds_words(state)}."]
    if one.step is not None:
        lines += _step(one, one.step, state, voice)
    lines += [f"Not {name}: {against(refusals)}." for name, refusals in one.passed_over]
    if state.pest.least.rounds is None:
        lines.append(_length(one, state))
    well, partly, never = state.pest.reached
    lines.append(
        f"Reach: a spray hits {well} well; only in part: {partly}; not at all: {never} (from memory)."
    )
    lines.append(
        f"Treatments may stop after {counted(state.rounds_needed, 'treatment')} in all; done so far: {state.rounds_done}, "
        f"{state.record.rounds_since_find} of them after the day of the last find. {_looks_come(state)}"
    )
    lines.append(_release(one, state))
    lines.append(f"Going back: {held_words(state, voice.today)}")
    product = None if one.step is None or one.step.product is None else one.step.product.ingredient
    return [*lines, *rule_lines(state, one.cited, voice, product), *_washed(one, state)]


def _washed(one: ReasonOf, state: Progress) -> list[str]:
    """Say what the plan leans on and nobody has published."""
    if state.pest.fight.handwork is None:
        return []
    told = "count one leaf: “leaf 12 before, 3 after”"
    if one.washed_off is not None:
        told = f"{round(100 * one.washed_off)} % by your own count"
    return [f"What handwork takes off is published nowhere we found: {told}."]


def _step(one: ReasonOf, step: Step, state: Progress, voice: Voice) -> list[str]:
    lines = [_next(one, step, voice.today)]
    gap = step.gap
    if gap is None:
        return [*lines, "The first treatment is due at once."]
    pest = state.pest
    warmth = f"{gap.temperature:g} °C"
    if state.outbreak.cool is None:
        measured = "70 degrees" if voice.units is Units.US else "21 degrees"
        tell = f"; tell me “{one.place.name} is {measured}”" if one.place is not None else ""
        warmth += f" (assumed, the cautious side{tell})"
    lines.append(
        f"Gap: at {warmth} the stage a spray reaches lasts {pest.gap.dd:g}/({gap.temperature:g}-{pest.gap.t0:g}) = "
        f"{gap.window_days:.1f} days; I use {pest.gap_f:g} of it, at most {counted(pest.gap_cap_days, 'day')}: "
        f"{gap.upper_days}. {_source(pest.gap_evidence, one)}"
    )
    if gap.label_days is not None and one.product is not None:
        told = "as you told me" if one.product_evidence is None else _source(one.product_evidence, one)
        lines.append(
            f"Label of {one.product}: not before {counted(gap.label_days, 'day')} ({told.strip('()')})."
        )
    lines += _shorter_label(step)
    lines.append(f"So the window is {_span(step)}.")
    return [*lines, *_bounds(step, state)]


def _length(one: ReasonOf, state: Progress) -> str:
    pest = state.pest
    warmth = state.outbreak.cool if state.outbreak.cool is not None else 18.0
    assumed = "" if state.outbreak.cool is not None else " (assumed, the slow side)"
    return (
        f"Treatments: what was protected on the first day needs {pest.protected.dd:g} degree-days above "
        f"{pest.protected.t0:g} °C, at {warmth:g} °C{assumed}, times {pest.protected_safety:g} for safety, "
        f"one treatment each {state.gap_days:.0f} days. {_source(pest.protected_evidence, one)}"
    )


def _looks_come(state: Progress) -> str:
    if state.pest.rooted:
        return f"Looks at the roots come every {state.pest.looking.apart_days} days."
    return "Looks come weekly, on Sundays unless you say “look on wednesdays”."


def _release(one: ReasonOf, state: Progress) -> str:
    where = state.state
    warmth = state.outbreak.cool if state.outbreak.cool is not None else 18.0
    young = "one born" if state.pest.bears_live_young else "an egg of"
    said = (
        f"Looks: {counted(where.counted_checks, 'look')} counted since the last find, {where.late_checks} of them late; "
        f"{young} that day is grown up by {day(where.h3_on)} at {warmth:g} °C. {_source(state.pest.clock_evidence, one)}"
    )
    if state.pest.looking.has_chance:
        said += f" {percent(where.target)} is what I ask for. Warmer rooms and lens looks bring it forward."
    return said


def _source(evidence: Evidence, one: ReasonOf) -> str:
    return f"({cite(evidence, one.cited)})"
