"""Outcome to answer: every sentence the bot says. Understood, written, next; plain words, no blame."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import assert_never
from zoneinfo import ZoneInfo

from bot.actions import outcomes as o
from bot.actions.commands import Missing
from bot.domain.course import Because, Progress, Step
from bot.domain.gap import Lateness
from bot.domain.release import Level
from bot.domain.trade import Form, Grade, Method, Sign
from bot.domain.window import Facing, Outdoors
from bot.wording.conditions import condition_words, rounds_words
from bot.wording.days import clock, clock_in, counted, day, listed, near_day
from bot.wording.history import history_text
from bot.wording.nudge import nudge_text
from bot.wording.why import reasons_text

DONE = {
    Method.SWAB: "swabbed",
    Method.WIPE: "wiped",
    Method.RINSE: "rinsed",
    Method.SPRAY: "sprayed",
    Method.DRENCH: "drenched",
    Method.PRUNE: "pruned",
    Method.REPOT: "repotted",
    Method.CLEAN_OUT: "cleaned out",
}
GRADES = {Grade.FEW: "a few", Grade.SOME: "some", Grade.MANY: "many"}
LEVELS = {
    Level.GLANCE: "a glance",
    Level.PLAIN: "a plain look",
    Level.LENS: "a look with a lens",
    Level.ROOTS: "a look at the roots",
}
SIGNS = {
    Sign.WEBBING: "webbing",
    Sign.HONEYDEW: "honeydew",
    Sign.FLUFF: "fluff",
    Sign.PITS: "pits",
    Sign.SPECKS: "specks",
    Sign.CAST_SKINS: "cast skins",
}
FACINGS = {
    Facing.N: "looks north",
    Facing.NE: "looks north-east",
    Facing.E: "looks east",
    Facing.SE: "looks south-east",
    Facing.S: "looks south",
    Facing.SW: "looks south-west",
    Facing.W: "looks west",
    Facing.NW: "looks north-west",
    Facing.NONE: "no window",
    Facing.UNKNOWN: "window unknown: I treat it as sun all day",
}
OUTDOORS = {
    Outdoors.ALL_DAY: "outdoors, sun all day",
    Outdoors.MORNING: "outdoors, morning sun",
    Outdoors.AFTERNOON: "outdoors, afternoon sun",
    Outdoors.SHADE: "outdoors, shade",
}

FIRST_AID = (
    "Stop and get away from it, into fresh air.\n"
    "Eyes or skin: rinse with plenty of clean water for 15 minutes, take off wet clothes.\n"
    "Swallowed: rinse the mouth. Do not make anyone vomit.\n"
    "Then call your poison centre, a doctor or, for an animal, a vet; the emergency number if breathing is hard "
    "or someone is drowsy. Have the label at hand.\n"
    "I am a notebook, not a doctor: they decide."
)
HELP = (
    "Write as you would to a friend:\n"
    "“hoya, landing, 15 cm” adds plants, one a line\n"
    "“hoya 5 mealybugs” reports a find, “all clean” a look with none seen\n"
    "“got soap, ready to use, every 7 days” puts a product on the shelf\n"
    "“done”, “done except coffee”, “not tonight”, “did the hoya on sunday” answer the evening\n"
    "“isolated?”, “what's due”, “why”, “when can the hoya go back” ask\n"
    "“undo” takes back the last thing you told me"
)
UNCLEAR_REASONS = {
    "too long": "That is longer than I can read at once (600 characters). Please say it in shorter messages.",
    "count": "I cannot make a find of that number. Say a count from 1 up to 100,000, or “few”, “some”, “many”.",
    "future": "That day is still to come, so I wrote nothing. Tell me once it is done.",
    "past": "That is too long ago for me (over 400 days). Nothing is written.",
}


@dataclass(frozen=True, slots=True)
class Voice:
    """What a sentence needs besides the outcome: today and the household's clocks."""

    today: date
    zone: ZoneInfo


def say(outcome: o.Outcome, voice: Voice) -> str:  # noqa: C901, PLR0912, PLR0915 - one arm an outcome
    """Word one outcome."""
    match outcome:
        case o.Founded(name=name):
            return (
                f"Hello {name}. I keep your plants, count the days between rounds and speak up in the evening.\n"
                "Which town are the plants in? I need it for the sun at your windows. "
                "A town, a shared location or coordinates will do."
            )
        case o.Welcome(lacks=lacks):
            return _welcome(lacks)
        case o.TownSet():
            return _town(outcome)
        case o.WhichTown(text=text, towns=towns):
            return f"There are {len(towns)} places called {text}. Which one?"
        case o.NoSuchTown(text=text):
            return f"I know no town called “{text[:60]}”. Try a larger one nearby, or send coordinates like 51.1, 3.7."
        case o.BadCoordinates(latitude=lat, longitude=lon):
            return (
                f"{lat:g}, {lon:g} is not on the globe: latitude runs from -90 to 90, longitude from -180 to 180. "
                "Nothing is written."
            )
        case o.HoursSet():
            return (
                f"Written: evening at {clock(outcome.evening)}, quiet from {clock(outcome.quiet_from)} "
                f"to {clock(outcome.quiet_until)}."
            )
        case o.BadHours(evening=evening, quiet_from=start, quiet_until=end):
            return (
                f"An evening at {clock(evening)} would lie in your quiet hours, {clock(start)} to {clock(end)}. "
                "Nothing is written; which of the two shall move?"
            )
        case o.PlacesSaved():
            return _place(outcome)
        case o.PlantsAdded():
            return _plants_added(outcome)
        case o.RoundLogged():
            return _round(outcome, voice)
        case o.NothingDue():
            return _nothing_due(outcome, voice)
        case o.PutOff():
            return _put_off(outcome, voice)
        case o.FindLogged():
            return _find(outcome, voice)
        case o.SignLogged():
            return (
                f"Written: {SIGNS[outcome.sign]} on {listed(outcome.plants)}, {near_day(outcome.on, voice.today)}. "
                f"A sign is no living pest yet: please look closely by {near_day(outcome.check_by, voice.today)}."
            )
        case o.CheckLogged():
            return _check(outcome, voice)
        case o.Undone(what=what):
            return f"Taken back: {history_text(what, voice.today, joint='; ')}."
        case o.NothingToUndo():
            return "There is nothing of yours left to take back."
        case o.CorrectedTo(plant=plant, pest=pest):
            if pest is not None:
                return f"Corrected: the case on {plant} is {pest}. The plan follows it from now on."
            return f"Corrected: that was {plant}."
        case o.IsolatedThem(plants=plants, rooms=rooms):
            if rooms:
                return (
                    f"Written: {listed(plants)} stays where it is, so {listed(rooms)} is the isolation room. "
                    "Everything in it is on watch; carry nothing out of it unchecked."
                )
            return f"Written: {listed(plants)} kept apart."
        case o.Moved():
            rest = f" Still isolated: {listed(outcome.still_isolated)}." if outcome.still_isolated else ""
            return f"Written: {listed(outcome.plants)} at {outcome.place}.{rest}"
        case o.ReleasedThem():
            return _released(outcome)
        case o.NotYet(plant=plant, progress=states):
            return f"{plant} is not there yet. {_release_words(states, voice)}"
        case o.Lost(plants=plants):
            return (
                f"Written: {listed(plants)} gone. Old mix and leaves go into a closed bag, not on the compost. "
                "Its neighbours stay on watch."
            )
        case o.Stocked():
            return _stocked(outcome)
        case o.BadGap(days=days):
            return f"A label gap of {days} days cannot be right (1 to 365). What does the label say?"
        case o.TemperatureNoted(place=place, celsius=celsius):
            return f"Written: {place} is at {celsius:g} °C. I count with it until you tell me another."
        case o.BadTemperature(celsius=celsius):
            return (
                f"{celsius:g} °C is outside what plants at home live through (-10 to 45). Nothing is written."
            )
        case o.RoutineSaved(next_on=next_on):
            return (
                f"Written. Next time: {near_day(next_on, voice.today)}."
                if next_on
                else "Written; it has no next day."
            )
        case o.Held(until=until):
            rest = f"until {day(until)}" if until else "until you write again that you are back (“back”)"
            return f"I stay quiet {rest}. Rounds keep counting meanwhile, so some will be late."
        case o.IsolatedList():
            return _isolated(outcome, voice)
        case o.DueList():
            return _due(outcome, voice)
        case o.Reasons(of=reasons):
            return reasons_text(reasons, voice.today)
        case o.ReleaseInfo():
            return _release_info(outcome, voice)
        case o.History(lines=lines):
            return history_text([(word, plant, on) for on, plant, word in lines[-40:]], voice.today) or (
                "Nothing is written for that time."
            )
        case o.PlantList(places=places):
            return "\n".join(f"{place or 'no place yet'}: {listed(names)}" for place, names in places)
        case o.Shelf(products=products):
            return _shelf(products)
        case o.Settings():
            return _settings(outcome)
        case o.Asks():
            return _asks(outcome)
        case o.NoPlants():
            return "I know no plants yet. Send them one a line, like “hoya, landing, 15 cm”."
        case o.Unclear():
            return _unclear(outcome)
        case o.NotBuiltYet(what=what):
            return f"I understood “{what}”, but I cannot do that yet. Nothing is written."
        case o.Exposed():
            return FIRST_AID
        case o.Helped():
            return HELP
        case o.Welcomed():
            return "You are welcome."
        case o.Stranger():
            return (
                "This bot keeps one home's plants and I do not know you. "
                "If it is yours, send /start with the founding code it printed when it started."
            )
        case o.ButtonExpired():
            return "That button is from an earlier message. Please say it in words."
        case o.NudgeText():
            return nudge_text(outcome, voice.zone)
        case _:
            assert_never(outcome)


def _welcome(lacks: tuple[str, ...]) -> str:
    if "town" in lacks:
        return (
            "Good to see you. Which town are the plants in? A town, a shared location or coordinates will do."
        )
    if "plants" in lacks:
        return "Good to see you. Send your plants one a line, like “hoya, landing, 15 cm”."
    return "Good to see you. “what's due”, “isolated?” and “help” are good first words."


def _town(told: o.TownSet) -> str:
    first = (
        "\nNow your plants, one a line, like “hoya, landing, 15 cm”. "
        "I write at 20:00 and keep quiet from 22:00 to 08:00; say “nudge me at 19:30” or “quiet 23-7” to change it."
    )
    return f"Written: {told.town}, {told.zone}. Your clock shows {clock(told.local)}.{first if told.is_first else ''}"


def _place(told: o.PlacesSaved) -> str:
    place = told.place
    parts = []
    if place.outdoors is not None:
        parts.append(OUTDOORS[place.outdoors])
    elif place.facing is not None:
        parts.append(FACINGS[place.facing])
    if place.lamp_until is not None:
        parts.append(f"grow light until {clock(place.lamp_until)}")
    detail = f" ({', '.join(parts)})" if parts else ""
    return f"Written: {place.name}{detail}.{_ask_facing(told.asks_facing_of)}"


def _ask_facing(place: str | None) -> str:
    if place is None:
        return ""
    return (
        f"\nWhich way does the window at {place} look? If it is outdoors, say for instance "
        f"“{place} is outdoors, afternoon sun”."
    )


def _plants_added(told: o.PlantsAdded) -> str:
    by_place: dict[str | None, list[str]] = {}
    for name, place in told.plants:
        by_place.setdefault(place, []).append(name)
    lines = [f"{place}: {listed(names)}" if place else listed(names) for place, names in by_place.items()]
    text = f"Written, {counted(len(told.plants), 'plant')}:\n" + "\n".join(lines) if lines else "Nothing new."
    if told.known_already:
        text += (
            f"\nI already have {listed(told.known_already)}. If that is another one, give it a name of its own, "
            "like “small hoya”."
        )
    return text + _ask_facing(told.asks_facing_of)


def _round(told: o.RoundLogged, voice: Voice) -> str:
    lines = [_done_line(told, voice)]
    lines += [
        f"{one.plant}: only {counted(one.days, 'day')} after the last {one.product}, the label says "
        f"{one.label_days}. It is written; the label is the law where you live, so wait longer next time."
        for one in told.warnings
    ]
    lines += [_late_line(one.name, one.late) for one in told.done if one.late is not None]
    if told.still_open:
        lines.append(f"Still open tonight: {listed(told.still_open)}.")
    if told.mornings:
        lines.append(f"Tomorrow morning: {listed(told.mornings)}.")
    lines += _next_lines(told, voice)
    if told.checks_open:
        lines.append(
            f"What did you see on {listed(told.checks_open)}? “all clean”, or “{told.checks_open[0]} 3”."
        )
    return "\n".join(line for line in lines if line)


def _done_line(told: o.RoundLogged, voice: Voice) -> str:
    groups: dict[tuple[Method, str | None], list[str]] = {}
    for one in told.done:
        groups.setdefault((one.method, one.product), []).append(one.name)
    parts = [
        f"{listed(names)} {DONE[method]}{f' ({product})' if product else ''}"
        for (method, product), names in groups.items()
    ]
    again = [one.name for one in told.done if one.is_repeat]
    note = f" {listed(again)} already stood there: one round, not two." if again else ""
    return f"Written for {near_day(told.on, voice.today)}: {'; '.join(parts)}.{note}"


def _late_line(name: str, step: Step) -> str:
    if step.last_on is None or step.lateness is Lateness.ON_TIME:
        return ""
    if step.lateness is Lateness.MISSED:
        return f"{name}: this round came after the {day(step.closes_on)}, so young ones may have grown up; count on one round more."
    return (
        f"{name}: a little later than planned ({day(step.closes_on)}); little harm, what follows moves along."
    )


def _next_lines(told: o.RoundLogged, voice: Voice) -> list[str]:
    lines = []
    for one in told.done:
        if one.progress:
            state = one.progress[0]
            lines.append(f"{one.name}: {rounds_words(state)}{_then(one.next, voice)}.")
    return lines


def _then(step: Step | None, voice: Voice) -> str:
    if step is None:
        return "; no more rounds needed, checks go on"
    if step.opens_on == step.closes_on:
        return f"; next {near_day(step.aim_on, voice.today)}"
    return f"; next {near_day(step.aim_on, voice.today)}, by {day(step.closes_on)} at the latest"


def _nothing_due(told: o.NothingDue, voice: Voice) -> str:
    lines = ["No treatment is open right now, so I wrote nothing."]
    if told.mornings:
        lines.append(f"Tomorrow morning: {listed(told.mornings)}.")
    if told.checks_open:
        lines.append(
            f"What did you see on {listed(told.checks_open)}? “all clean”, or “{told.checks_open[0]} 3”."
        )
    if len(lines) == 1 and told.next_on is not None:
        lines.append(f"Next: {near_day(told.next_on, voice.today)}.")
    return "\n".join(lines)


def _put_off(told: o.PutOff, voice: Voice) -> str:
    when = (
        f"at {clock_in(told.at, voice.zone)} tonight"
        if told.at is not None
        else near_day(told.on, voice.today)
    )
    lines = [f"Put off: {listed(told.plants)}, {when}."]
    for name, step in told.costs:
        if step.lateness is Lateness.MISSED:
            lines.append(
                f"{name} would be past {day(step.closes_on)} by then: count on about one round more."
            )
        elif step.last_on is not None:
            lines.append(f"{name} runs past {day(step.closes_on)} by then; little harm if it stays at that.")
    return "\n".join(lines)


def _find(told: o.FindLogged, voice: Voice) -> str:
    many = str(told.count) if told.count is not None else GRADES[told.grade]
    where = f" in the {told.where}" if told.where else ""
    lines = [f"Written for {near_day(told.on, voice.today)}: {told.pest} on {told.plant}{where}, {many}."]
    if told.is_reopened:
        lines.append(f"That reopens the case on {told.plant}.")
    elif told.is_new_case:
        lines.append("A case is open.")
    else:
        lines.append("The days without a find start again.")
    if not told.is_isolated:
        lines.append(
            f"Keep {told.plant} apart now. If it cannot be moved, {told.place or 'its place'} is the isolation room."
        )
    if told.neighbours:
        lines.append(f"On watch beside it: {listed(told.neighbours)}.")
    lines.append(_find_plan(told, voice))
    earliest = told.progress.release.earliest_on
    if earliest is not None:
        lines.append(f"Back at the earliest {day(earliest)}, if every check from now on finds none.")
    return "\n".join(line for line in lines if line)


def _find_plan(told: o.FindLogged, voice: Voice) -> str:
    step = told.step
    if step is None:
        return ""
    what = step.method.value if step.method is not Method.CLEAN_OUT else "a full clean-out"
    with_what = f" with {told.product}" if told.product else ""
    on = max(told.tonight or step.aim_on, voice.today)
    lines = [f"Plan: {what}{with_what}, first {near_day(on, voice.today)}; {rounds_words(told.progress)}."]
    if step.last_on is not None:
        lines = [f"Plan: {what}{with_what}, next {near_day(on, voice.today)}; {rounds_words(told.progress)}."]
    if step.because is Because.NO_PRODUCT:
        lines.append(
            "Nothing on your shelf fits: until then rinse by hand. Look for insecticidal soap or horticultural oil "
            "labelled for houseplants indoors."
        )
    if told.grade is Grade.MANY:
        lines.append("That bad, extension services advise discarding a plant that is cheap to replace.")
    return "\n".join(lines)


def _check(told: o.CheckLogged, voice: Voice) -> str:
    lines = [
        f"Written for {near_day(told.on, voice.today)}: none seen on {listed(told.plants)} ({LEVELS[told.level]})."
    ]
    for name, state in told.cases:
        if name not in told.ready:
            lines.append(f"{name}: {condition_words(state, voice.today)}")
    lines += [
        f"{name} may leave isolation by the rule. Say “put {name} back” when you do." for name in told.ready
    ]
    return "\n".join(lines)


def _released(told: o.ReleasedThem) -> str:
    lines = []
    for name, by_rule, until in told.plants:
        how = "by the rule" if by_rule else "against the rule, on your word"
        watch = f" On watch until {day(until)}: keep the weekly look." if until else ""
        lines.append(f"Written: {name} left isolation, {how}.{watch}")
    if told.not_isolated:
        lines.append(f"{listed(told.not_isolated)} was not isolated.")
    return "\n".join(lines)


def _release_words(states: tuple[Progress, ...], voice: Voice) -> str:
    return " ".join(condition_words(state, voice.today) for state in states)


def _stocked(told: o.Stocked) -> str:
    product = told.product
    form = {Form.READY: ", ready to use", Form.CONCENTRATE: ", concentrate", None: ""}[product.form]
    assumed = " (assumed, tell me what your label says)" if "gap_days" in product.assumed else ""
    stock = f", {product.stock_ml:g} mL" if product.stock_ml is not None else ""
    return (
        f"On the shelf: {told.name}{form}{stock}, every {counted(told.gap_days, 'day')} at the soonest{assumed}.\n"
        f"{told.caution}"
    )


def _isolated(told: o.IsolatedList, voice: Voice) -> str:
    if not told.plants:
        text = "No plant is isolated."
    else:
        lines = [f"Isolated, {counted(len(told.plants), 'plant')}:"]
        for plant, place, states in told.plants:
            since = f" since {day(plant.isolated_on)}" if plant.isolated_on else ", still to be set apart"
            what = ", ".join([*(state.pest.name for state in states), *([place] if place else [])])
            earliest = max(
                (state.release.earliest_on for state in states if state.release.earliest_on), default=None
            )
            back = f"; back {near_day(earliest, voice.today)} at the earliest" if earliest else ""
            lines.append(f"{plant.name} ({what}){since}{back}")
        text = "\n".join(lines)
    if told.watched:
        names = [
            f"{name} ({'until ' + day(watch.until) if watch.until else 'because of ' + cause})"
            for name, watch, cause in told.watched
        ]
        text += f"\nOn watch: {listed(names)}."
    return text


def _due(told: o.DueList, voice: Voice) -> str:
    shown = [
        (on, lines) for on, lines in told.evenings if not told.is_week or on <= told.today + timedelta(days=7)
    ]
    if not shown:
        return "Nothing is due" + (" this week." if told.is_week else ".")
    return "\n".join(f"{near_day(on, voice.today)}: {_due_words(lines)}" for on, lines in shown)


def _due_words(lines: tuple[o.DueLine, ...]) -> str:
    groups: dict[str, list[str]] = {}
    for line in lines:
        word = line.task.method.value if line.task.method is not None else "check"
        groups.setdefault(word, []).append(line.name)
    return "; ".join(f"{word} {listed(names)}" for word, names in groups.items())


def _release_info(told: o.ReleaseInfo, voice: Voice) -> str:
    lines = []
    for name, states, isolated_on in told.of:
        if states:
            lines.append(f"{name}: {_release_words(states, voice)}")
        else:
            since = f" since {day(isolated_on)}" if isolated_on else ""
            lines.append(f"{name} is apart{since} without an open case: it may go back when you like.")
    if told.free:
        lines.append(f"{listed(told.free)}: not isolated.")
    return "\n".join(lines) or "No plant is isolated."


def _shelf(products: tuple[tuple[object, str, int], ...]) -> str:
    if not products:
        return "The shelf is empty. Say for instance “got soap, ready to use, every 7 days”."
    return "On the shelf:\n" + "\n".join(f"{name}, every {counted(gap, 'day')}" for _, name, gap in products)


def _settings(told: o.Settings) -> str:
    where = f"{told.town}, {told.zone}" if told.zone else "no town yet"
    return (
        f"Town: {where}\nEvening: {clock(told.evening)}\nQuiet: {clock(told.quiet_from)} to "
        f"{clock(told.quiet_until)}\n{counted(told.places, 'place')}, {counted(told.plants, 'plant')}\n"
        "Change them by saying so: “I live in Ghent”, “nudge me at 19:30”, “quiet 23-7”."
    )


def _asks(told: o.Asks) -> str:  # noqa: C901 - one arm a question
    names = listed(told.plants)
    match told.missing:
        case Missing.METHOD:
            return f"What did you do to {names}?"
        case Missing.WHICH_PLANT:
            return f"Which one{f' for “{told.text}”' if told.text else ''}?"
        case Missing.UNKNOWN_PLANT:
            return (
                f"I know no plant called “{told.text[:60]}”. Nothing is written. “plants” lists what I know."
            )
        case Missing.WHICH_PEST:
            return f"Which pest is it on {names}? Nothing is written yet."
        case Missing.NONE_SEEN:
            return "None seen, on which plants? Say for instance “hoya clean” or “all clean”."
        case Missing.LOST:
            return "Gone: the pest, or a plant? Say “hoya clean” or “the ivy died”."
        case Missing.LATER:
            return "Shall I move it to another evening? Say “tomorrow”, “saturday” or “in an hour”."
        case Missing.ADD:
            return "A new plant: what is it called and where does it stand? Like “fern, kitchen”."
        case Missing.WHICH_PLACE:
            return f"I know no place called “{told.text[:60]}”. Nothing is written."
        case Missing.WHEN:
            return "Which day? Nothing is written yet."
        case Missing.AMOUNT:
            return "How many? A number, or few, some, many."


def _unclear(told: o.Unclear) -> str:
    if told.reason in UNCLEAR_REASONS:
        return UNCLEAR_REASONS[told.reason]
    what = f"“{told.text[:80]}”" if told.text else "that"
    plants = f" Your plants: {listed(told.plants[:12])}." if told.plants else ""
    return f"I did not understand {what}, so nothing is written.{plants} “help” shows what I know."
