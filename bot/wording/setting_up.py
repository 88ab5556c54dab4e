"""Answers about town, hours, places, plants and the shelf."""

from bot.actions import outcomes as o
from bot.actions.situation import Expecting
from bot.domain.trade import Form
from bot.domain.window import Facing, Outdoors
from bot.wording.days import clock, counted, listed
from bot.wording.mixing import plain

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


ASK_TOWN = "Which town are the plants in? A town, a shared location or coordinates will do."
ASK_PLANTS = "Now your plants, one a line, like “hoya, landing, 15 cm”."
SKIPPED = {
    Expecting.TOWN: "Put off. Without the town I do not know your evening and your sun, so I do not write by "
    "myself until you say “I live in Ghent”.",
    Expecting.PLANTS: "Put off. Send them when you like, one a line: “hoya, landing, 15 cm”.",
}


def welcome(lacks: tuple[str, ...]) -> str:
    """Greet a member; ask for what is still missing."""
    if "town" in lacks:
        return f"Good to see you. {ASK_TOWN}"
    if "plants" in lacks:
        return "Good to see you. Send your plants one a line, like “hoya, landing, 15 cm”."
    return "Good to see you. “what's due”, “isolated?” and “help” are good first words."


def town(told: o.TownSet) -> str:
    """Confirm the town by its clock."""
    text = f"Written: {told.town}, {told.zone}. Your clock shows {clock(told.local)}."
    if told.asks_plants:
        text += (
            f"\n{ASK_PLANTS} I write at 20:00 and keep quiet from 22:00 to 08:00; "
            "say “nudge me at 19:30” or “quiet 23-7” to change it."
        )
    return text + _ask_facing(told.asks_facing_of)


def question_skipped(told: o.QuestionSkipped) -> str:
    """Say what goes on without the answer, and how to give it later."""
    words = SKIPPED.get(told.skipped, "All right.")
    return f"{words}\n{ASK_PLANTS}" if told.asks_plants else words


def place_saved(told: o.PlacesSaved) -> str:
    """Confirm a place; ask the next one's window."""
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


def plants_added(told: o.PlantsAdded) -> str:
    """Confirm plants by place."""
    by_place: dict[str | None, list[str]] = {}
    for name, place in told.plants:
        by_place.setdefault(place, []).append(name)
    lines = [f"{place}: {listed(names)}" if place else listed(names) for place, names in by_place.items()]
    text = f"Written, {counted(len(told.plants), 'plant')}:\n" + "\n".join(lines) if lines else "Nothing new."
    if told.known_already:
        text += (
            f"\nI already have {listed(told.known_already)}. If that is another one, give it a name of its own, "
            f"like “small {told.known_already[0]}”; if it moved, say “moved the {told.known_already[0]} to the kitchen”."
        )
    if told.edible:
        text += (
            f"\n{listed(told.edible)}: taken as eaten, so only what is labelled for that. "
            f"If not, say “{told.edible[0]} is not edible”."
        )
    if told.unread:
        quoted = listed(f"“{line[:40]}”" for line in told.unread[:5])
        text += f"\nI could not read {quoted}: send it again like “fern, kitchen, 12 cm”."
    if told.asks_town:
        text += f"\n{ASK_TOWN}"
    if told.asks_quarantine:
        text += "\nNew at home? Keep it apart from the others: six weeks is safe, three at the least."
    return text + _ask_facing(told.asks_facing_of)


def stocked(told: o.Stocked) -> str:
    """Confirm a product with its caution."""
    product = told.product
    if product.stock_ml == 0:
        return f"Written: no {told.name} left. The plan takes what else is on the shelf, or handwork."
    form = {Form.READY: ", ready to use", Form.CONCENTRATE: ", concentrate", None: ""}[product.form]
    assumed = " (assumed, tell me what your label says)" if "gap_days" in product.assumed else ""
    stock = f", {product.stock_ml:g} mL" if product.stock_ml is not None else ""
    if product.rate_ml_per_l is not None:
        stock += f", {plain(product.rate_ml_per_l)} mL per litre"
    if product.strength_percent is not None:
        stock += f", {plain(product.strength_percent)} %"
    return (
        f"On the shelf: {told.name}{form}{stock}, every {counted(told.gap_days, 'day')} at the soonest{assumed}.\n"
        f"{told.caution}"
    )


def shelf(products: tuple[tuple[object, str, int], ...]) -> str:
    """List the shelf."""
    if not products:
        return "The shelf is empty. Say for instance “got soap, ready to use, every 7 days”."
    return "On the shelf:\n" + "\n".join(f"{name}, every {counted(gap, 'day')}" for _, name, gap in products)


def settings(told: o.Settings) -> str:
    """List the preferences."""
    where = f"{told.town}, {told.zone}" if told.zone else "no town yet"
    return (
        f"Town: {where}\nEvening: {clock(told.evening)}\nQuiet: {clock(told.quiet_from)} to "
        f"{clock(told.quiet_until)}\n{counted(told.places, 'place')}, {counted(told.plants, 'plant')}\n"
        "Change them by saying so: “I live in Ghent”, “nudge me at 19:30”, “quiet 23-7”."
    )
