"""Plants, one a line, many in one message."""

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.decline import Decline
from bot.actions.desk import Desk
from bot.actions.incomplete import Asks, Missing
from bot.actions.isolate import Isolate
from bot.actions.set_town import SetTown
from bot.actions.tell_poison import ANIMALS, Judged, judge
from bot.catalogue.towns import find_towns
from bot.domain.agenda import QUARANTINE_DAYS, SHORT_QUARANTINE_DAYS
from bot.domain.identity import PlaceId, PlantId
from bot.domain.journal import Draft, PlaceSet, PlantSet
from bot.domain.refusal import is_edible
from bot.domain.value import Value, replace


class NewPlant(Value, kw_only=True):
    """One line of a plant list, as typed."""

    name: str
    place: str | None = None
    pot_cm: float | None = None


class AddPlants(Command):
    """One plant a line, many in one message; unread lines are shown back."""

    plants: tuple[NewPlant, ...]
    unread: tuple[str, ...] = ()
    is_sure: bool = False
    """Whether it was asked that a lone name is no town's."""
    then: str = ""
    """What was told of one of them in the same message, to be read once they are there."""


class PlantsAdded(Outcome):
    """Plants with their places; places that were new and need a word about their window."""

    plants: tuple[tuple[str, str | None], ...]
    new_places: tuple[str, ...]
    known_already: tuple[str, ...]
    unread: tuple[str, ...] = ()
    asks_quarantine: bool = False
    edible: tuple[str, ...] = ()
    judged: tuple[Judged, ...] = ()
    """What is known of them for the cats and dogs that live here."""


MOST_ARRIVALS = 3
"""More plants at once are a list told late, not arrivals. Judgement."""


@performs
def add_plants(command: AddPlants, desk: Desk) -> PlantsAdded | Asks:
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
    quarantine = _ask_quarantine(drafts, desk) if desk.household.is_zone_told and not new_places else None
    return PlantsAdded(
        tuple(added),
        tuple(new_places),
        tuple(known),
        command.unread,
        quarantine is not None,
        _edible(added, desk),
        judge(
            [(name, desk.knowledge.kind_named(name)) for name, _ in added],
            [eater for animal, eater in ANIMALS.items() if animal in desk.household.animals],
        ),
        asking=quarantine,
    )


def _unplaced(desk: Desk, line: NewPlant) -> PlantId | None:
    """Give the plant of that name that stands nowhere yet: a line with its place says where."""
    wanted = line.name.casefold()
    found = (one.id for one in desk.household.living if one.name.casefold() == wanted and one.place is None)
    return next(found, None) if line.place else None


def _town_instead(command: AddPlants, desk: Desk) -> Asks | None:
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
    return Asks(Missing.TOWN_OR_PLANT, text=line.name, asking=Asking(choices))


def _ask_quarantine(drafts: list[Draft], desk: Desk) -> Asking | None:
    """Offer to keep new arrivals apart, once the home has older plants to lose."""
    new = tuple(
        draft.plant
        for draft in drafts
        if draft.plant is not None and isinstance(draft.payload, PlantSet) and draft.payload.name is not None
    )
    older = [plant for plant in desk.household.living if plant.added_on and plant.added_on < desk.today]
    if not new or not older or len(new) > MOST_ARRIVALS:
        return None
    choices = (
        Choice(ButtonText.SIX_WEEKS_APART, (Isolate(new, quarantine_days=QUARANTINE_DAYS),)),
        Choice(ButtonText.THREE_WEEKS_APART, (Isolate(new, quarantine_days=SHORT_QUARANTINE_DAYS),)),
        Choice(ButtonText.NOT_NEW, (Decline(),)),
    )
    return Asking(choices)


def _edible(added: list[tuple[str, str | None]], desk: Desk) -> tuple[str, ...]:
    names = {name for name, _ in added}
    plants = [plant for plant in desk.household.living if plant.name in names]
    return tuple(plant.name for plant in plants if is_edible(desk.knowledge, plant))


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
