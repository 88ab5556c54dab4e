"""Keep plants apart."""

from datetime import date

from bot.actions.action import Asking, ButtonText, Choice, Command, Outcome, performs
from bot.actions.desk import Desk
from bot.actions.stock_product import label_to_ask
from bot.domain.identity import PlantId
from bot.domain.journal import IsolatedNow


class Isolate(Command):
    """Put apart; apart False: it cannot be moved, its place becomes the isolation room."""

    plants: tuple[PlantId, ...]
    on: date | None = None
    apart: bool = True
    quarantine_days: int | None = None


class IsolatedThem(Outcome):
    """Kept apart from now on; rooms are places that become isolation rooms."""

    plants: tuple[str, ...]
    rooms: tuple[str, ...] = ()
    quarantine_until: date | None = None
    to_read: str | None = None


def ask_apart(plants: tuple[PlantId, ...]) -> Asking:
    """Ask once for all plants of a message whether they are apart."""
    choices = (
        Choice(
            ButtonText.APART_NOW if len(plants) == 1 else ButtonText.ALL_APART_NOW, (Isolate(plants=plants),)
        ),
        Choice(ButtonText.CANNOT_BE_MOVED, (Isolate(plants=plants, apart=False),)),
    )
    return Asking(choices)


@performs
def isolate(command: Isolate, desk: Desk) -> IsolatedThem:
    """Write that plants are kept apart, or that their place is the isolation room."""
    isolated = IsolatedNow(apart=command.apart, quarantine_days=command.quarantine_days)
    desk.write(desk.draft(isolated, plant=plant, on=command.on) for plant in command.plants)
    places = {desk.plant(plant).place for plant in command.plants} if not command.apart else set()
    rooms = tuple(desk.household.places[place].name for place in places if place is not None)
    until = desk.plant(command.plants[0]).quarantine_until if command.plants else None
    read, asking = label_to_ask(command.plants, desk) or (None, None)
    return IsolatedThem(desk.names(command.plants), rooms, until, read, asking=asking)
