"""Keep apart, move, release and lose plants."""

from bot.actions.button_texts import ButtonText
from bot.actions.commands import Choice, Isolate, LosePlant, MovePlant, ReleasePlant
from bot.actions.desk import Desk
from bot.actions.outcomes import IsolatedThem, Lost, Moved, NotYet, ReleasedThem
from bot.actions.situation import Expecting
from bot.domain.identity import PlantId
from bot.domain.journal import IsolatedNow, LostNow, PlantSet, ReleasedNow


def ask_apart(plants: tuple[PlantId, ...], desk: Desk) -> None:
    """Ask once for all plants of a message whether they are apart."""
    choices = (
        Choice(
            ButtonText.APART_NOW if len(plants) == 1 else ButtonText.ALL_APART_NOW, (Isolate(plants=plants),)
        ),
        Choice(ButtonText.CANNOT_BE_MOVED, (Isolate(plants=plants, apart=False),)),
    )
    desk.store.ask(desk.member.household, desk.member.chat, Expecting.CHOICE, choices, desk.now)


def isolate(command: Isolate, desk: Desk) -> IsolatedThem:
    """Write that plants are kept apart, or that their place is the isolation room."""
    isolated = IsolatedNow(apart=command.apart, quarantine_days=command.quarantine_days)
    desk.write(desk.draft(isolated, plant=plant, on=command.on) for plant in command.plants)
    places = {desk.plant(plant).place for plant in command.plants} if not command.apart else set()
    rooms = tuple(desk.household.places[place].name for place in places if place is not None)
    until = desk.plant(command.plants[0]).quarantine_until if command.plants else None
    return IsolatedThem(desk.names(command.plants), rooms, until)


def move(command: MovePlant, desk: Desk) -> Moved:
    """
    Write another place; isolation goes on there.

    Who has an open case and stands with no healthy plant there is apart now; beside healthy ones it is asked.
    """
    drafts = [
        desk.draft(PlantSet(place=command.place), plant=plant, on=command.on) for plant in command.plants
    ]
    kept = {plant for plant in command.plants if desk.plant(plant).isolated_on is not None}
    sick = [plant for plant in command.plants if desk.plant(plant).open_cases and plant not in kept]
    there = [
        one for one in desk.household.living if one.place == command.place and one.id not in command.plants
    ]
    healthy = [one.name for one in there if not one.open_cases]
    healthy += [desk.plant(plant).name for plant in command.plants if not desk.plant(plant).open_cases]
    if not healthy:
        is_alone = not there and len(command.plants) == 1
        drafts += [desk.draft(IsolatedNow(apart=is_alone), plant=plant, on=command.on) for plant in sick]
    desk.write(drafts)
    if healthy and sick:
        ask_apart(tuple(sick), desk)
    isolated = [plant for plant in command.plants if desk.plant(plant).isolated_on is not None]
    return Moved(
        desk.names(command.plants),
        desk.household.places[command.place].name,
        desk.names(isolated),
        desk.names(sick) if healthy else (),
        tuple(healthy) if sick else (),
    )


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
