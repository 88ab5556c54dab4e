"""Questions back, the agenda, and what was not understood."""

from collections.abc import Iterable
from datetime import timedelta

from bot.actions.incomplete import Asks, Missing
from bot.actions.keep_photo import MOST_OFFERED
from bot.actions.not_understood import Beyond, Unclear
from bot.actions.read_anew import StillUnclear, Subject
from bot.actions.show_due import DueLine, DueList
from bot.actions.show_more import MoreText
from bot.actions.show_plants import HowTheyAre, PlantList, Standing
from bot.domain.trade import Grade
from bot.wording.acts import asked, by_acts
from bot.wording.days import counted, in_runs, listed, lowered, near_day
from bot.wording.lines import AFTER
from bot.wording.looks import GRADES
from bot.wording.saying import says, says_at_length, says_shortly
from bot.wording.voice import MANY, Voice

LONGEST_QUOTE = 50
"""Characters of a message that are said back. Judgement."""
UNCLEAR_REASONS = {
    "too long": "That is longer than I can read at once (600 characters). Please say it in shorter messages.",
    "count": "I cannot make a find of that number. Say a count from 1 up to 100,000, or “few”, “some”, “many”.",
    "future": "That day is still to come, so I wrote nothing. Tell me once it is done.",
    "label": "Of a label I keep the rate, the days between, the uses a year, and whether it may be used on food or indoors. The rest is yours to mind; nothing is written.",
    "when": "I am not sure which day you mean, so nothing is written. Say “yesterday”, “on sunday” or “3 may”.",
    "shelf": "That product is not on your shelf. Say for instance “got neem, ready to use, every 7 days” first.",
    "both": "That says two things of the same plant at once, so nothing is written. Please say it one by one.",
    "plants": "I could not read that list. One plant a line, like “hoya, landing”. Nothing is written.",
    "which plant": "Which plant is that about? Nothing is written. Say it with the plant’s name, like “hoya 3”.",
    "away later": "From when until when? Nothing is written. Say it by date: “away from 8 may to 30 may”.",
    "temperature": "That is outside what plants at home live through (-10 °C to 45 °C). Nothing is written.",
    "rate": "That is no rate I can mix by. Say it like “5 ml per litre”, or in spoons to a gallon. Nothing is written.",
    "percent": "A share lies between 0 and 100 %. Nothing is written; what does the label say?",
    "no such day": "There is no such day in that year, so nothing is written. Which day do you mean?",
    "bleach": "Please don’t: bleach with an acid, alcohol, ammonia or peroxide gives off poisonous gas. One at a time, "
    "rinsed and aired between. Nothing is written. Did someone breathe it? Say so at once.",
    "flame": "Please don’t: oil or alcohol in the air catches fire from a flame, a heater or a hot lamp. Put them out, "
    "let them cool, air the room. The label decides. Nothing is written.",
    "wait": "Take your time; my question stays open.",
    "town": "I take no town from that, so nothing is written. Which town do you live near, or “skip”?",
    "past": "That day cannot be meant: it is over, or more than 400 days ago. Nothing is written.",
}


LONGEST_SAID_BACK = 170
"""As much as reads well in one sentence. Judgement. [1]"""


@says_shortly
def _due(told: DueList, voice: Voice) -> str:
    shown = [
        (on, lines) for on, lines in told.evenings if not told.is_week or on <= told.today + timedelta(days=7)
    ]
    free = [f"Nothing is due on {voice.plants(told.free)}."] if told.free else []
    if not shown:
        return free[0] if free else "Nothing is due" + (" this week." if told.is_week else ".")
    lines = free
    for on, of in shown:
        first, *more = due_words(of, voice)
        lines += [f"{near_day(on, voice.today)}: {first}", *more]
    return "\n".join(lines)


def due_words(lines: Iterable[DueLine], voice: Voice) -> list[str]:
    """Say what one evening brings, a work a line."""
    lines = list(lines)
    works = by_acts((line.name, (line.task.method, line.product)) for line in lines if line.task.method)
    looks = list(dict.fromkeys(line.name for line in lines if line.task.method is None))
    words = [asked(acts, voice.plants(names)) for acts, names in works.items()]
    return [*map(lowered, words), *([f"look at {voice.plants(looks)}."] if looks else [])]


_ASKED = {
    Missing.METHOD: "What did you do to {names}?",
    Missing.EXPORT: "Which file?",
    Missing.SEEN: "What did you see, and on which plant? Your own words will do: “white fluff on the hoya”.",
    Missing.AT_HAND: "What do you have to treat with? For instance “soap, ready to use” or “neem oil, concentrate”.",
    Missing.SHOWN: "Which plant is on the photo? Its name will do.",
    Missing.UNKNOWN_PLANT: "I know no plant called “{text:.60}”. Nothing is written. “plants” lists what I know.",
    Missing.WHICH_PEST: "Which pest is it on {names}? Not written yet.",
    Missing.NONE_SEEN: "None seen, on which plants? Say for instance “hoya clean” or “all clean”.",
    Missing.LOST: "Gone: the pest, or the plant? Say “{plant} clean” or “{plant} died”. Not written yet.",
    Missing.DELETE: "Shall {names} go off the list, as gone or added by mistake? Not written yet.",
    Missing.LATER: "Shall I move it to another evening? Say “tomorrow”, “saturday” or “in an hour”.",
    Missing.ADD: "A new plant: what is it called and where does it stand? Like “fern, kitchen”.",
    Missing.TOWN_OR_PLANT: "“{text:.60}”: your town, or a plant? Not written yet.",
    Missing.WHY_ASKED: "Of your words I made {text:.90}. I am not sure, so I ask first: [Yes] writes it; else say it in other words.",
    Missing.WRONG: "What is wrong in it? Tell me only that, I keep the rest. Or [Yes] writes it as it is.",
    Missing.FORWARDED: "You passed on: “{text:.90}”. Shall I write it as if you told me? Not written yet.",
    Missing.EDITED: "From that message more than a treatment or a look was written. Shall I write “{text:.60}” besides? Nothing is changed yet.",
    Missing.WHICH_PLACE: "I know no place called “{text:.40}” yet, so nothing is written. Tell me of it first, like “{text:.40} faces west”.",
    Missing.WHEN: "Which day? Not written yet.",
    Missing.WHICH_PRODUCT: "Which product?",
    Missing.FORM: "Is your {text} a concentrate, or ready to use?",
    Missing.AMOUNT: "How many{on}? A number, or few, some, many.",
}
"""What is asked, where nothing else decides; text is what it is about, plant the first of the names."""


@says_shortly
def _asks(told: Asks, voice: Voice) -> str:  # noqa: C901 - one arm a question
    names = voice.plants(told.plants)
    match told.missing:
        case Missing.WHICH_PLANT:
            cut = " Not all fit here: any other name can be typed." if _is_cut(told) else ""
            return f"Which one{f' for “{told.text}”' if told.text else ''}?{cut}"
        case Missing.SEEN_WHERE:
            cut = " Not all fit here: any other name can be typed." if _is_cut(told) else " Its name will do."
            return f"“{told.text[:60]}”: on which plant?{cut} I write it then."
        case Missing.NONE_SEEN if told.asking is not None and len(told.asking.choices) == 1:
            each = "it" if len(told.plants) == 1 else "each"
            return f"None seen on {names}: did you look at {each}? Not written yet."
        case Missing.NONE_SEEN if told.plants:
            return f"What did you see on {names}? Not written yet."
        case Missing.ADD if told.asking and "," not in told.text:
            return f"“{told.text[:40]}”: a new plant? Not written yet; “{told.text[:40]}, kitchen” says where it stands too."
        case Missing.ADD if told.asking:
            first, *more = told.text.split("; ")
            behind = f" and {counted(len(more), 'plant')} more" if more else ""
            asked = "are they new, each at its place" if more else "is that a new plant and its place"
            return f"“{first[:60]}”{behind}: {asked}? Not written yet."
        case Missing.OF_A_DAY:
            meant = told.asking.choices[0].commands if told.asking else ()
            days = [on for one in meant if (on := getattr(one, "on", None)) is not None]
            of = f", {near_day(days[0], voice.today)}" if days else ""
            return f"“{told.text[:90]}”{of}: shall I write it? Not written yet."
        case Missing.MEANT:
            return _said_back(told.text)
        case Missing.PERCENT_OF:
            return _percent_of(told.text)
        case Missing.AMOUNT if told.text == "volume":
            return f"How much spray? Say for instance “mix {voice.batch}”."
        case Missing.AMOUNT if told.text in {"gallon", "quart", "pint", "cup", "ounce"}:
            return f"A US or an imperial {told.text}?"
        case _:
            plant = told.plants[0] if told.plants else "hoya"
            on = f" on {names}" if names else ""
            return _ASKED[told.missing].format(names=names, text=told.text, plant=plant, on=on)


def _said_back(text: str) -> str:
    """Say what was made of a message, all of it: in a sentence, or a line each where it is long."""
    if len(text) <= LONGEST_SAID_BACK:
        return f"Did you mean {text}? Not written yet."
    lines = text.replace("; ", "\n")
    return f"Did you mean\n{lines}?\nNot written yet.{AFTER}"


def _is_cut(told: Asks) -> bool:
    """Whether as many names are offered as fit: there may be more."""
    return told.asking is not None and len(told.asking.choices) >= MOST_OFFERED


def _percent_of(text: str) -> str:
    percent, _, strength = text.partition("|")
    holds = f" The bottle holds {strength} % of it, by its label or as usual." if strength else ""
    return f"{percent} % of what: the bottle's content, or the active ingredient?{holds}"


@says_shortly
def _unclear(told: Unclear) -> str:
    if told.reason in UNCLEAR_REASONS:
        return UNCLEAR_REASONS[told.reason]
    is_long = len(told.text) > LONGEST_QUOTE
    quoted = f"{told.text[: LONGEST_QUOTE - 1].rstrip()}…" if is_long else told.text
    what = f"“{quoted}”" if told.text else "that"
    examples = (
        f"“{told.plants[0]} 3”, “{told.plants[0]} clean” or “what's due”"
        if told.plants
        else "“fern, kitchen”"
    )
    if told.reason == "not that":
        return f"Not that, then: nothing is written. What is {what} about?"
    if told.offers:
        return f"I did not understand {what}, so nothing is written. What is it about?"
    return f"I did not understand {what}, so nothing is written. Try {examples}; “help” shows more."


_SAY_IT = {
    Subject.DONE: ("What did you do, and to which plant?", "wiped the {}"),
    Subject.SEEN: ("What did you see, how many, and on which plant?", "3 mealybugs on the {}"),
    Subject.LATER: ("Which plant has to wait, and until when?", "the {} tomorrow"),
    Subject.MOVED: ("Which plant, and where does it stand now?", "the {} is apart now"),
    Subject.SHELF: ("What do you have, and what does its label say?", "got soap, ready to use, every 7 days"),
    Subject.QUESTION: ("What would you like to know?", "why the {}"),
    Subject.HOME: ("Which plant, place or hour is it about?", "fern, kitchen"),
}


@says
def _still_unclear(told: StillUnclear) -> str:
    question, example = _SAY_IT[told.subject]
    return f"{question} For example “{example.format(told.plants[0] if told.plants else 'fern')}”."


@says
def _beyond(told: Beyond) -> str:
    if not told.plants and told.pest is None:
        return "That is beyond me: I know plants with pests, what is done about them, and when."
    lines = ["That is beyond me. What I know:"]
    for name, place, pests in told.plants:
        what = f"{name}{f', at {place}' if place else ''}: {listed(pests) if pests else 'no pest told'}."
        lines.append(what)
    if told.pest is not None:
        lines.append(f"{told.pest}: where it sits, and what is done about it.")
    return "\n".join(lines)


@says_at_length
def _plant_list(told: PlantList) -> str:
    if told.pest is not None and not told.places:
        return f"By my notes no plant has {told.pest}."
    if told.is_ill is not None and not told.places:
        return f"By my notes {'no' if told.is_ill else 'every'} plant has a pest."
    count = sum(len(names) for _, names in told.places)
    is_of_all = told.pest is None and told.is_ill is None
    total = [f"{counted(count, 'plant')} in all."] if len(told.places) > 1 and is_of_all else []
    if told.is_ill is not None:
        total = [f"{counted(count, 'plant')}, by what you told me."]
    lines = (
        f"{place or 'no place yet'}{f', {len(names)}' if len(names) > MANY else ''}: {listed(in_runs(names))}"
        for place, names in told.places
    )
    return "\n".join([*lines, *total])


@says_at_length
def _how_they_are(told: HowTheyAre, voice: Voice) -> str:
    return "\n".join(_standing(one, voice) for one in told.plants)


def _standing(one: Standing, voice: Voice) -> str:
    clean = f"looked at and clean {near_day(one.clean_on, voice.today)}" if one.clean_on else ""
    seen = [
        f"{pest}, {GRADES[amount] if isinstance(amount, Grade) else amount} seen {near_day(on, voice.today)}"
        for pest, amount, on in one.pests
        if amount is not None
    ]
    is_since = not one.pests or (one.clean_on is not None and all(on <= one.clean_on for *_, on in one.pests))
    what = [*seen, *([clean] if clean and is_since else [])] or ["no look told yet"]
    return (
        f"{one.plant}{f', at {one.place}' if one.place else ''}: "
        f"{'' if one.pests else 'no pest told; '}{'; '.join(what)}."
    )


@says_at_length
def _more(told: MoreText) -> str:
    return told.text or "Also:"
