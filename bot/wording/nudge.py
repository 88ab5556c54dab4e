"""The evening's message: what is due, when the sun is off, what to look for."""

from collections.abc import Set as AbstractSet
from datetime import datetime, timedelta

from bot.actions.come_back import LookFirst
from bot.actions.hold import EveningsHeld, MemberAway, Paused
from bot.actions.send_evening import Deed, LeftOpen, NudgeText, StillThere
from bot.actions.set_repeats import RepeatsSet
from bot.domain.care import Care
from bot.domain.gap import Lateness
from bot.domain.nudging import Placement
from bot.domain.slot import SlotKind
from bot.domain.tonight import Doubt
from bot.domain.trade import Level
from bot.wording.acts import asked, by_acts
from bot.wording.days import day, listed
from bot.wording.mixing import mix_line
from bot.wording.rounds import by_product
from bot.wording.saying import says
from bot.wording.voice import Voice

LISTED_PLANTS = 12
"""More plants to look at than these are told place by place. Judgement. [1]"""
ASKED = {
    Level.GLANCE: "",
    Level.PLAIN: "",
    Level.LENS: " with a lens or your phone's close-up",
    Level.TAP: ", tapped over white paper",
    Level.CARD: ", by a sticky card",
    Level.TAPE: ", with tape round a stem",
    Level.POTATO: ", with a slice of potato",
    Level.ROOTS: ", lifted out of the pot",
}
TOLD = {
    Level.GLANCE: "",
    Level.PLAIN: "",
    Level.LENS: " with a lens",
    Level.TAP: ", tapped over paper",
    Level.CARD: ", sticky card",
    Level.TAPE: ", tape",
    Level.POTATO: ", potato slice",
    Level.ROOTS: ", roots too",
}
CARE = {
    Care.BLOOM: "soap and oil take the bloom off the leaves for good; a swab does not.",
    Care.HAIR: "hairy leaves hold what is sprayed: one leaf first, and air until dry.",
    Care.ROSETTE: "tip the water out of the crown afterwards, it rots there.",
}


def say_answered(name: str, at: str) -> str:
    """Say under the other's nudge who answered it, and when."""
    return f"Answered by {name}, {at}."


def say_chosen(label: str) -> str:
    """Say under a question what it was answered with."""
    return f"Answered: “{label}”."


@says
def nudge_text(nudge: NudgeText, voice: Voice) -> str:
    """Word tonight's nudge."""
    names = dict(nudge.names)
    moved = {
        plant
        for one in nudge.placements
        if one.slot.kind is not SlotKind.EVENING and not nudge.is_morning
        for plant in one.plants
    }
    # what is done by hand is done tonight, also where the spray waits for the morning
    tonight = [deed for deed in nudge.deeds if deed.plant not in moved or deed.product is None]
    lines = [_head(nudge)] if nudge.deeds or nudge.looks else []
    lines += [f"Settled: {listed(nudge.settled)}."] if nudge.settled else []
    lines += [f"{words}" for words in _treatments(tonight)]
    lines += [mix_line(one, voice) for one in nudge.mixes]
    lines += [_placed(one, nudge, names, voice) for one in nudge.placements]
    lines += _tomorrow(nudge)
    if nudge.lift:
        lines.append(
            f"Lift {listed(nudge.lift)} out of the pot once: “{nudge.lift[0]} clean, roots too”, or what you see."
        )
    lines += [f"{listed(plants)}: {CARE[care]}" for care, plants in nudge.care]
    too_late = {names[p] for one in nudge.placements if one.slot.kind is SlotKind.LATE for p in one.plants}
    lines += _first_uses(nudge, too_late)
    if warm := [name for name in nudge.warm if name not in too_late]:
        lines.append(f"Warm at {listed(warm)}: the coolest hour, and not on dry leaves.")
    lines += _looks(nudge)
    lines += [
        _late(name, step.lateness, day(step.closes_on))
        for name, step in nudge.late
        if step.last_on and name not in too_late
    ]
    lines += [f"{name} may leave isolation by the rule: “put {name} back”." for name in nudge.ready]
    lines += _asked(nudge, voice)
    return "\n".join(line for line in lines if line)


def _asked(nudge: NudgeText, voice: Voice) -> list[str]:
    """Ask the evening's one question; a release stands among the lines already."""
    if nudge.question is None:
        return []
    about, of, celsius = nudge.question
    match about:
        case Doubt.APART:
            return [f"{of} still stands among others. Can it be set apart?"]
        case Doubt.USUAL_WARMTH:
            return [f"Is {voice.warmth(celsius)} usual for {of}?"] if celsius is not None else []
        case Doubt.EXPOSURE:
            return [f"Which way does the window of {of} look? “{of} faces east”: the hour depends on it."]
        case Doubt.LABEL:
            return [f"How often does the label of {of} allow it? “{of} every 7 days”."]
        case Doubt.WHICH_PEST:
            return [f"Which kind is it on {of}? A few questions find out."]
        case _:
            return []


def _by_place(plants: list[str], nudge: NudgeText) -> str:
    """Name every plant, or its whole place: what is not shown must not be taken for looked at."""
    if len(plants) <= LISTED_PLANTS:
        return listed(plants)
    left = list(plants)
    parts = []
    for place, there in nudge.standing:
        asked = [name for name in there if name in plants]
        left = [name for name in left if name not in there]
        if asked and len(asked) == len(there):
            parts.append(f"{place}: all {len(there)}")
        elif asked:
            parts.append(f"{place}, {len(asked)} of {len(there)}: {listed(asked)}")
    if left:
        parts.append(f"elsewhere: {listed(left)}")
    return "; ".join(parts)


def _first_uses(nudge: NudgeText, too_late: AbstractSet[str]) -> list[str]:
    """Ask for one leaf first where a product is new to a plant: how it takes it is not known."""
    first = tuple((plant, product) for plant, product in nudge.first_uses if plant not in too_late)
    return [
        f"First {product} on {listed(plants)}: one leaf first is safest; look after 24 to 48 hours, then the rest."
        for product, plants in by_product(first).items()
    ]


def _head(nudge: NudgeText) -> str:
    time = f", about {nudge.minutes} min" if nudge.minutes else ""
    if nudge.is_morning:
        return f"This morning, {day(nudge.on + timedelta(days=1))}{time}:"
    return f"{'Once more for tonight' if nudge.count > 1 else 'Tonight'}, {day(nudge.on)}{time}:"


def _treatments(deeds: list[Deed]) -> list[str]:
    works = by_acts((deed.name, (deed.method, deed.product)) for deed in deeds)
    return [asked(acts, names) for acts, names in works.items()]


def _looks(nudge: NudgeText) -> list[str]:
    """Ask for looks by the pest's own way, and say how they are told."""
    ways: dict[tuple[Level, str], list[str]] = {}
    for name, level, where in nudge.looks:
        ways.setdefault((level, where), []).append(name)
    lines = [
        f"Look at: {_by_place(names, nudge)}{ASKED[level]} ({where})."
        for (level, where), names in ways.items()
    ]
    if lines:
        (level, _), names = next(iter(ways.items()))
        clean = "all" if len(ways) == 1 else names[0]
        lines[-1] += f" Then “{clean} clean{TOLD[level]}”, or “{names[0]} 3”."
    return lines


def _tomorrow(nudge: NudgeText) -> list[str]:
    """Name what is rinsed by 17:00 tomorrow, and the spray on dry leaves that follows."""
    early = by_acts((name, (method, None)) for name, method, product in nudge.announced if product is None)
    late = by_acts((name, (method, product)) for name, method, product in nudge.announced if product)
    lines = [f"Tomorrow by 17:00: {_lowered(asked(acts, names))}" for acts, names in early.items()]
    return lines + [f"Tomorrow evening: {_lowered(asked(acts, names))}" for acts, names in late.items()]


def _lowered(text: str) -> str:
    return text[:1].lower() + text[1:]


def _placed(one: Placement, nudge: NudgeText, names: dict[int, str], voice: Voice) -> str:
    plants = listed(names[plant] for plant in one.plants)
    slot = one.slot
    products = {deed.product for deed in nudge.deeds if deed.plant in one.plants and deed.product}
    product = listed(sorted(products))
    start, back = voice.clock(slot.start_at), slot.sun_back_at
    match slot.kind:
        case SlotKind.EVENING:
            plants = listed(names[plant] for plant in one.plants if plant not in one.sunless)
            if not plants:
                return ""
            until = f", until the sun is back {_when(back, nudge, voice)}" if back else ""
            return f"Out of direct sun from {start}{until}: {plants}."
        case _ if nudge.is_morning:
            return f"Before the sun comes {_when(back, nudge, voice)}: {plants}." if back else ""
        case SlotKind.MORNING:
            until = f", before the sun comes {_when(back, nudge, voice)}" if back else ""
            return f"Tomorrow morning instead: {plants} with {product} from {start}{until}. Tonight the sun stays too long."
        case SlotKind.MOVE:
            return (
                f"Spray {plants} with {product} only out of the sun: move them into shade first, "
                "back once dry and the sun is off."
            )
        case SlotKind.LATE:
            if nudge.count > 1:
                return f"Sprayed {plants} already? Then “sprayed”. Else it is too late for tonight: tomorrow."
            return f"Too late tonight for {plants}: tomorrow."


def _when(at: datetime, nudge: NudgeText, voice: Voice) -> str:
    local = at.astimezone(voice.zone)
    days = (local.date() - nudge.on).days - nudge.is_morning
    word = {0: "at", 1: "tomorrow at"}.get(days, f"on {day(local.date())} at")
    return f"{word} {voice.clock(at)}"


def _late(name: str, lateness: Lateness, by: str) -> str:
    if lateness is Lateness.MISSED:
        return f"{name} was due by {by}; tonight still helps, count on about one round more."
    return f"{name} was due by {by}; tonight is fine."


@says
def _evenings_held(told: EveningsHeld, voice: Voice) -> str:
    if told.until is not None and told.until <= voice.today:
        return "Good to have you back. The evenings go on."
    rest = f"until {day(told.until)}" if told.until else "until you write “back”"
    if told.since is not None:
        rest = f"from {day(told.since)} {rest}"
    cost = listed(f"{name} (by {day(on)})" for name, on in told.late[:6])
    more = f" Rounds that would be late by then: {cost}; count on about one more each." if told.late else ""
    if told.others:
        return f"You get no evenings {rest}; {listed(told.others)} still {'does' if len(told.others) == 1 else 'do'}, and knows.{more}"
    return f"I stay quiet {rest}. The days keep counting meanwhile.{more}"


@says
def _member_away(told: MemberAway, voice: Voice) -> str:
    if told.until is not None and told.until <= voice.today:
        return f"{told.name} is back and gets the evenings again."
    since = f" from {day(told.since)}" if told.since is not None else ""
    until = f" until {day(told.until)}" if told.until is not None else " for now"
    return f"{told.name} gets no evenings{since}{until}; you still do."


@says
def _paused(told: Paused) -> str:
    return (
        f"I am quiet until {day(told.until)}; “back” ends that."
        if told.until
        else "I am quiet; “back” ends that."
    )


@says
def _still_there(told: StillThere) -> str:
    return (
        f"Since {day(told.since)} I have heard nothing; that is all right. Shall I go on? "
        "Until you write a word I only ask once a week."
    )


@says
def _left_open(told: LeftOpen) -> str:
    if told.seen_on:
        return f"You saw something on {listed(told.seen_on)}: how many?"
    return f"Not noted yet: “{'; '.join(told.offered)}”. Shall I?"


@says
def _look_first(told: LookFirst) -> str:
    if not told.plants:
        return "Good to hear from you. The evenings go on."
    shown, more = told.plants[:LISTED_PLANTS], len(told.plants) - LISTED_PLANTS
    others = [f"{more} more with a case"] if more > 0 else []
    return (
        f"Good to hear from you. First a look, then I plan by what you see: {listed([*shown, *others])}. "
        f"“{told.plants[0]} 3”, or “all clean”."
    )


@says
def _repeats_set(told: RepeatsSet) -> str:
    if told.is_wanted:
        return "Written: unanswered, an evening's message comes a second time, without a sound."
    return "Written: one message an evening. “remind me twice” brings the second back."
