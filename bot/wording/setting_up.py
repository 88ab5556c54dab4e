"""Answers about town, hours, places, plants and the shelf."""

from collections import Counter
from datetime import time
from decimal import Decimal

from bot.actions.action import Expecting, Outcome
from bot.actions.add_plants import PlantsAdded
from bot.actions.begin_talk import Welcome
from bot.actions.set_place import PlacesSaved
from bot.actions.set_town import TownSet
from bot.actions.set_units import UnitsSet
from bot.actions.set_up import Lacking, SetUpGoesOn
from bot.actions.show_places import PlacesTold
from bot.actions.show_settings import SettingsTold
from bot.actions.show_shelf import Shelf
from bot.actions.skip_question import QuestionSkipped
from bot.actions.stock_product import Stocked
from bot.domain.gathering import gathered
from bot.domain.household import Place
from bot.domain.measure import Units
from bot.domain.trade import Form
from bot.domain.value import replace
from bot.domain.window import BEARING_DEG, Facing, Outdoors
from bot.wording.days import counted, listed
from bot.wording.labels import ask_of_eating, label_facts
from bot.wording.lines import AFTER, SHORT, heights
from bot.wording.poison import warning
from bot.wording.saying import says, says_shortly
from bot.wording.voice import Voice

_COMPASS = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"]
FACINGS = {facing: f"looks {where}" for facing, where in zip(BEARING_DEG, _COMPASS, strict=True)} | {
    Facing.NONE: "no window",
    Facing.UNKNOWN: "window unknown: I treat it as sun all day",
}


OUTDOORS = {
    Outdoors.ALL_DAY: "outdoors, counted as sun all day",
    Outdoors.MORNING: "outdoors, morning sun",
    Outdoors.AFTERNOON: "outdoors, afternoon sun",
    Outdoors.SHADE: "outdoors, shade",
}


UNITS = {
    Units.METRIC: "metric measures and °C",
    Units.US: "US measures and °F",
    Units.IMPERIAL: "imperial measures and °C",
}
ASK_TOWN = "Which town are the plants in? A shared location will do too."
ASK_PLANTS = (
    "Which plants do you have, and where do they stand? Like “hoya and ivy in the kitchen”, or one a line."
)
MOST_NAMED = 6
SKIPPED = {
    Expecting.TOWN: "Put off. Without the town I do not know your evening and your sun, so I do not write by "
    "myself until you say “I live in Ghent”.",
    Expecting.PLANTS: "Put off. Send them when you like, one a line: “hoya, landing”.",
}


def welcome(lacks: tuple[str, ...]) -> str:
    """Greet a member; ask for what is still missing."""
    if "town" in lacks:
        return f"Good to see you. {ASK_TOWN}"
    if "plants" in lacks:
        return "Good to see you. Send your plants one a line, like “hoya, landing”."
    return "Good to see you. “what's due”, “what is apart?” and “help” are good first words."


def in_short(told: Outcome, voice: Voice) -> str:
    """Say in a few words what of a home was written, where much of it was told at once."""
    match told:
        case TownSet():
            return f"{told.town} ({voice.clock(told.local)} now)"
        case PlantsAdded() if not (told.unread or told.known_already or told.asks_quarantine):
            return "; ".join(_by_place(told))
        case PlacesSaved(lamps=()):
            return "; ".join(place_words(place, voice) for place in told.places)
        case Stocked() if not told.to_read and told.product.stock_ml != 0:
            return f"{told.name} on the shelf"
        case _:
            return ""


@says
def _question_skipped(told: QuestionSkipped) -> str:
    return SKIPPED.get(told.skipped, "All right.")


@says_shortly
def _place_saved(told: PlacesSaved, voice: Voice) -> str:
    written = f"Written: {'; '.join(place_words(place, voice) for place in told.places)}."
    if not told.lamps:
        return written
    till = voice.clock(time(20))
    return f"{written}\nUntil when is the lamp on there? “{told.lamps[0]} lamp until {till}”."


def place_words(place: Place, voice: Voice) -> str:
    """Name a place with what is known of its light."""
    parts = []
    if place.outdoors is not None:
        parts.append(OUTDOORS[place.outdoors])
    elif place.facing is not None:
        parts.append(FACINGS[place.facing])
    if place.lamp_until is not None:
        parts.append(f"grow light until {voice.clock(place.lamp_until)}")
    return f"{place.name} ({', '.join(parts)})" if parts else place.name


@says
def _places_told(told: PlacesTold, voice: Voice) -> str:
    if not told.places and not told.nowhere:
        return "I know no places yet. Tell me of one like “kitchen faces west”."
    lines = [
        f"{place_words(one.place, voice)}: {listed(one.plants) or 'nothing there'}" for one in told.places
    ]
    return "\n".join([*lines, *(f"{name}: no place yet" for name in told.nowhere)])


@says
def _set_up_goes_on(told: SetUpGoesOn, voice: Voice) -> str:
    """Ask what is missing next, or say that nothing is."""
    names, first = listed(told.names[:MOST_NAMED]), told.names[0] if told.names else ""
    match told.lacking:
        case Lacking.TOWN:
            return ASK_TOWN
        case Lacking.PLANTS:
            return ASK_PLANTS
        case Lacking.PLACES:
            return f"Where {'does' if len(told.names) == 1 else 'do'} {names} stand?"
        case Lacking.WINDOWS if len(told.names) > 1:
            return f"Which way do the windows look: {names}? First {first}; or all in one go, like “{first} north”."
        case Lacking.WINDOWS:
            return (
                f"Which way does the window at {first} look? Outdoors: “{first} is outdoors, afternoon sun”."
            )
        case Lacking.FIND:
            return f"That will do. I write at {voice.clock(told.evening)} when something is due. Have you seen anything on a plant?"
        case Lacking.SHELF:
            return "What do you have to treat with? Like “soap, ready to use”, or “nothing yet”."
        case Lacking.NOTHING:
            return f"That is all I need; more plants any time. I write at {voice.clock(told.evening)}. “settings” shows how to change it."


def _by_place(told: PlantsAdded) -> list[str]:
    by_place = gathered((place, name) for name, place in told.plants)
    return [f"{place}: {listed(names)}" if place else listed(names) for place, names in by_place.items()]


@says_shortly
def _plants_added(told: PlantsAdded) -> str:
    named = _by_place(told)
    head = f"Written, {counted(len(told.plants), 'plant')}:" if named else "Nothing new."
    there = Counter(place or "no place yet" for _, place in told.plants)
    rooms = f"{head} {listed(f'{many} at {place}' for place, many in there.items())}."
    if heights([head, *named]) <= SHORT:
        lines = [head, *named, AFTER]
    else:
        lines = [rooms if heights([rooms]) < SHORT else head, AFTER, *named]
    if told.edible:
        lines.append(f"Taken as eaten: {listed(told.edible)}. If not: “{told.edible[0]} is not edible”.")
    if known := told.known_already:
        lines.append(
            f"I have {listed(known)} already. Another one? “small {known[0]}”. Moved? “moved the {known[0]} to the kitchen”."
        )
    if poisonous := warning(told.judged):
        lines.append(poisonous.strip())
    lines.append(AFTER)
    if told.unread:
        quoted = listed(f"“{line[:40]}”" for line in told.unread[:2])
        lines.append(f"I could not read {quoted}: send it again like “fern, kitchen”.")
    if told.asks_quarantine:
        lines.append("New at home? Keep it apart: six weeks is safe, three at the least.")
    return "\n".join(lines)


@says_shortly
def _stocked(told: Stocked, voice: Voice) -> str:
    product = told.product
    if product.stock_ml == 0:
        return f"Written: no {told.name} left. The plan takes what else is on the shelf, or handwork."
    form = {Form.READY: ", ready to use", Form.CONCENTRATE: ", concentrate", None: ""}[product.label.form]
    assumed = " (assumed: what does your label say?)" if product.label.gap_days is None else ""
    stock = f", {voice.volume(Decimal(str(product.stock_ml)))}" if product.stock_ml is not None else ""
    facts = "".join(
        f", {fact}" for fact in label_facts(replace(product.label, form=None, gap_days=None), voice)
    )
    every = f", every {counted(told.gap_days, 'day')} at the soonest{assumed}" if told.gap_days else ""
    lines = [
        f"On the shelf: {told.name}{form}{stock}{every}{facts}.",
        AFTER,
        *(f"{one.rstrip('.')}." for one in told.caution.split(". ") if one),
        *told.minded,
        AFTER,
    ]
    return "\n".join([*lines, *([ask_of_eating(told.to_read)] if told.to_read else [])])


@says
def _shelf(told: Shelf, voice: Voice) -> str:
    if not told.products:
        return "The shelf is empty. Say for instance “got soap, ready to use, every 7 days”."
    lines = []
    for (product, name, gap), left in zip(told.products, told.left, strict=True):
        line = f"{name}, every {counted(gap, 'day')}"
        if product.stock_ml is not None and product.stock_ml == 0:
            line += ", none left"
        elif left is not None and product.stock_ml is not None and left < Decimal(str(product.stock_ml)):
            line += f", about {voice.volume(left.quantize(Decimal(1)))} left by what was sprayed since"
        elif product.stock_ml is not None:
            line += f", {voice.volume(Decimal(str(product.stock_ml)))}"
        lines.append(", ".join([line, *label_facts(replace(product.label, form=None, gap_days=None), voice)]))
    return "On the shelf:\n" + "\n".join(lines)


@says
def _units_set(_: UnitsSet, voice: Voice) -> str:
    return f"Written: {UNITS[voice.units]}, a clock of {voice.clock_hours} hours."


@says
def _settings(told: SettingsTold, voice: Voice) -> str:
    home = told.home
    where = f"{home.town}, {home.zone_name}" if home.is_zone_told else "no town yet"
    since, until = map(voice.clock, told.quiet)
    return (
        f"Town: {where}\nEvening: {voice.clock(home.evening)}\nQuiet: {since} to {until}\n"
        f"Measures: {UNITS[voice.units]}, {voice.clock_hours} hours\n{counted(len(home.places), 'place')}, {counted(len(home.living), 'plant')}\n"
        f"Change them: “I live in Ghent”, “nudge me at {voice.clock(time(19, 30))}”, “quiet 23-7”, “us units”, “12 hour clock”."
    )


@says
def _welcome(told: Welcome) -> str:
    return welcome(told.lacks)
