"""Where the household is: a town looked up offline, or coordinates."""

from datetime import datetime
from zoneinfo import ZoneInfo

from bot.actions.action import Asking, ButtonText, Choice, Command, Expecting, Outcome, performs
from bot.actions.desk import Desk
from bot.catalogue.towns import Town, find_towns, folded, towns_like, zone_at
from bot.domain.journal import HouseholdSet
from bot.domain.measure import Units


class SetTown(Command):
    text: str


class SetCoordinates(Command):
    """A shared location or typed coordinates. [deg]."""

    latitude: float
    longitude: float
    town: str | None = None
    zone: str | None = None
    country: str | None = None


class TownSet(Outcome, kw_only=True):
    """The household's town and zone; local is its clock now."""

    town: str
    zone: str
    local: datetime
    has_new_units: bool = False
    """Whether US measures and a clock of twelve hours came with the town."""


class WhichTown(Outcome):
    """Several towns of that name; asked by buttons."""

    text: str
    towns: tuple[Town, ...]
    is_guess: bool = False
    """Whether none has exactly that name."""


class NoSuchTown(Outcome):
    text: str


class BadCoordinates(Outcome):
    """Coordinates outside the globe. [deg]."""

    latitude: float
    longitude: float


SHORTEST_NAME = 4
"""A shorter one may be an abbreviation: "nyc". [letters]"""
DOMINANT = 5
"""A town this many times larger than its namesakes is taken without asking. Judgement."""


NEAR = ("near ", "close to ", "by ", "outside ", "just outside ", "not far from ")


@performs
def set_town(command: SetTown, desk: Desk) -> TownSet | WhichTown | NoSuchTown | BadCoordinates:
    """Look the town up offline; ask where several of that name are of like size."""
    towns = find_towns(command.text) or _town_and_what_is_near(command.text)
    guesses = () if towns else towns_like(command.text)
    offered = guesses or towns
    if is_meant(towns):
        return set_coordinates(_coordinates(towns[0], _as_called(command.text, towns[0])), desk)
    choices = tuple(Choice(ButtonText.NAMED, (_coordinates(town),), _full_name(town)) for town in offered)
    asking = Asking(choices, Expecting.TOWN)
    if not offered:
        return NoSuchTown(command.text, asking=asking)
    return WhichTown(command.text, offered, is_guess=bool(guesses), asking=asking)


def is_meant(towns: tuple[Town, ...]) -> bool:
    """Whether the largest is so much larger than its namesakes; those once called so count for nothing."""
    if not towns:
        return False
    namesakes = [one for one in towns[1:] if one.name == towns[0].name] or towns[1:]
    return not namesakes or towns[0].population >= DOMINANT * namesakes[0].population


def _town_and_what_is_near(text: str) -> tuple[Town, ...]:
    """Find the town in "Leeds, near Roundhay": the part that is not only near."""
    first, *rest = (part.strip() for part in text.split(","))
    if rest and not all(part.lower().startswith(NEAR) for part in rest):
        return ()
    _, leads_to, last = first.rpartition(" in ")
    return find_towns(last if leads_to else first)


def _full_name(town: Town) -> str:
    return ", ".join(part for part in (town.name, town.region, town.country) if part)[:40]


def _as_called(text: str, town: Town) -> str:
    """Give the other name of a town that was typed for it: "Ghent"."""
    name = text.partition(",")[0].strip()
    is_another = len(name) >= SHORTEST_NAME and find_towns(name)[:1] == (town,)
    if (
        not is_another
        or folded(name).startswith(folded(town.name))
        or folded(town.name).endswith(folded(name))
    ):
        return town.name
    return name if name != name.lower() else name.title()


def _coordinates(town: Town, name: str = "") -> SetCoordinates:
    return SetCoordinates(town.latitude, town.longitude, name or town.name, town.zone, town.country)


@performs
def set_coordinates(command: SetCoordinates, desk: Desk) -> TownSet | BadCoordinates:
    """Keep coordinates to 0.1 degree; the zone follows."""
    latitude, longitude = round(command.latitude, 1), round(command.longitude, 1)
    try:
        zone = command.zone or zone_at(latitude, longitude)
    except ValueError:
        return BadCoordinates(command.latitude, command.longitude)
    town = command.town or f"{latitude}, {longitude}"
    has_new_units = command.country == "US" and not desk.household.are_units_told
    told = HouseholdSet(
        town=town,
        latitude=latitude,
        longitude=longitude,
        zone=zone,
        units=Units.US.value if has_new_units else None,
        clock_hours=12 if has_new_units else None,
    )
    desk.write([desk.draft(told)])
    return TownSet(
        town=town, zone=zone, local=desk.now.astimezone(ZoneInfo(zone)), has_new_units=has_new_units
    )
