"""Found a household and tell it about town, hours, places and plants."""

from dataclasses import dataclass, replace
from datetime import time
from zoneinfo import ZoneInfo

from bot.actions.button_texts import ButtonText
from bot.actions.commands import (
    AddPlants,
    Choice,
    Decline,
    Incomplete,
    Isolate,
    Missing,
    NewPlant,
    SetCoordinates,
    SetHours,
    SetPlace,
    SetTown,
    SetUnits,
    SkipQuestion,
    Start,
)
from bot.actions.desk import Desk
from bot.actions.outcomes import (
    BadCoordinates,
    BadHours,
    HoursSet,
    NoPlaceAsked,
    NoSuchTown,
    PlacesSaved,
    PlantsAdded,
    QuestionSkipped,
    TownSet,
    UnitsSet,
    Welcome,
    WhichTown,
)
from bot.actions.situation import Expecting
from bot.catalogue.towns import Town, find_towns, towns_like, zone_at
from bot.domain.agenda import QUARANTINE_DAYS, SHORT_QUARANTINE_DAYS
from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import Draft, HouseholdSet, PlaceSet, PlantSet
from bot.domain.label import is_edible
from bot.domain.measure import Units
from bot.domain.window import Facing

DOMINANT = 10
"""A town this many times larger than its namesakes is taken without asking. Judgement."""

MOST_ARRIVALS = 3
"""More plants at once are a list told late, not arrivals. Judgement."""
NEAR = ("near ", "close to ", "by ", "outside ", "just outside ", "not far from ")

FACINGS = (
    (ButtonText.NORTH, Facing.N),
    (ButtonText.NORTH_EAST, Facing.NE),
    (ButtonText.EAST, Facing.E),
    (ButtonText.SOUTH_EAST, Facing.SE),
    (ButtonText.SOUTH, Facing.S),
    (ButtonText.SOUTH_WEST, Facing.SW),
    (ButtonText.WEST, Facing.W),
    (ButtonText.NORTH_WEST, Facing.NW),
    (ButtonText.NO_WINDOW, Facing.NONE),
    (ButtonText.DONT_KNOW, Facing.UNKNOWN),
)


@dataclass(frozen=True, slots=True)
class Hours:
    """An evening and a quiet span, checked together."""

    evening: time
    quiet_from: time
    quiet_until: time

    def is_quiet(self, at: time) -> bool:
        """Whether a clock time lies in the quiet span."""
        if self.quiet_from <= self.quiet_until:
            return self.quiet_from <= at < self.quiet_until
        return at >= self.quiet_from or at < self.quiet_until


def start(_: Start, desk: Desk) -> Welcome:
    """Greet a member; say what is still missing."""
    household = desk.household
    lacks = []
    if not household.is_zone_told:
        lacks.append("town")
        desk.store.ask(desk.member.household, desk.member.chat, Expecting.TOWN, (), desk.now)
    if not household.living:
        lacks.append("plants")
    return Welcome(tuple(lacks))


def set_town(command: SetTown, desk: Desk) -> TownSet | WhichTown | NoSuchTown | BadCoordinates:
    """Look the town up offline; ask where several of that name are of like size."""
    towns = find_towns(command.text) or _town_and_what_is_near(command.text)
    guesses = () if towns else towns_like(command.text)
    offered = guesses or towns
    is_sure = bool(towns) and (len(towns) == 1 or towns[0].population >= DOMINANT * towns[1].population)
    if is_sure:
        return set_coordinates(_coordinates(towns[0]), desk)
    choices = tuple(Choice(ButtonText.NAMED, (_coordinates(town),), _full_name(town)) for town in offered)
    desk.store.ask(desk.member.household, desk.member.chat, Expecting.TOWN, choices, desk.now)
    return WhichTown(command.text, offered, is_guess=bool(guesses)) if offered else NoSuchTown(command.text)


def _town_and_what_is_near(text: str) -> tuple[Town, ...]:
    """Find the town in "Leeds, near Roundhay": the part that is not only near."""
    first, *rest = (part.strip() for part in text.split(","))
    if rest and not all(part.lower().startswith(NEAR) for part in rest):
        return ()
    _, leads_to, last = first.rpartition(" in ")
    return find_towns(last if leads_to else first)


def _full_name(town: Town) -> str:
    return ", ".join(part for part in (town.name, town.region, town.country) if part)[:40]


def _coordinates(town: Town) -> SetCoordinates:
    return SetCoordinates(town.latitude, town.longitude, town.name, town.zone, town.country)


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
    facing = ask_facing(desk) if desk.household.living else None
    if not desk.household.living:
        desk.store.ask(desk.member.household, desk.member.chat, Expecting.PLANTS, (), desk.now)
    return TownSet(
        town=town,
        zone=zone,
        local=desk.now.astimezone(ZoneInfo(zone)),
        asks_plants=not desk.household.living,
        asks_facing_of=facing,
        has_new_units=has_new_units,
    )


def skip_question(_: SkipQuestion, desk: Desk) -> QuestionSkipped | PlacesSaved | NoPlaceAsked:
    """Put off what was asked; go on with the next thing that is missing."""
    question = desk.store.question(desk.member.household, desk.member.chat)
    skipped = question.expecting if question is not None else Expecting.NOTHING
    if skipped is Expecting.PLACE:
        return set_place(SetPlace(name="", facing=Facing.UNKNOWN), desk)
    desk.store.close_question(desk.member.household, desk.member.chat)
    asks_plants = skipped is Expecting.TOWN and not desk.household.living
    if asks_plants:
        desk.store.ask(desk.member.household, desk.member.chat, Expecting.PLANTS, (), desk.now)
    return QuestionSkipped(skipped, asks_plants=asks_plants)


def set_hours(command: SetHours, desk: Desk) -> HoursSet | BadHours:
    """Keep the evening time outside the quiet hours."""
    household = desk.household
    hours = Hours(
        command.evening or household.evening,
        command.quiet_from or household.quiet_from,
        command.quiet_until or household.quiet_until,
    )
    if hours.is_quiet(hours.evening):
        return BadHours(hours.evening, hours.quiet_from, hours.quiet_until)
    desk.write(
        [
            desk.draft(
                HouseholdSet(
                    evening=command.evening, quiet_from=command.quiet_from, quiet_until=command.quiet_until
                )
            )
        ]
    )
    desk.store.close_question(desk.member.household, desk.member.chat)
    return HoursSet(evening=hours.evening, quiet_from=hours.quiet_from, quiet_until=hours.quiet_until)


def set_units(command: SetUnits, desk: Desk) -> UnitsSet:
    """Keep the measures and the clock people here are used to."""
    units = None if command.units is None else command.units.value
    desk.write([desk.draft(HouseholdSet(units=units, clock_hours=command.clock_hours))])
    return UnitsSet(desk.household.units, desk.household.clock_hours)


def set_place(command: SetPlace, desk: Desk) -> PlacesSaved | NoPlaceAsked:
    """Add a place or tell more about one; then ask the next place's window, if one is still untold."""
    known = command.place_id or (_place_named(desk, command.name) if command.name else _place_asked(desk))
    if known is None and not command.name:
        return NoPlaceAsked()
    place = known or desk.store.new_place(desk.member.household)
    told = PlaceSet(
        place=place,
        name=None if known else command.name,
        facing=command.facing,
        outdoors=command.outdoors,
        lamp_from=command.lamp_from,
        lamp_until=command.lamp_until,
    )
    desk.write([desk.draft(told)])
    return PlacesSaved((desk.household.places[place],), ask_facing(desk))


def _place_named(desk: Desk, name: str) -> PlaceId | None:
    wanted = name.casefold().strip()
    return next(
        (place.id for place in desk.household.places.values() if place.name.casefold() == wanted), None
    )


def _place_asked(desk: Desk) -> PlaceId | None:
    """Give the place whose window was just asked about."""
    places = desk.household.places.values()
    return next((one.id for one in places if one.facing is None and one.outdoors is None), None)


def ask_facing(desk: Desk) -> str | None:
    """Ask the one question a place needs, for the first place that lacks the answer."""
    for place in desk.household.places.values():
        if place.facing is None and place.outdoors is None:
            choices = tuple(
                Choice(text, (SetPlace(name=place.name, place_id=place.id, facing=facing),))
                for text, facing in FACINGS
            )
            desk.store.ask(desk.member.household, desk.member.chat, Expecting.PLACE, choices, desk.now)
            return place.name
    desk.store.close_question(desk.member.household, desk.member.chat)
    return None


def add_plants(command: AddPlants, desk: Desk) -> PlantsAdded | Incomplete:
    """Write every line of a list; places named for the first time are made on the way."""
    town = _town_instead(command, desk)
    if town is not None:
        return town
    drafts: list[Draft] = []
    places = {place.name.casefold(): place.id for place in desk.household.places.values()}
    names = {plant.name.casefold() for plant in desk.household.living}
    new_places: list[str] = []
    added: list[tuple[str, str | None]] = []
    known: list[str] = []
    for line in command.plants:
        unplaced = _unplaced(desk, line)
        if unplaced is not None:
            place = _place_of(desk, line, places, new_places, drafts)
            drafts.append(desk.draft(PlantSet(place=place, pot_cm=line.pot_cm), plant=unplaced))
            added.append((line.name, line.place))
            continue
        if line.name.casefold() in names:
            known.append(line.name)
            continue
        names.add(line.name.casefold())
        place = _place_of(desk, line, places, new_places, drafts)
        plant = desk.store.new_plant(desk.member.household)
        drafts.append(desk.draft(PlantSet(name=line.name, place=place, pot_cm=line.pot_cm), plant=plant))
        added.append((line.name, line.place))
    desk.write(drafts)
    asks_town = not desk.household.is_zone_told
    if asks_town:
        desk.store.ask(desk.member.household, desk.member.chat, Expecting.TOWN, (), desk.now)
    facing = None if asks_town else _facing_of_new(new_places, desk)
    asks_quarantine = facing is None and not asks_town and _ask_quarantine(drafts, desk)
    return PlantsAdded(
        tuple(added),
        tuple(new_places),
        tuple(known),
        facing,
        command.unread,
        asks_town,
        asks_quarantine,
        _edible(added, desk),
    )


def _unplaced(desk: Desk, line: NewPlant) -> PlantId | None:
    """Give the plant of that name that stands nowhere yet: a line with its place says where."""
    wanted = line.name.casefold()
    found = (one.id for one in desk.household.living if one.name.casefold() == wanted and one.place is None)
    return next(found, None) if line.place else None


def _town_instead(command: AddPlants, desk: Desk) -> Incomplete | None:
    """Ask where a lone name is a town's and no plant's: "Ghent", told again to set the town right."""
    line = command.plants[0] if len(command.plants) == 1 and not command.is_sure else None
    if line is None or line.place is not None or line.pot_cm is not None:
        return None
    if desk.knowledge.kind_named(line.name) is not None or not find_towns(line.name):
        return None
    choices = (
        Choice(ButtonText.MY_TOWN_IS, (SetTown(line.name),), line.name),
        Choice(ButtonText.PLANT_CALLED, (replace(command, is_sure=True),), line.name),
    )
    return Incomplete(missing=Missing.TOWN_OR_PLANT, text=line.name, choices=choices)


def _ask_quarantine(drafts: list[Draft], desk: Desk) -> bool:
    """Offer to keep new arrivals apart, once the home has older plants to lose."""
    new = tuple(
        draft.plant
        for draft in drafts
        if draft.plant is not None and isinstance(draft.payload, PlantSet) and draft.payload.name is not None
    )
    older = [plant for plant in desk.household.living if plant.added_on and plant.added_on < desk.today]
    if not new or not older or len(new) > MOST_ARRIVALS:
        return False
    choices = (
        Choice(ButtonText.SIX_WEEKS_APART, (Isolate(new, quarantine_days=QUARANTINE_DAYS),)),
        Choice(ButtonText.THREE_WEEKS_APART, (Isolate(new, quarantine_days=SHORT_QUARANTINE_DAYS),)),
        Choice(ButtonText.NOT_NEW, (Decline(),)),
    )
    desk.store.ask(desk.member.household, desk.member.chat, Expecting.CHOICE, choices, desk.now)
    return True


def _edible(added: list[tuple[str, str | None]], desk: Desk) -> tuple[str, ...]:
    names = {name for name, _ in added}
    plants = [plant for plant in desk.household.living if plant.name in names]
    return tuple(plant.name for plant in plants if is_edible(desk.knowledge, plant))


def _facing_of_new(new_places: list[str], desk: Desk) -> str | None:
    """Ask for a window where a place is new; who left the question open is not asked with each plant."""
    if new_places:
        return ask_facing(desk)
    question = desk.store.question(desk.member.household, desk.member.chat)
    if question is not None and question.expecting is Expecting.PLANTS:
        desk.store.close_question(desk.member.household, desk.member.chat)
    return None


def _place_of(
    desk: Desk, line: NewPlant, places: dict[str, PlaceId], new_places: list[str], drafts: list[Draft]
) -> PlaceId | None:
    if line.place is None:
        return None
    key = line.place.casefold()
    if key not in places:
        places[key] = desk.store.new_place(desk.member.household)
        new_places.append(line.place)
        drafts.append(desk.draft(PlaceSet(place=places[key], name=line.place)))
    return places[key]
