"""The evening's message: what is due, when the sun is off, what to look for; and the pinned one."""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from datetime import timedelta
from textwrap import shorten

from bot.actions.hold import EveningsHeld, MemberAway
from bot.actions.left_open import LeftOpen
from bot.actions.pass_on import NoteForOthers
from bot.actions.send_evening import Deed, NudgeText
from bot.domain.care import Care
from bot.domain.course import Step
from bot.domain.fold import RINSED_BY
from bot.domain.gap import Lateness
from bot.domain.gathering import gathered
from bot.domain.nudging import Placement
from bot.domain.progress import Progress
from bot.domain.slot import SlotKind
from bot.domain.tonight import Doubt
from bot.domain.trade import Level, Method
from bot.wording.acts import asked, by_acts
from bot.wording.asking import due_words
from bot.wording.conditions import all_clear, seen_lately
from bot.wording.days import day, listed, lowered, plural
from bot.wording.labels import ask_of_eating, spent
from bot.wording.lines import AFTER, SHORT, heights
from bot.wording.mixing import mix_line
from bot.wording.rounds import FEW, by_product
from bot.wording.saying import says, says_at_length, says_shortly
from bot.wording.voice import Voice

ASKED = {
    Level.GLANCE: "",
    Level.PLAIN: "",
    Level.LENS: "with a lens",
    Level.TAP: "tapped over paper",
    Level.CARD: "by a sticky card",
    Level.TAPE: "with tape round a stem",
    Level.POTATO: "with a slice of potato",
    Level.ROOTS: "roots too",
}
SAID = {Level.CARD: "sticky card", Level.TAPE: "tape"}
"""How a look is told, where that is shorter than how it is asked for."""
CARE = {
    Care.BLOOM: "soap and oil take the bloom off the leaves for good; a swab does not.",
    Care.HAIR: "hairy leaves hold what is sprayed: one leaf first, and air until dry.",
    Care.ROSETTE: "tip the water out of the crown afterwards, it rots there.",
    Care.ROTS: "it rots where it stays wet: mix covered for a rinse, nothing left in the saucer.",
    Care.PREDATORS: "a spray kills the predators there: leave it, or start with them anew two days after.",
}


def say_answered(name: str, at: str) -> str:
    """Say under the other's nudge who answered it, and when."""
    return f"Answered by {name}, {at}."


def say_chosen(label: str) -> str:
    """Say under a question what it was answered with."""
    return f"Answered: “{label}”."


@says_shortly
def _nudge_text(nudge: NudgeText, voice: Voice) -> str:
    names = dict(nudge.names)
    moved = {
        plant
        for one in nudge.placements
        if one.slot.kind is not SlotKind.EVENING and not nudge.is_morning
        for plant in one.plants
    }
    # what is not sprayed is done tonight, also where the spray waits for the morning
    tonight = [deed for deed in nudge.deeds if deed.plant not in moved or deed.method is not Method.SPRAY]
    too_late = {names[p] for one in nudge.placements if one.slot.kind is SlotKind.LATE for p in one.plants}
    lines = _treatments(tonight, voice)
    lines += [spent(one) for one in nudge.spent]
    lines += [mix_line(one, voice, is_only=len(nudge.mixes) == 1) for one in nudge.mixes]
    lines += [_placed(one, nudge, moved, voice) for one in nudge.placements]
    lines += _tomorrow(nudge, voice)
    looks, looked_at = _looks(nudge, voice)
    lines += [looks]
    lines += [*all_clear(nudge.ready), *_asked(nudge, voice)]
    ways = "" if heights(lines) <= SHORT else looks
    lines = [looked_at if ways and line == looks else line for line in lines if line]
    lift = _lift(nudge, voice)
    is_shown = heights([*lines, *lift]) <= SHORT  # a full evening shows it where the rest is read
    lines += lift if is_shown else []
    lines += [f"{name} does {voice.plants(plants)}." for name, plants in nudge.taken]
    lines += [f"Settled: {voice.plants(nudge.settled)}."] if nudge.settled else []
    if (nudge.deeds or nudge.looks or nudge.lift) and (nudge.count > 1 or heights(lines) < SHORT):
        lines.insert(0, _head(nudge))  # of a full evening everybody knows that it is tonight
    lines += [
        AFTER,
        ways if looked_at != ways else "",
        *([] if is_shown else lift),
        *_told_so(nudge),
        *progress_lines(nudge.progress),
    ]
    lines += _first_uses(nudge, too_late, voice)
    lines += [f"{voice.plants(plants)}: {CARE[care]}" for care, plants in nudge.care]
    if warm := [name for name in nudge.warm if name not in too_late]:
        lines.append(f"Warm at {voice.plants(warm)}: the coolest hour, and not on dry leaves.")
    lines += _late([(name, step) for name, step in nudge.late if step.last_on and name not in too_late])
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
        case Doubt.EATING:
            return [ask_of_eating(of)]
        case Doubt.LABEL:
            return [f"How often does the label of {of} allow it? “{of} every 7 days”."]
        case Doubt.WHICH_PEST:
            return [f"Which kind is it on {of}? A few questions find out."]
        case _:
            return []


def progress_lines(of: Sequence[tuple[str, Progress]]) -> list[str]:
    """
    Say how far a few cases are, with the last counts: "Treatment 3, about 4 more. Seen: 12, 5, 0."; of many in one line.

    A first treatment tells nothing yet, and how many are to come is not said while the kind of pest is open.
    """
    begun = [(name, state) for name, state in of if state.rounds_done]
    left = [
        more - 1 for _, one in begun if (more := one.release.more_rounds) and more > 1 and not one.pest.of
    ]
    if len(begun) > FEW:
        numbers = [state.rounds_done + 1 for _, state in begun]
        to = f" to {max(numbers)}" if max(numbers) > min(numbers) else ""
        return [f"Treatment {min(numbers)}{to}{f', up to about {max(left)} more' if left else ''}."]
    lines = []
    for name, state in begun:
        more = state.release.more_rounds
        to_come = f", about {more - 1} more" if more is not None and more > 1 and not state.pest.of else ""
        seen = ", ".join(map(str, seen_lately(state)))
        opening = f"{name}: treatment" if len(of) > 1 else "Treatment"
        lines.append(f"{opening} {state.rounds_done + 1}{to_come}.{f' Seen: {seen}.' if seen else ''}")
    return lines


def _first_uses(nudge: NudgeText, too_late: AbstractSet[str], voice: Voice) -> list[str]:
    """Ask for one leaf first where a product is new to a plant: how it takes it is not known."""
    first = tuple((plant, product) for plant, product in nudge.first_uses if plant not in too_late)
    uses = by_product((deed.name, deed.product) for deed in nudge.deeds if deed.product)
    return [
        f"First {product}{'' if len(plants) == len(uses[product]) else f' on {voice.plants(plants)}'}: "
        "one leaf, and the rest after 1 to 2 days."
        for product, plants in by_product(first).items()
    ]


def _head(nudge: NudgeText) -> str:
    time = f", about {nudge.minutes} min" if nudge.minutes else ""
    if nudge.is_morning:
        return f"This morning, {day(nudge.on + timedelta(days=1))}{time}:"
    return f"{'Once more for tonight' if nudge.count > 1 else 'Tonight'}, {day(nudge.on)}{time}:"


def _treatments(deeds: Sequence[Deed], voice: Voice) -> list[str]:
    works = by_acts((deed.name, (deed.method, deed.product)) for deed in deeds)
    return [asked(acts, voice.plants(names)) for acts, names in works.items()]


def _lift(nudge: NudgeText, voice: Voice) -> list[str]:
    if not nudge.lift:
        return []
    return [f"Lift {voice.plants(nudge.lift)} out of the pot once: “{nudge.lift[0]} clean, roots too”."]


def _looks(nudge: NudgeText, voice: Voice) -> tuple[str, str]:
    """Ask for looks in one line, each by the pest's own ways; and who it is alone, where that is shorter."""
    ways = gathered(
        (tuple(one for one in (level, also) if one and ASKED[one]), name) for name, level, also in nudge.looks
    )
    if not ways:
        return "", ""
    if len(ways) == 1:
        levels, names = next(iter(ways.items()))
        asked_for = " and ".join(ASKED[one] for one in levels)
        line = f"Look at {voice.plants(names)}{f' {asked_for}' if asked_for else ''}."
        return line, line
    parts = [
        f"{voice.plants(names)}{f' ({levels[0].value})' if levels else ''}" for levels, names in ways.items()
    ]
    short = f"Look at {voice.plants([name for name, _, _ in nudge.looks])}, {len(ways)} ways."
    return f"Look at {'; '.join(parts)}.", short


def _told_so(nudge: NudgeText) -> list[str]:
    if not nudge.looks:
        return []
    (name, level, _), *others = nudge.looks
    clean = "all" if len({way for _, way, _ in nudge.looks}) == 1 else name
    how = SAID.get(level, ASKED[level])
    rest = f", {others[0][0]} clean" if others else ""
    return [f"Then “{clean} clean{f', {how}' if how else ''}”, or “{name} 3{rest}”."]


def _tomorrow(nudge: NudgeText, voice: Voice) -> list[str]:
    """Name what is rinsed by 17:00 tomorrow, and the spray on dry leaves that follows."""
    lines = []
    for acts, names in by_acts(
        (name, (method, product)) for name, method, product in nudge.announced
    ).items():
        plants = voice.plants(names)
        if all(product for _, product in acts):
            lines.append(f"Tomorrow evening: {lowered(asked(acts, plants))}")
        else:
            lines.append(f"Tomorrow: {lowered(asked(acts, f'{plants} by {voice.clock(RINSED_BY)}'))}")
    return lines


def _placed(one: Placement, nudge: NudgeText, moved: AbstractSet[int], voice: Voice) -> str:
    names = dict(nudge.names)
    plants = voice.plants([names[plant] for plant in one.plants])
    slot = one.slot
    sprays = (deed for deed in nudge.deeds if deed.method is Method.SPRAY and deed.plant in one.plants)
    products = {deed.product for deed in sprays if deed.product}
    product = listed(sorted(products))
    start, back = voice.clock(slot.start_at), slot.sun_back_at
    match slot.kind:
        case SlotKind.EVENING:
            lit = {names[plant] for plant in one.plants if plant not in one.sunless}
            sprayed = {deed.name for deed in nudge.deeds if deed.product and deed.plant not in moved}
            at = "" if sprayed <= lit else f" at {voice.places(lit)}"
            return f"Sun off from {start}{at}." if lit else ""
        case _ if nudge.is_morning:
            return f"Before the sun comes at {voice.clock(back)}: {plants}." if back else ""
        case SlotKind.MORNING:
            hours = f"{start} to {voice.clock(back)}" if back else f"from {start}"
            return f"Tomorrow morning, {hours}: {product} on {plants}."
        case SlotKind.MOVE:
            return f"Spray {plants} with {product} in shade; back only once dry and the sun is off."
        case SlotKind.LATE:
            if nudge.count > 1:
                return f"Sprayed {plants} already? Then “sprayed”. Else it is too late for tonight: tomorrow."
            return f"Too late tonight for {plants}: tomorrow."


def _late(late: Sequence[tuple[str, Step]]) -> list[str]:
    missed = [name for name, step in late if step.lateness is Lateness.MISSED]
    fine = [f"{name} (by {day(step.closes_on)})" for name, step in late if name not in missed]
    lines = [f"Late: {listed(missed)}; tonight still helps, about one treatment more."] if missed else []
    return [*lines, *([f"Was due: {listed(fine)}; tonight is fine."] if fine else [])]


@says
def _evenings_held(told: EveningsHeld, voice: Voice) -> str:
    if told.until is not None and told.until <= voice.today:
        return "Good to have you back. The evenings go on."
    rest = f"until {day(told.until)}" if told.until else "until you write “back”"
    if told.since is not None:
        rest = f"from {day(told.since)} {rest}"
    cost = listed(f"{name} (by {day(on)})" for name, on in told.late[:6])
    more = f" Late by then: {cost}; about one treatment more each." if told.late else ""
    more += "".join(f" Before you leave, {day(on)}: {listed(names)}." for on, names in told.before)
    if told.others:
        return f"You get no evenings {rest}; {listed(told.others)} still {'does' if len(told.others) == 1 else 'do'}, and knows.{more}"
    return f"I stay quiet {rest}. The days keep counting meanwhile.{more}"


@says_at_length
def _note_for_others(told: NoteForOthers, voice: Voice) -> str:
    """Word it for somebody who has never written to the bot."""
    lines = [
        f"While I am away, {day(told.since)} to {day(told.until)}:",
        f"Apart because of pests: {listed(told.apart)}.",
        "Please water them last, carry nothing from them to other plants, and wash your hands after them.",
    ]
    lines += [f"{day(on)}: {words}" for on, of in told.evenings for words in due_words(of, voice)]
    if any(line.product for _, of in told.evenings for line in of):
        lines.append(
            "Sprays only if I have shown you how: as the label says, with gloves and an open window."
        )
    lines += [f"{plural(pest).capitalize()} sit here: {where}." for pest, where in told.looks]
    lines.append("Something alive on another plant? Set that one apart and send me a photo.")
    return "\n".join(lines)


@says
def _member_away(told: MemberAway, voice: Voice) -> str:
    if told.until is not None and told.until <= voice.today:
        return f"{told.name} is back and gets the evenings again."
    since = f" from {day(told.since)}" if told.since is not None else ""
    until = f" until {day(told.until)}" if told.until is not None else " for now"
    return f"{told.name} gets no evenings{since}{until}; you still do."


@says
def _left_open(told: LeftOpen) -> str:
    unknown = "which pest" if told.is_pest_asked else "how many"
    lines = [f"You saw something on {listed(told.seen_on)}: {unknown}?"] if told.seen_on else []
    if told.offered:
        many = len(told.offered) > 1 and len(told.offers) == 1
        of = f", of {listed(told.of)}" if told.of else ""
        said = f"{len(told.offered)} things you told{of}" if many else f"“{'”; “'.join(told.offered)}”"
        lines.append(f"Not written: {shorten(said, 90, placeholder='…')}.")
    return "\n".join(lines)
