"""Keep apart, move, release and lose plants."""

from bot.actions.commands import Isolate, LosePlant, MovePlant, ReleasePlant
from bot.actions.desk import Desk
from bot.actions.outcomes import IsolatedThem, Lost, Moved, NotYet, ReleasedThem
from bot.domain.identity import PlantId
from bot.domain.journal import IsolatedNow, LostNow, PlantSet, ReleasedNow


def isolate(command: Isolate, desk: Desk) -> IsolatedThem:
    """Write that plants are kept apart, or that their place is the isolation room."""
    isolated = IsolatedNow(apart=command.apart, quarantine_days=command.quarantine_days)
    desk.write(desk.draft(isolated, plant=plant, on=command.on) for plant in command.plants)
    places = {desk.plant(plant).place for plant in command.plants} if not command.apart else set()
    rooms = tuple(desk.household.places[place].name for place in places if place is not None)
    until = desk.plant(command.plants[0]).quarantine_until if command.plants else None
    return IsolatedThem(desk.names(command.plants), rooms, until)


def move(command: MovePlant, desk: Desk) -> Moved:
    """Write another place; isolation goes on there."""
    drafts = [
        desk.draft(PlantSet(place=command.place), plant=plant, on=command.on) for plant in command.plants
    ]
    desk.write(drafts)
    isolated = [plant for plant in command.plants if desk.plant(plant).is_isolated]
    return Moved(desk.names(command.plants), desk.household.places[command.place].name, desk.names(isolated))


def release(command: ReleasePlant, desk: Desk) -> ReleasedThem | NotYet:
    """Let plants go by the rule, or against it when the person said so twice; never silently."""
    isolated = [plant for plant in command.plants if desk.plant(plant).is_isolated]
    rest = [plant for plant in command.plants if plant not in isolated]
    held = [plant for plant in isolated if not _qualifies(desk, plant)]
    is_offered = command.asked_on is None or (desk.today - command.asked_on).days <= 1
    if held and not (command.confirmed and is_offered):
        first = desk.plant(held[0])
        return NotYet(first.name, desk.agenda.progress.get(held[0], ()), first.quarantine_until)
    by_rule = {plant: plant not in held for plant in isolated}
    desk.write(
        desk.draft(ReleasedNow(by_rule=by_rule[plant]), plant=plant, on=command.on) for plant in isolated
    )
    watches = desk.agenda.watched
    return ReleasedThem(
        tuple(
            (desk.plant(plant).name, by_rule[plant], watches[plant].until if plant in watches else None)
            for plant in isolated
        ),
        desk.names(rest),
    )


def _qualifies(desk: Desk, plant: PlantId) -> bool:
    known = desk.plant(plant)
    return plant in desk.agenda.ready or (not known.open_cases and known.quarantine_until is None)


def lose(command: LosePlant, desk: Desk) -> Lost:
    """Write that plants are gone."""
    was_infested = any(desk.plant(plant).cases for plant in command.plants)
    desk.write(desk.draft(LostNow(), plant=plant, on=command.on) for plant in command.plants)
    watched = [plant for plant, why in desk.agenda.watched.items() if why.because_of in command.plants]
    return Lost(desk.names(command.plants), was_infested, desk.names(watched))
